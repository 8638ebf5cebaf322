/**
 * Diastolic less compartment pressure. McQueen and Court-Brown, J Bone Joint Surg Br 1996;78-B:99-104: fasciotomy below 30 mmHg
 * (printed); the differences are computed.
 */
import { expect, test } from "vitest";
import { numberOf, reasonOf, workedWith } from "../reckoning/answers-of.ts";
import { of } from "../reckoning/worked-numbers.ts";

// DP-1: McQueen and Court-Brown 1996 (computed): 25 and 29 lie below 30, 30 does not.
test.each([
  [70, 45, 25],
  [80, 50, 30],
  [65, 36, 29],
])("diastolic %d mmHg, compartment %d mmHg: %d mmHg", (diastolic, pressure, gradient) => {
  const plan = workedWith({ diastolic: of(diastolic), pressure: of(pressure) });
  expect(numberOf(plan, "compartment.gradient", "mmHg")).toBeCloseTo(gradient, 12);
});

test("DP-3: a pressure without the diastolic one has no gradient", () => {
  expect(reasonOf(workedWith({ diastolic: undefined }), "compartment.gradient")).toBe("no diastolic pressure is given");
});

test("no pressure at all is nothing to reckon", () => {
  expect(reasonOf(workedWith({ diastolic: undefined, pressure: undefined }), "compartment.gradient")).toBe("absent");
});
