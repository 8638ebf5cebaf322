/** Grades that a protocol sets, waivers and what they cover, fallbacks, and how every rule came out. */
import { describe, expect, test } from "vitest";
import { rules } from "../../server/findings/all.ts";
import { changed, findingsOf, judged, marked, outcomeOf } from "./judged.ts";

const overlong = ["landmark plafond 432 mm ± 2 mm on ap", "landmark plafond 632 mm ± 2 mm on ap"] as const;
const fewer = ["prepare antibiotic, time-out", "prepare antibiotic"] as const;

function withLine(line: string): readonly [string, string] {
  return ["  status for-review\n", `  status for-review\n  ${line}\n`];
}

function graded(line: string): readonly [string, string] {
  return ["  grade cap-missing warning\n", `  grade cap-missing warning\n  ${line}\n`];
}

describe("grades", () => {
  test.each(["error", "warning", "information"] as const)("a protocol can set %s", (grade) => {
    const [finding] = findingsOf(changed(overlong, graded(`grade implausible ${grade}`)), "implausible");
    expect(finding?.grade).toBe(grade);
  });

  test("off takes the finding away, and the rule counts as not run", () => {
    const analysis = changed(overlong, graded("grade implausible off"));
    expect(findingsOf(analysis, "implausible")).toEqual([]);
    expect(analysis.judgement.outcomes.get("implausible")).toEqual({
      outcome: "not run",
      because: ["turned off by the protocol"],
    });
  });

  test("what is only probable stays one grade milder than the protocol's", () => {
    const analysis = changed(
      ["landmark plafond 432 mm ± 2 mm on ap", "landmark plafond 460 mm ± 4 mm"],
      graded("grade implausible error"),
    );
    expect(findingsOf(analysis, "implausible")[0]?.grade).toBe("warning");
  });

  test("a later protocol overrides an earlier one", () => {
    const again = '  follow "protocol/teaching.isthmus"\n';
    const twice = changed(overlong, [again, again + again], graded("grade implausible information"));
    expect(findingsOf(twice, "implausible")[0]?.grade).toBe("information");
  });

  test("a word that is no grade sets none", () => {
    const analysis = changed(overlong, graded("grade implausible dreadful"));
    expect(findingsOf(analysis, "implausible")[0]?.grade).toBe("warning");
    expect(outcomeOf(analysis, "cap-missing")).toBe("cannot tell");
  });

  test("a line further down overrides one further up", () => {
    const analysis = changed(overlong, graded("grade implausible off\n  grade implausible error"));
    expect(findingsOf(analysis, "implausible")[0]?.grade).toBe("error");
  });
});

describe("demands", () => {
  test("name what is missing and who demands it", () => {
    const analysis = changed(fewer);
    const [finding] = findingsOf(analysis, "demanded");
    expect(finding).toMatchObject({
      message: "The protocol demands time-out, and the plan does not have it.",
      grade: "error",
    });
    expect(finding?.related?.[0]?.place.file).toBe("protocol/teaching.isthmus");
    expect(finding?.place.file).toBe("plan.isthmus");
  });

  test.each(["cap", "aftercare", "review", "rotation", "soft-tissue"])(
    "a plan that has %s meets the demand",
    (word) => {
      const analysis = changed(["demand time-out, antibiotic", `demand ${word}`]);
      expect(findingsOf(analysis, "demanded")).toEqual([]);
    },
  );

  test("none is not giving it", () => {
    const analysis = changed(["    cap 5 mm\n", "    cap none\n"], ["demand time-out, antibiotic", "demand cap"]);
    expect(findingsOf(analysis, "demanded").map((each) => each.at)).toEqual(["cap"]);
  });

  test("what only a fallback or a waiver has does not count", () => {
    const analysis = changed(
      ["    wire ball-tip\n", ""],
      ["    ream 8.5 mm to 11.5 mm by 0.5 mm\n", "    wire smooth\n    ream 8.5 mm to 11.5 mm by 0.5 mm\n"],
      ["demand time-out, antibiotic", "demand wire"],
    );
    expect(findingsOf(analysis, "demanded").map((each) => each.at)).toEqual(["wire"]);
  });

  test("several protocols that demand the same are one finding", () => {
    const analysis = changed(fewer, [
      '  follow "protocol/teaching.isthmus"\n',
      '  follow "protocol/teaching.isthmus"\n  follow "protocol/teaching.isthmus"\n',
    ]);
    expect(findingsOf(analysis, "demanded")).toHaveLength(1);
  });
});

