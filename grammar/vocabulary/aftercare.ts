/**
 * What follows the operation: loading, watching, reviews and dynamisation, and the steps to take the nail out again.
 */
import {
  after,
  choice,
  clause,
  either,
  led,
  many,
  names,
  needed,
  one,
  pressure,
  quantity,
  text,
  time,
} from "./parts.ts";
import type { BlockRule } from "./rule.ts";

const bearing = choice({
  none: "The leg is not loaded.",
  partial: "The leg is loaded up to a stated amount.",
  tolerated: "As much as the patient tolerates.",
});

export const aftercareRule: BlockRule = {
  name: "aftercare",
  doc: "What is done and watched after the operation.",
  statements: [
    {
      word: "weight-bearing",
      doc: "How far the leg may be loaded; one line for each period.",
      slots: [
        one("how", bearing, "None, partial or as tolerated."),
        after(["partial"], one("load", quantity("mass", "share", "force"), "The most it may be loaded with.")),
      ],
      clauses: [clause("until", "When the period ends.", one("time", time, "Counted from the operation."))],
      times: "many",
      example: "weight-bearing partial 20 kg, until 6 weeks",
    },
    {
      word: "watch",
      doc: "What is watched closely after the operation; one line for each reading.",
      slots: [one("what", choice({ compartment: "The pressure in the leg's compartments." }), "What is watched.")],
      clauses: [
        clause("diastolic", "The diastolic blood pressure.", one("pressure", pressure, "As measured at that time.")),
        clause("pressure", "The pressure in the compartment.", one("pressure", pressure, "The highest measured.")),
      ],
      times: "many",
      example: "watch compartment, diastolic 72 mmHg, pressure 28 mmHg",
    },
    {
      word: "review",
      doc: "When the patient is seen again.",
      slots: [led("at", many("times", time, "One time or several, counted from the operation."))],
      clauses: [],
      times: "optional",
      example: "review at 2 weeks, 6 weeks, 12 weeks",
    },
    {
      word: "dynamise",
      doc: "Screws come out so that the fracture may close under load.",
      slots: [led("at", one("time", time, "When, counted from the operation."))],
      clauses: [needed("remove", "Which screws come out.", many("holes", names("hole"), "Their holes."))],
      times: "optional",
      example: "dynamise at 10 weeks, remove P1",
    },
    {
      word: "advise",
      doc: "Advice to the patient or to whoever looks after them.",
      slots: [one("text", text, "The advice.")],
      clauses: [],
      times: "many",
      example: 'advise "Move the ankle and the knee from the first day."',
    },
  ],
};

export const removalRule: BlockRule = {
  name: "removal",
  doc: "The steps to take the nail out again, in order.",
  statements: [
    {
      word: "take",
      doc: "Takes out the end cap or locking screws.",
      slots: [many("things", either(choice({ cap: "The end cap." }), names("hole")), "The cap, or holes by name.")],
      clauses: [],
      times: "many",
      example: "take D1, D2, P2",
    },
    {
      word: "attach",
      doc: "Fixes the extractor to the driving end.",
      slots: [
        one("what", choice({ extractor: "The instrument that draws the nail out." }), "What is fixed to the nail."),
      ],
      clauses: [],
      times: "optional",
      example: "attach extractor",
    },
    {
      word: "withdraw",
      doc: "Draws the nail out.",
      slots: [one("what", choice({ nail: "The nail." }), "What is drawn out.")],
      clauses: [],
      times: "optional",
      example: "withdraw nail",
    },
    {
      word: "step",
      doc: "Anything else that is done, in its place in the order.",
      slots: [one("text", text, "What is done.")],
      clauses: [],
      times: "many",
      example: 'step "Open the old scar over the driving end."',
    },
  ],
};
