/** How the tests run: everything under tests/ but the real editor, which has a driver of its own. */
import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    root: new URL("..", import.meta.url).pathname,
    include: ["tests/**/*.test.ts"],
    exclude: ["tests/editor/**", "**/node_modules/**"],
    reporters: ["default", ["json", { outputFile: "dist/test-report.json" }]],
    setupFiles: ["tests/same-cases.ts"],
    testTimeout: 30_000,
    // One worker a core: by default one core would be left to a person who watches.
    maxWorkers: "100%",
    coverage: { include: ["grammar/**", "server/**"], reporter: ["text-summary", "json-summary"] },
  },
});
