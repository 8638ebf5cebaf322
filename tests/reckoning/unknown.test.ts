/**
 * What is unknown stays unknown with its first cause, what has no meaning for the plan is absent, and everything that does not depend on
 * the missing part is reckoned as before.
 */
import { describe, expect, test } from "vitest";
import type { Plan } from "../../server/meaning/plan.ts";
import { print } from "../../server/quantity/print.ts";
import { answerOf, reckon } from "../../server/reckoning/reckon.ts";
import { knownOf, reasonOf, workedWith } from "./answers-of.ts";
import { of } from "./worked-numbers.ts";

describe("a part that is not given", () => {
  const rows: readonly (readonly [string, Plan, readonly string[], string])[] = [
    [
      "scar and plafond",
      workedWith({ scar: undefined, plafond: undefined }),
      ["length.available", "length.longest", "length.margin", "length.next", "length.nextMargin"],
      "neither a landmark scar nor a landmark plafond is given",
    ],
    [
      "scar and plafond",
      workedWith({ scar: undefined, plafond: undefined }),
      ["tip.toScar"],
      "no landmark scar is given",
    ],
    ["plafond", workedWith({ plafond: undefined }), ["tip.toPlafond", "segment"], "no landmark plafond is given"],
    [
      "canal",
      workedWith({ canals: [] }),
      ["canal.isthmus", "canal.isthmusLevel", "ream.start", "ream.overIsthmus", "fit.ratio", "fit.play"],
      "no width of the canal is given",
    ],
    ["canal", workedWith({ canals: [] }), ["fit.play.proximal", "gap.motion.most"], "no width of the canal is given"],
    ["bone", workedWith({ bones: [] }), ["hole.P1.path"], "no width of the bone is given"],
    [
      "bone",
      workedWith({ bones: [] }),
      ["ream.cortexLeft"],
      "at no level are the width of the bone and of the canal both known",
    ],
    [
      "square",
      workedWith({ proximalSquare: undefined }),
      ["segment"],
      "the width of the proximal epiphysis is not given",
    ],
    [
      "gap",
      workedWith({ fracture: { from: of(208), to: of(232) } }),
      ["compression.gapLeft", "gap.strain.least", "gap.strain.most"],
      "no gap of the fracture is given",
    ],
    [
      "drilled",
      workedWith({ locks: [{ hole: "P1", screw: 52 }] }),
      ["screw.P1.beyond", "screw.P1.best"],
      "it is not given how far hole P1 is drilled",
    ],
    [
      "screw",
      workedWith({ locks: [{ hole: "P1", drilled: of(51) }] }),
      ["screw.P1.beyond"],
      "the length of the screw in hole P1 is not given",
    ],
    [
      "screws of a fragment",
      workedWith({ locks: [{ hole: "P1" }] }),
      ["span.working", "gap.motion.least"],
      "no screw is planned in the distal fragment",
    ],
    [
      "load and weight",
      workedWith({ load: undefined, weight: undefined }),
      ["gap.motion.most", "screw.P1.stress.least"],
      "neither a partial load nor a body weight is given",
    ],
    [
      "another material",
      workedWith({ material: "steel" }),
      ["nail.torsion"],
      "Poisson's ratio of steel is not known here",
    ],
    [
      "lesser trochanter of a femur",
      workedWith({ bone: "femur" }),
      ["segment"],
      "the proximal end of a femur is not told by a square: it ends at the lesser trochanter, and no landmark lesser-trochanter is given",
    ],
    [
      "proximal end of a humerus",
      workedWith({ bone: "humerus" }),
      ["segment"],
      "the proximal end of a humerus is not told by a square, and no other bound of it is known",
    ],
    ["another bone still", workedWith({ bone: "radius" }), ["segment"], "the ends of this bone are not known"],
    [
      "scar of a femur",
      workedWith({ bone: "femur", scar: undefined }),
      ["length.available", "length.longest", "length.margin"],
      "no landmark scar is given, and how far a nail stays off the joint is known for the tibia alone",
    ],
    [
      "joint of a humerus",
      workedWith({ bone: "humerus", plafond: undefined }),
      ["tip.toPlafond"],
      "no landmark joint is given",
    ],
    [
      "load of a humerus",
      workedWith({ bone: "humerus", load: undefined }),
      ["gap.motion.least", "gap.strain.most", "screw.P1.stress.most"],
      "an arm does not carry the body, and no partial load is given",
    ],
  ];

  test.each(rows)("%s", (_part, plan, ids, because) => {
    for (const id of ids) {
      expect([id, reasonOf(plan, id)]).toEqual([id, because]);
    }
  });

  test("the rest stays as it was", () => {
    const whole = reckon(workedWith({}));
    for (const plan of [workedWith({ scar: undefined }), workedWith({ canals: [] }), workedWith({ bones: [] })]) {
      for (const id of ["nail.tip", "hole.D1.level", "compression.left", "nail.bending", "screw.P1.beyond"]) {
        expect(print(answerOf(reckon(plan), id), "mm")).toBe(print(answerOf(whole, id), "mm"));
      }
    }
  });
});

