/**
 * A nail's stiffness and yield moment out of a four-point bending test. The tool reckons no such test: its quantities
 * carry the printed formula here, with its units and its uncertainty.
 */
import { expect, test } from "vitest";
import { add, divide, exact, multiply, scale } from "../../server/quantity/arithmetic.ts";
import { power } from "../../server/quantity/elementary.ts";
import { print } from "../../server/quantity/print.ts";
import { numberIn, reading } from "../quantity/sure.ts";

const arm = exact(38, "mm");
const between = exact(38, "mm");

// line: MECH-1: Pretorius et al., SA Orthop J 2022;21(4), doi 10.17159/2309-8309/2022/v21n4a6: s = c = 38 mm, 67.10
// N/mm, 566 ± 20 N, 1.53 N·m², 10.75 ± 0.37 N·m (printed); formulas of ASTM F1264, annex A1 (from memory, and by beam
// theory)
test("MECH-1: s²(L + 2c)(F/y)/12 is 1.53 N·m²", () => {
  const length = add(scale(arm, 2), between);
  const stiffness = divide(exact(67.1, "N"), exact(1, "mm"));
  const bending = scale(multiply(multiply(power(arm, 2), add(length, scale(between, 2))), stiffness), 1 / 12);
  // Tolerance 0.5 %.
  expect(Math.abs(numberIn(bending, "N·m²") / 1.5341 - 1)).toBeLessThan(0.005);
  expect(print(bending, "N·m²")).toBe("1.53 N·m²");
});

test("MECH-1: F s/2 is 10.75 N·m", () => {
  // The printed half-width is 0.37 N·m; from the printed, rounded force it is 0.38 N·m.
  const moment = scale(multiply(reading("F", 566, 20, "N"), arm), 0.5);
  expect(Math.abs(numberIn(moment, "Nm") / 10.754 - 1)).toBeLessThan(0.005);
  expect(print(moment, "Nm")).toBe("10.75 Nm ± 0.38 Nm");
});
