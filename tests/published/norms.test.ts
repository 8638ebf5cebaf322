/** Lengths no tibia has, against the printed range. What else `implausible` looks at rests on no figure of its own. */
import { describe, expect, test } from "vitest";
import { changed, findingsOf } from "../findings/judged.ts";

function found(length: string) {
  return findingsOf(changed(["landmark plafond 432 mm ± 2 mm on ap", `landmark plafond ${length}`]), "implausible");
}

// line: NORM-1: Nguyen 2018, 228 tibiae: length 312 to 460 mm (printed)
describe("NORM-1: the length of a tibia", () => {
  test.each(["240 mm", "520 mm", "311.9 mm", "460.1 mm"])("%s is outside the range", (length) => {
    const [first, ...more] = found(length);
    expect(first).toMatchObject({ grade: "warning" });
    expect(first?.message).toContain(`${length} long`);
    expect(first?.message).toContain("the printed range is 312 mm to 460 mm. Check the unit and the marker.");
    expect(more).toEqual([]);
  });

  test.each(["312 mm", "362.8 mm", "460 mm"])("%s is not", (length) => {
    expect(found(length)).toEqual([]);
  });

  test("at its end within the reading's uncertainty it may be", () => {
    const [first] = found("460 mm ± 2 mm");
    expect(first).toMatchObject({ grade: "information" });
    expect(first?.message).toContain("may be 460.0 mm ± 2.0 mm long");
  });
});
