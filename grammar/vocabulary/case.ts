/**
 * The case: which bone of which side, the fracture, the soft tissue and whatever about the patient decides about the nailing.
 */
import { alignmentRule } from "./alignment.ts";
import { angle, choice, clause, either, length, needed, one, optional, quantity, text, time } from "./parts.ts";
import type { BlockRule } from "./rule.ts";

const bone = choice({
  tibia: "The shin bone.",
  femur: "The thigh bone.",
  humerus: "The upper arm bone.",
});

/** Closed grades after Tscherne and Oestern 1982; open grades after Gustilo and Anderson 1976 and Gustilo et al. 1984. */
const grade = choice({
  C0: "Closed: none or minor soft-tissue injury, simple pattern.",
  C1: "Closed: superficial abrasion, or contusion from within.",
  C2: "Closed: deep contaminated abrasion, local contusion of skin or muscle, threatened compartment syndrome.",
  C3: "Closed: extensive contusion or crush, degloving, vessel injury or compartment syndrome.",
  I: "Open: wound under 1 cm, clean.",
  II: "Open: wound over 1 cm without extensive soft-tissue damage.",
  IIIA: "Open: extensive soft-tissue damage, the bone can still be covered.",
  IIIB: "Open: the periosteum is stripped and a flap is needed.",
  IIIC: "Open: an artery is injured and needs repair.",
});

const concern = choice({
  infection: "Infection, present or past, in the bone or the soft tissue.",
  "previous-implant": "An implant is in the bone already.",
  "narrow-canal": "The canal is known to be narrow.",
  deformity: "The bone was bent or turned before this injury.",
  "metal-allergy": "The patient reacts to a metal.",
});

export const caseRule: BlockRule = {
  name: "case",
  doc: "What is to be treated, under a pseudonym.",
  statements: [
    {
      word: "side",
      doc: "The side to be operated on.",
      slots: [one("side", choice({ left: "The patient's left.", right: "The patient's right." }), "Left or right.")],
      clauses: [],
      times: "one",
      example: "side left",
    },
    {
      word: "bone",
      doc: "The bone to be nailed.",
      slots: [one("bone", bone, "Which bone.")],
      clauses: [],
      times: "one",
      example: "bone tibia",
    },
    {
      word: "age",
      doc: "The patient's age.",
      slots: [one("age", time, "The age in years, or in months for a child.")],
      clauses: [],
      times: "optional",
      example: "age 34 years",
    },
    {
      word: "weight",
      doc: "The patient's body weight, for the load on the nail and the screws.",
      slots: [one("weight", quantity("mass"), "The body weight.")],
      clauses: [],
      times: "optional",
      example: "weight 78 kg",
    },
    {
      word: "knee-flexion",
      doc: "How far the knee can be bent, which decides about entries below the patella.",
      slots: [one("angle", angle, "The most it bends.")],
      clauses: [],
      times: "optional",
      example: "knee-flexion 120 deg",
    },
    {
      word: "growth-plates",
      doc: "Whether the growth plates have closed.",
      slots: [
        one("state", choice({ open: "Growth is not finished.", closed: "Growth is finished." }), "Open or closed."),
      ],
      clauses: [],
      times: "optional",
      example: "growth-plates closed",
    },
    {
      word: "bone-quality",
      doc: "Whether the bone holds screws well.",
      slots: [
        one("quality", choice({ good: "Normal bone.", poor: "Osteoporotic or otherwise weak bone." }), "Good or poor."),
      ],
      clauses: [],
      times: "optional",
      example: "bone-quality good",
    },
    {
      word: "soft-tissue",
      doc: "The soft-tissue injury: closed after Tscherne and Oestern, open after Gustilo and Anderson.",
      slots: [
        one(
          "kind",
          choice({ closed: "The skin is not broken through.", open: "The fracture communicates with a wound." }),
          "Closed or open.",
        ),
        optional("grade", grade, "C0 to C3 for a closed fracture; I to IIIC for an open one."),
      ],
      clauses: [],
      times: "optional",
      example: "soft-tissue closed C1",
    },
    {
      word: "fracture",
      doc: "The fracture: its AO/OTA 2018 code and where it lies along the canal's axis.",
      slots: [one("code", { kind: "code", bones: "main" }, "The AO/OTA 2018 code.")],
      clauses: [
        needed(
          "from",
          "Where the fracture begins and ends along the canal's axis.",
          one("zone", { kind: "range", of: ["length"] }, "The level of its near edge to the level of its far edge."),
        ),
        clause("gap", "The gap left between the main fragments after reduction.", one("gap", length, "Its width.")),
        clause(
          "contact",
          "How much of the circumference of the main fragments is in contact.",
          one("share", quantity("share"), "The share of the circumference."),
        ),
        clause(
          "fibula",
          "The fracture of the fibula that goes with it.",
          one("code", { kind: "code", bones: "fibula" }, "The AO/OTA 2018 code of the fibula."),
        ),
      ],
      times: "one",
      example: "fracture 42A2, from 208 mm on ap to 232 mm on ap, gap 3 mm ± 1 mm, fibula 4F2A",
    },
    { ...alignmentRule, doc: "The deformity as injured: coronal, sagittal, rotation, shortening or lengthening." },
    {
      word: "concern",
      doc: "Something about the patient or the bone that the plan has to answer.",
      slots: [one("concern", either(concern, text), "One of the words, or a text for anything else.")],
      clauses: [],
      times: "many",
      example: "concern narrow-canal",
    },
  ],
};
