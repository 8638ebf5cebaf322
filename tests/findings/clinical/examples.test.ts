/** The clinical rules' own examples: the wrong one has this finding and no other, and each of its fixes leaves nothing to be found. */
import { describe, expect, test } from "vitest";
import { analyse } from "../../../server/answers/analyse.ts";
import { exampleDocument } from "../../../server/findings/example.ts";
import { findingsOf, judged, marked } from "../judged.ts";
import { applied, beyondSample, planRule, told } from "./table.ts";

/** Each clinical rule and the words its wrong example marks. */
const marks: Readonly<Record<string, string>> = {
  "alignment-off": "7 deg",
  "antibiotic-missing": "prepare time-out",
  "bearing-unstable": "tolerated",
  "block-side": "lateral",
  "cap-missing": "nail",
  "cap-proud": "10 mm",
  "cap-unlisted": "4 mm",
  "check-one-plane": "check ap",
  "code-old-spelling": "42-A2",
  "code-unknown": "42B1",
  "compartment-low": "watch compartment, diastolic 52 mmHg, pressure 28 mmHg",
  "compartment-watch": "aftercare",
  "compression-beyond-travel": "compress 5 turns",
  "compression-past-gap": "compress 4 turns",
  "compression-unheld": "compress",
  "compression-unprepared": "lock",
  "cortex-thin": "8.5 mm to 11 mm by 0.5 mm",
  "drill-odd": "41 mm",
  "dynamise-early": "4 weeks",
  "dynamise-impossible": "dynamise at 10 weeks, remove P2",
  "dynamise-unstable": "dynamise at 10 weeks, remove P1",
  "entry-off": "2 mm",
  "fatigue-distance": "D2",
  "fit-ratio": "10 mm",
  "fracture-reversed": "232 mm on ap to 208 mm on ap",
  "gap-strain": "1 mm",
  "growth-plates-open": "open",
  "head-unlisted": "8.6 mm to 11.1 mm by 0.5 mm",
  "hole-repeated": "P2",
  "hole-unknown": "D4",
  infection: "infection",
  "knee-stiff": "80 deg",
  "locking-order": "compress",
  "nail-deep": "20 mm",
  "nail-length-estimate": "348 mm ± 22 mm",
  "nail-long": "360 mm",
  "nail-proud": "8 mm",
  "nail-short": "315 mm",
  "nail-unfit": "fenwick",
  "nail-unlisted": "350 mm",
  "narrow-canal": "canal at 205 mm, width 8.9 mm ± 0.3 mm on ap, depth 12.2 mm ± 0.3 mm on lateral",
  "one-plane": "canal at 205 mm, depth 12.2 mm ± 0.3 mm on lateral",
  "overinsertion-short": "5 mm",
  "reaming-order": "9.5 mm",
  "reaming-overshoot": "8.5 mm to 12 mm by 0.5 mm",
  "reaming-over-isthmus": "8.5 mm to 13 mm by 0.5 mm",
  "reaming-start": "11.5 mm",
  "reaming-step": "8.5 mm to 11.5 mm by 1 mm",
  "reaming-undershoot": "8.5 mm to 10 mm by 0.5 mm",
  "removal-incomplete": "withdraw nail",
  "removal-order": "attach extractor",
  "review-missing": "aftercare",
  "rotation-off": "12 deg",
  "scale-odd": "view lateral, marker 25 mm, seen 37 mm ± 0.2 mm",
  "screw-in-fracture": "M1",
  "screw-near-fracture": "M1",
  "screw-overlength": "40 mm",
  "screw-perforates": "52 mm",
  "screw-short": "28 mm",
  "screw-stress": "lock",
  "screw-unlisted": "53 mm",
  "screw-wrong": "stud",
  "screws-few": "lock",
  "screws-few-short-fragment": "lock",
  "segment-disagrees": "43A1",
  "shortening-off": "12 mm",
  "soft-tissue-contradiction": "soft-tissue closed IIIA",
  "step-order": "wire",
  "support-under-knee": "knee",
  "tourniquet-reaming": "tourniquet",
  "unreamed-tight": "11 mm",
  "wire-missing": "ream",
};

describe.each(Object.entries(marks))("%s", (slug, words) => {
  const rule = planRule(slug);
  const wrong = judged(rule.wrong);

  test("is the only finding of its wrong example, at the words that are wrong", () => {
    const slugs =
      slug === "compression-past-gap" ? wrong.judgement.findings.map((each) => each.slug) : beyondSample(wrong);
    expect(new Set(slugs)).toEqual(new Set([slug]));
    expect(marked(wrong, findingsOf(wrong, slug)[0])).toBe(words);
  });

  test("says it in few words, without numbers that run on", () => {
    for (const finding of findingsOf(wrong, slug)) {
      expect(finding.message.length, finding.message).toBeLessThanOrEqual(190);
      expect(finding.message).not.toMatch(/\d\.\d{5}/);
    }
  });

  test("each fix takes it away, and what keeps or changes a decision leaves nothing else", () => {
    const { file, library } = exampleDocument(rule.wrong);
    for (const finding of findingsOf(wrong, slug)) {
      for (const fix of finding.fixes ?? []) {
        const again = analyse(file, applied(wrong.text, fix), library);
        expect(findingsOf(again, slug).map(told), fix.title).toEqual([]);
        if (fix.class !== "needs a choice") expect(beyondSample(again), fix.title).toEqual([]);
        expect(fix.edits.length, fix.title).toBeGreaterThan(0);
      }
    }
  });
});
