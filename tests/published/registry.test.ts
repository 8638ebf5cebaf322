/**
 * The list of groups of outside figures: which stand in this folder, which do not and why. A title here begins with the
 * ids of its groups, and each file says beside them where each group comes from, as `// line: IDS: SOURCE (MARK)`, so
 * that a reader finds both.
 */
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";

/** Groups that are tested, each in one file or more. */
const here = [
  ...[
    "AB-1",
    "ANG-1 to ANG-8",
    "AO-1 to AO-6",
    "CAP-1",
    "DP-1 to DP-3",
    "DST-1",
    "DYN-1",
    "ENT-1 and ENT-2",
    "EURACHEM-A1",
  ],
  ...["FRQ-1", "GUM-4.3.4", "GUM-4.3.5", "GUM-4.3.7", "GUM-4.4.3", "GUM-4.4.5", "GUM-5.1.5", "GUM-7.2.6", "GUM-G1"],
  ...["GUM-G4", "GUM-H1 and GUM-H2", "HIP-1 to HIP-5", "HOLE-1", "JCGM-101-9.2", "LEN-1 to LEN-5", "MAG-1 to MAG-4"],
  ...[
    "MECH-1",
    "NORM-1",
    "NORMAL",
    "OBL-1",
    "OPEN-4",
    "PB-1 to PB-4",
    "PLAY",
    "RATIO-1 and RATIO-2",
    "PRM-1",
    "REAM-1 to REAM-5",
    "ROT-1",
  ],
  ...["SCR-1 to SCR-4", "SEC-1", "STRAIN-1 to STRAIN-6", "T1 to T7", "TRAV-1", "UNIT"],
];

/** Groups that are not, because the tool says nothing they could be held against. */
const absent: ReadonlyMap<string, string> = new Map([
  ["AX-1 and AX-2", "the change of the mechanical axis behind an angulation is not reckoned"],
  ["DST-2", "the far fragment's share of the bone's length is neither reckoned nor judged"],
  ["DYN-2 and DYN-3", "callus and reoperations are not part of a plan"],
  ["ENT-3", "where the tip lies across the plafond is not part of a plan"],
  ["HEAT-1", "temperatures are not part of a plan"],
  ["OPEN-1 to OPEN-3", "the grade is typed; wound size, arteries and the five categories are not part of a plan"],
  ["REM-1", "how patients fare after removal is said nowhere in the tool"],
  ["RUST-1", "healing scores are not part of a plan"],
  ["WHO-1 and WHO-2", "the checklist is not part of a plan, and a plan holds no times of day"],
]);

const marks = /printed|computed|common practice, no single source|from memory/;

const folder = fileURLToPath(new URL(".", import.meta.url));
const files = readdirSync(folder)
  .filter((file) => file.endsWith(".test.ts") && file !== "registry.test.ts")
  .map((file) => ({ file, text: readFileSync(`${folder}/${file}`, "utf8") }));

/** "ANG-1 to ANG-8, T2 and T7": each id, in order; undefined when it is no list of ids. */
function idsIn(list: string): readonly string[] | undefined {
  const id = "[A-Z][A-Z0-9]*(?:-[A-Z0-9]+(?:\\.[0-9]+)*)*";
  if (!new RegExp(`^${id}(?:(?:, | and | to )${id})*$`).test(list)) return undefined;
  return list.split(/, | and /).flatMap(spread);
}

/** "ANG-1 to ANG-8" as its eight ids; one id as itself. */
function spread(part: string): readonly string[] {
  const [first = "", last] = part.split(" to ");
  if (last === undefined) return [first];
  const [stem, from, to] = [first.replace(/\d+$/, ""), endOf(first), endOf(last)];
  if (last !== `${stem}${to}` || to <= from) throw new Error(`no range of ids: ${part}`);
  return Array.from({ length: to - from + 1 }, (_, i) => `${stem}${from + i}`);
}

function endOf(id: string): number {
  return Number(/\d+$/.exec(id)?.[0]);
}

function groupsOf(list: string): readonly string[] {
  const ids = idsIn(list);
  if (ids === undefined) throw new Error(`no list of ids: ${list}`);
  return ids;
}

