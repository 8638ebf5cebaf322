/**
 * A question for learners that has no answer, or none that is right.
 */
import type { Question } from "../meaning/record.ts";
import { commonPractice } from "./common-practice.ts";
import type { Found, PlanRule } from "./finding.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "question-unanswered",
  title: "Question without a right answer",
  why:
    "The lesson shows the answers behind a button, and says of each whether it is right. " +
    "A question that no answer settles leaves the learner where it found him.",
  grade: "warning",
  basis: commonPractice,
  limits: [],
  wrong: {
    change: [
      [
        "  aftercare {\n",
        '  ask "Which end is locked first?" {\n    answer "The near end", because "It turns with the far one."\n  }\n\n  aftercare {\n',
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
  check: ({ plan }) => ({ found: plan.questions.flatMap(unanswered) }),
};

function unanswered({ answers, place }: Question): readonly Found[] {
  if (answers.some(({ right }) => right)) return [];
  const message =
    answers.length === 0 ? "This question has no answer." : "None of this question's answers is marked as right.";
  return [{ place, message, at: "ask" }];
}
