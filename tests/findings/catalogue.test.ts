/**
 * A catalogue held against itself: each rule below, at and above its limit, and what a plan says that reads a faulty one. The sample
 * nail is 240 to 420 mm long, 9 to 12 mm thick, with holes P2 (28), P1 (40) from the top and D2 (26), D1 (12) from the tip.
 */
import { describe, expect, test } from "vitest";
import type { Analysis } from "../../server/answers/analyse.ts";
import { rules } from "../../server/findings/all.ts";
import { faultsOf } from "../../server/findings/catalogue-faults.ts";
import type { Grade } from "../../server/findings/finding.ts";
import { changed, findingsOf, fixed, judged, marked, outcomeOf } from "./judged.ts";

type Change = readonly [from: string, to: string];

interface Row {
  readonly what: string;
  readonly change: readonly Change[];
  readonly is: "clear" | "cannot tell" | Grade;
  readonly at?: string;
  readonly says?: string;
  /** Other findings the change brings; none when left out. */
  readonly besides?: readonly string[];
  /** How many findings of the rule; one when left out. */
  readonly count?: number;
}

function ofCatalogue(...change: readonly Change[]): Analysis {
  return judged({ change, of: "catalogue" });
}

function checkRows(slug: string, rows: readonly Row[]): void {
  test.each(rows.map((row) => [`${row.is}: ${row.what}`, row] as const))(`${slug} · %s`, (_, row) => {
    const analysis = ofCatalogue(...row.change);
    const own = findingsOf(analysis, slug);
    const others = analysis.judgement.findings.map((each) => each.slug).filter((each) => each !== slug);
    expect([...new Set(others)].sort()).toEqual([...(row.besides ?? [])]);
    if (row.is === "clear" || row.is === "cannot tell") {
      expect(own.map(({ message }) => message)).toEqual([]);
      expect(outcomeOf(analysis, slug)).toBe(row.is);
      return;
    }
    expect(own.map(({ grade }) => grade)).toEqual(Array.from({ length: row.count ?? 1 }, () => row.is));
    if (row.at !== undefined) expect(marked(analysis, own[0])).toBe(row.at);
    if (row.says !== undefined) expect(own[0]?.message).toBe(row.says);
  });
}

const p1 = (distance: string): Change => ["hole P1, top 40 mm", `hole P1, top ${distance}`];
const d2 = (distance: string): Change => ["hole D2, tip 26 mm", `hole D2, tip ${distance}`];
const bore = (lines: string): Change => ["    bore 5 mm\n", lines];

checkRows("part-off-nail", [
  { what: "every hole on the shortest nail", change: [], is: "clear" },
  { what: "at the tip of the shortest nail", change: [p1("240 mm")], is: "clear", besides: ["holes-overlap"] },
  {
    what: "beyond the shortest nail, on the longest",
    change: [p1("241 mm")],
    is: "error",
    at: "241 mm",
    says: "Hole P1 lies, from the driving end, at 241 mm; the shortest nail fenwick is 240 mm long.",
  },
  { what: "from the tip", change: [d2("300 mm")], is: "error", at: "300 mm" },
  {
    what: "on neither side",
    change: [p1("-1 mm")],
    is: "error",
    says: "Hole P1 lies, from the driving end, at -1 mm, outside the nail.",
  },
  { what: "perhaps beyond", change: [p1("239 mm ± 2 mm")], is: "warning", besides: ["holes-overlap"] },
  {
    what: "the driving end",
    change: [bore("    bore 5 mm\n    driving-end 13 mm, along 250 mm\n")],
    is: "error",
    at: "250 mm",
  },
  {
    what: "the driving end at the length",
    change: [bore("    bore 5 mm\n    driving-end 13 mm, along 240 mm\n")],
    is: "clear",
  },
  { what: "the bend", change: [bore("    bore 5 mm\n    bend 10 deg, at 250 mm\n")], is: "error", at: "250 mm" },
]);

