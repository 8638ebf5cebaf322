/**
 * The simulation beside the first-order figures: repeatable, in agreement where a quantity is near enough to linear, and honest
 * where it is not. A short plan keeps the trials fast.
 */
import { describe, expect, test } from "vitest";
import { type Simulated, simulate } from "../../server/answers/simulate.ts";
import { analyseText, sampleLibrary, sampleText } from "../check.ts";

/** Levels alone: two landmarks read on one view. */
function levels(seen: string, scar = "395 mm ± 2 mm on ap"): string {
  return `isthmus 1

plan "Invented" {
  images {
    view ap, marker 25 mm, seen ${seen}
  }
  measures {
    landmark scar ${scar}
    landmark plafond 410 mm ± 2 mm on ap
  }
}
`;
}

function simulated(text: string, trials: number, seed = 1): readonly Simulated[] {
  return simulate(analyseText(text), sampleLibrary(), trials, seed);
}

function one(id: string, all: readonly Simulated[]): Simulated {
  const found = all.find((each) => each.id === id);
  if (found === undefined) throw new Error(`nothing was simulated for ${id}`);
  return found;
}

describe("chance", () => {
  test("the same seed gives the same answer, another seed another", () => {
    const text = levels("28 mm ± 0.15 mm");
    expect(simulated(text, 200, 7)).toEqual(simulated(text, 200, 7));
    expect(one("level.scar", simulated(text, 200, 7)).mean).not.toBe(one("level.scar", simulated(text, 200, 8)).mean);
  });

  test("readings are drawn once for every place that uses them", () => {
    // The same marker scales both landmarks: their distance is far better known than either.
    const text = levels("28 mm ± 3 mm", "395 mm on ap").replace("410 mm ± 2 mm", "410 mm");
    const all = simulated(text, 400);
    expect(one("level.plafond", all).deviation / one("level.scar", all).deviation).toBeCloseTo(410 / 395, 3);
  });
});

describe("agreement", () => {
  test.each([3, 2026])("quantities that are near enough to linear agree, seed %d", (seed) => {
    const all = simulated(levels("28 mm ± 0.15 mm"), 4000, seed);
    expect(all.map(({ id }) => id)).toEqual(["magnification.ap", "level.scar", "level.plafond"]);
    for (const { id, agrees, trials, value, halfWidth, mean, deviation, low, high } of all) {
      expect({ id, agrees, trials }).toEqual({ id, agrees: true, trials: 4000 });
      // 4000 trials know the mean to a 63rd of a standard deviation and the deviation to 1.1 %; five times that is allowed.
      expect(Math.abs(mean - value)).toBeLessThan(0.1 * halfWidth);
      expect(Math.abs(2 * deviation - halfWidth)).toBeLessThan(0.06 * halfWidth);
      expect(low < value && value < high).toBe(true);
    }
  });

  test("a strongly curved one disagrees and says so, with its longer tail on the right side", () => {
    const all = simulated(levels("28 mm ± 12 mm"), 1000);
    const { agrees, trials, low, high, value, halfWidth } = one("level.scar", all);
    expect({ agrees, trials }).toEqual({ agrees: false, trials: 1000 });
    // A length over a magnification: half the magnification doubles it, half as much again takes a third away.
    expect(high - value).toBeGreaterThan(1.2 * halfWidth);
    expect(value - low).toBeLessThan(0.9 * halfWidth);
    expect(one("magnification.ap", all).agrees).toBe(true);
  });

  test("one that cannot be reckoned in every trial disagrees", () => {
    const all = simulated(levels("28 mm ± 50 mm"), 300);
    expect(all.filter(({ trials }) => trials < 300).length).toBeGreaterThan(0);
    expect(all.filter(({ trials, agrees }) => trials < 300 && agrees)).toEqual([]);
  });

  test("of a whole plan every uncertain number is compared, and the lengths read on a view agree", () => {
    const text = sampleText("plans/simple-shaft.isthmus");
    const all = simulated(text, 120);
    const uncertain = (analyseText(text).reckonings?.list ?? []).filter(
      ({ answer }) => answer.kind === "known" && answer.influences.length > 0,
    );
    expect(all.map(({ id }) => id)).toEqual(uncertain.map(({ id }) => id));
    for (const id of ["level.scar", "tip.toScar", "hole.D1.toFracture", "compression.gapLeft"]) {
      expect({ id, agrees: one(id, all).agrees }).toEqual({ id, agrees: true });
    }
  });
});

describe("nothing to simulate", () => {
  test.each([
    ["a plan without a ±", levels("28 mm", "395 mm on ap").replace("410 mm ± 2 mm", "410 mm")],
    ["a catalogue", sampleText("catalogue/tarnbeck.isthmus")],
    ["an empty text", ""],
  ])("%s", (_, text) => expect(simulated(text, 100)).toEqual([]));
});
