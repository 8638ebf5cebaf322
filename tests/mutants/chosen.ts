/** Which tests are run against mutants of which folder, and in what order. Not a test itself. */

/**
 * Beside the folder's own. Of quantities alone few figures are published, the rest goes through reckonings; of findings the codes of
 * fractures, the kinds of identifiers and some limits are, and all that is said of a finding is on its page.
 */
const beside: Readonly<Record<string, readonly string[]>> = {
  quantity: ["tests/published/{gum,normal,units}.test.ts"],
  reckoning: ["tests/published/*.test.ts"],
  findings: [
    "tests/published/{ao-ota*,compartment-limit,entry,figures-not-used,holes,identifiers,reaming-limits,rotation,soft-tissue}.test.ts",
    "tests/answers/reference.test.ts",
  ],
};

/** Patterns of test files, for the folder of `server/` whose sources are mutated. */
export function testsFor(folder: string): readonly string[] {
  return [`tests/${folder}/**/*.test.ts`, ...(beside[folder] ?? [])];
}

/** What is left out: it draws hundreds of thousands of numbers to prove the simulation, which is no part of what is mutated. */
const leftOut: ReadonlySet<string> = new Set(["tests/published/simulation.test.ts"]);

/** As many random cases as the rarest thing that a law asks to have seen needs. */
export function casesFor(folder: string): string {
  return folder === "quantity" ? "200" : "60";
}

/** They tell every number and every reason of some plans in words: most mutants are noticed by them. */
const telling = /lines-left-out\.test\.ts$/;

/** They tell all that each rule says, the rule's name in the test's: quick for a mutant of that rule, long for any other. */
const byRule = /(findings\/told|answers\/reference)\.test\.ts$/;

/** Tables of outside figures: no work is quicker. */
const published = /tests\/published\//;

/** Laws and second paths of hundreds of random plans, and tests that judge plans by every rule: they find what the others let through. */
const thorough =
  /((laws|second-path|two-paths|from-text|enclos|trust|withheld|chance|simulation)[\w-]*|findings\/(examples|registry|bones|fixes|teaching))\.test\.ts$/;

export function isByRule(file: string): boolean {
  return byRule.test(file);
}

/** The quick ones first; the thorough ones not at all where there is no patience for them. */
export function inOrder(files: readonly string[], isHurried: boolean): readonly string[] {
  const late = (file: string): number => {
    if (telling.test(file)) return 0;
    if (thorough.test(file)) return 4;
    if (published.test(file)) return 1;
    return isByRule(file) ? 3 : 2;
  };
  return files
    .filter((file) => !leftOut.has(file) && !(isHurried && thorough.test(file)))
    .toSorted((a, b) => late(a) - late(b) || (a < b ? -1 : 1));
}
