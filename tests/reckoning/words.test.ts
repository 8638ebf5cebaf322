/**
 * What a reader sees beside each number of the worked plan: its name, its unit, its formula in symbols, its remark, and the source
 * that bears it. The numbers have tests of their own.
 */
import { describe, expect, test } from "vitest";
import { reckon } from "../../server/reckoning/reckon.ts";
import type { Reckonings } from "../../server/reckoning/reckoning.ts";
import { workedWith } from "./answers-of.ts";
import { of } from "./worked-numbers.ts";

const alignment = { coronal: [of(5), "varus"], sagittal: [of(3), "recurvatum"], length: [of(8), "short"] } as const;
// Reckoned in each test anew, so that it is known which lines each one runs.
const reckoned = (): Reckonings => reckon(workedWith({ dynamise: ["P1"], backslap: of(1), alignment }));

const ofView =
  "holds for the plane of the marker; a marker 1 cm off the plane of the bone errs by about 1 % " +
  "(Klever 2022, doi 10.1055/s-0041-1735316, measured at the hip; none found for the leg)";
const beams =
  "teaching estimate: screws of the nail's material across the empty canal, each end's screws sharing the load, no bone contact";
const tube = "teaching estimate for a plain closed tube, without holes, slot or bend";

describe("name, unit, formula and remark", () => {
  test.each<readonly [id: string, label: string, unit: string, formula: string, remark?: string]>([
    ["magnification.ap", "magnification of view ap", "1", "seen / marker", ofView],
    ["level.scar", "level of scar", "mm", "scar on ap / magnification of ap"],
    ["level.plafond", "level of plafond", "mm", "plafond on ap / magnification of ap"],
    ["level.fracture.from", "near edge of the fracture", "mm", "near edge on ap / magnification of ap"],
    ["level.fracture.to", "far edge of the fracture", "mm", "far edge on ap / magnification of ap"],
    ["level.fracture.centre", "centre of the fracture", "mm", "(fracture from + fracture to) / 2"],
    ["canal.isthmus", "isthmus", "mm", "min(all widths and depths)", "depth of the canal at 205 mm"],
    ["canal.isthmusLevel", "level of the isthmus", "mm", "level of the isthmus"],
    [
      "segment",
      "segment of the fracture",
      "mm",
      "proximal if centre ≤ knee-joint + proximal square; distal if centre ≥ plafond - distal square; else shaft",
    ],
    ["length.available", "length there is room for", "mm", "scar - sunk"],
    ["length.longest", "longest listed length that fits", "mm", "longest listed ≤ available"],
    [
      "length.margin",
      "room left by the longest listed length that fits",
      "mm",
      "available - longest",
      "probability that 345 mm fits: more than 99 %",
    ],
    ["length.next", "next longer listed length", "mm", "shortest listed > available"],
    [
      "length.nextMargin",
      "by how much the next longer listed length is too long",
      "mm",
      "next - available",
      "probability that 360 mm fits: less than 1 %",
    ],
    ["nail.top", "driving end of the nail", "mm", "sunk"],
    ["nail.tip", "tip of the nail", "mm", "sunk + length"],
    ["nail.topAfter", "driving end of the nail after the operation", "mm", "sunk - backslap - compression"],
    ["nail.topDynamised", "driving end of the nail once dynamised", "mm", "top after - slot travel left"],
    ["cap.top", "top of the end cap", "mm", "top after - cap"],
    ["overinsertion.needed", "over-insertion needed", "mm", "backslap + compression + slot travel left"],
    ["ream.heads", "reamer heads in order", "mm", "heads in order"],
    ["ream.final", "last reamer head", "mm", "last head"],
    ["ream.over", "last reamer head over the nail", "mm", "last head - nail diameter"],
    ["ream.step", "widest step between two reamer heads", "mm", "next head - head"],
    ["ream.start", "first reamer head over the isthmus", "mm", "first head - isthmus"],
    ["ream.overIsthmus", "last reamer head over the isthmus", "mm", "last head - isthmus"],
    [
      "ream.cortexLeft",
      "thinnest cortex left by reaming",
      "mm",
      "(bone width - max(canal width, last head)) / 2",
      "width at 330 mm, the canal reamed in the middle of the bone",
    ],
    ["fit.ratio", "nail to canal ratio", "1", "nail diameter / max(last head, isthmus)"],
    ["fit.play", "play of the nail at the isthmus, each side", "mm", "(canal - nail diameter) / 2"],
    [
      "fit.play.proximal",
      "play of the nail at the end of the proximal fragment, each side",
      "mm",
      "(canal - nail diameter) / 2",
      "canal interpolated between 60 mm and 205 mm",
    ],
    [
      "fit.play.distal",
      "play of the nail at the end of the distal fragment, each side",
      "mm",
      "(canal - nail diameter) / 2",
      "canal interpolated between 60 mm and 205 mm",
    ],
    ["hole.P2.level", "level of hole P2", "mm", "sunk + top"],
    [
      "hole.P2.toFracture",
      "hole P2 to the nearer edge of the fracture",
      "mm",
      "max(fracture from - level of P2, level of P2 - fracture to)",
      "below 0 the hole lies in the fracture",
    ],
    [
      "hole.P2.path",
      "bone in the path of a screw through hole P2",
      "mm",
      "width",
      "bone interpolated between 30 mm and 205 mm",
    ],
    ["hole.D2.level", "level of hole D2", "mm", "sunk + length - tip"],
    ["hole.D1.level", "level of hole D1", "mm", "sunk + length - tip"],
    ["screw.P2.beyond", "screw in P2 past the far cortex", "mm", "screw - drilled"],
    [
      "screw.P2.best",
      "listed screw length that suits hole P2",
      "mm",
      "shortest listed from drilled + least beyond to drilled + most beyond",
    ],
    [
      "screw.P2.stress.least",
      "bending stress in the screw in P2 under load, fixed ends",
      "MPa",
      "32 × F × ℓ of P2 / (8 × n × π × core³)",
      beams,
    ],
    [
      "screw.P2.stress.most",
      "bending stress in the screw in P2 under load, simple ends",
      "MPa",
      "32 × F × ℓ of P2 / (4 × n × π × core³)",
      beams,
    ],
    ["compression.amount", "compression", "mm", "turns × pitch"],
    ["compression.left", "travel left in the compression screw", "mm", "travel - compression"],
    [
      "compression.gapLeft",
      "gap left after compression",
      "mm",
      "gap - compression",
      "below 0 the bone is shortened by that much",
    ],
    [
      "dynamisation.left",
      "slot travel left for dynamisation",
      "mm",
      "slot - compression",
      "the compression uses up part of the slot at the driving end",
    ],
    ["fragment.proximal.screws", "locking screws in the proximal fragment", "1", "count of P2, P1", "2 medial-lateral"],
    ["fragment.distal.screws", "locking screws in the distal fragment", "1", "count of D2, D1", "2 medial-lateral"],
    ["span.working", "working length between the nearest screws", "mm", "level of D2 - level of P1"],
    ["tip.toScar", "tip of the nail to the scar", "mm", "scar - tip"],
    ["tip.toPlafond", "tip of the nail to the plafond", "mm", "plafond - tip"],
    [
      "alignment.true",
      "true angulation as injured",
      "deg",
      "atan(√(tan²(coronal) + tan²(sagittal)))",
      "varus and recurvatum",
    ],
    [
      "alignment.plane",
      "plane of the angulation as injured, from the frontal plane",
      "deg",
      "atan2(tan(sagittal), tan(coronal))",
      "from the frontal plane, towards varus and recurvatum",
    ],
    [
      "alignment.shortening",
      "shortening as injured, and by compression beyond the gap",
      "mm",
      "shortening + max(compression - gap, 0 mm)",
      "below 0 the bone is longer",
    ],
    ["nail.bending", "bending stiffness of the nail", "N·m²", "E × π × (D⁴ - bore⁴) / 64", tube],
    ["nail.torsion", "torsional stiffness of the nail", "N·m²", "bending stiffness / (1 + ν)", tube],
    [
      "gap.motion.least",
      "motion in the gap under load, fixed ends of the screws",
      "mm",
      "F × span / (E × A) + sag proximal + sag distal",
      beams,
    ],
    [
      "gap.strain.least",
      "nominal strain in the gap under load, fixed ends of the screws",
      "%",
      "motion / gap",
      `${beams}; the gap as given, before any compression`,
    ],
    [
      "gap.motion.most",
      "motion in the gap under load, simple ends of the screws",
      "mm",
      "F × span / (E × A) + sag proximal + sag distal",
      beams,
    ],
    [
      "gap.strain.most",
      "nominal strain in the gap under load, simple ends of the screws",
      "%",
      "motion / gap",
      `${beams}; the gap as given, before any compression`,
    ],
    ["compartment.gradient", "diastolic pressure less compartment pressure", "mmHg", "diastolic - pressure"],
    ["tray", "on the tray", "1", "count of the planned sizes"],
  ])("%s", (id = "", label, unit, formula, remark) => {
    const found = reckoned().byId.get(id);
    expect([found?.label, found?.unit, found?.formula, found?.remark]).toEqual([label, unit, formula, remark]);
  });

  test("ream.removed, whose remark tells each pass", () => {
    const found = reckoned().byId.get("ream.removed");
    expect([found?.label, found?.unit]).toEqual(["bone removed by reaming", "ml"]);
    expect(found?.formula).toBe("∫ circle of last head outside the canal's ellipse, from 0 to tip");
    expect(found?.remark).toMatch(/^8\.5 mm: 0 ml, .*, 11 mm: [\d.]+ ml; canal held constant outside the levels/);
  });
});

