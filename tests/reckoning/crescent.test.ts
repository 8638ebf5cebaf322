/**
 * The circle outside the ellipse against an integral over the angle and against closed forms, and the volume of many such slices
 * against solids whose volume is known.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { crescent } from "../../server/reckoning/crescent.ts";
import { type Axis, reamedVolume } from "../../server/reckoning/reamed-volume.ts";
import { runs } from "../runs.ts";

/** ½ ∫ (radius² - r²) over all angles at which the ellipse's polar radius r is less than the circle's. */
function areaByIntegral(radius: number, first: number, second: number): number {
  const steps = 40_000;
  let sum = 0;
  for (let i = 0; i < steps; i++) {
    const angle = ((i + 0.5) * 2 * Math.PI) / steps;
    const squared = 1 / ((Math.cos(angle) / first) ** 2 + (Math.sin(angle) / second) ** 2);
    sum += Math.max(0, radius ** 2 - squared);
  }
  return (sum * Math.PI) / steps;
}

const half = fc.integer({ min: 300, max: 1200 }).map((hundredths) => hundredths / 100);

describe("circle outside an ellipse", () => {
  test("the area is the integral's", () => {
    fc.assert(
      fc.property(half, half, half, (radius, first, second) => {
        expect(crescent(radius, first, second).area).toBeCloseTo(areaByIntegral(radius, first, second), 4);
      }),
    );
  });

  test("closed forms: inside, around, and a circle in a circle", () => {
    const nothing = { area: 0, byRadius: 0, byFirst: 0, bySecond: 0 };
    expect(crescent(5, 6, 7)).toEqual(nothing);
    expect(crescent(5, 7, 6)).toEqual(nothing);
    // A circle that touches the ellipse from inside takes nothing yet.
    expect(crescent(5, 5, 7)).toEqual(nothing);
    expect(crescent(5, 7, 5)).toEqual(nothing);
    // π (R² - a b): 25 - 12 = 13.
    expect(crescent(5, 3, 4).area).toBeCloseTo(13 * Math.PI, 12);
    expect(crescent(5, 4, 3).area).toBeCloseTo(13 * Math.PI, 12);
    expect(crescent(5, 3, 5).area).toBeCloseTo(10 * Math.PI, 12);
    // π (R² - r²) of a ring: its derivatives are both circumferences, the inner one shared by the two half-axes.
    const ring = crescent(5, 4, 4);
    expect(ring.area).toBeCloseTo(9 * Math.PI, 12);
    expect(ring.byRadius).toBeCloseTo(10 * Math.PI, 12);
    expect(ring.byFirst).toBeCloseTo(-4 * Math.PI, 12);
    expect(ring.bySecond).toBeCloseTo(-4 * Math.PI, 12);
  });

  test("the derivatives are the slopes of the area", () => {
    fc.assert(
      fc.property(half, half, half, (radius, first, second) => {
        // Where the circle touches the ellipse the slopes turn over.
        fc.pre(Math.abs(radius - first) > 0.05 && Math.abs(radius - second) > 0.05 && Math.abs(first - second) > 0.05);
        const step = 1e-5;
        const slope = (by: readonly [number, number, number]): number => {
          const at = (sign: number): number =>
            crescent(radius + sign * by[0], first + sign * by[1], second + sign * by[2]).area;
          return (at(1) - at(-1)) / (2 * step);
        };
        const { byRadius, byFirst, bySecond } = crescent(radius, first, second);
        expect(byRadius).toBeCloseTo(slope([step, 0, 0]), 4);
        expect(byFirst).toBeCloseTo(slope([0, step, 0]), 4);
        expect(bySecond).toBeCloseTo(slope([0, 0, step]), 4);
      }),
    );
  });

  test("turned by a right angle it is the same", () => {
    fc.assert(
      fc.property(half, half, half, (radius, first, second) => {
        const [one, other] = [crescent(radius, first, second), crescent(radius, second, first)];
        expect([other.area, other.byRadius]).toEqual([one.area, one.byRadius]);
        fc.pre(first !== second);
        expect([other.byFirst, other.bySecond]).toEqual([one.bySecond, one.byFirst]);
      }),
    );
  });
});

