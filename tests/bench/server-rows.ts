/**
 * Rows of the bundled language server over real stdio: one typed character to its findings, hover and completion after one, the
 * start, and what it holds in memory with a thousand plans in the folder.
 */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { grownPlan, samplesFolder, writeManyPlans } from "./grown-plan.ts";
import { digits, limitRow, otherRow, type Row } from "./row.ts";
import { StdioClient } from "./stdio-client.ts";
import { quantile } from "./timing.ts";

const here = (file: string): string => fileURLToPath(new URL(file, import.meta.url));
const ours = [here("../../dist/language-server.js"), "--stdio"];
const frame = 16;
/** Milliseconds in which nobody types. */
const pause = 6000;

/** What one keystroke is followed by, until it is answered. */
type Answer = (client: StdioClient, uri: string, at: Place) => Promise<unknown>;

interface Place {
  readonly line: number;
  readonly character: number;
}

interface Contender {
  readonly words: readonly string[];
  readonly uri: string;
  readonly answer: Answer;
}

const pulled: Answer = (client, uri) => client.request("textDocument/diagnostic", { textDocument: { uri } });
const planUri = pathToFileURL(`${samplesFolder}plans/grown.isthmus`).href;
const isthmus: Contender = { words: ours, uri: planUri, answer: pulled };
const floor: Contender = { words: [here("floor-server.ts")], uri: planUri, answer: pulled };
const langium: Contender = {
  words: [here("langium-server.ts")],
  uri: "file:///bench.txt",
  answer: (client) => client.nextPush(),
};

export async function serverRows(): Promise<Row[]> {
  const short = await typing(grownPlan(300), [isthmus, floor], 100, 150);
  const long = await typing(grownPlan(5000), [isthmus, floor, langium], 10, 40);
  const [mine, none] = [timesOf(short, isthmus), timesOf(short, floor)];
  const [mineLong, noneLong, langiumLong] = [timesOf(long, isthmus), timesOf(long, floor), timesOf(long, langium)];
  const ratio = langiumLong.p99 / mineLong.p99;
  return [
    limitRow("keystroke to findings, 300 lines, p50", mine.p50, "ms", 4, `a server that parses nothing: ${both(none)}`),
    limitRow(
      "keystroke to findings, 300 lines, p99",
      mine.p99,
      "ms",
      frame,
      `a server that parses nothing: ${both(none)}`,
    ),
    {
      what: "keystroke to findings, 5000 lines, p99",
      ours: `${digits(mineLong.p99)} ms (p50 ${digits(mineLong.p50)})`,
      peer: `Langium: ${both(langiumLong)}; a server that parses nothing: ${both(noneLong)}`,
      ratio: `${digits(ratio)} × below Langium's`,
      reach: "at least 5 ×",
      outcome: ratio >= 5 ? "reached" : "missed",
    },
    ...(await askedRows()),
    await startRow(),
    await memoryRow(),
  ];
}

async function askedRows(): Promise<Row[]> {
  const rows: Row[] = [];
  for (const feature of ["hover", "completion"]) {
    const answer: Answer = (client, uri, position) =>
      client.request(`textDocument/${feature}`, { textDocument: { uri }, position });
    const asked = { ...isthmus, answer };
    const times = timesOf(await typing(grownPlan(300), [asked], 100, 120), asked);
    rows.push(
      limitRow(`${feature} after a keystroke, 300 lines, p99`, times.p99, "ms", frame, `p50 ${digits(times.p50)} ms`),
    );
  }
  return rows;
}

interface Times {
  readonly p50: number;
  readonly p99: number;
}

