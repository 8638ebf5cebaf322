// Adds up the reports of the two test commands and prints `N passed, N failed`. A command that ended badly without a failed
// test of its own, or that left no report, counts as one failure, so that silence is never a pass.
import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const dist = fileURLToPath(new URL("../dist/", import.meta.url));
let passed = 0;
let failed = 0;
for (const name of ["test-report.json", "editor-report.json"]) {
  if (!existsSync(dist + name)) {
    console.log(`${name}: no report`);
    failed += 1;
    continue;
  }
  const report = JSON.parse(readFileSync(dist + name, "utf8"));
  passed += report.numPassedTests;
  failed += report.numFailedTests;
  if (report.numPassedTests === 0) failed += 1;
}
const failedCommands = Number(process.argv[2]);
if (failedCommands > 0 && failed === 0) failed = failedCommands;
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
