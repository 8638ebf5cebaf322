/** What holds for any text: judging never fails, every rule has its outcome, and a text with an error in it leaves nothing clear. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Analysis } from "../../server/answers/analyse.ts";
import { rules } from "../../server/findings/all.ts";
import { exampleCatalogue, examplePlan, exampleProtocol } from "../../server/findings/example.ts";
import { attempt } from "../../server/findings/running.ts";
import { judged } from "./judged.ts";

const slugs = rules.map((rule) => rule.slug);
const overText = new Set(rules.filter((rule) => rule.kind === "document").map((rule) => rule.slug));

function holds(analysis: Analysis): void {
  const { findings, outcomes } = analysis.judgement;
  expect([...outcomes.keys()].sort()).toEqual(slugs);
  for (const [slug, { outcome, because }] of outcomes) {
    expect(
      because.filter((reason) => reason.startsWith("the check failed")),
      slug,
    ).toEqual([]);
    const found = findings.some((finding) => finding.slug === slug);
    expect(outcome === "found", slug).toBe(found);
  }
  for (const { place, message } of findings) {
    expect(place.span.start).toBeGreaterThanOrEqual(0);
    expect(place.span.end).toBeGreaterThanOrEqual(place.span.start);
    expect(place.span.end).toBeLessThanOrEqual(analysis.text.length);
    expect(message).toMatch(/\.$/);
    expect(message).not.toMatch(/NaN|Infinity|undefined|\[object|\b(un)?safe\b/);
  }
  const wrong = findings.some((finding) => overText.has(finding.slug) && finding.grade === "error");
  if (!wrong) return;
  const clear = rules.filter((rule) => rule.kind === "plan" || rule.kind === "text");
  expect(clear.filter((rule) => outcomes.get(rule.slug)?.outcome === "clear").map((rule) => rule.slug)).toEqual([]);
}

describe("any change of the sample documents", () => {
  const sample = fc.constantFrom(examplePlan, exampleCatalogue, exampleProtocol);

  test("cut off anywhere", () => {
    fc.assert(
      fc.property(sample, fc.double({ min: 0, max: 1, noNaN: true }), (text, share) => {
        holds(judged({ text: text.slice(0, Math.round(share * text.length)) }));
      }),
      { numRuns: 100 },
    );
  });

  test("a line taken out, doubled or moved", () => {
    fc.assert(
      fc.property(sample, fc.nat(200), fc.nat(200), fc.constantFrom("out", "twice", "moved"), (text, a, b, how) => {
        const lines = text.split("\n");
        const [line = ""] = how === "twice" ? lines.slice(a % lines.length) : lines.splice(a % lines.length, 1);
        if (how !== "out") lines.splice(b % lines.length, 0, line);
        holds(judged({ text: lines.join("\n") }));
      }),
      { numRuns: 100 },
    );
  });

  test("a stretch replaced by anything", () => {
    const anything = fc.oneof(
      fc.string({ unit: "binary", maxLength: 6 }),
      fc.constantFrom("{", "}", '"', "0", "-1", "1e14", "mm", "deg", "__proto__", "constructor", ",", "±", "on ap"),
    );
    fc.assert(
      fc.property(sample, fc.nat(5000), fc.nat(12), anything, (text, at, length, put) => {
        const start = at % text.length;
        holds(judged({ text: text.slice(0, start) + put + text.slice(start + length) }));
      }),
      { numRuns: 100 },
    );
  });
});

test("a rule that fails cannot tell, and says why", () => {
  const failing = () => {
    throw new Error("out of paper");
  };
  expect(attempt(failing)).toEqual({ found: [], untold: ["the check failed: out of paper"] });
  expect(attempt(() => ({ found: [] }))).toEqual({ found: [] });
});
