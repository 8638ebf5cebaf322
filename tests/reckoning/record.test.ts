/** What the record of a reckoning carries besides its number: label, basis, places and remark, also where parts of the plan are missing. */
import { describe, expect, test } from "vitest";
import { exampleCatalogue, exampleDocument } from "../../server/findings/example.ts";
import type { Place, Plan } from "../../server/meaning/plan.ts";
import { constant } from "../../server/quantity/arithmetic.ts";
import { unit as unitOf } from "../../server/quantity/units.ts";
import { edgesOf, gapOf, typedEdgesOf } from "../../server/reckoning/given.ts";
import { reckon } from "../../server/reckoning/reckon.ts";
import type { Basis, Reckoning } from "../../server/reckoning/reckoning.ts";
import { segmentEdges } from "../../server/reckoning/segment.ts";
import {
  called,
  fixedOperand,
  inWords,
  reckoned,
  type Written,
  written,
  writtenAfter,
  writtenList,
} from "../../server/reckoning/writing.ts";
import { exampleWith, numberOf, reasonOf } from "./answers-of.ts";

type Change = readonly [from: string, to: string];

function recordOf(plan: Plan, id: string): Reckoning {
  const found = reckon(plan).byId.get(id);
  if (found === undefined) throw new Error(`${id} is not reckoned`);
  return found;
}

/** What the places of a record hold of the example's plan and catalogue. */
function textsOf(change: readonly Change[], id: string): readonly string[] {
  const { text } = exampleDocument({ change });
  const catalogue = change.reduce((so, [from, to]) => so.replace(from, to), exampleCatalogue);
  return recordOf(exampleWith(...change), id).from.map(({ file, span }) =>
    (file === "plan.isthmus" ? text : catalogue).slice(span.start, span.end),
  );
}

const scar: Change = ["landmark scar 416", "landmark knee-joint 14 mm on ap\n    landmark scar 416"];
const blocking: Change = ["    wire ball-tip", "    wire ball-tip\n    block at 100 mm, side lateral, screw 40 mm"];
const byLength: Change = ["compress 2 turns", "compress 2.5 mm"];
const marks: readonly Basis["mark"][] = [
  "printed",
  "computed",
  "common practice",
  "from memory",
  "catalogue",
  "department's choice",
];

test("each has a label, a unit, a formula and a basis that says what it is", () => {
  const dynamised: Change = ["  aftercare {", "  aftercare {\n    dynamise at 8 weeks, remove P1"];
  const achieved: Change = [
    "  removal {",
    "  achieved {\n    alignment coronal 2 deg varus, short 3 mm\n  }\n\n  removal {",
  ];
  const { list } = reckon(exampleWith(scar, blocking, byLength, dynamised, achieved));
  expect(list.length).toBeGreaterThan(75);
  for (const { id, label, unit, formula, filled, basis } of list) {
    expect([id, label.length > 3, formula.length > 3, filled !== ""]).toEqual([id, true, true, true]);
    expect([id, unitOf(unit) !== undefined]).toEqual([id, true]);
    expect([id, marks.includes(basis.mark), basis.text.length > 7]).toEqual([id, true, true]);
  }
  const labels = new Map(list.map(({ id, label }) => [id, label]));
  expect(labels.get("nail.toKneeJoint")).toBe("driving end of the nail below the knee joint");
  expect(labels.get("alignment.achieved.true")).toBe("true angulation as achieved");
  expect(labels.get("alignment.achieved.shortening")).toContain("as achieved");
});

test("the ids stand in the order in which they are read", () => {
  const slotted: Change = [
    "hole D1, tip 12 mm, runs medial-lateral",
    "hole D1, tip 12 mm, runs medial-lateral, slot 4 mm",
  ];
  const dynamised: Change = ["  aftercare {", "  aftercare {\n    dynamise at 8 weeks, remove D2"];
  const ids = reckon(exampleWith(scar, slotted, dynamised)).list.map(({ id }) => id);
  expect(ids.slice(0, 3)).toEqual(["magnification.ap", "magnification.lateral", "level.knee-joint"]);
  const from = ids.indexOf("nail.top");
  expect(ids.slice(from, ids.indexOf("cap.top"))).toEqual([
    "nail.top",
    "nail.tip",
    "nail.topAfter",
    "nail.toKneeJoint",
    "nail.tipDynamised",
  ]);
  const { label, formula } = recordOf(exampleWith(scar, slotted, dynamised), "nail.tipDynamised");
  expect([label, formula]).toEqual(["tip of the nail once dynamised", "tip + slot travel left"]);
  expect(recordOf(exampleWith(scar), "nail.toKneeJoint").formula).toBe("top after - knee-joint");
});