/** Titles of what stands at the top of a file; the tests inside a `describe` carry its title before their own. */
function titlesOf(text: string): readonly string[] {
  return text
    .split(/^(?=(?:describe|test)\b)/m)
    .filter((part) => /^(?:describe|test)\b/.test(part))
    .map((part) => {
      const title = /^(?:describe|test)\(\s*(["`])(.+?)\1/s.exec(part) ?? /\)\(\s*(["`])(.+?)\1/s.exec(part);
      return title?.[2] ?? `without a title: ${part.slice(0, 60)}`;
    });
}

function groupsOfTitle(title: string): readonly string[] {
  const [head = "", ...rest] = title.split(": ");
  return rest.length === 0 ? [] : (idsIn(head) ?? []);
}

interface Line {
  readonly ids: readonly string[];
  readonly source: string;
}

/** The `// line:` comments of a file, with the comment lines that go on after them. */
function linesOf(text: string): readonly Line[] {
  const joined = text.replace(/\n\s*\/\/ (?!line: )/g, " ");
  return [...joined.matchAll(/^\s*\/\/ line: (.*)$/gm)].map(([, line = ""]) => {
    const [list = "", ...source] = line.split(": ");
    return { ids: idsIn(list) ?? [], source: source.join(": ") };
  });
}

describe.each(files)("$file", ({ text }) => {
  const titles = titlesOf(text);
  const lines = linesOf(text);

  test("begins every title with the ids of its groups", () => {
    expect(titles).not.toEqual([]);
    expect(titles.filter((title) => groupsOfTitle(title).length === 0)).toEqual([]);
  });

  test("names where each of its groups comes from, and nothing else", () => {
    const sourced = new Set(lines.flatMap(({ ids }) => ids));
    expect([...sourced].sort()).toEqual([...new Set(titles.flatMap(groupsOfTitle))].sort());
  });

  test("says of every source how far it can be trusted", () => {
    expect(lines.filter(({ ids, source }) => ids.length === 0 || !marks.test(source))).toEqual([]);
  });

  test("has no line of a source in another shape", () => {
    expect(text.match(/\bline: /g)).toHaveLength(lines.length);
  });
});

describe("the groups", () => {
  const found = new Set(files.flatMap(({ text }) => titlesOf(text).flatMap(groupsOfTitle)));
  const left = [...absent.keys()].flatMap(groupsOf);

  test("stand here as listed", () => {
    expect([...found].sort()).toEqual(here.flatMap(groupsOf).sort());
  });

  test("are listed once, here or absent", () => {
    const all = [...here.flatMap(groupsOf), ...left];
    expect(all.filter((id, at) => all.indexOf(id) !== at)).toEqual([]);
  });

  test("are absent for a reason", () => {
    for (const reason of absent.values()) expect(reason).toMatch(/^[a-z].{20,}[a-z]$/);
  });
});

describe("the reading of this file", () => {
  test("lists of ids", () => {
    expect(idsIn("ANG-7 to ANG-9, T2 and GUM-4.3.4")).toEqual(["ANG-7", "ANG-8", "ANG-9", "T2", "GUM-4.3.4"]);
    expect(["two views", "ANG-", "the T2", "T2 or T3", ""].map(idsIn)).toEqual(Array(5).fill(undefined));
    expect(() => idsIn("ANG-3 to T5")).toThrow("no range of ids");
  });

  test("titles, however they are written", () => {
    const each = "test.each([\n  [1, 2],\n] as const)(\n  `A-1: %d`,\n  () => {})\n";
    expect(
      titlesOf(`describe("A-1: one", () => {\n  test("two", f);\n});\n${each}test.each(rows)("B-2: x", g);\n`),
    ).toEqual(["A-1: one", "A-1: %d", "B-2: x"]);
    expect(groupsOfTitle("two views: A-1")).toEqual([]);
    expect(groupsOfTitle("A-1 and B-2: two views")).toEqual(["A-1", "B-2"]);
  });

  test("lines of sources, over several comment lines", () => {
    const text = "// line: A-1: one\n// of two (printed)\n\n  // line: B-2: three\n// line: wrong\n";
    expect(linesOf(text)).toEqual([
      { ids: ["A-1"], source: "one of two (printed)" },
      { ids: ["B-2"], source: "three" },
      { ids: [], source: "" },
    ]);
  });
});
