/**
 * Random plans in plain numbers: sizes a tibia and a nail may have, with parts left out now and then. No value lies on another by
 * chance, so that nothing is tried exactly where a choice turns over; those places have tests of their own.
 */
import fc from "fast-check";
import type { HoleNumbers, LockNumbers, Numbers, Reading, SizeNumbers } from "./worked-numbers.ts";

/** Between two neighbouring fractions of 997, a prime: no grid of sizes meets them, not even at the ends. */
function between(low: number, high: number): fc.Arbitrary<number> {
  return fc.integer({ min: Math.ceil(low * 997), max: Math.floor(high * 997) }).map((count) => (count + 0.3) / 997);
}

function reading(low: number, high: number, most: number): fc.Arbitrary<Reading> {
  const half = fc.oneof({ weight: 1, arbitrary: fc.constant(0) }, { weight: 3, arbitrary: between(most / 20, most) });
  return fc.record({ value: between(low, high), half });
}

function maybe<Value>(arbitrary: fc.Arbitrary<Value>): fc.Arbitrary<Value | undefined> {
  return fc.option(arbitrary, { nil: undefined, freq: 7 });
}

const view = fc
  .record({ marker: reading(20, 35, 0.1), factor: between(1.02, 1.35), half: between(0.05, 0.4) })
  .map(({ marker, factor, half }) => ({ marker, seen: { value: marker.value * factor, half } }));

/** Levels at least 1 mm apart, and no two sizes the same: the generator likes the ends of its ranges. */
const sizes = (low: number, high: number): fc.Arbitrary<SizeNumbers[]> =>
  fc
    .array(
      fc.record({
        level: reading(10, 300, 3),
        width: maybe(reading(low, high, 0.6)),
        depth: maybe(reading(low, high, 0.6)),
      }),
      { maxLength: 5 },
    )
    .map((list) =>
      list.map(({ level, width, depth }, index) =>
        without({
          level: shifted(level, index * 12.0173),
          width: width && shifted(width, index * 0.0171),
          depth: depth && shifted(depth, 0.0072 + index * 0.0171),
        }),
      ),
    )
    .map((list) => list as SizeNumbers[])
    .filter((list) => {
      const levels = list.map(({ level }) => level.value).sort((a, b) => a - b);
      return levels.every((level, index) => index === 0 || level - (levels[index - 1] ?? 0) > 1);
    });

function shifted({ value, half }: Reading, by: number): Reading {
  return { value: value + by, half };
}

const runs = fc.constantFrom("medial-lateral" as const, "anterior-posterior" as const, "oblique" as const);

const holes: fc.Arbitrary<HoleNumbers[]> = fc
  .array(
    fc.record({
      end: fc.constantFrom("top" as const, "tip" as const),
      distance: between(8, 90),
      runs,
      angle: between(5, 175),
      tilt: maybe(between(2, 50)),
      slot: fc.option(between(3, 9), { nil: undefined, freq: 2 }),
    }),
    { minLength: 1, maxLength: 6 },
  )
  .map((list) => list.map((hole, index) => ({ ...hole, name: `H${index}` }) as HoleNumbers));

const heads = fc
  .record({
    first: fc.integer({ min: 14, max: 20 }),
    steps: fc.array(fc.integer({ min: 1, max: 3 }), { maxLength: 8 }),
  })
  .map(({ first, steps }) => [0, ...steps].map((_, index) => steps.slice(0, index).reduce((a, b) => a + b, first)))
  .map((halves) => halves.map((half) => half / 2));

const fracture = fc
  .record({ from: reading(90, 300, 3), long: between(0.5, 60), half: between(0, 3), gap: maybe(reading(0.5, 8, 2)) })
  .map(({ from, long, half, gap }) => ({ from, to: { value: from.value + long, half }, ...(gap && { gap }) }));

