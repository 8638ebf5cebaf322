/**
 * The statements of a plan: what it reads, how far it has come, what is waived and reviewed, and the blocks it is made of.
 */
import { choice, date, either, led, names, needed, one, optional, path, text } from "./parts.ts";
import type { BlockRule } from "./rule.ts";

const status = choice({
  draft: "Still being written.",
  "for-review": "Ready to be looked over by a colleague.",
  approved: "Looked over and accepted for the operation.",
  performed: "The operation has been done; the achieved block can be filled in.",
});

export const planRule: BlockRule = {
  name: "plan",
  doc: "The plan: the case, the readings, the operation step by step, what follows it.",
  statements: [
    {
      word: "use",
      doc: "Reads a catalogue of nails, screws and reamers.",
      slots: [one("path", path, "The catalogue's file, relative to this one.")],
      clauses: [],
      times: "many",
      example: 'use "catalogue/fenwick.isthmus"',
    },
    {
      word: "follow",
      doc: "Reads a department's protocol; a later one overrides an earlier one.",
      slots: [one("path", path, "The protocol's file, relative to this one.")],
      clauses: [],
      times: "many",
      example: 'follow "protocol/teaching-hospital.isthmus"',
    },
    {
      word: "sources",
      doc: "Reads a BibTeX bibliography, so that notes may cite it as [@key].",
      slots: [one("path", path, "The bibliography's file, relative to this one.")],
      clauses: [],
      times: "many",
      example: 'sources "references.bib"',
    },
    {
      word: "status",
      doc: "How far the plan has come.",
      slots: [one("status", status, "The stage it has reached.")],
      clauses: [],
      times: "optional",
      example: "status for-review",
    },
    {
      word: "summary",
      doc: "The plan in a few sentences, for the head of the sheet and the lesson.",
      slots: [one("text", text, "The summary; may be Markdown in a block of text.")],
      clauses: [],
      times: "optional",
      example: 'summary "Closed reamed nailing, two screws at either end."',
    },
    {
      word: "waive",
      doc: "Accepts a finding with its reason; it stays visible as waived.",
      slots: [
        one("finding", names("finding"), "The finding that is accepted."),
        led("at", optional("at", names("word"), "The hole or word it is accepted at; everywhere when left out.")),
      ],
      clauses: [
        needed("because", "Why it is accepted.", one("reason", text, "The reason, for whoever reads the plan later.")),
        needed("signed", "Who accepts it.", one("name", text, "Whoever answers for it.")),
      ],
      times: "many",
      example: 'waive drill-odd at D2, because "Measured twice along a tilted drill.", signed "the operating surgeon"',
    },
    {
      word: "reviewed",
      doc: "Records that a colleague has looked the plan over, and exactly which state of it.",
      slots: [one("by", text, "Who looked it over.")],
      clauses: [
        needed("dated", "The day of the review.", one("date", date, "The day, as year-month-day.")),
        needed(
          "seal",
          "The first 16 digits of the SHA-256 digest of the plan's own text in canonical layout without its reviewed lines; " +
            "what the plan reads is not covered.",
          one("seal", text, "The digits, or more of them."),
        ),
      ],
      times: "many",
      example: 'reviewed "the senior registrar", dated 2026-03-02, seal "4f1c9a0d27b3e865"',
    },
    {
      word: "case",
      doc: "The patient's side, bone, fracture and everything else that decides about the nailing.",
      slots: [
        one("label", either(names("word"), text), "A pseudonym; never a name, a birth date or a hospital number."),
      ],
      clauses: [],
      times: "one",
      block: "case",
      example: "case TN-0417 {",
    },
    {
      word: "images",
      doc: "The views that lengths were read on, and what gives each its scale.",
      slots: [],
      clauses: [],
      times: "optional",
      block: "images",
      example: "images {",
    },
    {
      word: "measures",
      doc: "The readings: landmarks, canal and bone widths, all on the one axis of the canal.",
      slots: [],
      clauses: [],
      times: "one",
      block: "measures",
      example: "measures {",
    },
    {
      word: "operation",
      doc: "The steps of the operation in the order they are to be done.",
      slots: [],
      clauses: [],
      times: "one",
      block: "operation",
      example: "operation {",
    },
    {
      word: "fallback",
      doc: "Steps that replace the same steps of the operation when something happens; reckoned and judged again with them.",
      slots: [one("when", text, "What has to happen for it.")],
      clauses: [],
      times: "many",
      block: "fallback",
      example: 'fallback "the 10 mm nail stops at the isthmus" {',
    },
    {
      word: "achieved",
      doc: "The steps and the alignment as they were done.",
      slots: [],
      clauses: [],
      times: "optional",
      block: "achieved",
      example: "achieved {",
    },
    {
      word: "aftercare",
      doc: "Weight-bearing, what to watch, reviews and dynamisation.",
      slots: [],
      clauses: [],
      times: "optional",
      block: "aftercare",
      example: "aftercare {",
    },
    {
      word: "removal",
      doc: "The steps to take the nail out again, in order.",
      slots: [],
      clauses: [],
      times: "optional",
      block: "removal",
      example: "removal {",
    },
  ],
};