test("what is not given is said where it is asked for", () => {
  const said = (id: string, ...change: readonly Change[]) => reasonOf(exampleWith(...change), id);
  expect(said("nail.topAfter", ["compress 2 turns", "backslap"])).toBe(
    "it is not given how far the nail is drawn back",
  );
  expect(said("cap.top", ["cap 5 mm", "cap"])).toBe("the extension of the cap is not given");
  expect(said("nail.bending", ["    bore 5 mm\n", ""])).toBe("nail fenwick lists no bore");
  const undirected = exampleWith(["hole D2, tip 26 mm, runs medial-lateral", "hole D2, tip 26 mm"]);
  expect(recordOf(undirected, "hole.D2.path").formula).toBe("path");
});

test("a slot that compression uses up to its end leaves the driving end where it is", () => {
  // 4.8 turns of 1.25 mm are the slot's 6 mm.
  const plan = exampleWith(
    ["compress 2 turns", "compress 4.8 turns"],
    ["  aftercare {", "  aftercare {\n    dynamise at 8 weeks, remove P1"],
  );
  expect(numberOf(plan, "dynamisation.left")).toBe(0);
  expect(numberOf(plan, "nail.topDynamised")).toBe(numberOf(plan, "nail.topAfter"));
});

test("the load is the partial one that is allowed, also where none is before", () => {
  const partial = "weight-bearing partial 20 kg, until 6 weeks";
  const after = exampleWith([partial, `weight-bearing tolerated, until 2 weeks\n    ${partial}`]);
  expect(recordOf(after, "gap.motion.least").filled).toBe(recordOf(exampleWith(), "gap.motion.least").filled);
  expect(recordOf(after, "gap.motion.least").filled).toContain("196.1");
});

test("a fracture at one level has edges", () => {
  const plan = exampleWith(["from 208 mm on ap to 232 mm on ap", "from 208 mm on ap to 208 mm on ap"]);
  expect(edgesOf(plan).to.quantity.kind).toBe("known");
});

test("two screws that stay hold the slot's end together", () => {
  const plan = exampleWith(
    ["hole P1, top 40 mm", "hole P0, top 52 mm, runs medial-lateral, takes peg\n    hole P1, top 40 mm"],
    ["    cap 5 mm", "    lock P0, drilled 50 mm, screw 52 mm\n    cap 5 mm"],
    ["  aftercare {", "  aftercare {\n    dynamise at 8 weeks, remove D1"],
  );
  expect(recordOf(plan, "dynamisation.left").remark).toBe("P0 and P1 still hold that end");
});

