/** What a plan keeps as a record: reviews with their seals, what was achieved, what nobody may waive, and profiles of limits. */
import { describe, expect, test } from "vitest";
import { sealOf } from "../../grammar/seal.ts";
import { protocolRule } from "../../grammar/vocabulary/protocol.ts";
import { limitMarkdown, protocolsOf } from "../../server/answers/limit-text.ts";
import { sealsIn } from "../../server/answers/seal-review.ts";
import { waiversIn } from "../../server/answers/waive.ts";
import { exampleDocument } from "../../server/findings/example.ts";
import { profiles } from "../../server/findings/profiles.ts";
import { changed, findingsOf, judged, marked, outcomeOf } from "./judged.ts";

type Change = readonly [from: string, to: string];

const seal = sealOf(exampleDocument({ change: [] }).text) ?? "";

function withLines(...lines: readonly string[]): Change {
  return ["  status for-review\n", `  status for-review\n${lines.map((line) => `  ${line}\n`).join("")}`];
}

function reviewed(date: string, with_: string): string {
  return `reviewed "the registrar", dated ${date}, seal "${with_}"`;
}

function protocolLines(...lines: readonly string[]): Change {
  return [
    "  demand time-out, antibiotic\n",
    `  demand time-out, antibiotic\n${lines.map((line) => `  ${line}\n`).join("")}`,
  ];
}

describe("a review", () => {
  test.each([
    ["with the plan's seal", [reviewed("2026-03-02", seal)]],
    [
      "newer than one whose seal no longer fits",
      [reviewed("2026-03-02", "0".repeat(16)), reviewed("2026-03-03", seal)],
    ],
    ["newer though it stands before", [reviewed("2026-03-03", seal), reviewed("2026-03-02", "0".repeat(16))]],
    ["the last of one day", [reviewed("2026-03-02", "0".repeat(16)), reviewed("2026-03-02", seal)]],
  ])("%s keeps", (_, lines) => {
    const analysis = changed(withLines(...lines));
    expect(findingsOf(analysis, "changed-since-review")).toEqual([]);
    expect(outcomeOf(analysis, "changed-since-review")).toBe("clear");
  });

  test("is told once a number has changed, with the seal as it is now, at its own seal", () => {
    const analysis = changed(withLines(reviewed("2026-03-02", seal)), ["sunk 8 mm", "sunk 9 mm"]);
    const [finding] = findingsOf(analysis, "changed-since-review");
    expect(finding?.message).toBe(
      `The plan is not as it was at its newest review: its seal now is ${sealOf(analysis.text)}.`,
    );
    expect(finding?.grade).toBe("warning");
    expect(marked(analysis, finding)).toBe(`"${seal}"`);
    expect(finding?.fixes).toBeUndefined();
  });

  test.each(["", "4f1c9a0d", "seen and found good"])('with "%s" for a seal says that nothing tells', (given) => {
    const [finding] = findingsOf(changed(withLines(reviewed("2026-03-02", given))), "changed-since-review");
    expect(finding?.message).toContain("This is no seal of a plan");
  });

  test("of a broken text cannot be told", () => {
    const analysis = changed(withLines(reviewed("2026-03-02", seal)), ["side left", "side ) left"]);
    expect(outcomeOf(analysis, "changed-since-review")).toBe("cannot tell");
  });
});

describe("sealing", () => {
  function sealed(line: string): readonly [string, string | undefined] {
    const analysis = changed(withLines(line));
    const at = analysis.text.indexOf("reviewed");
    const [offer] = sealsIn(analysis, { start: at, end: at });
    const [edit] = offer?.edits ?? [];
    const { text } = analysis;
    const after =
      edit === undefined ? undefined : text.slice(0, edit.span.start) + edit.text + text.slice(edit.span.end);
    return [offer?.title ?? "", after];
  }

  test.each([
    ["writes a seal anew", reviewed("2026-03-02", "")],
    ["writes the seal that is not there", 'reviewed "the registrar", dated 2026-03-02'],
  ])("%s, which then fits", (_, line) => {
    const [title, after] = sealed(line);
    expect(title).toBe(`Seal this review by the registrar: the plan as it stands is ${seal}`);
    const again = judged({ text: after ?? "" });
    expect(after).toContain(reviewed("2026-03-02", seal));
    expect(findingsOf(again, "changed-since-review")).toEqual([]);
  });

  test("is not offered where the seal fits, nor elsewhere", () => {
    expect(sealed(reviewed("2026-03-02", seal))).toEqual(["", undefined]);
    const analysis = changed(withLines(reviewed("2026-03-02", "")));
    const at = analysis.text.indexOf("side left");
    expect(sealsIn(analysis, { start: at, end: at })).toEqual([]);
  });
});