describe("the source of each", () => {
  test.each<readonly [mark: string, text: string, ids: string]>([
    ["computed", "size of the marker on the image over its true size", "magnification.ap"],
    [
      "computed",
      "reading over the magnification of its view; uncertainty after JCGM 100:2008, 5.1.2 and 5.2",
      "level.scar level.plafond level.fracture.from level.fracture.to level.fracture.centre",
    ],
    ["computed", "smallest of the canal's widths and depths given", "canal.isthmus canal.isthmusLevel"],
    [
      "printed",
      "rule of squares (Heim; Müller), Rockwood and Green 10e, fig. 5-7, which excepts the proximal femur (lower edge of the " +
        "lesser trochanter), the proximal humerus and the malleoli; a centre on the edge counts as in the end, our own reading",
      "segment",
    ],
    ["common practice", "common practice, no single source: tip at the physeal scar", "length.available"],
    ["catalogue", "the lengths the catalogue lists for the nail", "length.longest length.next"],
    ["computed", "difference of two lengths", "length.margin length.nextMargin screw.P2.beyond compression.gapLeft"],
    [
      "computed",
      "geometry along the canal's axis",
      "nail.top nail.tip nail.topAfter nail.topDynamised cap.top overinsertion.needed hole.P2.toFracture span.working tip.toScar tip.toPlafond",
    ],
    ["computed", "as typed", "ream.heads ream.final"],
    ["computed", "difference of two diameters", "ream.over ream.step ream.start ream.overIsthmus"],
    ["computed", "circle of the last head outside the canal's ellipse, by trapezoids of 1 mm", "ream.removed"],
    ["computed", "half the difference of two diameters; no published limit was found", "ream.cortexLeft"],
    ["printed", "nail to canal ratio, 78 tibiae, J Orthop Trauma 2016", "fit.ratio"],
    ["computed", "half the difference of two diameters", "fit.play fit.play.proximal fit.play.distal"],
    [
      "catalogue",
      "the hole's place on the nail as the catalogue lists it",
      "hole.P2.level hole.D2.level hole.D1.level",
    ],
    ["computed", "chord of the ellipse with the bone's width and depth at that level", "hole.P2.path"],
    [
      "common practice",
      "common practice, no single source: the shortest length that passes the far cortex within the limit",
      "screw.P2.best",
    ],
    [
      "computed",
      "beam with a central load (Roark, Young), simple and fixed ends as bounds",
      "screw.P2.stress.least screw.P2.stress.most gap.motion.least gap.motion.most",
    ],
    ["catalogue", "the pitch the catalogue lists for the nail's compression screw", "compression.amount"],
    ["catalogue", "the travel the catalogue lists for the nail's compression screw", "compression.left"],
    ["catalogue", "the slot's travel as the catalogue lists it, less what compression used of it", "dynamisation.left"],
    [
      "computed",
      "count of the locked holes on that side of the fracture",
      "fragment.proximal.screws fragment.distal.screws",
    ],
    [
      "printed",
      "exact tangent formula of the oblique plane (Paley; Orthop Rev 120302), not the root of the squared angles",
      "alignment.true alignment.plane",
    ],
    ["computed", "sum of lengths", "alignment.shortening"],
    ["computed", "beam theory: second moment of area of a round tube, π(D⁴ - bore⁴)/64", "nail.bending"],
    [
      "computed",
      "beam theory: J = 2 I and G = E / (2 (1 + ν)); ν 0.31 of a titanium alloy (ASTM F136)",
      "nail.torsion",
    ],
    [
      "printed",
      "strain = motion over gap (Perren); nominal, it is not uniform in a gap",
      "gap.strain.least gap.strain.most",
    ],
    ["printed", "McQueen and Court-Brown, J Bone Joint Surg Br 1996;78-B:99-104", "compartment.gradient"],
    [
      "common practice",
      "common practice, no single source: the planned sizes, nail and screws with one size either side",
      "tray",
    ],
  ])("%s: %s", (mark, text, ids) => {
    const { byId } = reckoned();
    for (const id of ids.split(" ")) expect([id, byId.get(id)?.basis]).toEqual([id, { mark, text }]);
  });

  test("every reckoning has one, and words of its own", () => {
    for (const { id, label, basis, formula } of reckoned().list) {
      expect([id, label !== "" && formula !== "" && basis.text !== ""]).toEqual([id, true]);
    }
  });
});