describe("places", () => {
  test.each<[string, readonly Change[], readonly string[]]>([
    [
      "alignment.true",
      [],
      [
        "9 deg",
        "6 deg",
        "alignment coronal 9 deg varus, sagittal 6 deg procurvatum, rotation 12 deg external, short 8 mm",
      ],
    ],
    ["nail.toKneeJoint", [scar], ["8 mm", "2 turns", "1.25 mm", "14 mm on ap"]],
    [
      "block.1.offset",
      [blocking],
      ["8.5 mm to 11 mm by 0.5 mm", "4.6 mm", "block at 100 mm, side lateral, screw 40 mm"],
    ],
    [
      "magnification.ap",
      [["view ap, marker 25 mm, seen 28.75 mm ± 0.2 mm", "view ap, true-size"]],
      ["view ap, true-size"],
    ],
    ["nail.torsion", [], ["110 GPa", "10 mm", "5 mm", "titanium-alloy"]],
    [
      "hole.D2.path",
      [["hole D2, tip 26 mm, runs medial-lateral", "hole D2, tip 26 mm"]],
      ["hole D2, tip 26 mm, takes peg"],
    ],
  ])("of %s", (id, change, expected) => {
    expect(textsOf(change, id)).toEqual(expected);
  });

  const at = (start: number): Place => ({ file: "a", span: { start, end: start + 1 } });
  const operand = (name: string, start: number) => fixedOperand(name, constant(1, "mm"), "mm", [at(start)]);
  const basis: Basis = { mark: "computed", text: "for a test" };
  const record = (by: Written) => reckoned({ id: "a", label: "a", answer: constant(2, "mm"), unit: "mm", by, basis });

  test("each stands once, those of words after those of numbers", () => {
    const first = { ...written`${operand("a", 1)} + ${operand("b", 2)}`, also: [at(9)] };
    const both = writtenAfter(first, { ...written` + ${operand("a", 1)}`, also: [at(2), at(8)] });
    expect(record(both).from.map(({ span }) => span.start)).toEqual([1, 2, 9, 8]);
    expect(record(inWords("as typed", [at(4), at(4)])).from).toEqual([at(4)]);
  });

  test("of nothing a list is its brackets", () => {
    expect(record(writtenList("min(", [], ", ", ")")).formula).toBe("min()");
  });
});

describe("a remark", () => {
  const basis: Basis = { mark: "computed", text: "for a test" };
  const record = (remark?: string | (() => string)) =>
    reckoned({
      id: "a",
      label: "a",
      answer: constant(2, "mm"),
      unit: "mm",
      by: inWords("as typed", []),
      basis,
      remark,
    });

  test("is there to be read and copied, or not there at all", () => {
    expect(Object.keys(record("so it is"))).toContain("remark");
    expect(record(() => "so it is").remark).toBe("so it is");
    expect("remark" in record()).toBe(false);
    expect("remark" in record("")).toBe(false);
  });

  test("falls with a number that is withheld", () => {
    const wrong = { ...constant(2, "mm"), enclosure: { low: 3, high: 4 } };
    const { answer, ...rest } = reckoned({
      ...{ id: "a", label: "a", answer: wrong, unit: "mm", by: inWords("as typed", []), basis },
      remark: "so it is",
    });
    expect([answer.kind, "remark" in rest]).toEqual(["unknown", false]);
  });
});

test("a name alone has no power", () => {
  const one = fixedOperand("a", constant(1, "mm"), "mm");
  expect("raised" in called(one, "b")).toBe(false);
  expect(called(one, "b", "²").raised).toBe("²");
});

describe("alignment", () => {
  const alignment = "alignment coronal 9 deg varus, sagittal 6 deg procurvatum";
  test.each([
    ["coronal 5 deg varus, sagittal 0 deg procurvatum", "0 deg"],
    ["coronal 0 deg varus, sagittal 5 deg procurvatum", "90 deg"],
    ["coronal 0 deg varus, sagittal 0 deg procurvatum", "there is no angulation"],
    ["coronal 0 deg varus", "no sagittal angle is given"],
    ["sagittal 0 deg procurvatum", "no coronal angle is given"],
  ])("the plane of %s", (given, expected) => {
    const { answer } = recordOf(exampleWith([alignment, `alignment ${given}`]), "alignment.plane");
    const said = answer.kind === "known" ? `${Math.round(answer.value)} deg` : "";
    expect(answer.kind === "unknown" ? answer.because : said).toBe(expected);
  });
});

test("a plan without a case is reckoned as far as it goes", () => {
  const plan: Plan = { ...exampleWith(), case: undefined };
  expect(segmentEdges(plan).distal.level).toEqual({ kind: "unknown", because: "no bone is given" });
  expect(reasonOf(plan, "hole.P2.toFracture")).toBe("absent");
  expect(recordOf(plan, "magnification.ap").remark).toContain("none found for the leg");
  expect(typedEdgesOf(plan).from.quantity).toEqual({ kind: "unknown", because: "no fracture is given" });
  expect(gapOf(plan).quantity.kind).toBe("unknown");
  expect(reasonOf(plan, "gap.motion.least")).toBe("absent");
});
