/** Sums of sensitivities that cancel: exactly 0 up to the rounding noise of doubles, and what they are beyond it. */
import { describe, expect, test } from "vitest";
import { sumWithoutNoise, uncertaintyOf } from "../../server/quantity/influences.ts";

describe("a sum of terms that nearly cancel", () => {
  const noise = 2 ** -48;
  test.each([
    // Both terms and their sum are doubles exactly, and the sum is just that part of the terms.
    ["at the noise is 0", 1 + noise, noise - 1, 0],
    ["twice the noise is itself", 1 + 2 * noise, 2 * noise - 1, 4 * noise],
    ["of terms far apart is itself", 1, -0.25, 0.75],
    ["of two zeros is 0", 0, 0, 0],
  ])("%s", (_, x, y, expected) => {
    expect(sumWithoutNoise(x, y)).toBe(expected);
    expect(sumWithoutNoise(y, x)).toBe(expected);
  });
});

test("contributions that are too small for a double add up to 0", () => {
  const reading = { id: "a", label: "a", standardUncertainty: 1e-200, unit: "mm" };
  expect(uncertaintyOf([{ reading, sensitivity: 1e-200 }])).toBe(0);
  expect(uncertaintyOf([])).toBe(0);
});
