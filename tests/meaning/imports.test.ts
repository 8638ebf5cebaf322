/** Files a plan reads: what is told of one that is missing, outside, of another kind, circular, or gives a name twice. */
import { describe, expect, test } from "vitest";
import { parse } from "../../grammar/parse.ts";
import { exampleCatalogue as catalogueText, examplePlan as planText } from "../../server/findings/example.ts";
import type { Library } from "../../server/meaning/library.ts";
import { library, libraryOf, meaningOf, planFile, planWith, problemsOf, understoodPlan } from "./texts.ts";

const use = '"catalogue/fenwick.isthmus"';
const follow = '"protocol/teaching.isthmus"';

describe("a file that cannot be used is told at its path, and nothing else for it", () => {
  test.each([
    ["missing", planWith(use, '"catalogue/nowhere.isthmus"'), "file-missing", '"catalogue/nowhere.isthmus"'],
    ["a folder", planWith(use, '"catalogue/"'), "file-missing", '"catalogue/"'],
    ["outside", planWith(use, '"../else.isthmus"'), "file-outside", '"../else.isthmus"'],
    ["a protocol for a catalogue", planWith(use, follow), "file-missing", follow],
    ["a catalogue for a protocol", planWith(follow, use), "file-missing", use],
    ["itself", planWith(use, `"${planFile}"`), "file-circular", `"${planFile}"`],
    ["itself as a protocol", planWith(follow, `"${planFile}"`), "file-circular", `"${planFile}"`],
  ])("%s", (_, text, slug, path) => {
    expect(problemsOf(text)).toEqual([`${slug} ${path}`]);
  });

  test("another plan is a file of another kind", () => {
    const other = libraryOf(new Map([["other.isthmus", planText]]));
    const text = planWith(use, '"other.isthmus"').replace(`  follow ${follow}\n`, "");
    expect(problemsOf(text, other)).toEqual(['file-missing "other.isthmus"']);
    expect(meaningOf(text, other).problems[0]).toMatchObject({ expected: ["a catalogue"], inside: "a plan" });
  });

  test("a file that opens nothing is of no kind", () => {
    const other = libraryOf(new Map([["other.isthmus", "isthmus 1\n"]]));
    const text = planWith(use, '"other.isthmus"').replace(`  follow ${follow}\n`, "");
    expect(problemsOf(text, other)).toEqual(['file-missing "other.isthmus"']);
  });

  test("the plan then has no nail, and says no more about it", () => {
    const plan = understoodPlan(planWith(use, '"catalogue/nowhere.isthmus"'));
    expect(plan.nail).toBeUndefined();
    expect(plan.uses.map((used) => used.document)).toEqual([undefined]);
  });
});

describe("two catalogues", () => {
  const texts = new Map([
    ["a.isthmus", catalogueText],
    ["b.isthmus", catalogueText.replace("nail fenwick", "nail other").replaceAll("peg", "bolt")],
    ["c.isthmus", catalogueText.replaceAll("peg", "pin")],
  ]);
  const both = (second: string) =>
    planWith(`use ${use}`, `use "a.isthmus"\n  use "${second}"`).replace(`  follow ${follow}\n`, "");

  test("are both read", () => {
    const plan = understoodPlan(both("b.isthmus"), libraryOf(texts));
    expect(plan.problems).toEqual([]);
    expect(plan.screwFamilies.map((family) => family.name.text)).toEqual(["peg", "bolt"]);
    expect(plan.nail?.name.place.file).toBe("a.isthmus");
  });

  test("that give one name leave it open which is meant", () => {
    expect(problemsOf(both("c.isthmus"), libraryOf(texts))).toEqual(['name-repeated "c.isthmus"']);
    expect(problemsOf(both("a.isthmus"), libraryOf(texts))).toEqual(['name-repeated "a.isthmus"']);
  });
});

test("what is wrong inside a catalogue is told in the catalogue alone", () => {
  const broken = catalogueText.replace("lengths 240 mm to 420 mm by 15 mm", "lengths 240 mm to 420 mm by 0 mm");
  const other = libraryOf(new Map([["catalogue/fenwick.isthmus", broken]]));
  const text = planText.replace(`  follow ${follow}\n`, "");
  expect(problemsOf(text, other)).toEqual([]);
  const lengths = understoodPlan(text, other).nail?.lengths?.sizes.map((size) => size.quantity.kind);
  expect(lengths).toEqual(["unknown"]);
  expect(problemsOf(broken)).toEqual(["unreadable 240 mm to 420 mm by 0 mm"]);
});

test("a file is understood once for each text it had", () => {
  const parsed = parse(catalogueText);
  const one: Library = {
    ...library,
    open: (from, path) =>
      path === "catalogue/fenwick.isthmus" ? { kind: "read", file: path, parsed } : library.open(from, path),
  };
  const [first, second] = [understoodPlan(planText, one), understoodPlan(planText, one)];
  expect(first.uses[0]?.document).toBeDefined();
  expect(first.uses[0]?.document).toBe(second.uses[0]?.document);
});