describe("volume along the axis", () => {
  const axis = (...stations: readonly (readonly [level: number, size: number])[]): Axis<string> => {
    const [first, ...rest] = stations.map(([level, size]) => ({ of: `${size} at ${level}`, level, size }));
    if (first === undefined) throw new Error("an axis has a station");
    return [first, ...rest];
  };
  const slopesOf = (head: number, width: Axis<string>, depth: Axis<string>, tip: number) =>
    reamedVolume(head, width, depth, tip).slopes.map(({ of, bySize, byLevel }) => [of, bySize, byLevel] as const);

  test("a round tube: π/4 (D² - d²) L, with its slopes", () => {
    const found = reamedVolume(11, axis([100, 9]), axis([50, 9]), 350.4);
    expect(found.volume).toBeCloseTo((Math.PI / 4) * (121 - 81) * 350.4, 6);
    expect(found.byHead).toBeCloseTo((Math.PI / 2) * 11 * 350.4, 6);
    expect(found.byTip).toBeCloseTo((Math.PI / 4) * (121 - 81), 8);
    // Width and depth share the derivative -π/2 d L to the diameter.
    expect(found.slopes.map(({ of }) => of)).toEqual(["9 at 100", "9 at 50"]);
    for (const { bySize, byLevel } of found.slopes) {
      expect(bySize).toBeCloseTo((-Math.PI / 4) * 9 * 350.4, 6);
      expect(byLevel + 0).toBeCloseTo(0, 12);
    }
  });

  test("a cone: π/4 (D² L - (d₀² + d₀ d₁ + d₁²) L / 3), and what its sizes do to it", () => {
    // Trapezoids of 1 mm on a parabola are off by L f''/12 = 300 · (π/2) · (2/300)² / 12 = 0.0018 mm³.
    const cone = axis([0, 8], [600, 12]);
    const found = reamedVolume(12, cone, cone, 300);
    expect(found.volume).toBeCloseTo((Math.PI / 4) * 300 * (144 - (64 + 80 + 100) / 3), 2);
    // -π/2 ∫ d (1 - x/600) dx = -π/2 · 2000 and -π/2 ∫ d x/600 dx = -π/2 · 700, halved between width and depth.
    const [widthNear, widthFar, depthNear, depthFar] = found.slopes;
    for (const near of [widthNear, depthNear]) expect(near?.bySize).toBeCloseTo((-Math.PI / 4) * 2000, 2);
    for (const far of [widthFar, depthFar]) expect(far?.bySize).toBeCloseTo((-Math.PI / 4) * 700, 2);
    expect(found.byTip).toBeCloseTo((Math.PI / 4) * (144 - 100), 3);
  });

  test("outside the levels the nearest size is held, also where the first lies below 0", () => {
    // 9 mm up to 100 mm, 10 mm from 200 mm on; between them a cone.
    const tube = (from: number, to: number, size: number): number => (Math.PI / 4) * (144 - size ** 2) * (to - from);
    const between = (Math.PI / 4) * 100 * (144 - (81 + 90 + 100) / 3);
    const shape = axis([100, 9], [200, 10]);
    expect(reamedVolume(12, shape, shape, 300).volume).toBeCloseTo(tube(0, 100, 9) + between + tube(200, 300, 10), 2);
    expect(reamedVolume(12, shape, shape, 80).volume).toBeCloseTo(tube(0, 80, 9), 6);
    const early = axis([-100, 8], [100, 10]);
    expect(reamedVolume(12, early, early, 100).volume).toBeCloseTo(
      (Math.PI / 4) * 100 * (144 - (81 + 90 + 100) / 3),
      2,
    );
    const past = axis([-100, 8], [-50, 9]);
    expect(reamedVolume(12, past, past, 100).volume).toBeCloseTo(tube(0, 100, 9), 6);
  });

  test("of two stations at one level the later one holds from there on", () => {
    const step = axis([50, 8], [100, 8], [100, 10], [150, 10]);
    const found = reamedVolume(12, step, step, 200).volume;
    // The slice at 100 mm itself has the new size: half a trapezoid of each, 1/2 mm of the step's area.
    const [narrow, wide] = [8, 10].map((size) => (Math.PI / 4) * (144 - size ** 2));
    expect(found).toBeCloseTo(99.5 * (narrow ?? 0) + 100.5 * (wide ?? 0), 6);
  });

  test("nothing where the head is no wider, and nothing from 0 upwards", () => {
    expect(reamedVolume(9, axis([10, 9]), axis([10, 9]), 100).volume).toBe(0);
    expect(reamedVolume(9, axis([10, 12]), axis([10, 9]), 100)).toMatchObject({ volume: 0, byHead: 0, byTip: 0 });
    for (const tip of [0, -20]) {
      expect(reamedVolume(11, axis([10, 9]), axis([10, 9]), tip)).toMatchObject({ volume: 0, byHead: 0, byTip: 0 });
    }
    // Below 1 mm there is one short trapezoid.
    expect(reamedVolume(11, axis([10, 9]), axis([10, 9]), 0.25).volume).toBeCloseTo((Math.PI / 4) * 40 * 0.25, 10);
  });

  test("the slopes are those of the volume, to each size, each level, the head and the tip", () => {
    const level = fc.integer({ min: -20, max: 220 }).map((count) => count + 0.37);
    const size = fc.integer({ min: 700, max: 1400 }).map((hundredths) => hundredths / 100);
    const stations = fc
      .array(fc.tuple(level, size), { minLength: 1, maxLength: 4 })
      .map((list) => list.sort(([a], [b]) => a - b))
      .filter((list) => list.every(([at], index) => index === 0 || at - (list[index - 1]?.[0] ?? 0) > 3));
    const step = 1e-5;
    fc.assert(
      fc.property(stations, stations, size, fc.integer({ min: 20, max: 200 }), (width, depth, head, whole) => {
        // Where the head just touches a whole stretch of canal the slopes turn over.
        fc.pre([...width, ...depth].every(([, wide]) => Math.abs(wide - head) > 0.05));
        const tip = whole + 0.613;
        const volume = (w: typeof width, d: typeof depth, h: number, t: number): number =>
          reamedVolume(h, axis(...w), axis(...d), t).volume;
        const moved = (list: typeof width, index: number, by: readonly [number, number]): typeof width =>
          list.map(([at, wide], i) => (i === index ? [at + by[0], wide + by[1]] : [at, wide]));
        const found = reamedVolume(head, axis(...width), axis(...depth), tip);
        const slope = (at: (sign: number) => number): number => (at(step) - at(-step)) / (2 * step);
        const bySizes = [
          ...width.map((_, i) => slope((by) => volume(moved(width, i, [0, by]), depth, head, tip))),
          ...depth.map((_, i) => slope((by) => volume(width, moved(depth, i, [0, by]), head, tip))),
        ];
        const byLevels = [
          ...width.map((_, i) => slope((by) => volume(moved(width, i, [by, 0]), depth, head, tip))),
          ...depth.map((_, i) => slope((by) => volume(width, moved(depth, i, [by, 0]), head, tip))),
        ];
        const scale = 1e-3 * Math.max(1, Math.abs(found.byHead));
        expect(Math.abs(found.byHead - slope((by) => volume(width, depth, head + by, tip)))).toBeLessThan(scale);
        expect(Math.abs(found.byTip - slope((by) => volume(width, depth, head, tip + by)))).toBeLessThan(scale);
        for (const [index, { bySize, byLevel }] of found.slopes.entries()) {
          expect(Math.abs(bySize - (bySizes[index] ?? Number.NaN))).toBeLessThan(scale);
          expect(Math.abs(byLevel - (byLevels[index] ?? Number.NaN))).toBeLessThan(scale);
        }
      }),
      { numRuns: runs(300) },
    );
    expect(slopesOf(11, axis([10, 9]), axis([10, 12]), 50).map(([of]) => of)).toEqual(["9 at 10", "12 at 10"]);
  });
});
