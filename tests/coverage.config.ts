/**
 * How branch coverage is measured: the folders every number and every finding comes from, whole, by the tests beside the editor's.
 */
import { defineConfig } from "vitest/config";

// A branch is taken by few random cases or by none, and the laws ask to have seen the rarest of theirs; `npm test` tries them with all.
process.env.ISTHMUS_RUNS ??= "200";

export default defineConfig({
  test: {
    root: new URL("..", import.meta.url).pathname,
    include: [
      "tests/quantity/**/*.test.ts",
      "tests/reckoning/**/*.test.ts",
      "tests/published/**/*.test.ts",
      "tests/findings/**/*.test.ts",
    ],
    reporters: ["dot"],
    setupFiles: ["tests/same-cases.ts"],
    testTimeout: 120_000,
    coverage: {
      enabled: true,
      provider: "v8",
      include: ["server/quantity/**/*.ts", "server/reckoning/**/*.ts", "server/findings/**/*.ts"],
      reporter: ["text", "json-summary"],
      reportsDirectory: "coverage/branches",
      thresholds: { perFile: true, "server/{quantity,reckoning,findings}/**/*.ts": { branches: 100 } },
    },
  },
});
