// Makes the bundles in dist/: the command line, the language server and the VS Code extension, the last two for the
// desktop and for the browser, each one minified file.
import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const root = fileURLToPath(new URL("..", import.meta.url));
// Of the package's own manifest the bundles need the version alone.
const versionOnly = {
  name: "version-only",
  setup: ({ onLoad }) =>
    onLoad({ filter: /[\\/]package\.json$/ }, ({ path }) => {
      if (path !== fileURLToPath(new URL("../package.json", import.meta.url))) return undefined;
      const { version } = JSON.parse(readFileSync(path, "utf8"));
      return { contents: JSON.stringify({ version }), loader: "json" };
    }),
};

// Of the command line `serve` alone needs the language server, which lies beside it in a bundle of its own.
const serverBeside = {
  name: "server-beside",
  setup: ({ onResolve }) =>
    onResolve({ filter: /\/language-server\/main\.ts$/ }, ({ kind }) =>
      kind === "dynamic-import" ? { path: "./language-server.js", external: true } : undefined,
    ),
};

const shared = {
  absWorkingDir: root,
  bundle: true,
  minify: true,
  legalComments: "none",
  sourcemap: false,
  logLevel: "warning",
  target: "node22",
  platform: "node",
  plugins: [versionOnly],
};

/** For a worker of a browser: a module of Node's in it is an error of the bundling. */
const inBrowser = { ...shared, platform: "browser", target: "es2022" };

mkdirSync(`${root}dist`, { recursive: true });
const bundles = [
  {
    ...shared,
    entryPoints: ["server/command-line/start.ts"],
    outfile: "dist/isthmus.js",
    format: "cjs",
    plugins: [versionOnly, serverBeside],
    banner: { js: "#!/usr/bin/env node" },
  },
  {
    ...shared,
    entryPoints: ["server/language-server/main.ts"],
    outfile: "dist/language-server.js",
    format: "cjs",
  },
  {
    ...shared,
    entryPoints: ["client/extension.ts"],
    outfile: "dist/extension.js",
    format: "cjs",
    external: ["vscode"],
  },
  {
    ...inBrowser,
    entryPoints: ["server/language-server/browser-main.ts"],
    outfile: "dist/language-server.browser.js",
    format: "iife",
  },
  {
    ...inBrowser,
    entryPoints: ["client/browser.ts"],
    outfile: "dist/extension.browser.js",
    format: "cjs",
    external: ["vscode"],
  },
];

for (const { outfile } of bundles) rmSync(`${root}${outfile}`, { force: true });
// The package is of type "module"; the bundles are CommonJS, which starts faster and is what VS Code loads everywhere.
writeFileSync(`${root}dist/package.json`, '{ "type": "commonjs" }\n');

await Promise.all(bundles.map(build));