const base = fc.record({
  bone: fc.oneof(
    { weight: 8, arbitrary: fc.constant("tibia") },
    { weight: 2, arbitrary: fc.constant("femur") },
    { weight: 1, arbitrary: fc.constant("humerus") },
  ),
  ap: view,
  lateral: view,
  scar: maybe(reading(300, 450, 3)),
  plafond: maybe(reading(320, 470, 3)),
  kneeJoint: fc.option(reading(0, 20, 1), { nil: undefined, freq: 2 }),
  lesserTrochanter: fc.option(reading(50, 120, 2), { nil: undefined, freq: 2 }),
  proximalSquare: maybe(reading(60, 110, 2)),
  distalSquare: maybe(reading(40, 80, 2)),
  fracture: maybe(fracture),
  canals: sizes(8, 30),
  bones: sizes(20, 80),
  heads: maybe(heads),
  diameter: fc.integer({ min: 8, max: 13 }),
  length: fc.integer({ min: 16, max: 28 }).map((count) => count * 15),
  sunk: reading(0, 15, 1),
  holes,
});

const rest = fc.record({
  turns: fc.option(between(0.57, 4.1), { nil: undefined, freq: 2 }),
  compress: fc.option(reading(0.61, 5.3, 0.5), { nil: undefined, freq: 2 }),
  pitch: between(0.8, 1.8),
  travel: between(3, 9),
  backslap: fc.option(reading(0.5, 5, 0.5), { nil: undefined, freq: 2 }),
  cap: fc.constantFrom(undefined, "none" as const, 0, 5, 10, 15),
  modulus: between(100, 200),
  bore: between(3, 6),
  core: between(3, 5),
  thread: between(3.5, 6.5),
  blocks: fc.boolean(),
  material: fc.constantFrom("titanium-alloy", "steel"),
  weight: maybe(reading(45, 120, 2)),
  load: fc.option(reading(10, 40, 2), { nil: undefined, freq: 2 }),
  diastolic: maybe(reading(50, 95, 4)),
  pressure: maybe(reading(5, 60, 4)),
  dynamises: fc.boolean(),
  removedShare: fc.array(fc.boolean(), { minLength: 6, maxLength: 6 }),
  lockedShare: fc.array(fc.boolean(), { minLength: 6, maxLength: 6 }),
  locks: fc.array(
    fc.record({
      drilled: maybe(reading(22, 85, 1)),
      screw: maybe(fc.integer({ min: 20, max: 90 })),
      near: fc.boolean(),
    }),
    { minLength: 6, maxLength: 6 },
  ),
  coronal: maybe(fc.tuple(reading(0.2, 30, 3), fc.constantFrom("varus" as const, "valgus" as const))),
  sagittal: maybe(fc.tuple(reading(0.2, 30, 3), fc.constantFrom("procurvatum" as const, "recurvatum" as const))),
  shift: maybe(fc.tuple(reading(0, 30, 3), fc.constantFrom("short" as const, "long" as const))),
});

/** A plan's numbers; parts that are absent are left out rather than undefined. */
export const numbers: fc.Arbitrary<Numbers> = fc.tuple(base, rest).map(([first, second]) => {
  const { dynamises, removedShare, lockedShare, locks, coronal, sagittal, shift, ...others } = second;
  const locked = first.holes.filter((_, index) => lockedShare[index]);
  const removed = locked.filter((_, index) => removedShare[index]).map(({ name }) => name);
  return without({
    ...first,
    ...others,
    side: "left",
    lengths: Array.from({ length: 13 }, (_, index) => 240 + index * 15),
    screwLengths: Array.from({ length: 30 }, (_, index) => 20 + index * 2.5),
    locks: locked.map(({ name }, index) => without({ hole: name, ...locks[index] }) as LockNumbers),
    dynamise: dynamises ? removed : undefined,
    alignment: without({ coronal, sagittal, length: shift }),
  }) as Numbers;
});

function without(record: object): object {
  return Object.fromEntries(Object.entries(record).filter(([, value]) => value !== undefined));
}