describe("what was achieved", () => {
  function achieved(lines: readonly string[], ...more: readonly Change[]): ReturnType<typeof changed> {
    const block = ["  achieved {", ...lines.map((line) => `    ${line}`), "  }", "", "  aftercare {", ""].join("\n");
    return changed(["  aftercare {\n", block], ...more);
  }
  const nail = "nail fenwick, diameter 10 mm, length 345 mm, sunk";

  test.each<[string, readonly string[], readonly string[]]>([
    ["nothing of what is not said", ["check ap, lateral"], []],
    ["nothing below a tolerance", [`${nail} 12 mm`], []],
    ["nothing at a tolerance", [`${nail} 13 mm`], []],
    [
      "what is above it",
      [`${nail} 14 mm`],
      ["The depth of the nail's driving end was 14 mm, planned 8 mm: 6 mm apart; the limit is 5 mm."],
    ],
    [
      "what may be above it",
      [`${nail} 13 mm ± 2 mm`],
      [
        "The depth of the nail's driving end was 13.0 mm ± 2.0 mm, planned 8 mm: 5.0 mm ± 2.0 mm apart, which may pass the limit of 5 mm (probability 50 %).",
      ],
    ],
    [
      "any other size of nail and head",
      ["ream 8.5 mm to 10.5 mm by 0.5 mm", "nail fenwick, diameter 9 mm, length 330 mm, sunk 8 mm"],
      [
        "The last reamer head was 10.5 mm, planned 11 mm: 0.5 mm apart; the limit is 0 mm.",
        "The diameter of the nail was 9 mm, planned 10 mm: 1 mm apart; the limit is 0 mm.",
        "The length of the nail was 330 mm, planned 345 mm: 15 mm apart; the limit is 0 mm.",
      ],
    ],
    [
      "another way in and another reduction",
      ["reduce open, using clamp", "enter suprapatellar, from-midline 8 mm lateral"],
      [
        "The reduction: open was done, closed was planned.",
        "The entry: suprapatellar was done, infrapatellar was planned.",
      ],
    ],
    [
      "the other side of the midline",
      ["enter infrapatellar, from-midline 2 mm medial"],
      ["The entry from the midline, lateral positive, was -2 mm, planned 8 mm: 10 mm apart; the limit is 5 mm."],
    ],
    ["no reaming", ["unreamed"], ["Reaming was planned and not done."]],
    ["turns against a length", ["compress 2.5 mm"], []],
    [
      "less compression",
      ["compress 1 turns"],
      ["The compression was 1.25 mm, planned 2.5 mm: 1.25 mm apart; the limit is 1 mm."],
    ],
    ["a backslap that was not planned", ["backslap 2 mm"], ["Backslap was done and not planned."]],
    ["no cap", ["cap none"], ["An end cap was planned and not done."]],
    ["another cap", ["cap 10 mm"], ["The end cap was 10 mm, planned 5 mm: 5 mm apart; the limit is 0 mm."]],
    [
      "a blocking screw that was not planned",
      ["block at 250 mm, side medial"],
      ["A blocking screw on the medial side was done and not planned."],
    ],
    [
      "a screw in a hole that was not planned",
      [...["D2", "D1", "P2", "P1"].map((hole) => `lock ${hole}, drilled 50 mm`), "lock P9, drilled 50 mm, screw 52 mm"],
      ["The screw in hole P9 was done and not planned."],
    ],
    ["a blocking screw of no side", ["block at 250 mm"], ["A blocking screw was done and not planned."]],
    ["no angle by default", ["alignment coronal 4 deg varus, sagittal 6 deg procurvatum, rotation 9 deg external"], []],
  ])("is told: %s", (_, lines, messages) => {
    const found = findingsOf(achieved(lines), "achieved-differs");
    expect(found.map(({ message }) => message)).toEqual(messages);
    expect(new Set(found.map(({ grade }) => grade))).toEqual(new Set(messages.length === 0 ? [] : ["information"]));
  });

  test("is told of each hole once any screw is named", () => {
    const locks = [
      "lock D2, drilled 31 mm, screw 36 mm",
      "lock P2, drilled 53 mm, screw 56 mm, grip near",
      "lock P1, drilled 51 mm, screw 52 mm",
    ];
    const found = findingsOf(achieved(locks), "achieved-differs");
    expect(found.map(({ at, message }) => [at, message])).toEqual(
      expect.arrayContaining([
        ["D1", "The screw in hole D1 was planned and not done."],
        ["D2", "The screw in hole D2 was 36 mm, planned 32 mm: 4 mm apart; the limit is 2 mm."],
        ["P2", "The grip of the screw in hole P2: near cortices was done, both cortices was planned."],
      ]),
    );
    expect(found).toHaveLength(3);
    expect(found.find(({ at }) => at === "D2")?.related?.[0]?.message).toBe("It was planned here.");
  });

  test("is held against a protocol's tolerances, angles too", () => {
    const lines = protocolLines("limit achieved-alignment up-to 2 deg", "limit achieved-level up-to 1 mm");
    const all = [
      "alignment coronal 4 deg varus, sagittal 2 deg procurvatum, rotation 12 deg external",
      `${nail} 10 mm`,
    ];
    expect(findingsOf(achieved(all, lines), "achieved-differs").map(({ message }) => message)).toEqual([
      "The coronal angle achieved is 4 deg varus; the limit is 2 deg.",
      "The depth of the nail's driving end was 10 mm, planned 8 mm: 2 mm apart; the limit is 1 mm.",
    ]);
  });

  test("is held against the operation alone, not against a fallback", () => {
    expect(findingsOf(achieved(["ream 8.5 mm to 11 mm by 0.5 mm"]), "achieved-differs")).toEqual([]);
  });
});

