/**
 * What a catalogue, a protocol or a list of heads leaves out, and what is given twice: the answer that cannot be reckoned names its
 * reason, and nothing else changes.
 */
import { describe, expect, test } from "vitest";
import type { CatalogueNail, Landmark, Place, Plan, ScrewFamily, Typed } from "../../server/meaning/plan.ts";
import { exact, unknown } from "../../server/quantity/arithmetic.ts";
import { freedEnd } from "../../server/reckoning/dynamisation.ts";
import { typedEdgesOf } from "../../server/reckoning/given.ts";
import { earlier, quantityOf } from "../../server/reckoning/ledger.ts";
import { reckon } from "../../server/reckoning/reckon.ts";
import { typedOperand } from "../../server/reckoning/writing.ts";
import { numberOf, reasonOf, workedWith } from "./answers-of.ts";
import { of, worked } from "./worked-numbers.ts";

const place: Place = { file: "by-hand.isthmus", span: { start: 1, end: 2 } };
const unreadable: Typed = { quantity: unknown("the number could not be read"), place };

function withNail(plan: Plan, change: (nail: CatalogueNail) => CatalogueNail): Plan {
  if (plan.nail === undefined) throw new Error("the worked plan has a nail");
  return { ...plan, nail: change(plan.nail) };
}

function withPegs(plan: Plan, change: Partial<ScrewFamily>): Plan {
  return { ...plan, screwFamilies: plan.screwFamilies.map((family) => ({ ...family, ...change })) };
}

describe("a reamer head that could not be read", () => {
  const heads = (at: number): Plan => {
    const plan = workedWith({});
    const steps = plan.steps.map((step) =>
      step.kind === "ream"
        ? {
            ...step,
            heads: { ...step.heads, sizes: step.heads.sizes.map((size, i) => (i === at ? unreadable : size)) },
          }
        : step,
    );
    return { ...plan, steps };
  };

  test("as the last one leaves all unknown that stands on it", () => {
    for (const id of ["ream.final", "ream.over", "ream.removed", "ream.heads", "ream.step", "fit.ratio", "fit.play"]) {
      expect([id, reasonOf(heads(5), id)]).toEqual([id, "the number could not be read"]);
    }
    expect(numberOf(heads(5), "ream.start")).toBeCloseTo(8.5 - 12.2 / 1.16, 12);
  });

  test("as an earlier one leaves the last head and the volume as they are", () => {
    expect(numberOf(heads(2), "ream.removed", "ml")).toBe(numberOf(workedWith({}), "ream.removed", "ml"));
    expect(numberOf(heads(2), "ream.over")).toBe(1);
    expect(reasonOf(heads(2), "ream.step")).toBe("the number could not be read");
    expect(reckon(heads(2)).byId.get("ream.removed")?.remark).not.toContain("9.5 mm");
    expect(reasonOf(heads(0), "ream.start")).toBe("the number could not be read");
  });
});

test("a head beyond all numbers removes no number", () => {
  const because = "the number is too large to reckon with";
  expect(reasonOf(workedWith({ heads: [8.5, 1e80] }), "ream.removed")).toBe(because);
  expect(reckon(workedWith({ heads: [8.5, 1e80] })).byId.get("ream.removed")?.remark).toBeUndefined();
});

