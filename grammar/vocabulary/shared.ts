/**
 * The statements that may stand in any block: named values and questions for learners. What stands inside a question has its
 * own table here too.
 */
import { clause, declares, led, one, text } from "./parts.ts";
import type { BlockRule, StatementRule } from "./rule.ts";

export const letRule: StatementRule = {
  word: "let",
  doc: "Names a value, to be used in any expression of the document.",
  slots: [
    one("name", declares("value"), "The name to use."),
    led("=", one("value", { kind: "expression" }, "The value it stands for, worked out from others if need be.")),
  ],
  clauses: [],
  times: "many",
  example: "let stand-off = plafond - 45 mm",
};

export const askRule: StatementRule = {
  word: "ask",
  doc: "A question for learners, shown in the teaching pages with its answers behind a button.",
  slots: [one("question", text, "The question as it is put.")],
  clauses: [],
  times: "many",
  block: "ask",
  example: 'ask "Which hole is locked first, and why?" {',
};

export const questionRule: BlockRule = {
  name: "ask",
  doc: "The answers to a question, right ones and wrong ones, each with its reason.",
  statements: [
    {
      word: "answer",
      doc: "One answer offered to the learner.",
      slots: [one("answer", text, "The answer as it is offered.")],
      clauses: [
        clause("right", "This answer is right."),
        clause("because", "Why it is right or wrong.", one("reason", text, "The reason the learner reads.")),
      ],
      times: "many",
      example: 'answer "The far end", right, because "Compression pulls against it."',
    },
    letRule,
  ],
};
