/**
 * The groups of the AO/OTA fracture classification 2018 in our own short words, each marked as read in the source or kept from memory,
 * and what became of the groups of 2007. What stands behind a group is in `fracture-code-parts.ts`, reading a code in `fracture-code.ts`.
 *
 * Source: Meinberg, Agel, Roberts, Karam & Kellam, Fracture and Dislocation Classification Compendium 2018, J Orthop Trauma 2018;32
 * Suppl 1:S1-S170; 2007: Marsh et al., J Orthop Trauma 2007;21 Suppl:S1-S133. Usable for research, education and medical purposes.
 */
import type { Basis } from "../reckoning/reckoning.ts";

/** "printed": read with its meaning in the form of 2018; "from memory": check against the source before relying on it. */
export type Mark = "printed" | "from memory";

export interface Group {
  readonly code: string;
  readonly meaning: string;
  readonly mark: Mark;
  readonly bone: CodedBone;
}

export type CodedBone = "humerus" | "femur" | "tibia" | "fibula";

export interface Segment {
  /** Two figures, or `4F1` to `4F3` for the fibula. */
  readonly code: string;
  readonly name: string;
  /** Whether the list of its groups was read as a whole, so that a group that is not in it does not exist. */
  readonly mark: Mark;
  readonly groups: readonly Group[];
}

export const source2018 =
  "AO/OTA classification: Meinberg et al., Fracture and Dislocation Classification Compendium 2018, J Orthop Trauma 2018;32 Suppl 1:S1-S170";

export const classification: Basis = {
  mark: "from memory",
  text: `${source2018}; the groups of 11 to 13, 31, 33 and 43 were read there, 32, most of 41, 42, 44 and 4F are from memory, check against the source`,
};

/** Segments in the order of their codes; `groups` in the order of the classification. */
export const segments: readonly Segment[] = [
  segment("11", "proximal humerus", "printed", {
    A1: "tuberosity",
    A2: "surgical neck",
    A3: "vertical",
    B1: "surgical neck and one tuberosity",
    C1: "anatomical neck",
    C3: "anatomical neck and metaphysis",
  }),
  segment("12", "humeral shaft", "printed", shaft()),
  segment("13", "distal humerus", "printed", {
    A1: "avulsion",
    A2: "extra-articular, simple",
    A3: "extra-articular, wedge or multifragmentary",
    B1: "lateral, sagittal",
    B2: "medial, sagittal",
    B3: "frontal",
    C1: "articular simple, metaphysis simple",
    C2: "articular simple, metaphysis wedge or multifragmentary",
    C3: "articular multifragmentary",
  }),
  segment("31", "proximal femur", "printed", {
    A1: "pertrochanteric, simple",
    A2: "pertrochanteric, lateral wall 20.5 mm or less",
    A3: "intertrochanteric, reverse",
    B1: "neck, subcapital",
    B2: "neck, transcervical",
    B3: "neck, basicervical",
    C1: "head, split",
    C2: "head, depression",
  }),
  segment("32", "femoral shaft", "from memory", shaft()),
  segment("33", "distal femur", "printed", {
    A1: "avulsion",
    A2: "extra-articular, simple",
    A3: "extra-articular, wedge or multifragmentary",
    B1: "lateral condyle, sagittal",
    B2: "medial condyle, sagittal",
    B3: "frontal",
    C1: "articular simple, metaphysis simple",
    C2: "articular simple, metaphysis wedge or multifragmentary",
    C3: "articular multifragmentary",
  }),
  segment(
    "41",
    "proximal tibia",
    "from memory",
    {
      A1: "avulsion",
      A2: "extra-articular, simple",
      A3: "extra-articular, wedge or multifragmentary",
      B1: "split",
      B2: "depression",
      B3: "split and depression",
      C1: "articular simple, metaphysis simple",
      C2: "articular simple, metaphysis multifragmentary",
      C3: "articular multifragmentary",
    },
    ["B1"],
  ),
  segment("42", "tibial shaft", "from memory", shaft(), ["A2", "A3", "B3", "C2", "C3"]),
  segment("43", "distal tibia", "printed", {
    A1: "extra-articular, simple",
    A2: "extra-articular, wedge",
    A3: "extra-articular, multifragmentary",
    B1: "split",
    B2: "split and depression",
    B3: "depression",
    C1: "articular simple, metaphysis simple",
    C2: "articular simple, metaphysis multifragmentary",
    C3: "articular multifragmentary",
  }),
  segment(
    "44",
    "malleoli",
    "from memory",
    {
      A1: "below the syndesmosis, isolated",
      A2: "below the syndesmosis, with the medial malleolus",
      A3: "below the syndesmosis, with the posteromedial tibia",
      B1: "through the syndesmosis, isolated fibula",
      B2: "through the syndesmosis, with a medial injury",
      B3: "through the syndesmosis, with a medial injury and the posterior rim",
      C1: "above the syndesmosis, simple shaft of the fibula",
      C2: "above the syndesmosis, wedge or multifragmentary shaft of the fibula",
      C3: "above the syndesmosis, proximal fibula",
    },
    ["B3", "C3"],
  ),
  fibula("4F1", "proximal fibula", "multifragmentary"),
  fibula("4F2", "fibular shaft", "wedge or multifragmentary"),
  fibula("4F3", "distal fibula", "wedge or multifragmentary"),
];

