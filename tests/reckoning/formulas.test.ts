/**
 * The formula of a reckoning with its numbers filled in, worked out by a general library for mathematics and units, gives the answer that
 * stands beside it. What is a choice from a list and what is a word has no formula of that kind.
 */
import { evaluate, type Unit } from "mathjs";
import { describe, expect, test } from "vitest";
import type { Plan } from "../../server/meaning/plan.ts";
import { halfWidthIn, valueIn } from "../../server/quantity/arithmetic.ts";
import { reckon } from "../../server/reckoning/reckon.ts";
import { workedWith } from "./answers-of.ts";
import { of, worked } from "./worked-numbers.ts";

/** Chosen, counted or added up along the canal rather than worked out from the formula. */
const chosen =
  /^(length\.(longest|next)|screw\.\w+\.best|fragment\.\w+\.screws|ream\.(heads|removed)|segment|tray|steps|dynamisation\.none)$/;

/** The formula as the library reads it. */
function readable(filled: string): string {
  return filled
    .replaceAll("×", "*")
    .replaceAll("π", "pi")
    .replaceAll("√", "sqrt")
    .replaceAll(/tan²\(([^()]*)\)/g, "(tan($1))^2")
    .replaceAll("mm²", "mm^2")
    .replaceAll(/N·m²/g, "N m^2")
    .replaceAll("²", "^2")
    .replaceAll("³", "^3")
    .replaceAll("⁴", "^4")
    .replaceAll("mm/turn", "mm")
    .replaceAll(/ turns?\b/g, "")
    .replaceAll(/(-?[\d.]+) (mm\^2|N m\^2|mmHg|mm|deg|kg|GPa|MPa|N)(?![\w^])/g, "($1 $2)");
}

/** The number a formula gives in the unit of its answer; the library gives a plain number where all units cancel, and radians. */
function workedOut(filled: string, shown: string): number {
  const result: number | Unit = evaluate(readable(filled));
  if (typeof result !== "number") return result.toNumber(shown === "N·m²" ? "N m^2" : shown);
  if (shown === "%") return 100 * result;
  return shown === "deg" ? (result * 180) / Math.PI : result;
}

/** Quotients and products, which keep the digits of what is typed; the rest are differences of rounded lengths. */
const quotients = /^(nail\.(bending|torsion)|magnification|fit\.ratio|screw\.\w+\.stress|alignment\.(true|plane))/;

/** Ids whose formula does not give their answer, each with both numbers. */
function wrongIn(plan: Plan): { readonly wrong: readonly string[]; readonly tried: ReadonlySet<string> } {
  const tried = new Set<string>();
  const wrong = reckon(plan).list.flatMap(({ id, answer, filled, unit: shown }) => {
    if (answer.kind !== "known" || chosen.test(id) || filled.startsWith("no ")) return [];
    tried.add(id.replace(/\b[PD]\d\b/, "H"));
    const [found, value] = [workedOut(filled, shown), valueIn(answer, shown)];
    // The numbers in a formula are rounded where they are shown: to 0.005 mm each, or to the second digit of their ±.
    // A strain is a motion of some hundredths of a millimetre over a gap of 2 mm or more.
    const rounded = quotients.test(id) ? 0.002 * Math.abs(value) : shown === "%" ? 0.3 : 0.02;
    const allowed = rounded + 0.2 * halfWidthIn(answer, shown);
    return Math.abs(found - value) <= allowed ? [] : [`${id}: ${filled} = ${found}, not ${value}`];
  });
  return { wrong, tried };
}

