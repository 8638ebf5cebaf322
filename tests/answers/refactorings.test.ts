/** Refactorings: the lines each takes out and puts in; none is offered that would change a number or a finding. */
import { describe, expect, test } from "vitest";
import { keepsMeaning } from "../../server/answers/again.ts";
import { completedSteps } from "../../server/answers/complete-steps.ts";
import { fixAllEdits } from "../../server/answers/fix-all.ts";
import { refactoringsIn } from "../../server/answers/refactorings.ts";
import { waiversIn } from "../../server/answers/waive.ts";
import { analyseText, applied, cursorIn, sampleText, sampleWith } from "../check.ts";
import { changes, marked } from "./editor-checks.ts";

const path = "plans/simple-shaft.isthmus";
const head = "  status for-review\n";

function offered(source: string): Readonly<Record<string, readonly string[]>> {
  const { analysis, span, text } = marked(source);
  const found = refactoringsIn(analysis, span, () => true);
  for (const { edits } of found) expect(keepsMeaning(analysis, edits)).toBe(true);
  return Object.fromEntries(found.map(({ title, edits }) => [title, changes(text, edits)]));
}

describe("naming a value", () => {
  test("the whole expression at the cursor, with its reading", () => {
    expect(offered(cursorIn("landmark scar 39$05 mm ± 2 mm on ap"))).toMatchObject({
      "Name this value: let landmark-scar-level = 395 mm ± 2 mm on ap": [
        "- landmark scar 395 mm ± 2 mm on ap",
        "+ let landmark-scar-level = 395 mm ± 2 mm on ap",
        "+ landmark scar landmark-scar-level",
      ],
    });
  });

  test("the selected part, above the notes of its statement", () => {
    const { analysis, span, text } = marked(sampleWith(path, ["    ream 8.5 mm to", "    ream $08.5 mm$0 to"]));
    const [named] = refactoringsIn(analysis, span, (kind) => kind === "extract");
    expect(applied(text, named?.edits ?? [])).toContain(
      "    let ream-heads = 8.5 mm\n    ## Chatter starts at the isthmus; let the reamer do the work and never push.\n    ream ream-heads to 11 mm",
    );
  });

  test("a name that is taken gets a number", () => {
    const text = sampleWith(path, [head, `${head}  let cap-extension = 5 mm\n`], ["    cap 5 mm", "    cap $05 mm"]);
    expect(Object.keys(offered(text))).toContain("Name this value: let cap-extension-2 = 5 mm");
  });

  test.each([
    ["a word", cursorIn("side ri$0ght")],
    ["a text", cursorIn('summary "Rea$0med locked nail with two turns')],
    ["a code", cursorIn("fracture 42A$03(b), from")],
    ["a value that has a name", sampleWith(path, [head, `${head}  let deep = $09 mm\n`], ["sunk 9 mm", "sunk deep"])],
  ])("not %s", (_, source) => {
    expect(Object.keys(offered(source)).filter((title) => title.startsWith("Name"))).toEqual([]);
  });
});

describe("putting a value back", () => {
  test("from its line and from a use", () => {
    const text = sampleWith(path, [head, `${head}  let de$0ep = 9 mm\n`], ["sunk 9 mm", "sunk deep"]);
    const expected = [
      "- let deep = 9 mm",
      "- nail tarnbeck, diameter 10 mm, length 330 mm, sunk deep",
      "+ nail tarnbeck, diameter 10 mm, length 330 mm, sunk 9 mm",
    ];
    expect(offered(text)["Put 9 mm back in place of `deep`"]).toEqual(expected);
    const use = text.replace("$0", "").replace("sunk deep", "sunk de$0ep");
    expect(offered(use)["Put 9 mm back in place of `deep`"]).toEqual(expected);
  });

  test("a sum within a product keeps its brackets", () => {
    const text = sampleWith(path, [head, `${head}  let deep = 4 mm + 0.5 mm\n`], ["sunk 9 mm", "sunk 2 * de$0ep"]);
    expect(offered(text)["Put 4 mm + 0.5 mm back in place of `deep`"]).toContain(
      "+ nail tarnbeck, diameter 10 mm, length 330 mm, sunk 2 * (4 mm + 0.5 mm)",
    );
  });

  test("a reading that two lines share is not torn in two: the numbers would be less sure", () => {
    const named = sampleWith(
      path,
      ["    landmark scar 395 mm ± 2 mm on ap\n", "    let both = 395 mm ± 2 mm on ap\n    landmark scar bo$0th\n"],
      ["    landmark plafond 410 mm ± 2 mm on ap\n", "    landmark plafond both + 13.4 mm\n"],
      ["canal at 320 mm, width 23 mm on ap", "canal at scar + plafond - 388.4 mm, width 23 mm on ap"],
    );
    const titles = Object.keys(offered(named));
    expect(titles.filter((title) => title.startsWith("Put"))).toEqual([]);
  });
});

