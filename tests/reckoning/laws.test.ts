/**
 * Laws every reckoning keeps, each on 500 random plans: scaling marker and readings together, moving the entry point, splitting a
 * reading in two, mirroring the case, reckoning twice, and the budget of every uncertainty.
 */
import fc from "fast-check";
import { expect, test } from "vitest";
import type { Plan } from "../../server/meaning/plan.ts";
import { add, halfWidthIn, measured, shares, valueIn } from "../../server/quantity/arithmetic.ts";
import { print } from "../../server/quantity/print.ts";
import { reckon } from "../../server/reckoning/reckon.ts";
import type { Reckoning } from "../../server/reckoning/reckoning.ts";
import { runs } from "../runs.ts";
import { knownOf } from "./answers-of.ts";
import { planFrom, type Reads } from "./plan-by-hand.ts";
import { numbers } from "./random-numbers.ts";
import type { Numbers, Reading, SizeNumbers } from "./worked-numbers.ts";

const timeout = 240_000;
const numRuns = runs(500);

/** Number and half-width of every answer, or its word or reason, by id. */
function answers(plan: Plan): ReadonlyMap<string, readonly [number, number] | string> {
  return new Map(reckon(plan).list.map((reckoning) => [reckoning.id, answerIn(reckoning)]));
}

function answerIn({ answer, unit }: Reckoning): readonly [number, number] | string {
  if (answer.kind === "word") return answer.word;
  return answer.kind === "known" ? [valueIn(answer, unit), halfWidthIn(answer, unit)] : answer.because;
}

function differences(plan: Plan, other: Plan, expected: (id: string, value: number) => number): readonly string[] {
  const changed = answers(other);
  return [...answers(plan)].flatMap(([id, answer]) => {
    const after = changed.get(id);
    if (typeof answer === "string" || typeof after === "string" || after === undefined) {
      return answer === after ? [] : [`${id}: ${after} instead of ${answer}`];
    }
    const [value, half] = [expected(id, answer[0]), answer[1]];
    const same = near(after[0], value) && near(after[1], half);
    return same ? [] : [`${id}: ${after.join(" ± ")} instead of ${value} ± ${half}`];
  });
}

function near(a: number, b: number): boolean {
  return Math.abs(a - b) <= 1e-8 * Math.max(1, Math.abs(a), Math.abs(b));
}

function scaled({ value, half }: Reading, factor: number): Reading {
  return { value: value * factor, half: half * factor };
}

function moved({ value, half }: Reading, by: number): Reading {
  return { value: value + by, half };
}

test("an image shown larger changes the magnification and nothing else", { timeout }, () => {
  fc.assert(
    fc.property(numbers, fc.constantFrom(0.5, 2, 4), (given, factor) => {
      const view = ({ marker, seen }: Numbers["ap"]) => ({ marker, seen: scaled(seen, factor) });
      const sizes = ({ level, width, depth }: SizeNumbers): SizeNumbers => ({
        level,
        ...(width && { width: scaled(width, factor) }),
        ...(depth && { depth: scaled(depth, factor) }),
      });
      const { scar, plafond, kneeJoint, lesserTrochanter, proximalSquare, distalSquare, fracture } = given;
      const larger: Numbers = {
        ...given,
        ap: view(given.ap),
        lateral: view(given.lateral),
        ...(scar && { scar: scaled(scar, factor) }),
        ...(plafond && { plafond: scaled(plafond, factor) }),
        ...(kneeJoint && { kneeJoint: scaled(kneeJoint, factor) }),
        ...(lesserTrochanter && { lesserTrochanter: scaled(lesserTrochanter, factor) }),
        ...(proximalSquare && { proximalSquare: scaled(proximalSquare, factor) }),
        ...(distalSquare && { distalSquare: scaled(distalSquare, factor) }),
        ...(fracture && {
          fracture: { ...fracture, from: scaled(fracture.from, factor), to: scaled(fracture.to, factor) },
        }),
        canals: given.canals.map(sizes),
        bones: given.bones.map(sizes),
      };
      const lines = differences(planFrom(given), planFrom(larger), (_, value) => value);
      expect(lines.map((line) => line.split(":")[0])).toEqual(["magnification.ap", "magnification.lateral"]);
      expect(
        near(
          knownOf(planFrom(larger), "magnification.ap").value,
          (given.ap.seen.value * factor) / given.ap.marker.value,
        ),
      ).toBe(true);
    }),
    { numRuns },
  );
});

test("marker and image in another unit of size, magnification included", { timeout }, () => {
  fc.assert(
    fc.property(numbers, fc.constantFrom(0.5, 2, 4), (given, factor) => {
      const view = ({ marker, seen }: Numbers["ap"]) => ({
        marker: scaled(marker, factor),
        seen: scaled(seen, factor),
      });
      const other: Numbers = { ...given, ap: view(given.ap), lateral: view(given.lateral) };
      expect(differences(planFrom(given), planFrom(other), (_, value) => value)).toEqual([]);
    }),
    { numRuns },
  );
});

