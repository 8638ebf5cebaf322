/** Names with their declarations and uses, as whoever looks them up or changes them needs them. */
import { expect, test } from "vitest";
import { exampleCatalogue as catalogueText, exampleProtocol as protocolText } from "../../server/findings/example.ts";
import { meaningOf, planFile, planWith } from "./texts.ts";

/** Each use as "kind name -> where it is declared". */
function usesIn(text: string, ...names: readonly string[]): readonly string[] {
  return meaningOf(text)
    .references.uses.filter((use) => names.includes(use.name))
    .map((use) => `${use.kind} ${use.name} -> ${use.declared?.file ?? "nowhere"}`);
}

test("a word in a waiver is the hole or the landmark it names", () => {
  const waive = (at: string) =>
    planWith("  status for-review\n", `  waive drill-odd at ${at}, because "Measured.", signed "the surgeon"\n`);
  expect(usesIn(waive("D1"), "D1")[0]).toBe("hole D1 -> catalogue/fenwick.isthmus");
  expect(usesIn(waive("scar"), "scar")).toEqual([`landmark scar -> ${planFile}`]);
  expect(usesIn(waive("D1"), "drill-odd")).toEqual(["finding drill-odd -> nowhere"]);
  expect(usesIn(waive("nothing"), "nothing")).toEqual(["word nothing -> nowhere"]);
});

test("holes, nails and families are found wherever they are named", () => {
  const text = planWith("screw 32 mm", "screw peg 32 mm").replace(
    "review at",
    "dynamise at 9 weeks, remove P1\n    review at",
  );
  const catalogue = "catalogue/fenwick.isthmus";
  expect(usesIn(text, "fenwick", "peg")).toEqual([`nail fenwick -> ${catalogue}`, `screws peg -> ${catalogue}`]);
  expect(usesIn(text, "P1")).toEqual(new Array(3).fill(`hole P1 -> ${catalogue}`));
  expect(usesIn(text, "cap")).toEqual([]);
});

test("views, values and landmarks are found at every use, those in order of the text", () => {
  const text = planWith("  status for-review\n", "  let deep = scar - 350 mm\n").replace("sunk 8 mm", "sunk deep");
  expect(usesIn(text, "deep", "scar")).toEqual([`landmark scar -> ${planFile}`, `value deep -> ${planFile}`]);
  const { uses } = meaningOf(text).references;
  expect(uses.filter((use) => use.kind === "view" && use.name === "lateral")).toHaveLength(6);
  expect(uses.map((use) => use.span.start)).toEqual(uses.map((use) => use.span.start).toSorted((a, b) => a - b));
});

test("a use of a name that is never given stands there without a declaration", () => {
  expect(usesIn(planWith("sunk 8 mm", "sunk deep + deep on above"), "deep", "above")).toEqual([
    "value deep -> nowhere",
    "value deep -> nowhere",
    "view above -> nowhere",
  ]);
});

test("a catalogue declares its own names and uses its families", () => {
  const { declarations, uses } = meaningOf(catalogueText).references;
  expect(declarations.map(({ kind, name }) => `${kind} ${name}`)).toEqual([
    "nail fenwick",
    "screws peg",
    "hole P2",
    "hole P1",
    "hole D2",
    "hole D1",
  ]);
  expect(uses.map(({ kind, name }) => `${kind} ${name}`)).toEqual(new Array(4).fill("screws peg"));
});

test("a protocol uses limits, findings and words that the tool declares", () => {
  const { declarations, uses } = meaningOf(protocolText).references;
  expect(declarations).toEqual([]);
  expect(uses.map(({ kind, name }) => `${kind} ${name}`)).toEqual([
    "limit sagittal",
    "limit tip-beyond-cortex",
    "finding cap-missing",
    "word time-out",
    "word antibiotic",
  ]);
});
