/**
 * The steps up to the wire and the reamers: preparing, positioning, reducing, entering, opening the canal.
 */
import { angle, choice, clause, either, length, lengths, many, one, text } from "./parts.ts";
import type { StatementRule } from "./rule.ts";

const preparation = choice({
  antibiotic: "Antibiotic given before the incision.",
  "time-out": "The team's pause to confirm patient, side and procedure.",
  tourniquet: "A tourniquet is put on.",
});

const support = choice({
  "distal-thigh": "Under the distal thigh, clear of the popliteal fossa.",
  knee: "Under the knee itself, where vessels and nerves can be pressed.",
  none: "No support; the leg hangs or lies free.",
});

const aid = choice({
  traction: "By traction, by hand or on the table.",
  clamp: "With a reduction clamp.",
  distractor: "With a distractor.",
  joystick: "With a pin in a fragment as a joystick.",
});

const approach = choice({
  infrapatellar: "Below the patella, beside its tendon.",
  transtendinous: "Below the patella, through its tendon.",
  parapatellar: "Beside the patella.",
  suprapatellar: "Above the patella, with the knee near extension.",
});

export const preparationSteps: readonly StatementRule[] = [
  {
    word: "prepare",
    doc: "What is to be done before the incision.",
    slots: [many("things", either(preparation, text), "One or more things to prepare.")],
    clauses: [],
    times: "many",
    example: "prepare antibiotic, time-out",
  },
  {
    word: "position",
    doc: "How the patient and the leg lie.",
    slots: [one("posture", choice({ supine: "On the back.", lateral: "On the other side." }), "How the patient lies.")],
    clauses: [
      clause(
        "table",
        "The table.",
        one("table", choice({ radiolucent: "X-rays pass through it." }), "Which kind of table."),
      ),
      clause("support", "Where the leg is supported.", one("support", support, "The place of the support.")),
      clause("knee", "How far the knee is bent on the table.", one("angle", angle, "The angle of the knee.")),
    ],
    times: "many",
    example: "position supine, table radiolucent, support distal-thigh, knee 100 deg",
  },
  {
    word: "reduce",
    doc: "How the fracture is reduced and held.",
    slots: [
      one("how", choice({ closed: "Without opening it.", open: "Through an incision at the fracture." }), "The way."),
    ],
    clauses: [
      clause("using", "What helps to reduce it.", many("aids", either(aid, text), "One or more aids.")),
      clause("hold", "What holds the reduction while nailing.", many("aids", either(aid, text), "One or more aids.")),
    ],
    times: "many",
    example: "reduce closed, using traction",
  },
  {
    word: "enter",
    doc: "The approach and the place of the entry point.",
    slots: [one("approach", either(approach, text), "The way to the entry point.")],
    clauses: [
      clause(
        "from-midline",
        "How far the entry lies from the midline of the bone in the coronal plane.",
        one("distance", length, "The distance."),
        one(
          "direction",
          choice({ medial: "Towards the body's midline.", lateral: "Away from the body's midline." }),
          "To which side.",
        ),
      ),
    ],
    times: "optional",
    example: "enter infrapatellar, from-midline 8 mm lateral",
  },
  {
    word: "wire",
    doc: "The guide wire is passed across the fracture.",
    slots: [
      one(
        "tip",
        choice({
          "ball-tip": "With a ball at its end, which can draw a stuck reamer head back.",
          smooth: "Without a ball; it passes through a cannulated nail.",
        }),
        "Which kind of wire.",
      ),
    ],
    clauses: [],
    times: "optional",
    example: "wire ball-tip",
  },
  {
    word: "ream",
    doc: "The reamer heads in the order they are used.",
    slots: [many("heads", lengths, "From the first head to the last by a step, or each in turn.")],
    clauses: [],
    times: "optional",
    example: "ream 8.5 mm to 11 mm by 0.5 mm",
  },
  {
    word: "unreamed",
    doc: "The nail goes in without reaming the canal.",
    slots: [],
    clauses: [],
    times: "optional",
    example: "unreamed",
  },
];
