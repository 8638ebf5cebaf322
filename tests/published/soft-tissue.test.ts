/** Soft-tissue grades as their authors listed them, open against closed, and the antibiotic of an open fracture. */
import { describe, expect, test } from "vitest";
import { rule as antibioticMissing } from "../../server/findings/antibiotic-missing.ts";
import type { Change } from "../findings/clinical/table.ts";
import { changed, findingsOf } from "../findings/judged.ts";

const softTissue = (text: string): Change => ["soft-tissue closed C1", `soft-tissue ${text}`];
const closed = ["C0", "C1", "C2", "C3"];
const open = ["I", "II", "IIIA", "IIIB", "IIIC"];

function about(text: string): readonly string[] {
  return ["misplaced", "soft-tissue-contradiction"].flatMap((slug) =>
    findingsOf(changed(softTissue(text)), slug).map((each) => `${each.grade} ${each.slug}`),
  );
}

// line: OPEN-4: closed: Tscherne & Oestern, Unfallheilkunde 1982;85:111; open: Gustilo & Anderson, JBJS Am
// 1976;58-A:453; Gustilo, Mendoza & Williams, J Trauma 1984;24:742 (printed)
describe("OPEN-4: closed and open grades exclude each other", () => {
  test.each(closed)("closed %s stands, open %s is a contradiction", (grade) => {
    expect(about(`closed ${grade}`)).toEqual([]);
    expect(about(`open ${grade}`)).toEqual(["error soft-tissue-contradiction"]);
  });

  test.each(open)("open %s stands, closed %s is a contradiction", (grade) => {
    expect(about(`open ${grade}`)).toEqual([]);
    expect(about(`closed ${grade}`)).toEqual(["error soft-tissue-contradiction"]);
  });

  test.each(["open III", "open IV", "open IIID", "closed C4"])("no author has a grade %s", (text) => {
    expect(about(text)).toEqual(["error misplaced"]);
  });
});

// line: AB-1: Lack et al., J Orthop Trauma 2015;29:1-6, doi 10.1097/BOT.0000000000000262: later than 66 min, odds 3.78
// (1.16 to 12.31) (printed). A plan holds no times of day, so whether one is late is not judged.
describe("AB-1: the antibiotic of an open fracture", () => {
  const without: readonly Change[] = [
    ["prepare antibiotic, time-out", "prepare time-out"],
    ["demand time-out, antibiotic", "demand time-out"],
  ];
  const found = (...change: readonly Change[]) =>
    findingsOf(changed(...change), "antibiotic-missing").map((each) => each.grade);

  test("left out it is found, and only of an open fracture", () => {
    expect(found(softTissue("open II"), ...without)).toEqual(["warning"]);
    expect(found(softTissue("open II"))).toEqual([]);
    expect(found(...without)).toEqual([]);
  });

  test("the rule names that series", () => {
    expect(antibioticMissing.basis).toMatchObject({ mark: "printed" });
    expect(antibioticMissing.basis.text).toContain("3.78 (1.16 to 12.31)");
    expect(antibioticMissing.basis.text).toContain("later than 66 minutes");
  });
});
