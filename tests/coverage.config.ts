/** How branch coverage is measured: the two folders every number comes from, whole, by the tests beside the editor's. */
import { defineConfig } from "vitest/config";

// A branch is taken by few random cases or by none; `npm test` tries the laws with all of them.
process.env.ISTHMUS_RUNS ??= "60";

export default defineConfig({
  test: {
    root: new URL("..", import.meta.url).pathname,
    include: ["tests/quantity/**/*.test.ts", "tests/reckoning/**/*.test.ts", "tests/published/**/*.test.ts"],
    reporters: ["dot"],
    testTimeout: 120_000,
    coverage: {
      enabled: true,
      provider: "v8",
      include: ["server/quantity/**/*.ts", "server/reckoning/**/*.ts"],
      reporter: ["text", "json-summary"],
      reportsDirectory: "coverage/branches",
      thresholds: { branches: 100, perFile: true },
    },
  },
});