describe("a catalogue that leaves something out", () => {
  test("the material of the nail", () => {
    const plan = withNail(workedWith({}), (nail) => ({ ...nail, material: undefined }));
    expect(reasonOf(plan, "nail.torsion")).toBe("nail fenwick lists no material");
    expect(numberOf(plan, "nail.bending", "N·m²")).toBe(numberOf(workedWith({}), "nail.bending", "N·m²"));
  });

  test("modulus, bore, pitch and travel", () => {
    const plan = withNail(workedWith({}), (nail) => ({ ...nail, modulus: undefined, bore: undefined }));
    expect(reasonOf(plan, "nail.bending")).toBe("nail fenwick lists no modulus");
    expect(reasonOf(plan, "gap.motion.least")).toBe("nail fenwick lists no modulus");
    const solid = withNail(workedWith({}), (nail) => ({ ...nail, bore: undefined }));
    expect(reasonOf(solid, "nail.bending")).toBe("nail fenwick lists no bore");
    const without = withNail(workedWith({}), (nail) => ({ ...nail, compression: undefined }));
    expect(reasonOf(without, "compression.amount")).toBe("nail fenwick lists no pitch of a compression screw");
    expect(reasonOf(without, "nail.topAfter")).toBe("nail fenwick lists no pitch of a compression screw");
    const direct = withNail(workedWith({ turns: undefined, compress: of(2) }), (nail) => ({
      ...nail,
      compression: undefined,
    }));
    expect(reasonOf(direct, "compression.left")).toBe("nail fenwick lists no compression travel");
    expect(numberOf(direct, "compression.amount")).toBe(2);
  });

  test("the place of a hole that no screw goes through", () => {
    const plan = withNail(workedWith({ locks: [{ hole: "D1" }] }), (nail) => ({
      ...nail,
      holes: nail.holes.map((hole) => (hole.name.text === "P1" ? { ...hole, end: undefined } : hole)),
    }));
    expect(reasonOf(plan, "hole.P1.level")).toBe("nail fenwick lists no place for hole P1");
    expect(reckon(plan).byId.get("hole.P1.level")?.from).toEqual([]);
    expect(numberOf(plan, "fragment.distal.screws", "1")).toBe(1);
  });

  test("the distance of a hole, at either end", () => {
    const plan = withNail(workedWith({}), (nail) => ({
      ...nail,
      holes: nail.holes.map((hole) => ({ ...hole, distance: undefined })),
    }));
    expect(reasonOf(plan, "hole.P1.level")).toBe("nail fenwick lists no distance for hole P1");
    expect(reasonOf(plan, "hole.D1.level")).toBe("nail fenwick lists no distance for hole D1");
    expect(reasonOf(plan, "span.working")).toBe("nail fenwick lists no distance for hole D2");
  });

  test("the direction of a hole", () => {
    const plan = withNail(workedWith({}), (nail) => ({
      ...nail,
      holes: nail.holes.map((hole) => (hole.name.text === "P1" ? { ...hole, runs: undefined } : hole)),
    }));
    expect(reckon(plan).byId.get("fragment.proximal.screws")?.remark).toBe("1 medial-lateral, 1 of unknown direction");
    expect(numberOf(plan, "fragment.proximal.screws", "1")).toBe(2);
  });

  test("the core of a screw, or the screw itself", () => {
    const plan = withPegs(workedWith({}), { core: undefined });
    for (const id of ["screw.P1.stress.least", "gap.motion.most"]) {
      expect([id, reasonOf(plan, id)]).toEqual([id, "screw family peg lists no core"]);
    }
    const none = { ...workedWith({}), screwFamilies: [] };
    expect(reasonOf(none, "screw.P1.stress.most")).toBe("no listed screw goes into hole P1");
    expect(numberOf(none, "span.working")).toBe(279);
  });

  test("a place for a hole that is locked, where a dynamisation is planned", () => {
    const plan = workedWith({ locks: [...worked.locks, { hole: "X9" }], dynamise: ["P1"] });
    const because = "nail fenwick lists no place for hole X9";
    for (const id of ["dynamisation.left", "nail.topDynamised", "overinsertion.needed"]) {
      expect([id, reasonOf(plan, id)]).toEqual([id, because]);
    }
    expect(reasonOf(plan, "nail.tipDynamised")).toBe("absent");
    expect(freedEnd(plan)).toBe("untold");
  });
});

test("without a planned dynamisation every locked screw stands", () => {
  expect(freedEnd(workedWith({}))).toBe("neither");
  expect(freedEnd(workedWith({ locks: [{ hole: "P2" }] }))).toBe("top");
});

describe("a case", () => {
  const changed = (change: (of: NonNullable<Plan["case"]>) => NonNullable<Plan["case"]>): Plan => {
    const plan = workedWith({});
    if (plan.case === undefined) throw new Error("the worked plan has a case");
    return { ...plan, case: change(plan.case) };
  };

  test.each([
    ["from", "the fracture's near edge is not given"],
    ["to", "the fracture's far edge is not given"],
  ] as const)("without the fracture's edge %s tells no side", (edge, because) => {
    const plan = changed((given) => ({
      ...given,
      fracture: given.fracture && { ...given.fracture, [edge]: undefined },
    }));
    for (const id of [`level.fracture.${edge}`, "level.fracture.centre", "segment"]) {
      expect([id, reasonOf(plan, id)]).toEqual([id, because]);
    }
    for (const id of ["fragment.proximal.screws", "fragment.distal.screws", "span.working", "hole.P1.toFracture"]) {
      expect([id, reasonOf(plan, id)]).toEqual([id, because]);
    }
    expect(reasonOf(plan, `level.fracture.${edge === "to" ? "from" : "to"}`)).toBe("known");
  });

  test("without its bone has no segments", () => {
    expect(
      reasonOf(
        changed((given) => ({ ...given, bone: undefined })),
        "segment",
      ),
    ).toBe("no bone is given");
  });
});

test("without a fracture there are no edges to ask for", () => {
  const { from, to } = typedEdgesOf(workedWith({ fracture: undefined }));
  expect([from.quantity, to.quantity]).toEqual([unknown("no fracture is given"), unknown("no fracture is given")]);
});

