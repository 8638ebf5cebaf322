/**
 * How the tests run against mutants: those of the mutated folder and the published figures, with few random cases, always the same
 * ones, so that a mutant's fate does not hang on chance.
 */
import { defineConfig } from "vitest/config";

const folder = process.env.ISTHMUS_MUTATED ?? "{quantity,reckoning}";
/** What is published of quantities alone; the rest goes through reckonings. */
const published = folder === "quantity" ? "{gum,normal,units}" : "*";
process.env.ISTHMUS_RUNS ??= "200";

export default defineConfig({
  test: {
    include: [`tests/${folder}/**/*.test.ts`, `tests/published/${published}.test.ts`],
    setupFiles: ["tests/mutants/same-cases.ts"],
    testTimeout: 120_000,
  },
});
