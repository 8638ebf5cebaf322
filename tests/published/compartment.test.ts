/**
 * Diastolic less compartment pressure as it is reckoned; the limit it is held against has a file of its own.
 */
import { expect, test } from "vitest";
import { numberOf, reasonOf, workedWith } from "../reckoning/answers-of.ts";
import { of } from "../reckoning/worked-numbers.ts";

// line: DP-1 and DP-3: McQueen and Court-Brown, J Bone Joint Surg Br 1996;78-B:99-104 (printed): the difference of both
// pressures; its values (computed)
test.each([
  [70, 45, 25],
  [80, 50, 30],
  [65, 36, 29],
])("DP-1: diastolic %d mmHg, compartment %d mmHg: %d mmHg", (diastolic, pressure, gradient) => {
  const plan = workedWith({ diastolic: of(diastolic), pressure: of(pressure) });
  expect(numberOf(plan, "compartment.gradient", "mmHg")).toBeCloseTo(gradient, 12);
});

test("DP-3: a pressure without the diastolic one has no gradient", () => {
  expect(reasonOf(workedWith({ diastolic: undefined }), "compartment.gradient")).toBe("no diastolic pressure is given");
});

test("DP-3: no pressure at all is nothing to reckon", () => {
  expect(reasonOf(workedWith({ diastolic: undefined, pressure: undefined }), "compartment.gradient")).toBe("absent");
});
