/**
 * Reads a fracture code as typed into its parts and tells whether the classification has them. What the groups are called is in
 * `fracture-codes.ts`.
 */
import { groupNamed, modifiers, qualificationsOf, segmentNamed } from "./fracture-codes.ts";

export interface FractureCode {
  /** The spelling: 2007 has a hyphen before the type. */
  readonly edition: 2018 | 2007;
  /** Two figures, or `4F1` to `4F3`. */
  readonly segment: string;
  readonly type: string;
  /** Type and group figure: `A2`; the type alone for the fibula. */
  readonly group: string;
  /** Segment and group as 2018 writes them: `42A2`. */
  readonly stem: string;
  /** `.1`, or "". */
  readonly subgroup: string;
  readonly qualifications: readonly string[];
  readonly modifiers: readonly string[];
  /** Round and square brackets as typed. */
  readonly brackets: string;
}

const shape =
  /^(?<segment>4F\d|\d\d)(?<hyphen>-?)(?<type>[A-Z])(?<figure>\d?)(?<subgroup>\.\d)?(?<brackets>(?:\((?<round>[^()]*)\))?(?:\[(?<square>[^[\]]*)\])?)$/u;

/** The parts of a code; undefined when it is no code of either spelling. */
export function readCode(text: string): FractureCode | undefined {
  const parts = shape.exec(text)?.groups;
  if (parts === undefined) return undefined;
  const { segment = "", hyphen = "", type = "", figure = "", subgroup = "", brackets = "", round, square } = parts;
  return {
    edition: hyphen === "-" ? 2007 : 2018,
    segment,
    type,
    group: `${type}${figure}`,
    stem: `${segment}${type}${figure}`,
    subgroup,
    qualifications: membersOf(round),
    modifiers: membersOf(square),
    brackets,
  };
}

/** What the classification of 2018 does not have in this code, in plain words; undefined when it has it all. */
export function codeFault(code: FractureCode): string | undefined {
  const segment = segmentNamed(code.segment);
  if (segment === undefined) return `there is no segment ${code.segment}`;
  if (groupNamed(code.stem) === undefined) return `the ${segment.name} has no group ${code.stem}`;
  if (code.subgroup !== "" && !/^\.[1-3]$/.test(code.subgroup)) return `a subgroup is .1, .2 or .3`;
  return qualificationFault(code) ?? modifierFault(code);
}

/** True for a group that the classification of 2007 has: nine to a segment. */
export function isGroupOf2007(code: FractureCode): boolean {
  return /^\d\d$/.test(code.segment) && segmentNamed(code.segment) !== undefined && /^[ABC][1-3]$/.test(code.group);
}

function qualificationFault(code: FractureCode): string | undefined {
  const known = qualificationsOf(code.segment, code.type);
  const fault = code.qualifications.find((letter) => !(known?.has(letter) ?? /^[a-z]$/.test(letter)));
  if (fault === undefined) return undefined;
  const list = known === undefined ? "single small letters" : [...known.keys()].join(", ");
  return `round brackets hold ${list} here, not "${fault}"`;
}

function modifierFault(code: FractureCode): string | undefined {
  const fault = code.modifiers.find((modifier) => !isModifier(modifier));
  return fault === undefined ? undefined : `there is no modifier "${fault}"`;
}

function isModifier(text: string): boolean {
  const [, figure = "", letter = ""] = /^(\d{1,2})([a-z]?)$/.exec(text) ?? [];
  const known = modifiers.get(figure);
  return known !== undefined && (letter === "" || known.letters.includes(letter));
}

function membersOf(inside: string | undefined): readonly string[] {
  return inside === undefined ? [] : inside.split(",").map((member) => member.trim());
}
