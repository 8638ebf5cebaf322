/**
 * How the tests run against mutants: those of the mutated folder and the published figures, the quick ones first, with few random
 * cases, always the same ones, so that a mutant's fate does not hang on chance.
 */
import { defineConfig } from "vitest/config";
import { BaseSequencer, type TestSpecification } from "vitest/node";

const folder = process.env.ISTHMUS_MUTATED ?? "{quantity,reckoning,findings}";
/** What is published of quantities alone; the rest goes through reckonings. A finding is tried by the tests of findings alone. */
const published = { quantity: ["tests/published/{gum,normal,units}.test.ts"], findings: [] }[folder] ?? [
  "tests/published/*.test.ts",
];
// As many as the rarest thing that a law asks to have seen needs.
process.env.ISTHMUS_RUNS ??= folder === "quantity" ? "200" : "60";

/** Laws and second paths of hundreds of random plans: they find what the tables of single plans let through. */
const thorough = /(laws|second-path|two-paths|from-text|enclos|trust|withheld|chance|simulation)[\w-]*\.test\.ts$/;

/** They tell every number and every reason of some plans in words, and all that every rule says: most mutants are noticed by them. */
const telling = /(lines-left-out|findings\/told)\.test\.ts$/;

class QuickFirst extends BaseSequencer {
  override sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const late = ({ moduleId }: TestSpecification): number =>
      telling.test(moduleId) ? 0 : thorough.test(moduleId) ? 2 : 1;
    return Promise.resolve(files.toSorted((a, b) => late(a) - late(b) || (a.moduleId < b.moduleId ? -1 : 1)));
  }
}

export default defineConfig({
  test: {
    include: [`tests/${folder}/**/*.test.ts`, ...published],
    exclude: [
      // It draws hundreds of thousands of numbers to prove the simulation, which is no part of what is mutated.
      "tests/published/simulation.test.ts",
      // Each of them judges plans by every rule: what `told` lets through would be run against thousands of them for half a minute.
      ...(folder === "findings"
        ? ["tests/findings/{clinical/*,examples,laws,registry,bones,fixes,teaching}.test.ts"]
        : []),
    ],
    setupFiles: ["tests/same-cases.ts", "tests/mutants/same-cases.ts"],
    sequence: { sequencer: QuickFirst },
    // A mutant that is switched on while the files are loaded already needs no fresh worker for every test file.
    isolate: process.env.ISTHMUS_SWITCHED === undefined,
    testTimeout: 120_000,
  },
});