describe("waivers", () => {
  const reason = 'because "long legs, measured twice", signed "A. Sample"';

  test("keep the finding visible, with reason and signature", () => {
    const analysis = changed(overlong, withLine(`waive implausible, ${reason}`));
    const [finding] = findingsOf(analysis, "implausible");
    expect(finding?.waived).toEqual({ because: "long legs, measured twice", signed: "A. Sample" });
    expect(finding?.grade).toBe("warning");
    expect(outcomeOf(analysis, "implausible")).toBe("found");
    expect(findingsOf(analysis, "waiver-unused")).toEqual([]);
  });

  test("cover only what they name", () => {
    const other = changed(overlong, withLine(`waive implausible at scar, ${reason}`));
    expect(findingsOf(other, "implausible")[0]?.waived).toBeUndefined();
    expect(findingsOf(other, "waiver-unused")[0]?.message).toBe(
      'The waiver of "implausible" at scar covers nothing that was found.',
    );
    const same = changed(overlong, withLine(`waive implausible at plafond, ${reason}`));
    expect(findingsOf(same, "implausible")[0]?.waived).toBeDefined();
  });

  test.each([
    ["no reason", 'because "", signed "A. Sample"', "reason"],
    ["no signature", 'because "long legs", signed " "', "signature"],
    ["neither", 'because " ", signed ""', "reason and signature"],
  ])("with %s cover nothing and say so", (_, words, lacks) => {
    const analysis = changed(overlong, withLine(`waive implausible, ${words}`));
    expect(findingsOf(analysis, "implausible")[0]?.waived).toBeUndefined();
    expect(findingsOf(analysis, "waiver-unexplained").map((each) => each.message)).toEqual([
      `The waiver of "implausible" has no ${lacks}, so it covers nothing.`,
    ]);
    expect(findingsOf(analysis, "waiver-unused")).toEqual([]);
  });

  test("that leave their reason out altogether have one finding", () => {
    const analysis = changed(overlong, withLine("waive implausible"));
    const line = analysis.text.indexOf("waive");
    const there = analysis.judgement.findings.filter(({ place }) => Math.abs(place.span.start - line) < 20);
    expect(there.map((each) => each.slug)).toEqual(["waiver-unexplained"]);
  });

  test("cannot accept what the text itself is wrong about", () => {
    const analysis = changed(["    side left", "    sidde left"], withLine(`waive unknown-word, ${reason}`));
    expect(findingsOf(analysis, "unknown-word")[0]?.waived).toBeUndefined();
    expect(findingsOf(analysis, "waiver-unused")).toHaveLength(1);
  });

  test("say nothing of being unused where the rule could not look", () => {
    const analysis = changed(["    side left", "    sidde left"], withLine(`waive implausible, ${reason}`));
    expect(outcomeOf(analysis, "implausible")).toBe("cannot tell");
    expect(findingsOf(analysis, "waiver-unused")).toEqual([]);
  });
});