/** Milliseconds of each keystroke by contender, the contenders taking turns; the first `warm` keystrokes are not counted. */
async function typing(
  text: string,
  contenders: readonly Contender[],
  warm: number,
  counted: number,
): Promise<ReadonlyMap<Contender, readonly number[]>> {
  const clients = contenders.map(({ words }) => new StdioClient(words));
  const times = new Map(contenders.map((each): [Contender, number[]] => [each, []]));
  try {
    for (const [index, { uri }] of contenders.entries()) {
      await clients[index]?.initialize();
      clients[index]?.open(uri, text, "isthmus");
    }
    for (let stroke = 0; stroke < warm + counted; stroke++) {
      for (const [index, contender] of contenders.entries()) {
        const client = clients[index];
        if (client === undefined) continue;
        const took = await typeInto(client, contender, text, stroke);
        if (stroke >= warm) times.get(contender)?.push(took);
      }
    }
    for (const client of clients) await client.close();
  } finally {
    for (const client of clients) client.kill();
  }
  return times;
}

/** Where a person types in turn: in a number, in a remark, in a text. */
const typedAt = ["age 29", "Chatter starts", "with two turns"];

/** Types a digit, and takes it away again at the next stroke, so that the text stays what it was. */
async function typeInto(
  client: StdioClient,
  { uri, answer }: Contender,
  text: string,
  stroke: number,
): Promise<number> {
  const before = typedAt[Math.floor(stroke / 2) % typedAt.length] ?? "";
  const lead = text.slice(0, text.indexOf(before) + before.length).split("\n");
  const at: Place = { line: lead.length - 1, character: lead.at(-1)?.length ?? 0 };
  const typed = stroke % 2 === 0;
  const end = typed ? at : { ...at, character: at.character + 1 };
  const start = performance.now();
  client.notify("textDocument/didChange", {
    textDocument: { uri, version: stroke + 2 },
    contentChanges: [{ range: { start: at, end }, text: typed ? "1" : "" }],
  });
  await answer(client, uri, at);
  return performance.now() - start;
}

function timesOf(times: ReadonlyMap<Contender, readonly number[]>, contender: Contender): Times {
  const all = times.get(contender) ?? [];
  return { p50: quantile(all, 0.5), p99: quantile(all, 0.99) };
}

function both({ p50, p99 }: Times): string {
  return `p50 ${digits(p50)}, p99 ${digits(p99)} ms`;
}

/** From the start of the process to the answer to `initialize`. */
async function startRow(): Promise<Row> {
  const times = new Map<Contender, number[]>([
    [isthmus, []],
    [floor, []],
  ]);
  for (let round = 0; round < 9; round++) {
    for (const [contender, all] of times) {
      const start = performance.now();
      const client = new StdioClient(contender.words);
      await client.initialize();
      all.push(performance.now() - start);
      await client.close();
    }
  }
  const beside = `a server that parses nothing, not bundled: ${digits(timesOf(times, floor).p50)} ms`;
  return limitRow("start of the process to ready (bundled)", timesOf(times, isthmus).p50, "ms", 100, beside);
}

/** All plans of a folder open, each with its findings asked for: what the server holds in the pause after it. */
async function memoryRow(): Promise<Row> {
  const what = "memory with 1,000 plans of 75 lines open";
  const folder = mkdtempSync(join(tmpdir(), "isthmus-bench-"));
  const client = new StdioClient(ours);
  try {
    const files = writeManyPlans(folder, 1000, 75);
    await client.initialize(pathToFileURL(folder).href);
    const before = client.memory();
    for (const { file, text } of files) {
      const uri = pathToFileURL(file).href;
      client.open(uri, text, "isthmus");
      await client.request("textDocument/diagnostic", { textDocument: { uri } });
    }
    const atOnce = client.memory();
    await new Promise((resolve) => setTimeout(resolve, pause));
    const held = client.memory();
    await client.close();
    if (held === undefined || before === undefined || atOnce === undefined)
      return otherRow(what, "needs /proc", "at most 250 MB", "not measured");
    const beside = `before the first is open: ${digits(before)} MB; right after the last: ${digits(atOnce)} MB`;
    return limitRow(what, held, "MB", 250, beside);
  } finally {
    client.kill();
    rmSync(folder, { recursive: true, force: true });
  }
}
