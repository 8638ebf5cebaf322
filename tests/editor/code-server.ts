/**
 * Starts a VS Code workbench on this machine alone, with the packaged extension in it. It knows nothing of what
 * is then done in it.
 */
import { type ChildProcess, spawn } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

export interface Workbench {
  /** Address of the workbench with a folder open. */
  readonly url: (folder: string) => string;
  readonly stop: () => Promise<void>;
}

export interface WorkbenchOptions {
  /** An empty folder for everything the workbench keeps. */
  readonly state: string;
  readonly vsix: string;
  /** One that is free when not given. */
  readonly port?: string;
  /** How long the workbench keeps what a visitor who left had running, the language server among it. */
  readonly graceSeconds?: string;
  /** Opens folders as ones whose writer is not trusted. */
  readonly restricted?: boolean;
}

const program = fileURLToPath(new URL("node_modules/code-server/out/node/entry.js", import.meta.url));

/** Nothing is fetched, reported or suggested, and the plan is what the eye falls on. */
const quiet = {
  "chat.disableAIFeatures": true,
  "editor.minimap.enabled": false,
  "extensions.autoCheckUpdates": false,
  "extensions.autoUpdate": false,
  "extensions.ignoreRecommendations": true,
  "files.autoSave": "off",
  // What one visitor left unsaved is not the next one's.
  "files.hotExit": "off",
  "git.enabled": false,
  "security.workspace.trust.banner": "never",
  "security.workspace.trust.startupPrompt": "never",
  "telemetry.telemetryLevel": "off",
  "update.mode": "none",
  "workbench.enableExperiments": false,
  "workbench.secondarySideBar.defaultVisibility": "hidden",
  "workbench.startupEditor": "none",
  "workbench.tips.enabled": false,
};

/** Installs the extension into a new workbench and starts it; resolves when it answers. Throws with its words when it does not. */
export async function startWorkbench(options: WorkbenchOptions): Promise<Workbench> {
  const places = ["--user-data-dir", `${options.state}/user`, "--extensions-dir", `${options.state}/extensions`];
  const config = `${options.state}/config.yaml`;
  mkdirSync(`${options.state}/user/User`, { recursive: true });
  writeFileSync(config, "{}\n");
  writeFileSync(`${options.state}/user/User/settings.json`, JSON.stringify(quiet));
  await finished(run(options.state, ["--config", config, ...places, "--install-extension", options.vsix, "--force"]));
  const server = run(options.state, [
    ...["--config", config, ...places, "--auth", "none", "--bind-addr", `127.0.0.1:${options.port ?? "0"}`],
    ...["--disable-telemetry", "--disable-update-check"],
    ...["--reconnection-grace-time", options.graceSeconds ?? "10800"],
    ...(options.restricted === true ? [] : ["--disable-workspace-trust"]),
  ]);
  const address = await listening(server);
  return {
    url: (folder) => `${address}?folder=${encodeURIComponent(folder)}`,
    stop: () => stop(server),
  };
}

interface Running {
  readonly process: ChildProcess;
  readonly said: () => string;
}

/** In a process group of its own, so that stopping it stops what it started. */
function run(state: string, argv: readonly string[]): Running {
  const started = spawn(process.execPath, [program, ...argv], {
    detached: true,
    stdio: ["ignore", "pipe", "pipe"],
    // No marketplace to ask, and sockets where they are cleared away with the rest.
    env: { ...process.env, EXTENSIONS_GALLERY: "{}", TMPDIR: state, XDG_RUNTIME_DIR: state },
  });
  process.once("exit", () => signal(started, "SIGKILL"));
  let said = "";
  for (const stream of [started.stdout, started.stderr]) {
    stream.setEncoding("utf8").on("data", (words: string) => {
      said += words;
    });
  }
  return { process: started, said: () => said };
}

async function finished(running: Running): Promise<void> {
  const code = await new Promise((resolve) => running.process.once("close", resolve));
  if (code !== 0) throw new Error(`The extension was not installed:\n${running.said()}`);
}

async function listening(running: Running): Promise<string> {
  for (let waited = 0; waited < 30_000; waited += 100) {
    const address = /HTTP server listening on (http:\/\/127\.0\.0\.1:\d+\/)/.exec(running.said())?.[1];
    if (address !== undefined) return address;
    if (running.process.exitCode !== null) break;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  await stop(running);
  throw new Error(`The workbench did not start:\n${running.said()}`);
}

async function stop({ process: server }: Running): Promise<void> {
  if (server.pid === undefined || server.exitCode !== null) return;
  const closed = new Promise((resolve) => server.once("close", resolve));
  signal(server, "SIGTERM");
  const late = setTimeout(() => signal(server, "SIGKILL"), 5_000);
  await closed;
  clearTimeout(late);
}

/** To the program and all it started; nothing when it has ended. */
function signal({ pid, exitCode, signalCode }: ChildProcess, name: "SIGTERM" | "SIGKILL"): void {
  if (pid !== undefined && exitCode === null && signalCode === null) process.kill(-pid, name);
}
