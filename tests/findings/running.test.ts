/** What is never called clear, and what a fallback brings of its own. */
import { describe, expect, test } from "vitest";
import { rules } from "../../server/findings/all.ts";
import type { Finding } from "../../server/findings/finding.ts";
import { rule as tooDeep } from "../../server/findings/too-deep.ts";
import { rule as tooLong } from "../../server/findings/too-long.ts";
import { nail, noCatalogue, sunk } from "./clinical/changes.ts";
import { changed, findingsOf, judged, marked } from "./judged.ts";

const problemRules = rules.filter(({ kind }) => kind === "document");

describe("problems of the text", () => {
  test.each([tooDeep, tooLong])("after $slug none is called clear", ({ slug, wrong }) => {
    const { outcomes } = judged(wrong).judgement;
    expect(outcomes.get(slug)).toEqual({ outcome: "found", because: [] });
    const others = problemRules.flatMap((each) => (each.slug === slug ? [] : [outcomes.get(each.slug)]));
    const unfound = others.filter((each) => each?.outcome !== "found");
    expect(unfound.length).toBeGreaterThan(10);
    for (const each of unfound)
      expect(each).toEqual({ outcome: "cannot tell", because: ["the text was not read to its end"] });
  });

  test.each([
    [1, { outcome: "clear", because: [] }],
    [199, { outcome: "clear", because: [] }],
    [200, { outcome: "cannot tell", because: ["the text has more problems than are told"] }],
    [250, { outcome: "cannot tell", because: ["the text has more problems than are told"] }],
  ])("with %i of one kind the others are told of as long as all are", (count, outcome) => {
    const analysis = changed(["    cap 5 mm\n", `    cap 5 mm\n${"    lock ?\n".repeat(count)}`]);
    expect(findingsOf(analysis, "unreadable")).toHaveLength(Math.min(count, 200));
    expect(analysis.judgement.outcomes.get("hidden-character")).toEqual(outcome);
  });
});

describe("a text with errors in it", () => {
  const broken = changed(["    cap 5 mm\n", "    cap 5 mm\n    lock ?\n"], sunk("0 mm"));

  test("what is found is told, without doubts", () => {
    expect(broken.judgement.outcomes.get("nail-proud")).toEqual({ outcome: "found", because: [] });
  });

  test("what is not found is not clear", () => {
    expect(broken.judgement.outcomes.get("hole-repeated")?.outcome).toBe("cannot tell");
    expect(broken.judgement.outcomes.get("hole-repeated")?.because).not.toEqual([]);
  });

  test("without errors it is", () => {
    expect(changed(sunk("0 mm")).judgement.outcomes.get("hole-repeated")).toEqual({ outcome: "clear", because: [] });
  });
});

describe("a fallback", () => {
  const when = "the 10 mm nail stops at the isthmus";
  const reaming = "    ream 8.5 mm to 11.5 mm by 0.5 mm\n  }";
  const withFallback = (lines: string) => changed([reaming, `    ${lines}\n  }`]);
  const ofFallback = (findings: readonly Finding[]) => findings.filter(({ fallback }) => fallback === when);

  test("what it brings is found at its own line, and what it shares with the plan once", () => {
    const both = changed(sunk("0 mm"), [reaming, "    ream 8.5 mm to 10.5 mm by 0.5 mm\n  }"]);
    expect(findingsOf(both, "nail-proud").map(({ fallback }) => fallback)).toEqual([undefined]);
  });

  test("within its lines it stands where it is, and keeps its fix", () => {
    const backwards = withFallback("ream 11.5 mm, 10 mm, 8.5 mm");
    const [found, ...more] = ofFallback(findingsOf(backwards, "reaming-order"));
    expect(more).toEqual([]);
    const { place } = found as Finding;
    expect(place.span.start).toBeGreaterThan(backwards.text.indexOf("fallback"));
    expect(found?.related ?? []).not.toContainEqual(
      expect.objectContaining({ message: "With the fallback it is found here." }),
    );
    for (const { edits } of found?.fixes ?? [])
      for (const { span } of edits) expect(span.start).toBeGreaterThan(backwards.text.indexOf("fallback"));
  });

  test("beyond its lines it stands at its name, says where, and offers no fix of the plan itself", () => {
    const thick = withFallback("nail fenwick, diameter 12 mm, length 345 mm, sunk 8 mm");
    const found = ofFallback(thick.judgement.findings).filter(({ related }) =>
      related?.some(({ message }) => message === "With the fallback it is found here."),
    );
    expect(found.length).toBeGreaterThan(0);
    for (const each of found) {
      expect(marked(thick, each)).toBe(`"${when}"`);
      for (const { edits } of each.fixes ?? [])
        for (const { span } of edits) expect(span.start).toBeGreaterThan(thick.text.indexOf("fallback"));
    }
  });

  test("why a rule cannot tell names the fallback where the plan itself has no such reason", () => {
    const other = withFallback("nail harrow, diameter 10 mm, length 345 mm, sunk 8 mm");
    const reasons = [...other.judgement.outcomes.values()].flatMap(({ because }) => because);
    const named = reasons.filter((reason) => reason.startsWith(`under the fallback "${when}": `));
    expect(named.length).toBeGreaterThan(0);
    expect(other.judgement.outcomes.get("nail-short")).toEqual({
      outcome: "cannot tell",
      because: [`under the fallback "${when}": nail harrow is in no catalogue that was read`],
    });
    // What the plan itself brings is found all the same.
    expect(other.judgement.outcomes.get("compression-past-gap")).toEqual({
      outcome: "found",
      because: [`under the fallback "${when}": nail harrow is in no catalogue that was read`],
    });
  });

  test("a reason that the plan has too is told once", () => {
    const { outcomes } = changed(noCatalogue).judgement;
    expect(outcomes.get("nail-short")).toEqual({
      outcome: "cannot tell",
      because: ["nail fenwick is in no catalogue that was read"],
    });
  });

  test("a nail that is too thick in the plan alone is not laid at the fallback", () => {
    const thick = changed(nail("12 mm"), [reaming, "    nail fenwick, diameter 10 mm, length 345 mm, sunk 8 mm\n  }"]);
    const plan = thick.judgement.findings.filter(({ fallback }) => fallback === undefined).map(({ slug }) => slug);
    const fallback = ofFallback(thick.judgement.findings).map(({ slug }) => slug);
    expect(plan).toContain("reaming-undershoot");
    expect(fallback).not.toContain("reaming-undershoot");
  });
});