describe("outcomes", () => {
  test("one for every rule, in every kind of document", () => {
    const slugs = rules.map((rule) => rule.slug);
    const texts = ["", "nonsense {", 'isthmus 1\nprotocol "An invented one" {\n}\n', changed().text];
    for (const text of texts) {
      const { outcomes } = judged({ text }).judgement;
      expect([...outcomes.keys()].sort()).toEqual(slugs);
      for (const { outcome, because } of outcomes.values()) {
        if (outcome === "not run" || outcome === "cannot tell") expect(because).not.toEqual([]);
        if (outcome === "clear") expect(because).toEqual([]);
      }
    }
  });

  test("no plan, no plan rule run", () => {
    for (const text of ["", 'isthmus 1\n\nprotocol "An invented one" {\n  demand cap\n}\n']) {
      const { outcomes } = judged({ text }).judgement;
      const ran = rules.filter((rule) => rule.kind === "plan" && outcomes.get(rule.slug)?.outcome !== "not run");
      expect(ran.map((rule) => rule.slug)).toEqual([]);
    }
  });

  test.each([
    ["an unknown word", "    side left", "    sidde left"],
    ["an unreadable sign", "    side left", "    side left ?"],
    ["a missing brace", "    side left", "    side left {"],
    ["a decimal comma", "sunk 8 mm", "sunk 8,5 mm"],
    ["a missing catalogue", "catalogue/fenwick", "catalogue/gone"],
    ["a bad line in the catalogue", "    bore 5 mm\n", "    boer 5 mm\n"],
    ["a broken line in the catalogue", "    bore 5 mm\n", "    bore 5 ? mm\n"],
    [
      "an open brace in the catalogue",
      "  reamers {\n    heads 8 mm to 14 mm by 0.5 mm\n",
      "  reamers {\n    heads 8 mm to 14 mm by 0.5 mm\n  screws x {\n",
    ],
    ["a limit of no name in the protocol", "limit sagittal up-to", "limit sagital up-to"],
  ])("with %s nothing is clear", (_, from, to) => {
    const { outcomes } = changed([from, to]).judgement;
    const clear = rules.filter((rule) => rule.kind !== "document" && rule.kind !== "record");
    expect(clear.filter((rule) => outcomes.get(rule.slug)?.outcome === "clear").map((rule) => rule.slug)).toEqual([]);
  });

  test("what is only remarked on leaves the others clear", () => {
    const analysis = changed(withLine("let play = 2 mm"));
    expect(findingsOf(analysis, "name-unused")).toHaveLength(1);
    expect(outcomeOf(analysis, "implausible")).toBe("clear");
  });

  test("the limit a protocol spoils is not judged against", () => {
    const analysis = changed(["limit tip-beyond-cortex 0 mm to 2 mm", "limit tip-beyond-cortex 0 deg to 2 deg"]);
    const because = analysis.judgement.outcomes.get("screw-overlength")?.because ?? [];
    expect(outcomeOf(analysis, "screw-overlength")).toBe("cannot tell");
    expect(because.join()).toContain("limit tip-beyond-cortex is a length, not an angle");
  });
});

describe("fallbacks", () => {
  const tooFar = ["ream 8.5 mm to 11.5 mm by 0.5 mm", "ream 8.5 mm to 12.5 mm by 0.5 mm"] as const;

  test("what only a fallback brings is found at its own lines", () => {
    const analysis = changed(tooFar);
    const found = findingsOf(analysis, "reaming-overshoot");
    expect(found).toHaveLength(1);
    expect(found[0]?.fallback).toBe("the 10 mm nail stops at the isthmus");
    expect(marked(analysis, found[0])).toContain("12.5 mm");
    expect(outcomeOf(analysis, "reaming-overshoot")).toBe("found");
  });

  test("what the plan has as well is found once", () => {
    const analysis = changed(overlong);
    expect(findingsOf(analysis, "implausible")).toHaveLength(1);
    expect(findingsOf(analysis, "implausible")[0]?.fallback).toBeUndefined();
  });

  test("what a fallback causes elsewhere is shown at the fallback", () => {
    const analysis = changed([
      "    ream 8.5 mm to 11.5 mm by 0.5 mm\n",
      "    nail fenwick, diameter 10 mm, length 360 mm, sunk 8 mm\n",
    ]);
    const brought = analysis.judgement.findings.filter((each) => each.slug !== "compression-past-gap");
    const begins = analysis.text.indexOf("  fallback ");
    expect(brought.map((each) => each.slug)).toContain("nail-long");
    for (const { fallback, place } of brought) {
      expect(fallback).toBe("the 10 mm nail stops at the isthmus");
      expect(place.span.start).toBeGreaterThan(begins);
    }
  });
});

test("findings stand in the order of the text", () => {
  const { findings } = changed(
    overlong,
    fewer,
    ["age 34 years", "age 93 years"],
    ["width 27 mm on ap", "width 270 mm"],
  ).judgement;
  const starts = findings.map((each) => each.place.span.start);
  expect(starts.length).toBeGreaterThan(3);
  expect(starts).toEqual([...starts].sort((a, b) => a - b));
});