describe("units", () => {
  test.each([
    ["cap $05 mm", "Convert to cm: 0.5 cm", "+ cap 0.5 cm"],
    ["weight 74 k$0g", "Convert to g: 74000 g", "+ weight 74000 g"],
    [
      "canal at 200 mm, width 1$02 mm ± 0.3 mm on ap",
      "Convert to cm: 1.2 cm ± 0.03 cm",
      "+ canal at 200 mm, width 1.2 cm ± 0.03 cm on ap, depth 12.4 mm ± 0.3 mm on lateral",
    ],
  ])("%s", (line, title, put) => expect(offered(cursorIn(line))[title]).toContain(put));

  test("digits that cannot say the same are not offered", () => {
    const titles = Object.keys(offered(cursorIn("knee 10$00 deg")));
    expect(titles.some((title) => title.startsWith("Convert to rad"))).toBe(false);
    expect(Object.keys(offered(cursorIn("age 2$09 years"))).some((title) => title.includes("months"))).toBe(true);
    expect(Object.keys(offered(cursorIn("until 6 we$0eks"))).some((title) => title.includes("years"))).toBe(false);
  });
});

describe("heads", () => {
  const range = "8.5 mm to 11 mm by 0.5 mm";
  const list = "8.5 mm, 9 mm, 9.5 mm, 10 mm, 10.5 mm, 11 mm";
  test("a range is written out and a list drawn together", () => {
    expect(offered(cursorIn(`ream $0${range}`))[`Write the heads out: ${list}`]).toEqual([
      `- ream ${range}`,
      `+ ream ${list}`,
    ]);
    const listed = sampleWith(path, [`ream ${range}`, `ream $0${list}`]);
    expect(offered(listed)[`Write the heads as a range: ${range}`]).toContain(`+ ream ${range}`);
  });

  test("heads that do not grow evenly have no range", () => {
    const uneven = sampleWith(path, [`ream ${range}`, "ream $08.5 mm, 9.5 mm, 10 mm, 10.5 mm, 11 mm"]);
    expect(Object.keys(offered(uneven)).some((title) => title.startsWith("Write"))).toBe(false);
  });
});

