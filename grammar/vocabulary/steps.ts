/**
 * The steps from the nail onwards, and the three blocks that hold steps: the operation as planned, a fallback and what was
 * achieved. A nail must be named in the operation alone.
 */
import { alignmentRule } from "./alignment.ts";
import {
  choice,
  clause,
  either,
  led,
  length,
  level,
  many,
  names,
  needed,
  one,
  optional,
  quantity,
  text,
} from "./parts.ts";
import { preparationSteps } from "./preparation.ts";
import type { BlockRule, StatementRule } from "./rule.ts";

const check = choice({
  ap: "Image intensifier, front to back.",
  lateral: "Image intensifier, from the side.",
  rotation: "Rotation against the other leg.",
  length: "Leg length against the other leg.",
  stability: "Whether the fracture moves when it is loaded.",
});

const nailStep: StatementRule = {
  word: "nail",
  doc: "The nail that goes in, and how deep.",
  slots: [one("nail", names("nail"), "The nail's name in the catalogue.")],
  clauses: [
    needed("diameter", "The nail's diameter.", one("diameter", length, "A listed diameter.")),
    needed("length", "The nail's length.", one("length", length, "A listed length.")),
    needed(
      "sunk",
      "How far below the entry surface the driving end lies.",
      one("depth", length, "The depth; 0 mm is flush."),
    ),
  ],
  times: "one",
  example: "nail fenwick, diameter 10 mm, length 345 mm, sunk 8 mm",
};

const lockingSteps: readonly StatementRule[] = [
  {
    word: "block",
    doc: "A blocking screw beside the nail's path, which narrows a wide canal.",
    slots: [led("at", one("level", level, "Where it stands along the canal's axis."))],
    clauses: [
      needed(
        "side",
        "On which side of the nail it stands.",
        one(
          "side",
          choice({
            medial: "On the inner side.",
            lateral: "On the outer side.",
            anterior: "In front.",
            posterior: "Behind.",
          }),
          "The side.",
        ),
      ),
      clause(
        "screw",
        "The screw that is used.",
        optional("family", names("screws"), "The screw family, when the catalogue lists more than one."),
        one("length", length, "The screw's length."),
      ),
    ],
    times: "many",
    example: "block at 330 mm, side lateral, screw 36 mm",
  },
  {
    word: "lock",
    doc: "A locking screw through one hole of the nail.",
    slots: [one("hole", names("hole"), "The hole's name in the catalogue.")],
    clauses: [
      needed(
        "drilled",
        "The depth from the near cortex to the far cortex along the drill.",
        one("depth", length, "The depth as measured or expected."),
      ),
      needed(
        "screw",
        "The screw that is put in.",
        optional("family", names("screws"), "The screw family, when the hole takes more than one."),
        one("length", length, "A listed length."),
      ),
      clause(
        "grip",
        "How many cortices it holds in; both unless said.",
        one("grip", choice({ both: "Near and far cortex.", near: "It stops before the far cortex." }), "Both or near."),
      ),
    ],
    times: "many",
    example: "lock D2, drilled 31 mm, screw 32 mm",
  },
  {
    word: "compress",
    doc: "Closes the fracture with the nail's compression screw.",
    slots: [one("amount", quantity("rotation", "length"), "Turns of the compression screw, or the travel.")],
    clauses: [],
    times: "optional",
    example: "compress 2 turns",
  },
  {
    word: "backslap",
    doc: "Draws the nail and the far fragment back, after locking the far end.",
    slots: [one("amount", length, "By how much.")],
    clauses: [],
    times: "optional",
    example: "backslap 3 mm",
  },
  {
    word: "cap",
    doc: "The end cap that closes the driving end.",
    slots: [
      one(
        "extension",
        either(choice({ none: "No end cap is put in." }), length),
        "By how much the cap makes the nail longer, or none.",
      ),
    ],
    clauses: [],
    times: "optional",
    example: "cap 5 mm",
  },
  {
    word: "check",
    doc: "A check by image intensifier or by hand, in its place in the order.",
    slots: [many("things", check, "One or more things to check.")],
    clauses: [],
    times: "many",
    example: "check ap, lateral, rotation",
  },
  {
    word: "step",
    doc: "Anything else that is done, in its place in the order.",
    slots: [one("text", text, "What is done.")],
    clauses: [],
    times: "many",
    example: 'step "Irrigate the canal before the nail goes in."',
  },
];

/** Heads and no reaming at all exclude each other. */
const alternatives = { ways: [["ream"], ["unreamed"]] };
const otherNail: StatementRule = { ...nailStep, times: "optional" };

export const operationRule: BlockRule = {
  name: "operation",
  doc: "The steps of the operation in the order they are to be done.",
  statements: [...preparationSteps, nailStep, ...lockingSteps],
  alternatives,
};

export const fallbackRule: BlockRule = {
  name: "fallback",
  doc: "Steps that replace the same steps of the operation; a lock replaces the lock of the same hole.",
  statements: [...preparationSteps, otherNail, ...lockingSteps],
  alternatives,
};

export const achievedRule: BlockRule = {
  name: "achieved",
  doc: "The steps as they were done, and the alignment they led to.",
  statements: [
    ...preparationSteps,
    otherNail,
    ...lockingSteps,
    { ...alignmentRule, doc: "The alignment as achieved: coronal, sagittal, rotation, shortening or lengthening." },
  ],
  alternatives,
};