describe("a formula with its numbers gives its answer", () => {
  const exactly = { ap: { marker: of(25), seen: of(28.75) }, lateral: { marker: of(25), seen: of(30) } };
  const alignment = { coronal: [of(12), "varus"], sagittal: [of(20), "recurvatum"], length: [of(8), "short"] } as const;
  const oblique = [
    { name: "P2", end: "top", distance: 28, runs: "oblique", angle: 30, tilt: 20, slot: 6 },
    { name: "P1", end: "top", distance: 40, runs: "anterior-posterior", tilt: 10 },
    { name: "D2", end: "tip", distance: 26, runs: "oblique", angle: 60 },
    { name: "D1", end: "tip", distance: 12, runs: "medial-lateral", slot: 4 },
  ] as const;
  const everything = { ...exactly, alignment, fracture: { from: of(208), to: of(232), gap: of(2) }, turns: 3 };

  test.each([
    ["the worked plan", workedWith({})],
    ["without ±", workedWith({ ...everything, backslap: of(1.5), dynamise: ["P1"] })],
    ["with ± on all", workedWith({ alignment, backslap: of(1.5, 0.4), scar: undefined, sunk: of(8, 1) })],
    ["holes in all directions, proud, lengthened", workedWith({ ...exactly, holes: oblique, sunk: of(-3) })],
    [
      "a slot at the tip",
      workedWith({ ...everything, holes: oblique, dynamise: ["D2"], turns: undefined, compress: of(3.5) }),
    ],
    ["unreamed, whole body weight", workedWith({ ...exactly, heads: undefined, load: undefined, cap: 10 })],
    ["lengthened", workedWith({ ...exactly, alignment: { length: [of(6), "long"] }, turns: 4 })],
  ])("%s", (_words, plan) => {
    expect(wrongIn(plan).wrong).toEqual([]);
  });

  test("every kind of reckoning that has a formula was tried", () => {
    const { tried } = wrongIn(workedWith({ ...everything, backslap: of(1.5), dynamise: ["P1"] }));
    const plan = workedWith({ ...everything, holes: oblique, dynamise: ["D2"], locks: worked.locks });
    const { tried: atTip } = wrongIn(plan);
    expect([...new Set([...tried, ...atTip])].sort()).toEqual(
      [
        ...["magnification.ap", "magnification.lateral", "level.scar", "level.plafond", "level.fracture.from"],
        ...["level.fracture.to", "level.fracture.centre", "canal.isthmus", "canal.isthmusLevel", "length.available"],
        ...["length.margin", "length.nextMargin", "nail.top", "nail.tip", "nail.topAfter", "nail.topDynamised"],
        ...[
          "nail.tipDynamised",
          "cap.top",
          "overinsertion.needed",
          "ream.final",
          "ream.over",
          "ream.step",
          "ream.start",
          "ream.overIsthmus",
        ],
        ...["ream.cortexLeft", "fit.ratio", "fit.play", "fit.play.proximal", "fit.play.distal", "hole.H.level"],
        ...["hole.H.toFracture", "hole.H.path", "screw.H.beyond", "screw.H.stress.least", "screw.H.stress.most"],
        ...["compression.amount", "compression.left", "compression.gapLeft", "dynamisation.left", "span.working"],
        ...["tip.toScar", "tip.toPlafond", "alignment.true", "alignment.plane", "alignment.shortening"],
        ...["nail.bending", "nail.torsion", "gap.motion.least", "gap.motion.most", "gap.strain.least"],
        ...["gap.strain.most", "compartment.gradient"],
      ].sort(),
    );
  });

  test("a wrong formula would be found", () => {
    expect(workedOut("8 mm + 345 mm - 12 mm", "mm")).toBe(341);
    expect(workedOut("110 GPa × π × ((10 mm)⁴ - (5 mm)⁴) / 64", "N·m²")).toBeCloseTo(50.62, 2);
    expect(workedOut("196.13 N × 279 mm / (110 GPa × 58.9 mm²)", "mm")).toBeCloseTo(0.008446, 6);
    expect(workedOut("atan(√(tan²(45 deg) + tan²(0 deg)))", "deg")).toBeCloseTo(45, 12);
    expect(workedOut("0.01739 mm / 3.0 mm", "%")).toBeCloseTo(0.5797, 4);
    expect(workedOut("(-3 mm) + 345 mm", "mm")).toBe(342);
  });
});
