/** What is said about the text itself: the sentence, the place, the grade and the way out, one mistake one finding. */
import { describe, expect, test } from "vitest";
import { analyse } from "../../server/answers/analyse.ts";
import { exampleCatalogue, exampleDocument, exampleProtocol } from "../../server/findings/example.ts";
import { changed, findingsOf, fixed, judged, marked } from "./judged.ts";

/** The changed plan's findings as "grade slug: marked text". */
function found(...change: readonly (readonly [from: string, to: string])[]): readonly string[] {
  const analysis = changed(...change);
  return analysis.judgement.findings.map((each) => `${each.grade} ${each.slug}: ${marked(analysis, each)}`);
}

describe("one mistake is one finding, at its place", () => {
  test.each([
    ["a word the language does not have", ["    side left", "    sidde left"], "error unknown-word: sidde"],
    ["a decimal comma", ["diameter 10 mm,", "diameter 10,0 mm,"], "error decimal-comma: 10,0"],
    ["a part given twice", ["    side left\n", "    side left\n    side right\n"], "error repeated: side"],
    ["a missing file", ["catalogue/fenwick", "catalogue/fenwik"], 'error file-missing: "catalogue/fenwik.isthmus"'],
    ["a path that leaves", ['"catalogue/fenwick', '"../fenwick'], 'error file-outside: "../fenwick.isthmus"'],
    ["a plan that reads itself", ["catalogue/fenwick", "plan"], 'error file-circular: "plan.isthmus"'],
    ["a name for a view never described", ["432 mm ± 2 mm on ap", "432 mm ± 2 mm on app"], "error scale-missing: app"],
  ] as const)("%s", (_, change, expected) => {
    const told = found(change).filter((each) => each.startsWith("error"));
    expect(told).toEqual([expected]);
  });
});

describe("fixes", () => {
  test.each([
    ["unknown-word", "    side left", "    sidde left"],
    ["decimal-comma", "sunk 8 mm", "sunk 8,0 mm"],
  ])("%s is put right by its first fix", (slug, right, wrong) => {
    const analysis = changed([right, wrong]);
    const [finding] = findingsOf(analysis, slug);
    const after = judged({ text: fixed(analysis, finding) });
    expect(findingsOf(after, slug)).toEqual([]);
    expect(after.judgement.findings.filter((each) => each.grade === "error")).toEqual([]);
  });

  test("a missing demand is added to what is prepared", () => {
    const analysis = changed(["prepare antibiotic, time-out", "prepare antibiotic"]);
    const [finding] = findingsOf(analysis, "demanded");
    expect(finding).toMatchObject({ at: "time-out", grade: "error" });
    expect(fixed(analysis, finding)).toContain("    prepare antibiotic, time-out\n");
  });
});