test("an entry point further down moves every level and no distance", { timeout }, () => {
  // Levels are moved at true size, where no magnification stands between reading and level.
  const trueSize = { marker: { value: 25, half: 0 }, seen: { value: 25, half: 0 } };
  const movesWith = /^(level\.|canal\.isthmusLevel|nail\.(top|tip)|cap\.top|hole\.\w+\.level)/;
  fc.assert(
    fc.property(numbers, fc.integer({ min: -40, max: 40 }), (drawn, by) => {
      const given: Numbers = { ...drawn, ap: trueSize, lateral: trueSize, kneeJoint: { value: 0, half: 0 } };
      const { scar, plafond, lesserTrochanter, fracture } = given;
      const down: Numbers = {
        ...given,
        kneeJoint: { value: by, half: 0 },
        ...(scar && { scar: moved(scar, by) }),
        ...(plafond && { plafond: moved(plafond, by) }),
        ...(lesserTrochanter && { lesserTrochanter: moved(lesserTrochanter, by) }),
        ...(fracture && { fracture: { ...fracture, from: moved(fracture.from, by), to: moved(fracture.to, by) } }),
        canals: given.canals.map((size) => ({ ...size, level: moved(size.level, by) })),
        bones: given.bones.map((size) => ({ ...size, level: moved(size.level, by) })),
        sunk: moved(given.sunk, by),
      };
      const lines = differences(planFrom(given), planFrom(down), (id, value) =>
        movesWith.test(id) ? value + by : value,
      );
      // What is reamed reaches from the entry point itself.
      expect(lines.filter((line) => !line.startsWith("ream.removed"))).toEqual([]);
    }),
    { numRuns },
  );
});

test("a reading split in two with the same ± together is the same reading", { timeout }, () => {
  // 0.6² + 0.8² = 1.
  const inTwo: Reads = ({ value, half }, unit, id, label) =>
    add(
      measured(0.4 * value, 0.6 * half, unit, { id: `${id}:1`, label: `${label}, one part` }),
      measured(0.6 * value, 0.8 * half, unit, { id: `${id}:2`, label: `${label}, the other part` }),
    );
  fc.assert(
    fc.property(numbers, (given) => {
      expect(differences(planFrom(given), planFrom(given, inTwo), (_, value) => value)).toEqual([]);
    }),
    { numRuns },
  );
});

test("the other side is the same plan", { timeout }, () => {
  fc.assert(
    fc.property(numbers, (given) => {
      const print_ = (plan: Plan) =>
        reckon(plan).list.map((each) => [each.id, each.filled, printed(each), each.remark]);
      expect(print_(planFrom({ ...given, side: "right" }))).toEqual(print_(planFrom({ ...given, side: "left" })));
    }),
    { numRuns },
  );
});

test("varus and valgus alike, procurvatum and recurvatum alike", { timeout }, () => {
  const opposite = { varus: "valgus", valgus: "varus", procurvatum: "recurvatum", recurvatum: "procurvatum" } as const;
  fc.assert(
    fc.property(numbers, (given) => {
      const { coronal, sagittal, ...others } = given.alignment ?? {};
      const mirrored: Numbers = {
        ...given,
        alignment: {
          ...others,
          ...(coronal && { coronal: [coronal[0], opposite[coronal[1]] as "varus" | "valgus"] }),
          ...(sagittal && { sagittal: [sagittal[0], opposite[sagittal[1]] as "procurvatum" | "recurvatum"] }),
        },
      };
      expect(differences(planFrom(given), planFrom(mirrored), (_, value) => value)).toEqual([]);
    }),
    { numRuns },
  );
});

test("reckoned twice it is the same, nothing is NaN, and every budget adds up to 1", { timeout }, () => {
  fc.assert(
    fc.property(numbers, (given) => {
      const plan = planFrom(given);
      const [first, second] = [reckon(plan), reckon(plan)];
      expect(second.list.map((each) => ({ ...each }))).toEqual(first.list.map((each) => ({ ...each })));
      for (const { id, answer, formula, filled, from, label } of first.list) {
        expect([id, formula, filled, label].join()).not.toMatch(/NaN|Infinity|undefined/);
        expect(from.length > 0 || answer.kind === "unknown", id).toBe(true);
        if (answer.kind !== "known" || answer.influences.length === 0) continue;
        const sum = shares(answer).reduce((total, { share }) => total + share, 0);
        expect(Math.abs(sum - 1)).toBeLessThan(1e-9);
      }
    }),
    { numRuns },
  );
});

function printed({ answer, unit }: Reckoning): string {
  return answer.kind === "word" ? answer.word : print(answer, unit);
}
