/**
 * The second way to the volume reamed: it holds the first and the closed forms, and is narrow enough for the smallest volume to be
 * told, also where the head just touches the canal all along.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { whyWithheld } from "../../server/quantity/enclosure.ts";
import { type Axis, reamedVolume, type Station } from "../../server/reckoning/reamed-volume.ts";
import { enclosedReamedVolume } from "../../server/reckoning/reamed-volume-enclosed.ts";
import { runs } from "../runs.ts";

const size = fc.integer({ min: 50, max: 400 }).map((tenths) => tenths / 10 / 1.15);
const axis = fc
  .array(fc.tuple(fc.integer({ min: -20, max: 4000 }), size), { minLength: 1, maxLength: 5 })
  .map((stations): Axis<undefined> => {
    const sorted = stations.map(([tenths, each]) => station(tenths / 10.1, each)).sort((a, b) => a.level - b.level);
    const [first = station(0, 10), ...rest] = sorted;
    return [first, ...rest];
  });
const head = fc.integer({ min: 16, max: 36 }).map((halves) => halves / 2);
const tip = fc.oneof(
  fc.integer({ min: -10, max: 480 }),
  fc.integer({ min: 0, max: 480_000 }).map((count) => count / 1009),
);

function station(level: number, of: number): Station<undefined> {
  return { of: undefined, level, size: of };
}

test("holds the first way's volume and lets it be shown", () => {
  let reamed = 0;
  fc.assert(
    fc.property(head, axis, axis, tip, (diameter, width, depth, end) => {
      const { volume } = reamedVolume(diameter, width, depth, end);
      const { low, high } = enclosedReamedVolume(diameter, width, depth, end);
      expect(whyWithheld(volume, { low, high })).toBeUndefined();
      // Ten times narrower than it would have to be.
      expect(high - low).toBeLessThanOrEqual(1e-10 * Math.max(5, volume));
      if (volume > 1) reamed++;
    }),
    { numRuns: runs(4000) },
  );
  expect(reamed).toBeGreaterThan(runs(4000) / 4);
});

test("the same of round canals, where circle and ellipse touch all along or nearly", () => {
  const near = fc.integer({ min: -4, max: 4 });
  fc.assert(
    fc.property(
      head.filter((diameter) => diameter <= 16),
      near,
      near,
      tip,
      (diameter, across, back, end) => {
        const width: Axis<undefined> = [station(0, diameter * (1 + across * 2 ** -52))];
        const depth: Axis<undefined> = [station(0, diameter), station(400, diameter * (1 + back * 2 ** -52))];
        const { volume } = reamedVolume(diameter, width, depth, end);
        expect(whyWithheld(volume, enclosedReamedVolume(diameter, width, depth, end))).toBeUndefined();
      },
    ),
    { numRuns: runs(4000) },
  );
});

describe("closed forms", () => {
  const held = (enclosure: { low: number; high: number }, volume: number) => {
    expect(enclosure.low).toBeLessThanOrEqual(volume);
    expect(enclosure.high).toBeGreaterThanOrEqual(volume);
    expect(enclosure.high - enclosure.low).toBeLessThan(1e-9);
  };

  test("an elliptic tube inside the head", () => {
    held(enclosedReamedVolume(12, [station(0, 8)], [station(0, 10)], 20.5), Math.PI * (36 - 20) * 20.5);
  });

  test("a canal as wide as the head on its long side", () => {
    held(enclosedReamedVolume(10, [station(0, 8)], [station(0, 10)], 30), Math.PI * (25 - 20) * 30);
  });

  test("a canal that the head does not touch, and one it just touches", () => {
    expect(enclosedReamedVolume(8, [station(0, 8.1)], [station(0, 10)], 30)).toEqual({ low: 0, high: 0 });
    const touching = enclosedReamedVolume(8, [station(0, 8), station(50, 8)], [station(0, 10)], 30);
    expect(touching.low).toBeLessThan(0);
    expect(touching.high).toBeLessThan(1e-10);
  });

  test("horns: head of radius 5 in half-axes 3 and 9", () => {
    // Crossing at x² = 81 (25 - 9) / (81 - 9) = 18, y² = 7; area 2 (25 atan(√18 / √7) - 27 atan((√18 / 9) / (√7 / 3))).
    const open = Math.atan2(Math.sqrt(18), Math.sqrt(7));
    const parameter = Math.atan2(Math.sqrt(18) / 9, Math.sqrt(7) / 3);
    const area = 2 * (25 * open - 27 * parameter);
    held(enclosedReamedVolume(10, [station(0, 6)], [station(0, 18)], 10), area * 10);
    held(enclosedReamedVolume(10, [station(0, 18)], [station(0, 6)], 10), area * 10);
  });

  test("straight between the stations, held outside them, the end of the last millimetre included", () => {
    // Inside the head the area is π (36 - 2 w): linear, so that trapezoids are exact; w is 4, then 4 to 8, then 8, in half widths 2 to 4.
    const width: Axis<undefined> = [station(10, 4), station(20, 8)];
    const area = (half: number) => Math.PI * (36 - half * 5);
    const whole = 10 * area(2) + 10 * area(3) + 5.25 * area(4);
    held(enclosedReamedVolume(12, width, [station(5, 10)], 25.25), whole);
    held(enclosedReamedVolume(12, [station(5, 10)], width, 25.25), whole);
  });

  test("two sizes at one level are a step there", () => {
    const width: Axis<undefined> = [station(10, 4), station(10, 8)];
    const area = (half: number) => Math.PI * (36 - half * 5);
    // The trapezoid before the step ends at the size after it.
    const whole = 9 * area(2) + (area(2) + area(4)) / 2 + 5 * area(4);
    held(enclosedReamedVolume(12, width, [station(0, 10)], 15), whole);
  });

  test("nothing above the entry", () => {
    expect(enclosedReamedVolume(12, [station(0, 8)], [station(0, 8)], 0)).toEqual({ low: 0, high: 0 });
    expect(enclosedReamedVolume(12, [station(0, 8)], [station(0, 8)], -0.5)).toEqual({ low: 0, high: 0 });
    expect(enclosedReamedVolume(12, [station(0, 8)], [station(0, 8)], -3)).toEqual({ low: 0, high: 0 });
  });
});

test("allows for what rounding does to circle and ellipse where they nearly cancel", () => {
  const canal: Axis<undefined> = [station(0, 11.9999)];
  const { low, high } = enclosedReamedVolume(12, canal, canal, 400);
  // Circle and ellipse are half swept each: 400 mm of both are 400 π 6² mm³, and each of the terms may be some units off in its last place.
  expect(high - low).toBeGreaterThan(2 * 400 * Math.PI * 36 * 2 ** -48);
});

test("a tip that lies where the head has just ceased to touch still moves the last trapezoid that touches", () => {
  const canal: Axis<undefined> = [station(0, 10), station(100, 10), station(100.4, 14)];
  const at = (tip: number) => reamedVolume(12, canal, canal, tip);
  // The circle of 12 mm outside that of 10 mm, half of it for the last trapezoid's one end.
  expect(at(100.8).byTip).toBeCloseTo((Math.PI * (36 - 25)) / 2, 10);
  expect((at(100.9).volume - at(100.7).volume) / 0.2).toBeCloseTo(at(100.8).byTip, 8);
});