describe("what was achieved beside another plan", () => {
  const achieved = (lines: string): Change => ["  aftercare {\n", `  achieved {\n    ${lines}\n  }\n\n  aftercare {\n`];
  const blocks: Change = [
    "    ream 8.5 mm to 11 mm",
    "    block at 250 mm, side medial\n    block at 260 mm, side medial\n    ream 8.5 mm to 11 mm",
  ];

  test.each<[what: string, change: readonly Change[], messages: readonly string[]]>([
    ["no cap, and none planned", [["    cap 5 mm\n", "    cap none\n"], achieved("cap none")], []],
    [
      "a cap where none was planned",
      [["    cap 5 mm\n", "    cap none\n"], achieved("cap 5 mm")],
      ["An end cap was done and not planned."],
    ],
    [
      "compression where none was planned",
      [["    compress 2 turns\n", ""], achieved("compress 2 turns")],
      ["Compression was done and not planned."],
    ],
    [
      "one blocking screw of two",
      [blocks, achieved("block at 250 mm, side medial")],
      ["A blocking screw on the medial side was planned and not done."],
    ],
    [
      "reaming where none was planned",
      [["    ream 8.5 mm to 11 mm by 0.5 mm\n", "    unreamed\n"], achieved("ream 8.5 mm to 11 mm by 0.5 mm")],
      ["Reaming was done and not planned."],
    ],
  ])("is told: %s", (_, change, messages) => {
    expect(findingsOf(changed(...change), "achieved-differs").map(({ message }) => message)).toEqual(messages);
  });
});

test("a review without its day is older than one with it", () => {
  const undated = `reviewed "the registrar", seal "${"0".repeat(16)}"`;
  const analysis = changed(withLines(reviewed("2026-03-02", sealOf(changed().text) ?? ""), undated));
  expect(findingsOf(analysis, "changed-since-review")).toEqual([]);
});

