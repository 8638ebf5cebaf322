/** The small lookups the rules share, asked for what the tables have and for what they lack. */
import { describe, expect, test } from "vitest";
import { aboutList } from "../../server/findings/catalogue-checks.ts";
import { withMeaning } from "../../server/findings/fracture-code.ts";
import { gradeUnder } from "../../server/findings/grading.ts";
import { asByDefault } from "../../server/findings/profiles.ts";
import { attempt } from "../../server/findings/running.ts";
import { changed, findingsOf, outcomeOf } from "./judged.ts";

test("a list that is not there is nothing to point to", () => {
  expect(aboutList(undefined, "The listed lengths.")).toEqual([]);
});

test("a code is told with its group's meaning, where the classification has the group", () => {
  expect(withMeaning("42A3(b)")).toBe("42A3(b): transverse, less than 30 deg");
  expect(withMeaning("42A4")).toBe("42A4");
  expect(withMeaning("of 2018")).toBe("of 2018");
});

test("a profile takes a limit's upper end, and refuses one that has none", () => {
  expect(asByDefault("coronal")).toMatchObject({ limit: "coronal", most: 5, unit: "deg" });
  expect(() => asByDefault("top-below-joint")).toThrow("limit top-below-joint has no upper end by default");
});

describe("grades", () => {
  test("a protocol's grade moves a finding by as much as it is milder than its rule", () => {
    expect(gradeUnder(undefined, "error", "warning")).toBe("warning");
    expect(gradeUnder("off", "error", undefined)).toBe("error");
    expect(gradeUnder("warning", "error", undefined)).toBe("warning");
    expect(gradeUnder("warning", "error", "warning")).toBe("information");
    expect(gradeUnder("information", "error", "warning")).toBe("information");
    expect(gradeUnder("error", "warning", "information")).toBe("warning");
    expect(gradeUnder("error", "warning", "error")).toBe("error");
  });

  test("a grade that is none changes nothing", () => {
    const grade = (word: string) =>
      findingsOf(
        changed(["cap 5 mm\n", "\n"], ["grade cap-missing warning", `grade cap-missing ${word}`]),
        "cap-missing",
      );
    expect(grade("error")).toMatchObject([{ grade: "error" }]);
    expect(grade("loud")).toMatchObject([{ grade: "information" }]);
  });
});

test("what a check throws is told, whether it is an error or not", () => {
  const failing = (thrown: unknown) => () => {
    throw thrown;
  };
  expect(attempt(failing(new Error("out of paper")))).toEqual({
    found: [],
    untold: ["the check failed: out of paper"],
  });
  expect(attempt(failing("out of ink"))).toEqual({ found: [], untold: ["the check failed: out of ink"] });
});

test("a ream step without a head is no start of reaming to judge", () => {
  const analysis = changed(["ream 8.5 mm to 11 mm by 0.5 mm\n    nail", "ream\n    nail"]);
  expect(findingsOf(analysis, "reaming-start")).toEqual([]);
  expect(outcomeOf(analysis, "reaming-start")).toBe("cannot tell");
});