describe("steps", () => {
  const removal = sampleText(path).slice(sampleText(path).indexOf("\n  removal {"), sampleText(path).lastIndexOf("}"));
  const without = sampleText(path).replace(removal, "");

  test("a removal is written from the operation, and what is written has no finding", () => {
    const { analysis, span, text } = marked(without.replace("  aftercare {", "  after$0care {"));
    const [steps] = completedSteps(analysis, span);
    const written = applied(text, steps?.edits ?? []);
    expect(written).toContain(
      "  removal {\n    take cap\n    attach extractor\n    take D2, D1\n    take P2, P1\n    withdraw nail\n  }\n",
    );
    expect(analyseText(written).judgement.findings).toEqual(analyseText(without).judgement.findings);
  });

  test("those the operation needs are put in, each where it belongs, at the operation's head", () => {
    const sparse = [
      "    wire ball-tip\n",
      "    check ap, lateral\n    ## The far",
      "    check ap, lateral, rotation\n",
    ];
    const text = sparse.reduce(
      (now, line) => now.replace(line, line.endsWith("far") ? "    ## The far" : ""),
      sampleText(path),
    );
    const here = marked(text.replace("  operation {", "  opera$0tion {"));
    const [steps] = completedSteps(here.analysis, here.span);
    expect(steps?.title).toMatch(/^Complete the steps: /);
    for (const step of ["wire ball-tip", "check ap, lateral", "check ap, lateral, rotation"])
      expect(steps?.title).toContain(step);
    const written = analyseText(applied(here.text, steps?.edits ?? []));
    expect(written.judgement.findings).toEqual([]);
    expect(written.text.split("\n").sort()).toEqual(sampleText(path).split("\n").sort());
    const inside = marked(text.replace("    ream 8.5", "    re$0am 8.5"));
    expect(completedSteps(inside.analysis, inside.span)).toEqual([]);
    const whole = marked(cursorIn("  opera$0tion {"));
    expect(completedSteps(whole.analysis, whole.span)).toEqual([]);
  });

  test("a waived step stays out", () => {
    const waived = sampleText(path)
      .replace("    wire ball-tip\n", "")
      .replace(
        head,
        `${head}  waive wire-missing, because "A trial of the set without a wire.", signed "A. Nobody, invented"\n`,
      );
    const here = marked(waived.replace("  operation {", "  opera$0tion {"));
    expect(here.analysis.judgement.findings.some(({ slug, waived: by }) => slug === "wire-missing" && by)).toBe(true);
    expect(completedSteps(here.analysis, here.span)).toEqual([]);
  });

  test("not where a removal stands, and not in the middle of the readings", () => {
    const standing = marked(cursorIn("  after$0care {"));
    expect(completedSteps(standing.analysis, standing.span)).toEqual([]);
    const inside = marked(without.replace("epiphysis proximal", "epi$0physis proximal"));
    expect(completedSteps(inside.analysis, inside.span)).toEqual([]);
  });
});

describe("waivers", () => {
  const missing = sampleWith(path, ["    cap 5 mm\n", ""], ["    take cap\n", ""]);

  test("each finding is offered one, without a reason and without a name", () => {
    const analysis = analyseText(missing);
    const finding = analysis.judgement.findings.find(({ slug }) => slug === "cap-missing");
    const [waiver] = waiversIn(analysis, finding?.place.span ?? { start: 0, end: 0 }).filter(({ title }) =>
      title.includes("cap-missing"),
    );
    const text = applied(missing, waiver?.edits ?? []);
    const line = /^ {2}waive cap-missing.*$/m.exec(text)?.[0] ?? "";
    expect(line).toMatch(/, because "", signed ""$/);
    const slugs = analyseText(text).judgement.findings.map(({ slug }) => slug);
    expect(slugs).toContain("waiver-unexplained");
    const filled = analyseText(text.replace('because "", signed ""', 'because "a", signed "b"'));
    expect(filled.judgement.findings.find(({ slug }) => slug === "cap-missing")?.waived).toBeDefined();
  });

  test("none where nothing is found, and none for what is waived", () => {
    const { analysis, span } = marked(cursorIn("cap 5$0 mm"));
    expect(waiversIn(analysis, span)).toEqual([]);
  });
});

describe("all fixes at once", () => {
  test("those that change no decision, together", () => {
    const text = sampleWith(path, ["42A3(b)", "42-A3(b)"], ["  status for-review\n", "  status for-\u200breview\n"]);
    expect(applied(text, fixAllEdits(analyseText(text)))).toBe(sampleText(path));
  });

  test("nothing where every fix is a decision", () => {
    const overshot = sampleWith(path, ["ream 8.5 mm to 11 mm", "ream 8.5 mm to 13 mm"]);
    expect(analyseText(overshot).judgement.findings.some(({ fixes }) => (fixes ?? []).length > 0)).toBe(true);
    expect(fixAllEdits(analyseText(overshot))).toEqual([]);
    expect(fixAllEdits(analyseText(sampleText(path)))).toEqual([]);
  });
});
