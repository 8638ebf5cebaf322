/**
 * What may stand at the top of a file: the edition of the language and the one document that the file holds.
 */
import { one, text } from "./parts.ts";
import type { BlockRule } from "./rule.ts";

export const fileRule: BlockRule = {
  name: "file",
  doc: "One file holds one plan, one catalogue or one protocol.",
  alternatives: { ways: [["plan"], ["catalogue"], ["protocol"]], needed: true },
  statements: [
    {
      word: "isthmus",
      doc: "The edition of the language this file is written in; always the first line.",
      slots: [one("edition", { kind: "number", known: ["1"] }, "The edition of the language.")],
      clauses: [],
      times: "one",
      first: true,
      example: "isthmus 1",
    },
    {
      word: "plan",
      doc: "The operative plan for one locked intramedullary nailing.",
      slots: [one("title", text, "What the plan is for, without anything that names the patient.")],
      clauses: [],
      times: "optional",
      block: "plan",
      example: 'plan "Oblique fracture of the left tibial shaft" {',
    },
    {
      word: "catalogue",
      doc: "A set of nails, screws and reamers that plans may choose from.",
      slots: [one("title", text, "The name of the set.")],
      clauses: [],
      times: "optional",
      block: "catalogue",
      example: 'catalogue "Fenwick, an invented set" {',
    },
    {
      word: "protocol",
      doc: "The limits, grades and demands of one department.",
      slots: [one("title", text, "Whose protocol it is.")],
      clauses: [],
      times: "optional",
      block: "protocol",
      example: 'protocol "An invented teaching department" {',
    },
  ],
};