// Both threads are 4.6 mm, so two screws need 4.6 mm between their axes.
checkRows("holes-overlap", [
  { what: "12 mm apart", change: [], is: "clear" },
  { what: "just side by side", change: [p1("32.6 mm")], is: "clear" },
  {
    what: "a tenth nearer",
    change: [p1("32.5 mm")],
    is: "error",
    at: "P1",
    says: "Holes P2 and P1 lie 4.5 mm apart; their screws take 4.6 mm.",
  },
  { what: "at one place", change: [p1("28 mm")], is: "error" },
  {
    what: "in another plane",
    change: [["hole P1, top 40 mm, runs medial-lateral", "hole P1, top 30 mm, runs anterior-posterior"]],
    is: "error",
  },
  // 240 - 213 = 27 from the top: 1 mm from P2 on the shortest nail; on the next one 42, 2 mm from P1.
  {
    what: "from either end on the shortest nail",
    change: [d2("213 mm")],
    is: "error",
    count: 2,
    says: "Holes P2 and D2 lie 1 mm apart on the nail of 240 mm; their screws take 4.6 mm.",
  },
  { what: "from either end on no listed nail", change: [d2("207 mm")], is: "clear" },
  { what: "perhaps", change: [p1("32.6 mm ± 1 mm")], is: "warning" },
]);

checkRows("travel-beyond-slot", [
  { what: "as long as the slot", change: [], is: "clear" },
  {
    what: "no travel listed",
    change: [["compression travel 6 mm, pitch", "compression pitch"]],
    is: "cannot tell",
    besides: ["missing"],
  },
  {
    what: "a slot that is no length",
    change: [["slot 6 mm", "slot 6 deg"]],
    is: "cannot tell",
    besides: ["unit-mismatch"],
  },
  { what: "shorter than the slot", change: [["slot 6 mm", "slot 8 mm"]], is: "clear" },
  {
    what: "longer than the slot",
    change: [["travel 6 mm", "travel 6.1 mm"]],
    is: "error",
    at: "6.1 mm",
    says: "The compression screw of nail fenwick travels 6.1 mm; the longest slot at the driving end is 6 mm.",
  },
  {
    what: "no slot",
    change: [[", slot 6 mm", ""]],
    is: "error",
    says: "Nail fenwick has a compression screw and no slot at the driving end for a screw to travel in.",
  },
  {
    what: "a slot at the tip alone",
    change: [
      [", slot 6 mm", ""],
      ["tip 26 mm, runs medial-lateral", "tip 26 mm, runs medial-lateral, slot 6 mm"],
    ],
    is: "error",
  },
  {
    what: "no compression screw",
    change: [
      [", slot 6 mm", ""],
      ["    compression travel 6 mm, pitch 1.25 mm\n", ""],
    ],
    is: "clear",
  },
  { what: "perhaps longer", change: [["travel 6 mm", "travel 6 mm ± 0.5 mm"]], is: "warning" },
]);

checkRows("sizes-disordered", [
  { what: "growing", change: [], is: "clear" },
  {
    what: "a size twice",
    change: [["5 mm, 10 mm, 15 mm", "5 mm, 5 mm, 15 mm"]],
    is: "warning",
    says: "5 mm stands twice among the caps of nail fenwick.",
  },
  {
    what: "a smaller one after a larger",
    change: [["5 mm, 10 mm, 15 mm", "5 mm, 15 mm, 10 mm"]],
    is: "warning",
    at: "10 mm",
    says: "Among the caps of nail fenwick, 10 mm comes after 15 mm; a list grows.",
  },
  {
    what: "a range into a range",
    change: [["65 mm to 90 mm by 5 mm", "60 mm to 90 mm by 5 mm"]],
    is: "warning",
    at: "60 mm to 90 mm by 5 mm",
  },
  { what: "in another unit", change: [["5 mm, 10 mm, 15 mm", "5 mm, 1 cm, 15 mm"]], is: "clear" },
  { what: "the same size in another unit", change: [["5 mm, 10 mm, 15 mm", "5 mm, 10 mm, 1 cm"]], is: "warning" },
]);

