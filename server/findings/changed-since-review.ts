/**
 * The plan is not as it was when it was looked over: the seal of its newest review is not that of its text. Whether the files the
 * plan reads have changed is not told by it.
 */
import { sealFits, sealOf } from "../../grammar/seal.ts";
import type { Review } from "../meaning/record.ts";
import { examplePlan } from "./example.ts";
import type { Example, TextRule } from "./finding.ts";
import { cannotTell, clear, found } from "./judging.ts";

const digits = /^[0-9a-f]{16,64}$/i;

export const rule: TextRule = {
  kind: "text",
  slug: "changed-since-review",
  title: "Plan changed since its newest review",
  why:
    "Whoever looked the plan over answers for the text that was read, not for what was written later. " +
    "The seal is the first 16 digits or more of the SHA-256 digest of the plan in canonical layout, its lines ended by a line feed, " +
    "without blank lines outside quotes and without the rows of its `reviewed` lines: blanks and further reviews keep it, any word, " +
    "number, note or comment changes it. " +
    "It covers the plan's own text, not the catalogue and the protocol it reads, and it is no signature.",
  grade: "warning",
  basis: { mark: "printed", text: "SHA-256: FIPS 180-4, 2015; what is sealed is this tool's own choice" },
  wrong: {
    change: [
      [
        "  status for-review\n",
        '  status for-review\n  reviewed "the senior registrar", dated 2026-03-02, seal "4f1c9a0d27b3e865"\n',
      ],
    ],
  },
  get right(): Example {
    const line = `  reviewed "the senior registrar", dated 2026-03-02, seal "${sealOf(examplePlan)}"\n`;
    return { change: [["  status for-review\n", `  status for-review\n${line}`]] };
  },
  check: (document, text) => {
    const review = document.kind === "plan" ? newest(document.reviews) : undefined;
    if (review?.seal === undefined) return clear;
    const now = sealOf(text);
    const fits = sealFits(review.seal.text, text);
    if (now === undefined || fits === undefined) return cannotTell("the text is broken, so it has no canonical layout");
    if (fits) return clear;
    const { text: seal, place } = review.seal;
    const change = digits.test(seal)
      ? `The plan is not as it was at its newest review: its seal now is ${now}.`
      : `This is no seal of a plan, so nothing tells what was reviewed; the plan's seal now is ${now}.`;
    return found({ place, message: change, at: "reviewed" });
  },
};

/** Of the latest day; of several on one day the last in the text. */
function newest(reviews: readonly Review[]): Review | undefined {
  return reviews.reduce<Review | undefined>(
    (latest, review) => ((latest?.dated?.text ?? "") <= (review.dated?.text ?? "") ? review : latest),
    undefined,
  );
}
