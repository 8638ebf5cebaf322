/** Gathers the licence texts of every package that is bundled, because the bundles carry none. */
import { existsSync, readdirSync, readFileSync } from "node:fs";

interface Package {
  readonly name: string;
  readonly version: string;
  readonly license?: string;
  readonly dependencies?: Readonly<Record<string, string>>;
}

/**
 * One text with the licence of each package these names need, themselves included, in alphabetical order. Throws when a package has no
 * licence text: such a one must not be shipped.
 */
export function noticesOf(root: string, names: readonly string[]): string {
  const found = new Map<string, string>();
  for (const name of names) gather(`${root}node_modules/`, name, found);
  const sections = [...found]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([title, text]) => `${title}\n\n${text.trim()}\n`);
  return `Isthmus contains these packages, each under its own licence.\n\n${sections.join(`\n${"-".repeat(80)}\n\n`)}`;
}

function gather(modules: string, name: string, found: Map<string, string>): void {
  const folder = `${modules}${name}/`;
  const described: Package = JSON.parse(readFileSync(`${folder}package.json`, "utf8"));
  const title = `${described.name} ${described.version} (${described.license ?? "see below"})`;
  if (found.has(title)) return;
  found.set(title, licenceText(folder));
  for (const dependency of Object.keys(described.dependencies ?? {})) {
    const own = `${folder}node_modules/`;
    gather(existsSync(`${own}${dependency}`) ? own : nearestModules(modules, dependency), dependency, found);
  }
}

/** The folder a nested package takes a dependency from when it has none of its own: the one it stands in, or one further out. */
function nearestModules(modules: string, name: string): string {
  if (existsSync(`${modules}${name}`)) return modules;
  const outer = modules.slice(0, modules.slice(0, -1).lastIndexOf("node_modules/") + "node_modules/".length);
  if (outer === modules || outer === "") throw new Error(`The package ${name} is not installed.`);
  return nearestModules(outer, name);
}

function licenceText(folder: string): string {
  const files = readdirSync(folder)
    .filter((file) => /^(licen[cs]e|notice)(\.|-|$)/i.test(file))
    .sort();
  if (files.length === 0) throw new Error(`No licence text in ${folder}`);
  return files.map((file) => readFileSync(`${folder}${file}`, "utf8")).join("\n");
}
