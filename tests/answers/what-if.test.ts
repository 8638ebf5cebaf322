/** What if: one value written over, by name or by a path of statement and clause, and what that changes. */
import { describe, expect, test } from "vitest";
import { differences, type WhatIf, whatIf } from "../../server/answers/what-if.ts";
import { analyseText, sampleLibrary, sampleText, sampleWith } from "../check.ts";

const plan = "plans/simple-shaft.isthmus";
const text = sampleText(plan);

function asked(name: string, value: string, of = text): WhatIf {
  const answer = whatIf(analyseText(of), sampleLibrary(), name, value);
  if (answer === undefined) throw new Error(`no value is called ${name}`);
  return answer;
}

/** The one line that is written anew. */
function lineOf({ analysis }: WhatIf, of = text): string | undefined {
  const before = of.split("\n");
  const lines = analysis.text.split("\n").filter((line, at) => line !== before[at]);
  expect(lines).toHaveLength(1);
  return lines[0]?.trim();
}

describe("which value is meant", () => {
  test.each([
    ["scar", "352 mm ± 1 mm", "landmark scar 352 mm ± 1 mm"],
    ["landmark.scar", "352 mm", "landmark scar 352 mm"],
    ["nail.length", "345 mm", "nail tarnbeck, diameter 10 mm, length 345 mm, sunk 9 mm"],
    ["lock.D1.screw", "40 mm", "lock D1, drilled 36 mm, screw 40 mm"],
    ["lock.P2.drilled", "51 mm ± 1 mm", "lock P2, drilled 51 mm ± 1 mm, screw 52 mm"],
    ["view.ap.seen", "29 mm", "view ap, marker 25 mm, seen 29 mm"],
    ["fracture.from", "180 mm to 190 mm", "fracture 42A3(b), from 180 mm to 190 mm, gap 4 mm ± 1 mm, fibula 4F2A"],
    ["fracture.gap", "2 mm", "fracture 42A3(b), from 190 mm on ap to 198 mm on ap, gap 2 mm, fibula 4F2A"],
    ["compress", "1 turn", "compress 1 turn"],
    ["cap", "none", "cap none"],
    ["ream", "8.5 mm to 12 mm by 0.5 mm", "ream 8.5 mm to 12 mm by 0.5 mm"],
    ["weight", "90 kg", "weight 90 kg"],
    ["side", "left", "side left"],
    // The direction beside the amount stays.
    ["enter.from-midline", "12 mm", "enter infrapatellar, from-midline 12 mm lateral"],
    [
      "alignment.coronal",
      "2 deg",
      "alignment coronal 2 deg valgus, sagittal 5 deg recurvatum, rotation 8 deg external, short 4 mm",
    ],
  ])("%s", (name, value, line) => expect(lineOf(asked(name, value))).toBe(line));

  test("a named value, wherever it stands, before a statement of that word", () => {
    const named = sampleWith(
      plan,
      ["  status for-review\n", "  status for-review\n  let cap = 9 mm\n"],
      ["sunk 9 mm", "sunk cap"],
    );
    const answer = asked("cap", "12 mm", named);
    expect(lineOf(answer, named)).toBe("let cap = 12 mm");
    expect(answer.changed.find(({ id }) => id === "nail.tip")).toEqual({
      id: "nail.tip",
      before: "339 mm",
      after: "342 mm",
    });
  });

  test("the screw's family stays", () => {
    const family = sampleWith(plan, [
      "lock D1, drilled 36 mm, screw 38 mm",
      "lock D1, drilled 36 mm, screw dowel 38 mm",
    ]);
    expect(lineOf(asked("lock.D1.screw", "40 mm", family), family)).toBe("lock D1, drilled 36 mm, screw dowel 40 mm");
  });

  test.each([
    "nothing",
    "lock.D9.screw",
    "lock.D1.colour",
    "nail.colour",
    "",
    ".",
    "scar.length",
    "__proto__",
    "plan",
    "operation",
  ])("%j is no value", (name) =>
    expect(whatIf(analyseText(text), sampleLibrary(), name, "1 mm")?.analysis.text).toBeUndefined(),
  );
});

describe("what it changes", () => {
  test("numbers that read differently, before and after, and no others", () => {
    const { changed, gone, come, analysis } = asked("compress", "1 turn");
    expect(changed).toContainEqual({ id: "compression.amount", before: "2.5 mm", after: "1.25 mm" });
    expect(changed.map(({ id }) => id)).not.toContain("level.scar");
    expect(gone).toEqual([]);
    expect(come).toEqual([]);
    expect(analysis.text).toContain("compress 1 turn");
  });

  test("decisions that flip, with what is found now", () => {
    const { come, gone } = asked("lock.D1.screw", "60 mm");
    expect(come.map(({ slug, at }) => [slug, at])).toContainEqual(["screw-overlength", "D1"]);
    expect(gone).toEqual([]);
  });

  test("and the other way round, with what is found no longer", () => {
    const long = sampleWith(plan, ["length 330 mm, sunk 9 mm", "length 375 mm, sunk 9 mm"]);
    const { come, gone, changed } = asked("nail.length", "330 mm", long);
    expect(gone.map(({ slug }) => slug)).toContain("nail-long");
    expect(come).toEqual([]);
    expect(changed.find(({ id }) => id === "nail.tip")).toEqual({ id: "nail.tip", before: "384 mm", after: "339 mm" });
  });

  test("a better known landmark", () => {
    const { changed } = asked("scar", "395 mm ± 0.5 mm on ap");
    expect(changed.find(({ id }) => id === "level.scar")).toMatchObject({
      before: "352.7 mm ± 2.6 mm",
      after: "352.7 mm ± 1.9 mm",
    });
  });

  test("what is there no more is a dash, what is withheld says why", () => {
    const { changed } = asked("cap", "none");
    expect(changed.find(({ id }) => id === "cap.top")?.after).toBe("—");
    const broken = asked("scar", "395", text);
    expect(broken.changed.find(({ id }) => id === "level.scar")?.after).toMatch(/^unknown: /);
    expect(broken.come.map(({ slug }) => slug)).toContain("unit-missing");
  });

  test("nothing when the same is written again", () => {
    const { changed, come, gone } = asked("nail.length", "330 mm");
    expect({ changed, come, gone }).toEqual({ changed: [], come: [], gone: [] });
  });

  test("the plan itself stays as it is", () => {
    const analysis = analyseText(text);
    whatIf(analysis, sampleLibrary(), "nail.length", "375 mm");
    expect(analysis.text).toBe(text);
    expect(analysis.judgement.findings).toEqual([]);
  });
});

test("two plans are compared both ways", () => {
  const [one, other] = [analyseText(text), analyseText(sampleWith(plan, ["cap 5 mm\n", "cap 10 mm\n"]))];
  const [there, back] = [differences(one, other), differences(other, one)];
  expect(there.come.map(({ slug }) => slug)).toEqual(["cap-proud"]);
  expect(back.gone).toEqual(there.come);
  expect(back.changed.map(({ id, before, after }) => ({ id, before: after, after: before }))).toEqual(there.changed);
});
