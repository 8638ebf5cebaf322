/** The reading behind a true length: kept where the whole value is one number read on one view, and nowhere else. */
import { describe, expect, test } from "vitest";
import { examplePlan as planText } from "../../server/findings/example.ts";
import { valueIn } from "../../server/quantity/arithmetic.ts";
import { printValue } from "../../server/quantity/print.ts";
import { understoodPlan } from "./texts.ts";

/** "416 mm / 1.15 on ap" behind the level of the scar when it is typed so; "" when no reading stands behind it. */
function behind(typed: string, images = "view ap, marker 25 mm, seen 28.75 mm ± 0.2 mm"): string {
  const text = planText
    .replace("landmark scar 416 mm ± 2 mm on ap", `landmark scar ${typed}`)
    .replace("view ap, marker 25 mm, seen 28.75 mm ± 0.2 mm", images);
  const scar = understoodPlan(text).measures.landmarks.find(({ name }) => name.text === "scar");
  const reading = scar?.level.reading;
  if (reading === undefined) return "";
  const { magnification } = reading;
  const ratio = magnification.kind === "known" ? valueIn(magnification, "1") : "unknown";
  return `${printValue(reading.raw, "mm")} / ${ratio} on ${reading.view}`;
}

describe("the reading behind a landmark", () => {
  test.each([
    ["416 mm on ap", "416 mm / 1.15 on ap"],
    ["416 mm ± 2 mm on ap", "416 mm / 1.15 on ap"],
    ["416.0 mm ± 2 mm on ap", "416.0 mm / 1.15 on ap"],
    ["41.6 cm on ap", "416 mm / 1.15 on ap"],
    ["(416 mm on ap)", "416 mm / 1.15 on ap"],
    ["(412 mm + 4 mm) on ap", "416 mm / 1.15 on ap"],
    ["432 mm on lateral", "432 mm / 1.16 on lateral"],
    // Not one reading as a whole.
    ["416 mm", ""],
    ["400 mm on ap + 4 mm", ""],
    ["-(416 mm on ap)", ""],
    ["plafond", ""],
    // Nothing to divide by, or nothing to divide.
    ["416 mm on oblique", ""],
    ["416 deg on ap", ""],
    ["416 on ap", ""],
  ])("%s: %s", (typed, expected) => {
    expect(behind(typed)).toBe(expected);
  });

  test("a view at true size has no scale", () => {
    expect(behind("416 mm on ap", "view ap, true-size")).toBe("");
  });

  test("a view without its marker leaves the length unknown", () => {
    expect(behind("416 mm on ap", "view ap")).toBe("");
  });
});

test("the edges of the fracture and the widths of the canal keep theirs", () => {
  const plan = understoodPlan(planText);
  const { fracture } = plan.case ?? {};
  const readings = [fracture?.from, fracture?.to, plan.measures.canals[1]?.width, plan.measures.canals[1]?.depth];
  expect(
    readings.map((typed) => typed?.reading && `${printValue(typed.reading.raw, "mm")} on ${typed.reading.view}`),
  ).toEqual(["208 mm on ap", "232 mm on ap", "12.4 mm on ap", "12.2 mm on lateral"]);
  expect(fracture?.gap?.reading).toBeUndefined();
});
