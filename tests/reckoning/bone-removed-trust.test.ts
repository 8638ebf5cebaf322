/**
 * The linear ± of the bone removed against a seeded simulation of its own: where nothing is said the two agree, and near 0, where they do
 * not, it is said.
 */
import { describe, expect, test } from "vitest";
import { halfWidthIn } from "../../server/quantity/arithmetic.ts";
import { normalDeviates } from "../../server/quantity/chance.ts";
import { isTrusted } from "../../server/reckoning/bone-removed-trust.ts";
import { reckon } from "../../server/reckoning/reckon.ts";
import { knownOf, workedWith } from "./answers-of.ts";
import { type Numbers, of, range } from "./worked-numbers.ts";

const said = "so near 0 the ± is not to be trusted";

/** A round canal of one size, read in true size, reamed by one head. */
function reamedTo(head: number, size: number, half: number): Partial<Numbers> {
  return {
    ap: { marker: of(25), seen: of(25) },
    lateral: { marker: of(25), seen: of(25) },
    canals: [{ level: of(100), width: of(size, half), depth: of(size, half) }],
    heads: [head],
  };
}

function remarkOf(numbers: Partial<Numbers>): string {
  return reckon(workedWith(numbers)).byId.get("ream.removed")?.remark ?? "";
}

/** Volumes in ml of a canal drawn again and again: circle and ellipse with one centre, the tip at 353 mm. */
function simulated(head: number, size: number, half: number, trials = 4000): readonly number[] {
  const normal = normalDeviates(20_260_101);
  const all = Array.from({ length: trials }, () => {
    const [width, depth] = [size + (normal() * half) / 2, size + (normal() * half) / 2];
    return (outside(head / 2, width / 2, depth / 2) * 353) / 1000;
  });
  return all.sort((a, b) => a - b);
}

/** Area of the circle outside the ellipse, by thin sectors. */
function outside(radius: number, first: number, second: number): number {
  const sectors = 720;
  let area = 0;
  for (let sector = 0; sector < sectors; sector += 1) {
    const angle = ((sector + 0.5) * 2 * Math.PI) / sectors;
    const edge = 1 / Math.hypot(Math.cos(angle) / first, Math.sin(angle) / second);
    area += (Math.max(0, radius * radius - edge * edge) * Math.PI) / sectors;
  }
  return area;
}

describe("a canal of 10 mm ± 0.4 mm", () => {
  test.each([
    // The head is far wider: the line is straight enough.
    [13, false],
    [12, false],
    // Near the canal's own size the volume bends.
    [10.1, true],
    [10, true],
    // The head is narrower than the canal read, and not than the canal it may be.
    [9.8, true],
    // It is far narrower.
    [9, false],
  ])("reamed to %d mm: distrusted %s", (head, distrusted) => {
    const numbers = reamedTo(head, 10, 0.4);
    expect(remarkOf(numbers).includes(said)).toBe(distrusted);
    const { value, ...answer } = knownOf(workedWith(numbers), "ream.removed");
    const half = halfWidthIn({ value, ...answer }, "ml");
    const drawn = simulated(head, 10, 0.4);
    const [low = 0, high = 0] = [drawn[Math.round(0.02275 * 4000)], drawn[Math.round(0.97725 * 4000)]];
    const middle = value / 1000;
    const off = Math.max(Math.abs(middle - half - low), Math.abs(middle + half - high));
    // JCGM 101:2008, 8: half a unit in the first digit of the standard uncertainty; the trials themselves err by some more.
    const allowed = half === 0 ? 0.001 : Math.max(10 ** Math.floor(Math.log10(half / 2)) / 2, half / 10);
    if (distrusted) expect(off).toBeGreaterThan(allowed);
    else expect(off).toBeLessThanOrEqual(allowed + 0.05 * half);
  });
});

test("the interval shown reaches no lower than nothing and as far as the canal may be narrower", () => {
  // By hand: one reading after the other moved by 0.4 mm. A width of 9.6 mm and a depth of 10 mm leave the circle of 10 mm two
  // horns; both readings alike, their squares add up.
  const horns = outside(5, 4.8, 5) * 353;
  const above = Math.hypot(horns, horns) / 1000;
  expect(remarkOf(reamedTo(10, 10, 0.4))).toContain(`gives 0 ml to ${above.toFixed(3)} ml`);
});

test("exact readings leave nothing open", () => {
  expect(remarkOf(reamedTo(10.2, 10, 0))).not.toContain(said);
});

test("what each head takes is still said", () => {
  expect(remarkOf({ ...reamedTo(10, 10, 0.4), heads: range(9.5, 10.5, 0.5) })).toMatch(
    /^9\.5 mm: 0 ml, .*outside the levels/,
  );
});

test.each([
  [{ below: 100, above: 100 }, 100, true],
  // u = 50 mm³: half a unit in its one digit is 5, a tenth of the half-width 10.
  [{ below: 90, above: 110 }, 100, true],
  [{ below: 89, above: 100 }, 100, false],
  [{ below: 100, above: 111 }, 100, false],
  // u = 10 mm³: half a unit in its one digit is 5, a tenth of the half-width 2.
  [{ below: 15, above: 25 }, 20, true],
  [{ below: 14.9, above: 20 }, 20, false],
  // Nothing by the line, and nothing to speak of.
  [{ below: 0, above: 1 }, 0, true],
  [{ below: 0, above: 1.1 }, 0, false],
])("%j against a half-width of %d mm³", (reach, linear, trusted) => {
  expect(isTrusted({ volume: 0, ...reach }, linear)).toBe(trusted);
});
