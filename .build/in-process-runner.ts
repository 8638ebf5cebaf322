/**
 * Runs tests against mutants in one process, as a plug-in of the tool that mutates. A runner that starts a test program anew for each of
 * tens of thousands of mutants takes days; here every mutant gets new instances of all modules that can tell it apart (the mutated
 * ones, whatever imports them, and the tests), made from scripts that are compiled once, so that nothing made for one mutant is seen by
 * the next. Modules that hang on nothing mutated stay. The tests are the project's own, unchanged; "vitest" stands for a few functions.
 */
import { globSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { basename, dirname, join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { Script } from "node:vm";
import type { InstrumenterContext, MutantCoverage } from "@stryker-mutator/api/core";
import { declareFactoryPlugin, PluginKind } from "@stryker-mutator/api/plugin";
import {
  type CompleteDryRunResult,
  type DryRunOptions,
  DryRunStatus,
  determineHitLimitReached,
  type MutantRunOptions,
  type MutantRunResult,
  MutantRunStatus,
  type TestResult,
  type TestRunner,
  TestStatus,
  toMutantRunResult,
} from "@stryker-mutator/api/test-runner";
import { transformSync } from "esbuild";
import { expect as jestExpect } from "expect";
import { casesFor, inOrder, isByRule, testsFor } from "../tests/mutants/chosen.ts";

type Exports = Record<string, unknown>;
type Import = (from: string) => unknown;
type Body = (exports: Exports, require: Import, module: { exports: unknown }, dirname: string, url: string) => void;

interface Compiled {
  readonly body: Body;
  readonly mutated: boolean;
  /** Absolute paths of the project's own modules that it imports. */
  readonly imports: readonly string[];
}

interface Case {
  readonly id: string;
  readonly file: string;
  readonly run: () => unknown;
}

const folder = process.env.ISTHMUS_MUTATED ?? "{quantity,reckoning,findings}";
process.env.ISTHMUS_MUTATED ??= folder;
process.env.ISTHMUS_RUNS ??= casesFor(folder);
/** Milliseconds of work; what a mutant's tests have not noticed by then counts as not noticed. */
const patience = Number(process.env.ISTHMUS_PATIENCE ?? Number.POSITIVE_INFINITY);
/** With less, the thorough tests are left out. */
const hurry = 5000;
const setUp: readonly string[] = ["tests/same-cases.ts", "tests/mutants/same-cases.ts"];

/** The namespace in which mutated code looks for the mutant that is on and counts what was reached. */
const mutation: { -readonly [Key in keyof InstrumenterContext]: InstrumenterContext[Key] | undefined } = {};
Object.assign(globalThis, { __stryker__: mutation });

/** The project's modules: each compiled once, each made as often as `forget` asks. */
class Modules {
  readonly #outside: NodeJS.Require;
  readonly #compiled = new Map<string, Compiled>();
  readonly #made = new Map<string, { exports: unknown }>();
  readonly #fresh = new Map<string, boolean>();
  readonly #standIn: Exports;

  constructor(root: string, standIn: Exports) {
    this.#outside = createRequire(join(root, "package.json"));
    this.#standIn = standIn;
  }

  load(path: string): unknown {
    const known = this.#made.get(path);
    if (known !== undefined) return known.exports;
    const module: { exports: unknown } = { exports: {} };
    this.#made.set(path, module);
    if (path.endsWith(".json")) module.exports = JSON.parse(readFileSync(path, "utf8"));
    else
      this.#compile(path).body(
        module.exports as Exports,
        (from) => this.#import(path, from),
        module,
        dirname(path),
        pathToFileURL(path).href,
      );
    return module.exports;
  }

  /** Which of these modules import the one at `path` themselves. */
  importersOf(path: string, among: readonly string[]): readonly string[] {
    return among.filter((each) => this.#compile(each).imports.includes(path));
  }

  /** Lets go of whatever a mutant or a test can have touched. */
  forget(): void {
    for (const path of this.#made.keys()) if (this.#isFresh(path)) this.#made.delete(path);
  }

  #import(path: string, from: string): unknown {
    if (from === "vitest") return this.#standIn;
    return from.startsWith(".") ? this.load(resolve(dirname(path), from)) : this.#outside(from);
  }

  /** Every test is, and whatever is mutated or imports, even from afar, what is. */
  #isFresh(path: string): boolean {
    const known = this.#fresh.get(path);
    if (known !== undefined) return known;
    this.#fresh.set(path, false);
    const { mutated, imports } = path.endsWith(".json") ? { mutated: false, imports: [] } : this.#compile(path);
    const fresh = mutated || path.endsWith(".test.ts") || imports.some((each) => this.#isFresh(each));
    this.#fresh.set(path, fresh);
    return fresh;
  }

  #compile(path: string): Compiled {
    const known = this.#compiled.get(path);
    if (known !== undefined) return known;
    const source = readFileSync(path, "utf8");
    const { code } = transformSync(source, {
      loader: "ts",
      format: "cjs",
      target: "node24",
      sourcefile: path,
      define: { "import.meta.dirname": "ownFolder", "import.meta.url": "ownAddress" },
    });
    const script = new Script(`(function (exports, require, module, ownFolder, ownAddress) {${code}\n})`, {
      filename: path,
    });
    const imports = [...code.matchAll(/\brequire\("(\.[^"]+)"\)/g)].map(([, from = ""]) =>
      resolve(dirname(path), from),
    );
    const made: Compiled = { body: script.runInThisContext(), mutated: source.includes("stryMutAct_9fa48"), imports };
    this.#compiled.set(path, made);
    return made;
  }
}

/** What the tests call of vitest, collecting cases in place of running them. */
class Collected {
  #cases = new Map<string, Case>();
  #file = "";
  #within: readonly string[] = [];

  /** The cases that loading a file puts down. */
  from(file: string, load: () => void): ReadonlyMap<string, Case> {
    const cases = new Map<string, Case>();
    this.#cases = cases;
    this.#file = file;
    this.#within = [];
    load();
    return cases;
  }

  get standIn(): Exports {
    const test = (name: string, ...rest: readonly unknown[]): void => {
      const body = functionIn(rest);
      this.#put(name, () => body());
    };
    const describe = (name: string, body: () => void): void => {
      const before = this.#within;
      this.#within = [...before, name];
      try {
        body();
      } finally {
        this.#within = before;
      }
    };
    return {
      test: Object.assign(test, {
        each:
          (rows: Iterable<unknown>) =>
          (name: string, ...rest: readonly unknown[]) => {
            for (const row of rows) test(named(name, row), () => functionIn(rest)(...argumentsOf(row)));
          },
      }),
      describe: Object.assign(describe, {
        each: (rows: Iterable<unknown>) => (name: string, body: (...given: readonly unknown[]) => void) => {
          for (const row of rows) describe(named(name, row), () => body(...argumentsOf(row)));
        },
      }),
      expect: Object.assign((value: unknown) => jestExpect(value), jestExpect),
    };
  }

  #put(name: string, run: () => unknown): void {
    const full = `${this.#file}: ${[...this.#within, name].join(" > ")}`;
    let id = full;
    for (let count = 2; this.#cases.has(id); count++) id = `${full} (${count})`;
    this.#cases.set(id, { id, file: this.#file, run });
  }
}

/** After a name may stand a function, options and a function, or a function and a time. */
function functionIn(words: readonly unknown[]): (...given: readonly unknown[]) => unknown {
  const body = words.find((word) => typeof word === "function");
  if (body === undefined) throw new Error("a test without a function");
  return body as (...given: readonly unknown[]) => unknown;
}

function argumentsOf(row: unknown): readonly unknown[] {
  return Array.isArray(row) ? row : [row];
}

/** `%s` and the like from a row that is a list, `$name` from one that is a record. */
function named(name: string, row: unknown): string {
  const given = [...argumentsOf(row)];
  return name
    .replace(/%[sdifjo]/g, () => String(given.shift()))
    .replace(/\$(\w+)/g, (whole, key: string) =>
      typeof row === "object" && row !== null && key in row ? String((row as Exports)[key]) : whole,
    );
}

class InProcess implements TestRunner {
  readonly #root = process.cwd();
  readonly #collected = new Collected();
  readonly #modules = new Modules(this.#root, this.#collected.standIn);
  readonly #cases = new Map<string, ReadonlyMap<string, Case>>();
  readonly #around = new Map<string, RegExp>();
  /** Of each mutated file: how many of its mutants a test has noticed so far. What noticed one notices the next, more often than not. */
  readonly #noticed = new Map<string, Map<string, number>>();
  readonly #files = inOrder(globSync([...testsFor(folder)], { cwd: this.#root }), patience < hurry);

  capabilities(): { readonly reloadEnvironment: boolean } {
    return { reloadEnvironment: true };
  }

  async dryRun(_options: DryRunOptions): Promise<CompleteDryRunResult> {
    const coverage: MutantCoverage = { static: {}, perTest: {} };
    mutation.mutantCoverage = coverage;
    this.#begin();
    const tests: TestResult[] = [];
    for (const file of this.#files) for (const each of this.#casesOf(file).values()) tests.push(await attempt(each));
    // A mutant is on while the modules are made, always; only what nothing but their making reaches must be run against all tests.
    for (const reached of Object.values(coverage.perTest))
      for (const id of Object.keys(reached)) delete coverage.static[id];
    return { status: DryRunStatus.Complete, tests, mutantCoverage: coverage };
  }

  async mutantRun(options: MutantRunOptions): Promise<MutantRunResult> {
    const { activeMutant, sandboxFileName, testFilter, hitLimit, disableBail } = options;
    delete mutation.mutantCoverage;
    mutation.activeMutant = activeMutant.id;
    mutation.hitCount = 0;
    mutation.hitLimit = hitLimit;
    try {
      const tests = await this.#until(testFilter, sandboxFileName, disableBail);
      const late = determineHitLimitReached(mutation.hitCount, hitLimit);
      return toMutantRunResult(late ?? { status: DryRunStatus.Complete, tests });
    } catch (thrown) {
      // A table of tests could not even be set up: the program that runs it would fail, too.
      return { status: MutantRunStatus.Killed, killedBy: [], failureMessage: String(thrown), nrOfTests: 1 };
    } finally {
      mutation.activeMutant = undefined;
    }
  }

  /** Of the mutated file and of those that import it, if they are few: whose tests notice most of its mutants. */
  #namesAround(file: string): RegExp {
    const known = this.#around.get(file);
    if (known !== undefined) return known;
    const beside = globSync(join(dirname(file), "*.ts"));
    const importers = this.#modules.importersOf(file, beside);
    const names = [file, ...(importers.length > 12 ? [] : importers)].map((each) => basename(each, ".ts"));
    const around = new RegExp(`(?<![\\w-])(?:${names.join("|")})(?![\\w-])`);
    this.#around.set(file, around);
    return around;
  }

  /** No further than the first that fails, and no longer than the patience lasts. */
  async #until(asked: readonly string[] | undefined, mutated: string, disableBail: boolean): Promise<TestResult[]> {
    const noticed = this.#noticed.get(mutated) ?? new Map<string, number>();
    this.#noticed.set(mutated, noticed);
    const end = worked() + patience;
    const done: TestResult[] = [];
    this.#begin();
    for (const each of this.#wanted(asked, this.#namesAround(mutated), noticed)) {
      if (done.length > 0 && worked() > end) break;
      const outcome = await attempt(each);
      done.push(outcome);
      if (outcome.status !== TestStatus.Failed) continue;
      noticed.set(each.id, (noticed.get(each.id) ?? 0) + 1);
      if (!disableBail) break;
    }
    return done;
  }

  /** Those that noticed most of this file's mutants first, then those that name it, loading no file before one of its tests is up. */
  *#wanted(asked: readonly string[] | undefined, own: RegExp, noticed: ReadonlyMap<string, number>): Generator<Case> {
    if (asked === undefined) {
      const best = [...noticed].toSorted(([, a], [, b]) => b - a).map(([id]) => id);
      for (const id of best) yield this.#case(id);
      const named = this.#files
        .filter((file) => own.test(file) || isByRule(file))
        .flatMap((file) => this.#listed(file, own))
        .filter(({ id }) => !noticed.has(id));
      yield* named;
      const before = new Set([...best, ...named.map(({ id }) => id)]);
      for (const file of this.#files)
        for (const each of this.#casesOf(file).values()) if (!before.has(each.id)) yield each;
      return;
    }
    const rank = (id: string): number =>
      -(noticed.get(id) ?? 0) || (own.test(id) ? 1 : 1 + this.#files.length) + this.#files.indexOf(fileOf(id));
    const ranked = asked.map((id) => ({ id, rank: rank(id) })).toSorted((a, b) => a.rank - b.rank);
    for (const { id } of ranked) yield this.#case(id);
  }

  #case(id: string): Case {
    const found = this.#casesOf(fileOf(id)).get(id);
    if (found === undefined) throw new Error(`${id} is not among the tests any more`);
    return found;
  }

  #listed(file: string, own: RegExp): readonly Case[] {
    return [...this.#casesOf(file).values()].filter(({ id }) => own.test(id));
  }

  #begin(): void {
    this.#modules.forget();
    this.#cases.clear();
    for (const file of setUp) this.#modules.load(join(this.#root, file));
  }

  #casesOf(file: string): ReadonlyMap<string, Case> {
    const known = this.#cases.get(file);
    if (known !== undefined) return known;
    const cases = this.#collected.from(file, () => this.#modules.load(join(this.#root, file)));
    this.#cases.set(file, cases);
    return cases;
  }
}

/** A test's id begins with its file. */
function fileOf(id: string): string {
  return id.slice(0, id.indexOf(": "));
}

/** Milliseconds that this process has worked, so that other programs on the machine take nothing from a mutant's tests. */
function worked(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

async function attempt({ id, file, run }: Case): Promise<TestResult> {
  const start = performance.now();
  mutation.currentTestId = id;
  let failed: string | undefined;
  try {
    await run();
  } catch (thrown) {
    failed = (thrown instanceof Error ? (thrown.stack ?? thrown.message) : String(thrown)).slice(0, 2000);
  }
  mutation.currentTestId = undefined;
  const result = { id, name: id, fileName: file, timeSpentMs: performance.now() - start };
  return failed === undefined
    ? { ...result, status: TestStatus.Success }
    : { ...result, status: TestStatus.Failed, failureMessage: failed };
}

export const strykerPlugins = [declareFactoryPlugin(PluginKind.TestRunner, "in-process", () => new InProcess())];
