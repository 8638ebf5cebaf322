/** Printed figures that do not hold or cannot be followed, and that the tool therefore may not rest on. */
import { describe, expect, test } from "vitest";
import { rules } from "../../server/findings/all.ts";
import { limitTable } from "../../server/findings/limit-table.ts";
import { printNumber } from "../../server/quantity/print.ts";
import { changed } from "../findings/judged.ts";

/** Everything the tool gives as a reason or a source: of rules, limits and reckonings. */
const reasons = [
  ...rules.flatMap((rule) => [rule.why, rule.basis.text, rule.population]),
  ...limitTable.flatMap((entry: { basis: { text: string }; population?: string; remark?: string }) => [
    entry.basis.text,
    entry.population,
    entry.remark,
  ]),
  ...(changed().reckonings?.list ?? []).flatMap(({ basis, remark }) => [basis.text, remark]),
].filter((text) => text !== undefined);

const naming = (figure: RegExp) => reasons.filter((text) => figure.test(text));

// line: T3: Pesciallo 2021, doi 10.1007/s43465-021-00523-1: union in 36 of 39, failure "6.7 %" (printed, wrong); 3 of
// 39 is 7.7 % (computed)
describe("T3: 3 of 39", () => {
  test("is 7.7 %, not the 6.7 % printed", () => {
    expect(printNumber((100 * 3) / 39, 1)).toBe("7.7");
    expect(printNumber((100 * 36) / 39, 1)).toBe("92.3");
  });

  test("the series is named, its wrong figure nowhere", () => {
    expect(naming(/Pesciallo/)).not.toEqual([]);
    expect(naming(/\b6\.7\b/)).toEqual([]);
  });
});

// line: T4: angles of the distal tibia's joint: Keeler & Gordon 90 (88 to 95) and 80 (78 to 81) deg (printed), Paley 89 (86 to 92)
// and 80 (78 to 82) deg (from memory): two sources differ
describe("T4: a norm never stands without its source", () => {
  test("no norm of a joint's angle is held at all", () => {
    expect(naming(/\b[LA]DTA\b|Keeler|\b(88|86) (to|deg|°)/)).toEqual([]);
    expect(limitTable.filter(({ name, title }) => /joint.*angle|angle.*joint/.test(`${name} ${title}`))).toEqual([]);
  });

  test("whatever is taken from a series names it", () => {
    const printed = [...rules, ...limitTable].filter(({ basis }) => basis.mark === "printed");
    expect(printed.length).toBeGreaterThan(20);
    // A name or a journal with its year, or a standard's number.
    expect(printed.map(({ basis }) => basis.text).filter((text) => !/\b(19|20)\d\d\b|\d{3}\.\d{3}/.test(text))).toEqual(
      [],
    );
  });

  test("whatever is not printed says what it rests on", () => {
    const others = [...rules, ...limitTable].filter(({ basis }) => basis.mark !== "printed");
    expect(others.filter(({ basis }) => !/practice|no published figure|choice|[a-z]{4}/.test(basis.text))).toEqual([]);
    expect(others.length).toBeGreaterThan(20);
  });
});

// line: T6: contact area of nail and bone, a tube of 42 mm: 48.6 % (printed); a plain annulus gives 36.5 % (computed)
test("T6: a model that cannot be followed is no source of anything", () => {
  expect(reasons.length).toBeGreaterThan(150);
  expect(naming(/\b48\.6\b|\b36\.5\b|contact area/i)).toEqual([]);
});

// line: T2: PMC4799231 fig. 5: the plane at 43 or 47 deg (printed, does not follow)
test("T2: the printed plane is no source of anything", () => {
  expect(naming(/PMC4799231|\b4[37] ?(deg|°)/)).toEqual([]);
});