describe("what nobody may waive", () => {
  const infected: Change = ["    bone-quality good\n", "    bone-quality good\n    concern infection\n"];
  const waiver = 'waive infection, because "treated first", signed "A. Sample"';

  test("stands as if there were no waiver, and the waiver is told", () => {
    const analysis = changed(infected, withLines(waiver), protocolLines("never-waive cap-missing, infection"));
    expect(findingsOf(analysis, "infection")[0]).not.toHaveProperty("waived");
    const [refused] = findingsOf(analysis, "waiver-refused");
    expect(refused?.message).toBe('The protocol lets nobody waive "infection", so this waiver covers nothing.');
    expect(refused?.grade).toBe("error");
    expect(refused?.related?.[0]?.place.file).toBe("protocol/teaching.isthmus");
    expect(findingsOf(analysis, "waiver-unused")).toEqual([]);
  });

  test("is waived where no protocol forbids it", () => {
    const analysis = changed(infected, withLines(waiver), protocolLines("never-waive cap-missing"));
    expect(findingsOf(analysis, "infection")[0]?.waived?.signed).toBe("A. Sample");
    expect(findingsOf(analysis, "waiver-refused")).toEqual([]);
  });

  test("is offered no waiver", () => {
    const offered = (...more: readonly Change[]): number => {
      const analysis = changed(infected, ...more);
      const span = findingsOf(analysis, "infection")[0]?.place.span ?? { start: 0, end: 0 };
      return waiversIn(analysis, span).length;
    };
    expect([offered(), offered(protocolLines("never-waive infection"))]).toEqual([1, 0]);
  });

  test("cannot be talked round by waiving the refusal", () => {
    const both = withLines(waiver, 'waive waiver-refused, because "as above", signed "A. Sample"');
    const analysis = changed(infected, both, protocolLines("never-waive infection"));
    expect(findingsOf(analysis, "waiver-refused")[0]).not.toHaveProperty("waived");
  });

  test("has to be a finding there is", () => {
    const { text } = exampleDocument({
      text: 'isthmus 1\n\nprotocol "An invented one" {\n  never-waive infectoin\n}\n',
    });
    expect(findingsOf(judged({ text }), "name-unknown")[0]?.at).toBe("infectoin");
  });
});

describe("a profile", () => {
  const sagittal = (degrees: number): Change => [
    "  aftercare {\n",
    `  achieved {\n    alignment sagittal ${degrees} deg procurvatum\n  }\n\n  aftercare {\n`,
  ];
  const line: Change = ['  limit sagittal up-to 10 deg, because "our alignment profile"\n', ""];

  test("is each one of the vocabulary's and sets the same four limits", () => {
    const part = protocolRule.statements.find(({ word }) => word === "profile")?.slots[0]?.part;
    expect(part?.kind === "choice" ? Object.keys(part.words) : []).toEqual(profiles.map(({ name }) => name));
    for (const { sets } of profiles) {
      expect(sets.map(({ limit }) => limit)).toEqual(["coronal", "sagittal", "rotation", "shortening"]);
    }
  });

  // Freedman & Johnson 1995 count from 5 deg in any plane, Anneberg & Brink 2018 let the sagittal plane have 10 deg: both printed.
  test.each([
    ["without one: the default", [], 7, true],
    ["every-plane-five", ["profile every-plane-five"], 7, true],
    ["sagittal-ten, below", ["profile sagittal-ten"], 9.9, false],
    ["sagittal-ten, at", ["profile sagittal-ten"], 10, false],
    ["sagittal-ten, above", ["profile sagittal-ten"], 10.1, true],
    ["a later limit overrides it", ["profile sagittal-ten", "limit sagittal up-to 6 deg"], 7, true],
    ["it overrides an earlier limit", ["limit sagittal up-to 6 deg", "profile sagittal-ten"], 7, false],
    ["one of no such name sets nothing", ["profile sagittal-tenn"], 7, true],
  ])("%s", (_, lines, degrees, isFound) => {
    const analysis = changed(line, sagittal(degrees), protocolLines(...lines));
    expect(findingsOf(analysis, "alignment-off").length > 0).toBe(isFound);
  });

  test("is named with its line and what it overrides", () => {
    const analysis = changed(protocolLines("profile sagittal-ten", "limit sagittal up-to 8 deg"));
    const protocols = protocolsOf(analysis.meaning.document);
    expect(limitMarkdown("sagittal", protocols, analysis.texts)).toContain(
      'up to 8 deg\n\nSet by the protocol "An invented teaching department" (teaching.isthmus, line 9). It overrides ' +
        'the profile `sagittal-ten` of the protocol "An invented teaching department" (teaching.isthmus, line 8): up to 10 deg; ' +
        'the protocol "An invented teaching department" (teaching.isthmus, line 4): up to 10 deg; the default: up to 5 deg.',
    );
    expect(limitMarkdown("coronal", protocols, analysis.texts)).toMatch(
      /Set by the profile `sagittal-ten`[\s\S]*It overrides the default[\s\S]*Basis: Anneberg & Brink/,
    );
  });
});