/** Every group in the order of the segments. */
export const codeGroups: readonly Group[] = segments.flatMap((each) => each.groups);

/** What a group of 2007 has become. `sure` when the same group has the same meaning; otherwise the surgeon decides. */
export interface Translation {
  /** Group and modifiers of 2018, the nearest first. */
  readonly to: readonly string[];
  readonly sure: boolean;
}

export const shafts: ReadonlySet<string> = new Set(["12", "32", "42"]);
/** Spiral and bending wedge and spiral complex went to modifiers 13 and 14: from memory, so offered as a suggestion only. */
const shaftTranslations: ReadonlyMap<string, readonly string[]> = new Map([
  ["B1", ["B2[13]"]],
  ["B2", ["B2[14]"]],
  ["C1", ["C2", "C3"]],
]);
/** Segments whose groups of 2007 and 2018 were seen to mean the same; 43B3 alone has changed its meaning. */
const unchanged: ReadonlySet<string> = new Set(["41", "43", "44"]);

/** What `group` of `segmentCode` in 2007 is written as in 2018, without the segment's figures; the groups must both be of 2007. */
export function translated(segmentCode: string, group: string): Translation {
  if (shafts.has(segmentCode)) {
    const suggested = shaftTranslations.get(group);
    return suggested === undefined ? { to: [group], sure: true } : { to: suggested, sure: false };
  }
  const sure = unchanged.has(segmentCode) && `${segmentCode}${group}` !== "43B3";
  return {
    to: segmentNamed(segmentCode)?.groups.some((each) => each.code === segmentCode + group) ? [group] : [],
    sure,
  };
}

export function segmentNamed(code: string): Segment | undefined {
  return segments.find((each) => each.code === code);
}

export function groupNamed(code: string): Group | undefined {
  return codeGroups.find((group) => group.code === code);
}

function shaft(): Readonly<Record<string, string>> {
  return {
    A1: "spiral",
    A2: "oblique, 30 deg or more",
    A3: "transverse, less than 30 deg",
    B2: "intact wedge",
    B3: "fragmentary wedge",
    C2: "intact segment",
    C3: "fragmentary segment",
  };
}

/** `others` are the groups whose mark is the other one. */
function segment(
  code: string,
  name: string,
  mark: Mark,
  groups: Readonly<Record<string, string>>,
  others: readonly string[] = [],
): Segment {
  const other = mark === "printed" ? "from memory" : "printed";
  return {
    code,
    name,
    mark,
    groups: Object.entries(groups).map(([group, meaning]) => ({
      code: code + group,
      meaning,
      mark: others.includes(group) ? other : mark,
      bone: boneOf(code),
    })),
  };
}

function fibula(code: string, name: string, complex: string): Segment {
  return {
    code,
    name,
    mark: "from memory",
    groups: [
      { code: `${code}A`, meaning: "simple", mark: "from memory", bone: "fibula" },
      { code: `${code}B`, meaning: complex, mark: "from memory", bone: "fibula" },
    ],
  };
}

/** The first figure tells the bone; the malleoli count as tibia. */
export function boneOf(code: string): CodedBone {
  if (code.startsWith("4F")) return "fibula";
  return code.startsWith("1") ? "humerus" : code.startsWith("3") ? "femur" : "tibia";
}
