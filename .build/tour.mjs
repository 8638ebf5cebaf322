// What `npm start` shows: the sample plans checked, one plan reckoned, and how to open the editor. It runs the bundled command
// line as a user would; that one sample holds mistakes is its purpose, so findings do not make the tour fail.
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));

function isthmus(...words) {
  console.log(`\n$ isthmus ${words.join(" ")}\n`);
  const run = spawnSync(process.execPath, ["dist/isthmus.js", ...words], { cwd: root, stdio: "inherit" });
  if (run.status !== 0 && run.status !== 1) {
    console.error(`isthmus ${words[0]} could not run to the end`);
    process.exit(run.status ?? 3);
  }
}

isthmus("check", "samples");
isthmus("reckon", "samples/plans/simple-shaft.isthmus");
console.log(`
Next
  npm run workbench     opens a VS Code workbench in the browser with the samples and the extension in it
  npm run package       makes dist/isthmus.vsix, for "Extensions: Install from VSIX…" in your own VS Code
  node dist/isthmus.js  is the command line; any editor starts the server with \`node dist/isthmus.js serve --stdio\`
`);
