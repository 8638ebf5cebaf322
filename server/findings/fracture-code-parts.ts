/**
 * What stands behind the group of a fracture code of 2018: subgroups after the point, qualifications in round brackets, modifiers in
 * square ones, as far as their lists are known, in our own short words. The groups and their source are in `fracture-codes.ts`.
 */
import { type Mark, shafts } from "./fracture-codes.ts";

/** A list of letters or figures with what each means; "" where only its existence is known. */
export interface Parts {
  readonly words: ReadonlyMap<string, string>;
  readonly mark: Mark;
}

/** Subgroups of a group by their figure; undefined where the list is not known and .1 to .3 are taken. */
export function subgroupsOf(segmentCode: string, group: string): Parts | undefined {
  if (shafts.has(segmentCode)) return noSubgroups;
  return segmentCode === "43" ? unnamedSubgroups : subgroups.get(segmentCode + group);
}

/** The third of a shaft is its qualification since 2018. */
const noSubgroups: Parts = { words: new Map(), mark: "from memory" };

const unnamedSubgroups: Parts = {
  words: new Map([
    ["1", ""],
    ["2", ""],
    ["3", ""],
  ]),
  mark: "printed",
};

const subgroups: ReadonlyMap<string, Parts> = new Map([
  [
    "31A1",
    {
      words: new Map([
        ["1", "one trochanter alone"],
        ["2", "two parts"],
        ["3", "lateral wall above 20.5 mm"],
      ]),
      mark: "printed",
    },
  ],
  [
    "31A2",
    {
      words: new Map([
        ["2", "one intermediate fragment"],
        ["3", "several intermediate fragments"],
      ]),
      mark: "from memory",
    },
  ],
  [
    "31A3",
    {
      words: new Map([
        ["1", "oblique"],
        ["2", "transverse"],
        ["3", "wedge or multifragmentary"],
      ]),
      mark: "printed",
    },
  ],
]);

/** Letters in round brackets; undefined where the list is not known and any small letter is taken. */
export function qualificationsOf(segmentCode: string, group: string): Parts | undefined {
  // Read for the humerus; of femur and tibia they are the same, from memory.
  if (shafts.has(segmentCode)) {
    return {
      words: group.startsWith("C") ? reaches : thirds,
      mark: segmentCode === "12" ? "printed" : "from memory",
    };
  }
  if (segmentCode === "43") return { words: distalTibia, mark: "printed" };
  return segmentCode + group === "31B2" ? { words: steepness, mark: "printed" } : undefined;
}

const thirds: ReadonlyMap<string, string> = new Map([
  ["a", "proximal third"],
  ["b", "middle third"],
  ["c", "distal third"],
]);

const reaches: ReadonlyMap<string, string> = new Map([
  ["i", "proximal shaft into the metaphysis"],
  ["j", "shaft alone"],
  ["k", "distal shaft into the metaphysis"],
]);

const distalTibia: ReadonlyMap<string, string> = new Map([
  ["o", "anterior"],
  ["y", "posterior"],
  ["f", "lateral"],
  ["h", "medial"],
  ["z", "medial with the malleolus"],
  ["q", "frontal"],
  ["r", "sagittal"],
]);

/** Angle of the line through the neck of the femur. */
const steepness: ReadonlyMap<string, string> = new Map([
  ["p", "line below 30 deg"],
  ["q", "line of 30 to 70 deg"],
  ["r", "line above 70 deg"],
]);

export interface Modifier {
  readonly meaning: string;
  /** Letters the figure may carry. */
  readonly letters: ReadonlyMap<string, string>;
  /** The figure that says the opposite. */
  readonly opposite?: string;
}

const none: ReadonlyMap<string, string> = new Map();

const directions: ReadonlyMap<string, string> = new Map([
  ["a", "anterior"],
  ["b", "posterior"],
  ["c", "medial"],
  ["d", "lateral"],
  ["e", "inferior"],
  ["f", "in several directions"],
]);

/** Figures in square brackets, the same for every bone; all from memory. */
export const modifiers: ReadonlyMap<string, Modifier> = new Map<string, Modifier>([
  ["1", { meaning: "not displaced", letters: none, opposite: "2" }],
  ["2", { meaning: "displaced", letters: none, opposite: "1" }],
  [
    "3",
    {
      meaning: "impacted",
      letters: new Map([
        ["a", "joint surface"],
        ["b", "metaphysis"],
      ]),
      opposite: "4",
    },
  ],
  ["4", { meaning: "not impacted", letters: none, opposite: "3" }],
  ["5", { meaning: "dislocated", letters: directions }],
  ["6", { meaning: "subluxated or unstable ligaments", letters: directions }],
  ["7", { meaning: "reaches into the shaft", letters: none }],
  [
    "8",
    {
      meaning: "injured cartilage",
      letters: new Map([
        ["a", "ICRS grade 0"],
        ["b", "ICRS grade 1"],
        ["c", "ICRS grade 2"],
        ["d", "ICRS grade 3"],
        ["e", "ICRS grade 4"],
      ]),
    },
  ],
  ["9", { meaning: "poor bone quality", letters: none }],
  ["10", { meaning: "replantation", letters: none }],
  ["11", { meaning: "amputation with a fracture", letters: none }],
  ["12", { meaning: "beside an implant that is no joint replacement", letters: none }],
  ["13", { meaning: "spiral type", letters: none }],
  ["14", { meaning: "bending type", letters: none }],
]);

/** The figure of a modifier as typed and its letter, "" when it has none; both "" when it has another form. */
export function modifierParts(text: string): { readonly figure: string; readonly letter: string } {
  const [, figure = "", letter = ""] = /^(\d{1,2})([a-z]?)$/.exec(text) ?? [];
  return { figure, letter };
}
