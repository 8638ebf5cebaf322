/**
 * An answer to a question for learners without the reason why it is right or wrong.
 */
import { commonPractice } from "./common-practice.ts";
import type { PlanRule } from "./finding.ts";
import { quoted } from "./words.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "question-without-reason",
  title: "Answer without its reason",
  why:
    "A learner who chose wrongly wants to know why, and one who guessed rightly needs it as much. " +
    "The reason is what the lesson shows once an answer is chosen.",
  grade: "information",
  basis: commonPractice,
  limits: [],
  wrong: {
    change: [
      [
        "  aftercare {\n",
        '  ask "Which end is locked first?" {\n    answer "The far end", right\n  }\n\n  aftercare {\n',
      ],
    ],
  },
  right: {
    change: [
      [
        "  aftercare {\n",
        '  ask "Which end is locked first?" {\n    answer "The far end", right, because "Compression pulls against it."\n  }\n\n  aftercare {\n',
      ],
    ],
  },
  check: ({ plan }) => ({
    found: plan.questions
      .flatMap(({ answers }) => answers)
      .filter(({ because }) => because === undefined || because.text.trim() === "")
      .map(({ text }) => ({
        place: text.place,
        message: `The answer ${quoted(text.text)} has no reason.`,
        at: "answer",
      })),
  }),
};