describe("what has no meaning for the plan is absent", () => {
  const rows: readonly (readonly [string, Plan, readonly string[]])[] = [
    [
      "no compression",
      workedWith({ turns: undefined }),
      ["compression.amount", "compression.left", "compression.gapLeft"],
    ],
    [
      "unreamed",
      workedWith({ heads: undefined }),
      [
        "ream.final",
        "ream.over",
        "ream.heads",
        "ream.step",
        "ream.start",
        "ream.overIsthmus",
        "ream.removed",
        "ream.cortexLeft",
      ],
    ],
    ["one head", workedWith({ heads: [11] }), ["ream.step"]],
    ["no cap", workedWith({ cap: "none" }), ["cap.top"]],
    ["no dynamisation", workedWith({}), ["dynamisation.left", "nail.topDynamised", "nail.tipDynamised"]],
    [
      "no fracture",
      workedWith({ fracture: undefined }),
      [
        "level.fracture.from",
        "segment",
        "hole.P1.toFracture",
        "fragment.proximal.screws",
        "span.working",
        "gap.motion.most",
        "fit.play.proximal",
      ],
    ],
    ["a scar less", workedWith({ scar: undefined }), ["tip.toScar", "level.scar"]],
    ["the longest listed length fits", workedWith({ lengths: [330, 345] }), ["length.next", "length.nextMargin"]],
    ["no alignment", workedWith({}), ["alignment.true", "alignment.plane", "alignment.achieved.true"]],
  ];

  test.each(rows)("%s", (_part, plan, ids) => {
    expect(ids.map((id) => [id, reasonOf(plan, id)])).toEqual(ids.map((id) => [id, "absent"]));
  });
});

describe("a part that could not be read", () => {
  const cause = { kind: "unknown", because: "the canal could not be read" } as const;

  test("makes the isthmus unknown, and all that stands on it, rather than the rest of the canal narrower or wider", () => {
    const plan = workedWith({});
    const [first, ...rest] = plan.measures.canals;
    if (first?.width === undefined) throw new Error("the worked plan has canal widths");
    const canals = [{ ...first, width: { ...first.width, quantity: cause } }, ...rest];
    const broken = { ...plan, measures: { ...plan.measures, canals } };
    for (const id of ["canal.isthmus", "fit.ratio", "fit.play.distal", "ream.start", "ream.removed"]) {
      expect([id, reasonOf(broken, id)]).toEqual([id, cause.because]);
    }
    expect(reasonOf(broken, "ream.over")).toBe("known");
  });

  test("without the nail step every level on the nail is unknown", () => {
    const plan = workedWith({});
    const bare = { ...plan, steps: plan.steps.filter((step) => step.kind !== "nail") };
    for (const id of [
      "nail.top",
      "nail.tip",
      "nail.topAfter",
      "length.available",
      "hole.P1.level",
      "ream.over",
      "fit.ratio",
      "nail.bending",
      "cap.top",
      "span.working",
    ]) {
      expect([id, reasonOf(bare, id)]).toEqual([id, "no nail is planned"]);
    }
    expect(reasonOf(bare, "level.scar")).toBe("known");
  });

  test("without the catalogue everything it lists is unknown", () => {
    const plan = { ...workedWith({ dynamise: ["P1"] }), nail: undefined, screwFamilies: [] };
    const because = "nail fenwick is in no catalogue that was read";
    for (const id of [
      "length.longest",
      "hole.P1.level",
      "compression.amount",
      "compression.left",
      "nail.topAfter",
      "dynamisation.left",
      "nail.topDynamised",
      "overinsertion.needed",
      "nail.bending",
      "nail.torsion",
      "fragment.proximal.screws",
      "span.working",
      "screw.P1.best",
    ]) {
      expect([id, reasonOf(plan, id)]).toEqual([id, because]);
    }
    expect(print(knownOf(plan, "screw.P1.beyond"), "mm")).toBe("1 mm");
    expect(print(knownOf(plan, "length.available"), "mm")).toBe("353.7 mm ± 3.1 mm");
  });

  test("a hole the nail does not have", () => {
    const plan = workedWith({ locks: [{ hole: "X9", drilled: of(31), screw: 32 }] });
    expect(reasonOf(plan, "hole.X9.level")).toBe("nail fenwick lists no place for hole X9");
    expect(reasonOf(plan, "fragment.distal.screws")).toBe("nail fenwick lists no place for hole X9");
    expect(reasonOf(plan, "screw.X9.best")).toBe("nail fenwick lists no hole X9");
    expect(reasonOf(plan, "screw.X9.beyond")).toBe("known");
    expect(reckon(plan).byId.get("hole.X9.level")?.from).toHaveLength(1);
  });

  test("a value of another dimension never gets into a formula", () => {
    const plan = workedWith({});
    const steps = plan.steps.map((step) => {
      if (step.kind !== "nail" || plan.case?.weight === undefined) return step;
      return { ...step, sunk: plan.case.weight };
    });
    expect(reasonOf({ ...plan, steps }, "nail.top")).toBe("a length was expected, not a mass");
    expect(reasonOf({ ...plan, steps }, "hole.P1.level")).toBe("a length was expected, not a mass");
  });
});

test("answerOf says why it has no number", () => {
  const reckonings = reckon(workedWith({}));
  expect(answerOf(reckonings, "segment")).toEqual({ kind: "unknown", because: "segment is a word, not a number" });
  expect(answerOf(reckonings, "cap.height")).toEqual({
    kind: "unknown",
    because: "cap.height is not reckoned for this plan",
  });
});