describe("implausible", () => {
  // Nguyen 2018, 228 tibiae: 312 to 460 mm (printed). The sample's view magnifies by 1.15.
  test.each([
    [240, "warning"],
    [520, "warning"],
    [312, undefined],
    [311.9, "warning"],
    [460, undefined],
    [460.1, "warning"],
  ] as const)("a tibia of %d mm: %s", (length, grade) => {
    const analysis = changed(
      ["landmark plafond 432 mm ± 2 mm on ap", `landmark plafond ${length} mm`],
      ["landmark scar 416 mm ± 2 mm on ap", `landmark scar ${length - 15} mm`],
    );
    expect(findingsOf(analysis, "implausible")[0]?.grade).toBe(grade);
  });

  test("an uncertain length may be implausible, with its percentage", () => {
    const [finding] = findingsOf(
      changed(["landmark plafond 432 mm ± 2 mm on ap", "landmark plafond 460 mm ± 4 mm"]),
      "implausible",
    );
    expect(finding).toMatchObject({ grade: "information", at: "plafond" });
    expect(finding?.message).toContain("may be 460.0 mm ± 4.0 mm long");
    expect(finding?.message).toMatch(/\(probability 50 %\)\.$/);
  });

  test("a slip of the unit is offered back", () => {
    const analysis = changed(["landmark plafond 432 mm ± 2 mm on ap", "landmark plafond 43.2 mm ± 0.2 mm on ap"]);
    const [finding] = findingsOf(analysis, "implausible");
    expect(finding?.fixes?.[0]?.title).toBe("43.2 mm → 43.2 cm");
    expect(fixed(analysis, finding)).toContain("landmark plafond 43.2 cm ± 0.2 cm on ap");
  });

  test.each([
    ["38 m", ["38 m → 38 cm"]],
    ["400 m", ["400 m → 400 mm"]],
    ["380 cm", ["380 cm → 380 mm", "380 cm → 38.0 cm"]],
    ["3800 mm", ["3800 mm → 380.0 mm"]],
    ["38 mm", ["38 mm → 38 cm"]],
    ["50 mm", []],
    ["200 mm + 60 mm", []],
  ])("what %s may have meant", (typed, titles) => {
    const analysis = changed(["landmark plafond 432 mm ± 2 mm on ap", `landmark plafond ${typed}`]);
    expect(findingsOf(analysis, "implausible")[0]?.fixes?.map((fix) => fix.title) ?? []).toEqual(titles);
  });

  test("a slip of the decimal point is offered back", () => {
    const analysis = changed(["width 12.4 mm ± 0.3 mm on ap", "width 124 mm on ap"]);
    const [finding] = findingsOf(analysis, "implausible");
    expect(marked(analysis, finding)).toBe("124 mm on ap");
    expect(fixed(analysis, finding)).toContain("width 12.4 mm on ap");
  });

  test.each([
    ["3.5 mm", undefined],
    ["3.4 mm", "warning"],
    ["104 mm", undefined],
    ["104.1 mm", "warning"],
  ] as const)("a canal of %s: %s", (width, grade) => {
    const analysis = changed(["canal at 60 mm, width 27 mm on ap", `canal at 60 mm, width ${width}`]);
    expect(findingsOf(analysis, "implausible")[0]?.grade).toBe(grade);
  });

  test("no length is held against another bone", () => {
    const analysis = changed(
      ["bone tibia", "bone femur"],
      ["landmark plafond 432 mm ± 2 mm on ap", "landmark plafond 620 mm ± 2 mm on ap"],
    );
    expect(findingsOf(analysis, "implausible")).toEqual([]);
  });
});

