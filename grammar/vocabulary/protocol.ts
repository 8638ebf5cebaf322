/**
 * A department's protocol: its limits, one by one or by a profile, its grades, what no waiver covers, and what it demands of every
 * plan.
 */
import { choice, clause, led, many, names, one, optional, text } from "./parts.ts";
import type { BlockRule, DimensionName, Part } from "./rule.ts";

/** Limits are lengths, angles, times, pressures, shares, or plain counts and ratios; each limit knows which it is. */
const dimensions: readonly DimensionName[] = ["length", "angle", "share", "time", "pressure"];
const bound: Part = { kind: "quantity", of: dimensions, plain: true };

export const protocolRule: BlockRule = {
  name: "protocol",
  doc: "The limits, grades and demands of one department.",
  statements: [
    {
      word: "profile",
      doc: "Sets the limits of the alignment together; a limit further down overrides its own.",
      slots: [
        one(
          "name",
          choice({
            "every-plane-five": "Coronal and sagittal up to 5 deg each, rotation up to 10 deg, shortening up to 10 mm.",
            "sagittal-ten": "Coronal up to 5 deg, sagittal and rotation up to 10 deg, shortening up to 10 mm.",
          }),
          "The profile's name.",
        ),
      ],
      clauses: [],
      times: "optional",
      example: "profile sagittal-ten",
    },
    {
      word: "limit",
      doc: "Sets a named limit in place of the one that comes with the tool.",
      slots: [
        one("name", names("limit"), "The limit's name."),
        optional("range", { kind: "range", of: dimensions, plain: true }, "The least to the most."),
        led("up-to", optional("most", bound, "The most that is let pass.")),
        led("at-least", optional("least", bound, "The least that is let pass.")),
      ],
      clauses: [
        clause("because", "Why the department sets it.", one("reason", text, "The reason.")),
        clause("source", "What it rests on.", one("source", text, "The source.")),
      ],
      alternatives: { ways: [["range"], ["most"], ["least"]], needed: true },
      times: "many",
      example: 'limit sagittal up-to 10 deg, because "our alignment profile"',
    },
    {
      word: "grade",
      doc: "Makes a finding graver or milder, or turns it off.",
      slots: [
        one("finding", names("finding"), "The finding's name."),
        one(
          "grade",
          choice({
            error: "A contradiction or an impossibility.",
            warning: "Outside a published limit or the protocol.",
            information: "Outside a habit, or a caution to read.",
            off: "Not judged.",
          }),
          "The grade it gets.",
        ),
      ],
      clauses: [],
      times: "many",
      example: "grade cap-missing warning",
    },
    {
      word: "never-waive",
      doc: "Findings that a plan cannot waive; a waiver of one covers nothing.",
      slots: [many("findings", names("finding"), "One finding's name or several.")],
      clauses: [],
      times: "many",
      example: "never-waive infection, growth-plates-open",
    },
    {
      word: "demand",
      doc: "Statements or steps every plan must have.",
      slots: [many("words", names("word"), "One word or several.")],
      clauses: [],
      times: "many",
      example: "demand time-out, antibiotic",
    },
  ],
};
