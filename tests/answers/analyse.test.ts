/** The whole road in one call: findings at their places, numbers as printed, and the texts an analysis was made from. */
import { describe, expect, test } from "vitest";
import { analyse, type ImportedText, libraryOver } from "../../server/answers/analyse.ts";
import { analyseText, checkFindings, checkReckoning, sampleText, sampleWith } from "../check.ts";

const plan = "plans/simple-shaft.isthmus";

test("a short text is judged at its words", () => {
  checkFindings(`isthmus 1

protocol "Invented" {
  limit coronl up-to 3 deg
        ^^^^^^ error name-unknown: coronl
  limit sagittal up-to 3
  ^^^^^^^^^^^^^^^^^^^^^^ error unit-mismatch: sagittal
  grade cap-missing grave
                    ^^^^^ error unknown-word: grave
}
`);
});

test.each([
  ["level.scar", "352.7 mm ± 2.6 mm"],
  ["nail.tip", "339 mm"],
  ["segment", "shaft"],
  ["nothing", "no reckoning nothing"],
])("%s is %s", (id, printed) => checkReckoning(sampleText(plan), id, printed));

test("a number that cannot be trusted is withheld with its reason", () => {
  const text = sampleWith(plan, ["landmark scar 395 mm ± 2 mm on ap", "landmark scar 395 mm ± 2 mm on oblique"]);
  const answer = analyseText(text).reckonings?.byId.get("level.scar")?.answer;
  expect(answer).toMatchObject({ kind: "unknown" });
  checkReckoning(text, "level.scar", answer?.kind === "unknown" ? `unknown: ${answer.because}` : "known");
});

describe("the texts of an analysis", () => {
  test("are its own and those of what it read", () => {
    const files = [...analyseText(sampleText(plan)).texts.keys()].map((file) => file.replace(/^.*\/samples\//, ""));
    expect(files.sort()).toEqual(["catalogue/tarnbeck.isthmus", "plans/checked.isthmus", "protocol/ellerby.isthmus"]);
  });

  test("change with what the reader gives, and are parsed anew only then", () => {
    let catalogue = sampleText("catalogue/tarnbeck.isthmus");
    const library = libraryOver((_, path): ImportedText => {
      const text = path.includes("catalogue") ? catalogue : sampleText("protocol/ellerby.isthmus");
      return { kind: "read", file: path, text };
    });
    const opened = library.open("a", "../catalogue/tarnbeck.isthmus");
    expect(library.open("b", "../catalogue/tarnbeck.isthmus")).toEqual(opened);
    const slugs = (): string[] =>
      analyse("a", sampleText(plan), library).judgement.findings.map((finding) => finding.slug);
    expect(slugs()).toEqual([]);
    catalogue = catalogue.replace("lengths 240 mm to 420 mm", "lengths 240 mm to 315 mm");
    expect(slugs()).toContain("nail-unlisted");
  });

  test.each(["missing", "outside", "not-a-file", "not-text"] as const)("%s: the reason is told at the path", (kind) => {
    const library = libraryOver(() => ({ kind, because: "an invented reason" }));
    const { judgement, reckonings } = analyse("a", sampleText(plan), library);
    expect(judgement.findings.filter(({ slug }) => slug.startsWith("file-")).length).toBeGreaterThan(0);
    expect(reckonings?.byId.get("level.scar")?.answer.kind).toBe("known");
  });
});

test("a catalogue and a text that is nothing are judged and not reckoned", () => {
  expect(analyseText(sampleText("catalogue/tarnbeck.isthmus")).reckonings).toBeUndefined();
  expect(analyseText("quux").reckonings).toBeUndefined();
  expect(analyseText("quux").judgement.findings.length).toBeGreaterThan(0);
});

test("an analysis cannot be changed", () => {
  expect(Object.isFrozen(analyseText(sampleText(plan)))).toBe(true);
});