describe("identifier", () => {
  test.each([
    ["a comment", ["    side left", "    side left # born 12.03.1984"], "12.03.1984"],
    ["a note", ["    ## Chatter", "    ## Mrs Examplewoman.\n    ## Chatter"], "Examplewoman."],
    ["a title", ["left tibial shaft, invented", "left tibial shaft of Mr Sample"], "Sample"],
    ["a label", ["case TN-0417", "case Sampleman-John"], "Sampleman-John"],
    ["a label in quotes", ["case TN-0417", 'case "MRN 004127"'], "004127"],
    ["a step in words", ["    wire ball-tip", '    wire ball-tip\n    step "call 555-0134"'], "555-0134"],
    ["an age", ["age 34 years", "age 93 years"], "93 years"],
  ] as const)("in %s", (_, change, stretch) => {
    const analysis = changed(change);
    const [finding, ...more] = findingsOf(analysis, "identifier");
    expect(marked(analysis, finding)).toBe(stretch);
    expect(more).toEqual([]);
    expect(finding?.grade).toBe("warning");
  });

  test.each([
    ["cases/Mrs Sample.isthmus", "a name"],
    ["C:\\cases\\2024-03-05.isthmus", "a date"],
    ["file:///cases/20240317001.isthmus", "a long number as records have"],
  ])("in the name of the file %s", (file, what) => {
    const { text, library } = exampleDocument({ change: [] });
    const analysis = analyse(file, text, library);
    expect(findingsOf(analysis, "identifier").map((each) => [each.at, each.message])).toEqual([
      ["file", `The file's name looks like it holds ${what}; a plan needs none.`],
    ]);
  });

  test("not in the folders above it", () => {
    const { text, library } = exampleDocument({ change: [] });
    expect(findingsOf(analyse("Mrs Sample/20240317001/plan.isthmus", text, library), "identifier")).toEqual([]);
  });

  test("in a note that belongs to nothing", () => {
    const { text, library } = exampleDocument({ change: [] });
    const analysis = analyse("plan.isthmus", `${text}\n## Mrs Examplewoman\n`, library);
    expect(findingsOf(analysis, "identifier").map((each) => marked(analysis, each))).toEqual(["Examplewoman"]);
  });

  test.each([89, 90])("an age of %d years is kept", (age) => {
    expect(findingsOf(changed(["age 34 years", `age ${age} years`]), "identifier")).toEqual([]);
  });

  test("who signs may be named, and when", () => {
    const analysis = changed([
      "  status for-review\n",
      '  status for-review\n  reviewed "Dr A. Sample", dated 2026-03-02, seal "0f"\n' +
        '  waive cap-missing, because "an invented reason", signed "Dr A. Sample"\n',
    ]);
    expect(findingsOf(analysis, "identifier")).toEqual([]);
  });

  test("a reason beside a signature is searched", () => {
    const analysis = changed([
      "  status for-review\n",
      '  status for-review\n  waive cap-missing, because "as Mrs Examplewoman wished", signed "A. Sample"\n',
    ]);
    expect(findingsOf(analysis, "identifier").map((each) => marked(analysis, each))).toEqual(["Examplewoman"]);
  });

  test("a fix keeps the year of a date", () => {
    const analysis = changed(["    side left", "    side left # operated 2024-03-05"]);
    expect(fixed(analysis, findingsOf(analysis, "identifier")[0])).toContain("# operated 2024\n");
  });
});

describe("names only the findings know", () => {
  test("a waiver of no finding", () => {
    const analysis = changed([
      "  status for-review\n",
      '  status for-review\n  waive cap-mising, because "x", signed "A. Sample"\n',
    ]);
    const [finding, ...more] = findingsOf(analysis, "name-unknown");
    expect(finding?.message).toBe('No finding is called "cap-mising"; perhaps "cap-missing" is meant.');
    expect(more).toEqual([]);
    expect(findingsOf(analysis, "waiver-unused")).toEqual([]);
  });

  test.each([
    [
      "a limit of no name",
      "limit sagital up-to 10 deg",
      "name-unknown",
      'No limit is called "sagital"; perhaps "sagittal" is meant.',
    ],
    ["a grade of no finding", "grade cap-gone off", "name-unknown", 'No finding is called "cap-gone".'],
    [
      "a limit of another kind",
      "limit sagittal up-to 10 mm",
      "unit-mismatch",
      "Limit sagittal is an angle, not a length.",
    ],
    [
      "a limit upside down",
      "limit fit-ratio 0.9 to 0.8",
      "unit-mismatch",
      "Limit fit-ratio has its lower end above its upper end.",
    ],
  ])("%s in a protocol", (_, line, slug, message) => {
    const analysis = judged({ text: `isthmus 1\n\nprotocol "An invented one" {\n  ${line}\n}\n` });
    expect(findingsOf(analysis, slug).map((each) => each.message)).toContain(message);
  });
});

describe("catalogues", () => {
  test("without a notice have one finding", () => {
    const text = exampleCatalogue.replace('  notice "Invented for examples. Not an implant on any market."\n', "");
    const analysis = judged({ text });
    expect(analysis.judgement.findings.map((each) => each.slug)).toEqual(["notice-missing"]);
  });

  test("with an empty notice have none", () => {
    const text = exampleCatalogue.replace('"Invented for examples. Not an implant on any market."', '" "');
    expect(findingsOf(judged({ text }), "notice-missing")).toHaveLength(1);
  });

  test("and protocols need no notice of another kind", () => {
    expect(findingsOf(judged({ text: exampleProtocol }), "notice-missing")).toEqual([]);
  });
});
