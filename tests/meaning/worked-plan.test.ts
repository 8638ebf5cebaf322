/** A whole plan with its catalogue and protocol: every statement is understood, and the numbers are those worked out by hand. */
import { describe, expect, test } from "vitest";
import { examplePlan as planText } from "../../server/findings/example.ts";
import { halfWidthIn, shares, valueIn } from "../../server/quantity/arithmetic.ts";
import type { Known, Quantity } from "../../server/quantity/quantity.ts";
import { meaningOf, problemsOf, shown, understoodPlan } from "./texts.ts";

const plan = understoodPlan(planText);

function known(quantity: Quantity | undefined): Known {
  if (quantity?.kind !== "known") {
    throw new Error(quantity?.because ?? "not given");
  }
  return quantity;
}

describe("the worked plan", () => {
  test("has no problem of any kind", () => {
    expect(problemsOf(planText)).toEqual([]);
    expect(plan.problems).toEqual([]);
  });

  test("names what it reads", () => {
    expect(plan.title.text).toBe("Oblique fracture of the left tibial shaft, invented");
    expect(plan.uses.map((used) => used.document?.title.text)).toEqual(["Fenwick, an invented set"]);
    expect(plan.follows.map((followed) => followed.document?.title.text)).toEqual(["An invented teaching department"]);
    expect(plan.status?.text).toBe("for-review");
    expect(plan.nail?.name.text).toBe("fenwick");
    expect(plan.screwFamilies.map((family) => family.name.text)).toEqual(["peg"]);
    expect(plan.reamers).toHaveLength(1);
  });

  test("knows the case", () => {
    const { case: told } = plan;
    expect(told?.label.text).toBe("TN-0417");
    expect([told?.side?.text, told?.bone?.text]).toEqual(["left", "tibia"]);
    expect([told?.growthPlates?.text, told?.boneQuality?.text]).toEqual(["closed", "good"]);
    expect([told?.softTissue?.kind.text, told?.softTissue?.grade?.text]).toEqual(["closed", "C1"]);
    expect(shown(told?.age, "years")).toBe("34 years");
    expect(shown(told?.weight, "kg")).toBe("78 kg");
    expect(shown(told?.kneeFlexion, "deg")).toBe("120 deg");
    expect([told?.fracture?.code?.text, told?.fracture?.fibula?.text]).toEqual(["42A2", "4F2A"]);
    expect(shown(told?.fracture?.gap)).toBe("3.0 mm ± 1.0 mm");
    const { coronal, sagittal, rotation, length } = told?.alignment ?? {};
    expect([shown(coronal?.amount, "deg"), coronal?.direction.text]).toEqual(["9 deg", "varus"]);
    expect([shown(sagittal?.amount, "deg"), sagittal?.direction.text]).toEqual(["6 deg", "procurvatum"]);
    expect([shown(rotation?.amount, "deg"), rotation?.direction.text]).toEqual(["12 deg", "external"]);
    expect([shown(length?.amount), length?.direction.text]).toEqual(["8 mm", "short"]);
  });

  /*
   * By hand: 416 mm / (28.75 / 25) = 361.739 mm. Standard uncertainties 1 mm and 0.1 mm / 25 = 0.004 give
   * sqrt((1 / 1.15)² + (416 / 1.15² × 0.004)²) = sqrt(0.8696² + 1.2582²) = 1.5295 mm, twice that 3.059 mm.
   * For the plafond 432 mm / 1.15 = 375.652 mm and sqrt(0.8696² + 1.3066²) × 2 = 3.139 mm.
   */
  test("divides readings by the magnification of their view, with its uncertainty", () => {
    const [ap] = plan.views;
    expect(valueIn(known(ap?.magnification), "1")).toBeCloseTo(1.15, 12);
    expect(halfWidthIn(known(ap?.magnification), "1")).toBeCloseTo(0.008, 12);
    const [scar, plafond] = plan.measures.landmarks;
    expect(scar?.name.text).toBe("scar");
    expect(valueIn(known(scar?.level.quantity), "mm")).toBeCloseTo(361.73913, 5);
    expect(halfWidthIn(known(scar?.level.quantity), "mm")).toBeCloseTo(3.0589, 4);
    expect(plafond?.name.text).toBe("plafond");
    expect(valueIn(known(plafond?.level.quantity), "mm")).toBeCloseTo(375.65217, 5);
    expect(halfWidthIn(known(plafond?.level.quantity), "mm")).toBeCloseTo(3.139, 4);
  });

  /* 12.2 mm / 1.16 = 10.517 mm; sqrt((0.15 / 1.16)² + (12.2 / 1.16² × 0.004)²) × 2 = 0.2686 mm. */
  test("knows the widths and the views they were read on", () => {
    const isthmus = plan.measures.canals[1];
    expect(shown(isthmus?.level)).toBe("205 mm");
    expect(valueIn(known(isthmus?.depth?.quantity), "mm")).toBeCloseTo(10.51724, 5);
    expect(halfWidthIn(known(isthmus?.depth?.quantity), "mm")).toBeCloseTo(0.26863, 4);
    expect([isthmus?.widthViews, isthmus?.depthViews]).toEqual([["ap"], ["lateral"]]);
    expect(plan.measures.canals).toHaveLength(3);
    expect(plan.measures.bones).toHaveLength(3);
    expect(plan.measures.epiphyses.map((end) => end.end.text)).toEqual(["proximal", "distal"]);
  });

  test("names each reading as a budget shows it", () => {
    const scar = known(plan.measures.landmarks[0]?.level.quantity);
    expect(shares(scar).map((share) => share.reading.label)).toEqual(["marker seen on ap", "scar"]);
    const width = known(plan.measures.canals[1]?.width?.quantity);
    expect(shares(width).map((share) => share.reading.label)).toContain("canal width at 205 mm");
    expect(new Set(scar.influences.map((influence) => influence.reading.id)).size).toBe(2);
    for (const { reading } of scar.influences) {
      expect(reading.id).toMatch(/^plans\/plan\.isthmus:\d+$/);
    }
  });

  test("has every step in its place", () => {
    expect(plan.steps.map((step) => step.kind)).toEqual(
      "prepare position reduce enter wire ream nail check lock lock lock compress lock cap check".split(" "),
    );
    expect(plan.fallbacks.map((fallback) => fallback.when.text)).toEqual(["the 10 mm nail stops at the isthmus"]);
    expect(plan.removal?.steps.map((step) => `${step.kind} ${step.things.map((thing) => thing.text)}`)).toEqual([
      "take cap",
      "attach extractor",
      "take D1,D2,P2",
      "take P1",
      "withdraw nail",
    ]);
  });

  test("knows every name it uses, and where it is given", () => {
    const { references } = meaningOf(planText);
    expect(references.uses.filter((use) => use.declared === undefined)).toEqual([]);
    const hole = references.uses.find((use) => use.name === "D2");
    expect([hole?.kind, hole?.declared?.file]).toEqual(["hole", "catalogue/fenwick.isthmus"]);
    const detail = (name: string) => references.declarations.find((declared) => declared.name === name)?.detail;
    expect(detail("scar")).toBe("361.7 mm ± 3.1 mm");
    expect(detail("P2")).toBe("28 mm from the top, medial-lateral, slot of 6 mm, takes peg");
  });
});
