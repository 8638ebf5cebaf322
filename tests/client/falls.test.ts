/** How often the editor starts a fallen server again, by the times of its falls. */
import { expect, test } from "vitest";
import { afterFall } from "../../client/falls.ts";

/** Whether it is started again after each fall at these seconds. */
function startedAgain(...seconds: readonly number[]): boolean[] {
  let falls: readonly number[] = [];
  return seconds.map((second) => {
    const next = afterFall(falls, second * 1000);
    falls = next.falls;
    return next.startAgain;
  });
}

test("four falls are borne, the fifth within three minutes is not", () => {
  expect(startedAgain(0, 1, 2, 3, 4)).toEqual([true, true, true, true, false]);
  expect(startedAgain(0, 45, 90, 135, 180)).toEqual([true, true, true, true, false]);
});

test("a fall more than three minutes ago does not count", () => {
  expect(startedAgain(0, 45, 90, 135, 180.001)).toEqual([true, true, true, true, true]);
  expect(startedAgain(...Array.from({ length: 100 }, (_, index) => index * 50))).not.toContain(false);
});