checkRows("range-unreached", [
  { what: "landing on its end", change: [], is: "clear" },
  {
    what: "an end that is no length",
    change: [["diameters 9 mm to 12 mm by 1 mm", "diameters 9 mm to 12 deg by 1 mm"]],
    is: "cannot tell",
    besides: ["unit-mismatch"],
  },
  {
    what: "an end without a value",
    change: [["diameters 9 mm to 12 mm by 1 mm", "diameters 9 mm to 12 mm / 0 by 1 mm"]],
    is: "cannot tell",
    besides: ["unreadable"],
  },
  {
    what: "ending between two steps",
    change: [["240 mm to 420 mm by 15 mm", "240 mm to 425 mm by 15 mm"]],
    is: "warning",
    at: "425 mm",
    says: "The step does not land on 425 mm: the lengths of nail fenwick end at 420 mm.",
  },
  {
    what: "decimal steps, 8 + 12 × 0.5",
    change: [["8 mm to 14 mm by 0.5 mm", "8 mm to 14 mm by 0.1 mm"]],
    is: "clear",
  },
  {
    what: "reamer heads",
    change: [["8 mm to 14 mm by 0.5 mm", "8 mm to 14.2 mm by 0.5 mm"]],
    is: "warning",
    at: "14.2 mm",
  },
  {
    what: "cannot be written out at all",
    change: [["8 mm to 14 mm by 0.5 mm", "8 mm to 14 mm by 0 mm"]],
    is: "cannot tell",
    besides: ["unreadable"],
  },
]);

checkRows("family-unlisted", [
  { what: "all listed", change: [], is: "clear" },
  {
    what: "one more, unknown",
    change: [["P1, top 40 mm, runs medial-lateral, takes peg", "P1, top 40 mm, runs medial-lateral, takes peg, bolt"]],
    is: "warning",
    at: "bolt",
  },
  {
    what: "mistyped",
    change: [["P1, top 40 mm, runs medial-lateral, takes peg", "P1, top 40 mm, runs medial-lateral, takes pegg"]],
    is: "warning",
    at: "pegg",
  },
]);

const pin =
  "  screws pin {\n    thread 3 mm\n    core 2 mm\n    drill 2 mm\n    lengths 20 mm, 30 mm\n  }\n\n  reamers {";
checkRows("screws-unused", [
  { what: "taken", change: [], is: "clear" },
  {
    what: "for diameters of nails that list none",
    change: [
      ["    diameters 9 mm to 12 mm by 1 mm\n", ""],
      ["    core 3.9 mm\n", "    core 3.9 mm\n    with diameters 9 mm\n"],
    ],
    is: "cannot tell",
    besides: ["missing"],
  },
  {
    what: "taken by no hole",
    change: [["  reamers {", pin]],
    is: "warning",
    at: "pin",
    says: "No hole of the catalogue takes screw pin.",
  },
  {
    what: "with diameters the nail has",
    change: [["    drill 3.8 mm\n", "    drill 3.8 mm\n    with diameters 9 mm, 10 mm\n"]],
    is: "clear",
  },
  {
    what: "with a diameter no nail has",
    change: [["    drill 3.8 mm\n", "    drill 3.8 mm\n    with diameters 9 mm, 13 mm\n"]],
    is: "warning",
    at: "13 mm",
    says: "Screw peg goes with a nail of 13 mm; no nail that takes it has that diameter.",
  },
]);

checkRows("screw-diameters", [
  { what: "thinner than the thread", change: [["core 3.9 mm", "core 4.5 mm"]], is: "clear" },
  {
    what: "core as thick as the thread",
    change: [["core 3.9 mm", "core 4.6 mm"]],
    is: "error",
    at: "4.6 mm",
    says: "The core of screw peg is 4.6 mm; a thread of 4.6 mm needs a thinner one.",
  },
  { what: "drill thicker", change: [["drill 3.8 mm", "drill 4.8 mm"]], is: "error", at: "4.8 mm" },
  { what: "drill perhaps thicker", change: [["drill 3.8 mm", "drill 4.5 mm ± 0.3 mm"]], is: "warning" },
]);

checkRows("bore-wide", [
  { what: "narrower than the thinnest", change: [bore("    bore 8.9 mm\n")], is: "clear" },
  { what: "as wide as the thinnest", change: [bore("    bore 9 mm\n")], is: "error", at: "9 mm" },
  { what: "wider", change: [bore("    bore 10 mm\n")], is: "error" },
  { what: "perhaps as wide", change: [bore("    bore 8.9 mm ± 0.3 mm\n")], is: "warning" },
]);