test("a nail that is not named is in no catalogue", () => {
  const plan = workedWith({});
  const steps = plan.steps.map((step) => (step.kind === "nail" ? { ...step, name: undefined } : step));
  const because = "no nail of a catalogue is named";
  for (const id of ["length.longest", "hole.P1.level", "nail.bending", "nail.torsion", "compression.amount"]) {
    expect([id, reasonOf({ ...plan, steps, nail: undefined }, id)]).toEqual([id, because]);
  }
});

test("a unit that is none leaves the number unknown rather than bare", () => {
  const operand = typedOperand("sunk", "furlong", { quantity: exact(8, "mm"), place }, "");
  expect(operand.quantity).toEqual(unknown("there is no unit furlong"));
  expect(typedOperand("sunk", "mm", { quantity: exact(8, "mm"), place }, "").quantity).toEqual(exact(8, "mm"));
});

describe("measures", () => {
  test("a level of the canal that could not be read leaves the shape of the canal unknown, not its isthmus", () => {
    const plan = workedWith({});
    const [first, ...rest] = plan.measures.canals;
    if (first === undefined) throw new Error("the worked plan has canal widths");
    const canals = [{ ...first, level: unreadable }, ...rest];
    const broken = { ...plan, measures: { ...plan.measures, canals } };
    for (const id of ["ream.removed", "fit.play.proximal", "gap.motion.most"]) {
      expect([id, reasonOf(broken, id)]).toEqual([id, "the number could not be read"]);
    }
    expect(numberOf(broken, "canal.isthmus")).toBeCloseTo(12.2 / 1.16, 12);
    const depthless = {
      ...plan,
      measures: { ...plan.measures, canals: canals.slice(1).map((each) => ({ ...each, depth: undefined })) },
    };
    expect(reasonOf(depthless, "ream.removed")).toBe("no depth of the canal is given");
  });

  test("a landmark given twice is reckoned once, the first", () => {
    const plan = workedWith({});
    const scar = plan.measures.landmarks.find(({ name }) => name.text === "scar");
    if (scar === undefined) throw new Error("the worked plan has a scar");
    const other: Landmark = { ...scar, level: { quantity: exact(300, "mm"), place } };
    const twice = { ...plan, measures: { ...plan.measures, landmarks: [...plan.measures.landmarks, other] } };
    const { list } = reckon(twice);
    expect(list.filter(({ id }) => id === "level.scar")).toHaveLength(1);
    expect(numberOf(twice, "level.scar")).toBe(numberOf(plan, "level.scar"));
    expect(numberOf(twice, "length.available")).toBe(numberOf(plan, "length.available"));
  });
});

test("a protocol that could not be read sets no limit", () => {
  const plan = workedWith({ locks: [{ hole: "P1", drilled: of(51), screw: 52 }] });
  const follows = [{ path: { text: "missing.isthmus", place }, document: undefined }];
  expect(numberOf({ ...plan, follows }, "screw.P1.best")).toBe(52);
});

describe("the ledger", () => {
  const plan = workedWith({});
  const { byId } = reckon(plan);

  test("an earlier answer comes with its places", () => {
    const tip = earlier({ plan, byId }, "nail.tip", "tip");
    expect([tip.name, tip.unit, tip.from.length]).toEqual(["tip", "mm", 2]);
    expect(tip.quantity).toMatchObject({ kind: "known", value: 353 });
  });

  test("one that is not there is unknown, a word is no number", () => {
    const absent = earlier({ plan, byId: new Map() }, "nail.tip", "tip");
    expect(absent).toEqual({
      name: "tip",
      quantity: unknown("nail.tip is not reckoned for this plan"),
      unit: "1",
      from: [],
    });
    expect(earlier({ plan, byId }, "segment", "segment").quantity).toEqual(
      unknown("segment of the fracture is a word, not a number"),
    );
    expect(quantityOf(byId, "segment")).toEqual(unknown("segment is a word, not a number"));
  });
});

test("every reckoning of every part has a place in the list, in the order of the operation", () => {
  const ids = reckon(
    workedWith({
      dynamise: ["P1"],
      backslap: of(1),
      alignment: { coronal: [of(5), "varus"], sagittal: [of(3), "recurvatum"] },
    }),
  ).list.map(({ id }) => id);
  const first = (beginning: string): number =>
    ids.findIndex((id) => id === beginning || id.startsWith(`${beginning}.`));
  const order = [
    ...["magnification", "level", "canal", "segment", "length", "nail.top", "nail.tip", "nail.topAfter"],
    ...["nail.topDynamised", "cap", "overinsertion", "ream", "fit", "hole", "screw", "compression", "dynamisation"],
    ...["fragment", "span", "tip", "alignment", "nail.bending", "nail.torsion", "gap", "compartment", "tray"],
    "steps",
  ];
  const places = order.map(first);
  expect(places[0]).toBe(0);
  expect(places).toEqual([...places].sort((a, b) => a - b));
  expect(new Set(places).size).toBe(order.length);
});
