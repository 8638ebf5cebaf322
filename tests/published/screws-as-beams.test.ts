/**
 * A locking screw as a beam across the canal with the load in its middle: stress with simple and with fixed ends. And
 * the length of an oblique screw's path.
 */
import { describe, expect, test } from "vitest";
import { compare, constant } from "../../server/quantity/arithmetic.ts";
import { reckon } from "../../server/reckoning/reckon.ts";
import { numberOf, workedWith } from "../reckoning/answers-of.ts";
import { of } from "../reckoning/worked-numbers.ts";

const inTrueSize = { ap: { marker: of(25), seen: of(25) }, lateral: { marker: of(25), seen: of(25) } };
const weightOfKilogram = 9.80665;

/** One screw in each main fragment across a canal as wide as `free`, so that it bears the whole load. */
function beam(load: number, free: number, core: number, modulus: number) {
  return workedWith({
    ...inTrueSize,
    load: of(load / weightOfKilogram),
    canals: [{ level: of(200), width: of(free), depth: of(free) }],
    core,
    modulus,
    // A bar without any give: what moves is the screws alone.
    diameter: 1e6,
    bore: 0,
    heads: undefined,
    locks: [{ hole: "P1" }, { hole: "D1" }],
  });
}

// line: SCR-1 to SCR-4: Roark and Young, beam with a central load (printed formula; computed)
describe("SCR-1 to SCR-4: central load", () => {
  // Tolerance 0.01 %.
  const rows = [
    ["SCR-1", 750, 40, 4.0, 110, 1193.66, 0.7234, 596.83, 0.1809],
    ["SCR-2", 750, 30, 4.0, 110, 895.25, 0.3052, 447.62, 0.0763],
    ["SCR-3", 750, 40, 5.0, 110, 611.15, 0.2963, 305.58, 0.0741],
    ["SCR-4", 375, 40, 4.0, 193, 596.83, 0.2062, 298.42, 0.0515],
  ] as const;

  test.each(rows)("%s", (_id, load, free, core, modulus, simple, simpleSag, fixed, fixedSag) => {
    const plan = beam(load, free, core, modulus);
    const stress = (bound: string): number => numberOf(plan, `screw.P1.stress.${bound}`, "MPa");
    expect(Math.abs(stress("most") / simple - 1)).toBeLessThan(1e-4);
    expect(Math.abs(stress("least") / fixed - 1)).toBeLessThan(1e-4);
    // Both ends give by one screw's sag; the figures are printed to the fourth decimal.
    const sag = (bound: string): number => numberOf(plan, `gap.motion.${bound}`) / 2;
    expect(Math.abs(sag("most") - simpleSag)).toBeLessThan(0.00006);
    expect(Math.abs(sag("least") - fixedSag)).toBeLessThan(0.00006);
  });

  test("ratios: (40/30)³ = 2.3704, (5/4)⁴ = 2.4414 in sag, (5/4)³ = 1.9531 in stress", () => {
    const sag = (free: number, core: number) => numberOf(beam(750, free, core, 110), "gap.motion.most");
    const stress = (core: number) => numberOf(beam(750, 40, core, 110), "screw.P1.stress.most", "MPa");
    expect((sag(40, 4) / sag(30, 4)).toFixed(4)).toBe("2.3704");
    expect((sag(40, 4) / sag(40, 5)).toFixed(4)).toBe("2.4414");
    expect((stress(4) / stress(5)).toFixed(4)).toBe("1.9531");
  });

  test("SCR-1: which end decides whether it yields, and the tool says which end each figure is of", () => {
    // Ti-6Al-4V ELI yields at 795 MPa (ASTM F136, printed).
    const { byId } = reckon(beam(750, 40, 4, 110));
    const [least, most] = ["least", "most"].map((bound) => byId.get(`screw.P1.stress.${bound}`));
    if (least?.answer.kind !== "known" || most?.answer.kind !== "known") throw new Error("no stress is reckoned");
    const yieldOf = constant(795, "MPa");
    expect([compare(least.answer, yieldOf), compare(most.answer, yieldOf)]).toEqual([-1, 1]);
    expect(least.label).toContain("fixed ends");
    expect(most.label).toContain("simple ends");
    expect([least, most].every(({ remark }) => `${remark}`.includes("teaching estimate"))).toBe(true);
  });

  test("two screws share the load", () => {
    const one = numberOf(beam(750, 40, 4, 110), "screw.P1.stress.most", "MPa");
    const two = workedWith({
      ...inTrueSize,
      load: of(750 / weightOfKilogram),
      canals: [{ level: of(200), width: of(40), depth: of(40) }],
      core: 4,
    });
    expect(numberOf(two, "screw.P1.stress.most", "MPa")).toBeCloseTo(one / 2, 9);
  });
});

// line: OBL-1: length = width / cos(angle), then the next listed length up: common practice, no single source
// (computed)
describe("OBL-1: oblique screws", () => {
  // Tolerance 0.01 mm.
  test.each([
    [30, 25, 33.1],
    [45, 45, 63.64],
  ])("bone %d mm wide, tilted by %d deg: %d mm", (width, tilt, length) => {
    const holes = [{ name: "P1", end: "top", distance: 40, runs: "medial-lateral", tilt }] as const;
    const bones = [{ level: of(48), width: of(width) }];
    const plan = workedWith({ ...inTrueSize, holes, bones, locks: [{ hole: "P1" }] });
    expect(Math.abs(numberOf(plan, "hole.P1.path") - length)).toBeLessThan(0.01);
  });

  test.each([
    [33.1, 34],
    [63.64, 65],
  ])(
    "drilled %d mm, of screws by 2 mm to 60 mm and by 5 mm beyond: %d mm, at most 2 mm past the cortex",
    (path, best) => {
      const plan = workedWith({ locks: [{ hole: "P1", drilled: of(path), screw: best }] });
      expect(numberOf(plan, "screw.P1.best")).toBe(best);
      expect(numberOf(plan, "screw.P1.beyond")).toBeLessThan(2);
    },
  );

  test("across the bone a right angle to the axis has no length", () => {
    const holes = [{ name: "P1", end: "top", distance: 40, runs: "medial-lateral", tilt: 90 }] as const;
    expect(() => numberOf(workedWith({ holes, locks: [] }), "hole.P1.path")).toThrow("division by zero");
  });
});