const end = (diameter: string): Change => bore(`    bore 5 mm\n    driving-end ${diameter}, along 55 mm\n`);
checkRows("driving-end-narrow", [
  { what: "thicker", change: [end("13 mm")], is: "clear" },
  { what: "as thick as the thickest shaft", change: [end("12 mm")], is: "clear" },
  { what: "thinner than the thickest", change: [end("11.9 mm")], is: "warning", at: "11.9 mm" },
  { what: "perhaps thinner", change: [end("12 mm ± 0.4 mm")], is: "information" },
]);

checkRows("front-cutting-unlisted", [
  { what: "listed", change: [], is: "clear" },
  {
    what: "too small for the set",
    change: [["front-cutting 8 mm, 8.5 mm", "front-cutting 7.5 mm, 8.5 mm"]],
    is: "error",
    at: "7.5 mm",
  },
  {
    what: "between two heads",
    change: [["front-cutting 8 mm, 8.5 mm", "front-cutting 8 mm, 8.3 mm"]],
    is: "error",
    at: "8.3 mm",
  },
]);

describe("a plan", () => {
  test("that reads a faulty catalogue says so once, at its line", () => {
    const analysis = changed(["core 3.9 mm", "core 4.9 mm"], ["drill 3.8 mm", "drill 5 mm"]);
    const [finding, ...more] = findingsOf(analysis, "catalogue-faulty");
    expect(more).toEqual([]);
    expect(marked(analysis, finding)).toBe('"catalogue/fenwick.isthmus"');
    expect(finding).toMatchObject({ grade: "error" });
    expect(finding?.message).toContain("has 2 faults of its own; the first: The core of screw peg is 4.9 mm");
    expect(finding?.related?.map(({ place }) => place.file)).toEqual([
      "catalogue/fenwick.isthmus",
      "catalogue/fenwick.isthmus",
    ]);
  });

  test("calls nothing clear while the catalogue contradicts itself", () => {
    expect(outcomeOf(changed(["core 3.9 mm", "core 4.9 mm"]), "screw-short")).toBe("cannot tell");
    expect(outcomeOf(changed(["5 mm, 10 mm, 15 mm", "5 mm, 5 mm, 15 mm"]), "screw-short")).toBe("clear");
  });

  test("with a milder fault in its catalogue is warned", () => {
    const analysis = changed(["5 mm, 10 mm, 15 mm", "5 mm, 5 mm, 15 mm"]);
    expect(findingsOf(analysis, "catalogue-faulty")).toMatchObject([{ grade: "warning" }]);
  });

  test("whose own range of heads leaves its end out is warned at that end, and mended", () => {
    const analysis = changed([
      "    ream 8.5 mm to 11 mm by 0.5 mm\n    nail",
      "    ream 8.5 mm to 11.2 mm by 0.5 mm\n    nail",
    ]);
    const [finding] = findingsOf(analysis, "range-unreached");
    expect(marked(analysis, finding)).toBe("11.2 mm");
    expect(fixed(analysis, finding)).toContain("    ream 8.5 mm to 11 mm by 0.5 mm\n    nail");
  });

  test.each([
    ["screws that no hole takes", ["  reamers {", pin]],
    [
      "a hole for screws of another catalogue",
      ["P1, top 40 mm, runs medial-lateral, takes peg", "P1, top 40 mm, runs medial-lateral, takes peg, bolt"],
    ],
  ] as const)("hears nothing of %s", (_, change) => {
    expect(outcomeOf(changed(change), "catalogue-faulty")).toBe("clear");
  });
});

test("a plan hears of every figure that contradicts another", () => {
  const asked = rules.flatMap(({ slug, kind, wrong }) =>
    kind === "text" && "of" in wrong && wrong.of === "catalogue" ? [{ slug, wrong }] : [],
  );
  const told = asked.filter(({ slug }) => slug !== "family-unlisted" && slug !== "screws-unused");
  expect(told.length).toBe(asked.length - 2);
  expect(told.length).toBeGreaterThan(8);
  for (const { slug, wrong } of told) {
    const { document } = judged(wrong).meaning;
    expect(document?.kind === "catalogue" ? faultsOf(document).length : 0, slug).toBe(1);
  }
});
