/**
 * Reads a fracture code as typed into its parts, tells what they mean and whether the classification has them. The lists it is held
 * against are in `fracture-codes.ts` and `fracture-code-parts.ts`.
 */
import { modifierParts, modifiers, type Parts, qualificationsOf, subgroupsOf } from "./fracture-code-parts.ts";
import { groupNamed, type Mark, segmentNamed } from "./fracture-codes.ts";
import { listed } from "./words.ts";

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

export interface CodeFault {
  /** In plain words, without a full stop. */
  readonly because: string;
  /** How far the list it is held against can be trusted. */
  readonly mark: Mark;
  /** Set where the group is right and what follows it rests on memory alone. */
  readonly grade?: "warning";
}

/** What the classification of 2018 does not have in this code; undefined when it has it all. */
export function codeFault(code: FractureCode): CodeFault | undefined {
  const segment = segmentNamed(code.segment);
  if (segment === undefined) return printed(`humerus, femur, tibia and fibula have no segment ${code.segment}`);
  if (groupNamed(code.stem) === undefined) {
    return { because: `the ${segment.name} has no group ${code.stem}`, mark: segment.mark };
  }
  return subgroupFault(code) ?? qualificationFault(code) ?? modifierFault(code);
}

/** One part of a code with what it means. */
export interface CodePart {
  /** As it stands in the code: `42A2`, `.1`, `(b)`, `[9]`. */
  readonly text: string;
  readonly meaning: string;
  readonly mark: Mark;
}

/** A code with the meaning of its group behind it, where it can be read and the classification has that group. */
export function withMeaning(code: string): string {
  const stem = readCode(code)?.stem;
  const group = stem === undefined ? undefined : groupNamed(stem);
  return group === undefined ? code : `${code}: ${group.meaning}`;
}

/** What each part of a code of 2018 means, the group first; parts whose meaning is not known are left out. */
export function codeParts(code: FractureCode): readonly CodePart[] {
  const segment = segmentNamed(code.segment);
  const group = groupNamed(code.stem);
  if (segment === undefined || group === undefined) return [];
  return [
    { text: group.code, meaning: `${segment.name}, ${group.meaning}`, mark: group.mark },
    ...meaningsOf(subgroupsOf(code.segment, code.group), [code.subgroup.slice(1)], (figure) => `.${figure}`),
    ...meaningsOf(qualificationsOf(code.segment, code.group), code.qualifications, (letter) => `(${letter})`),
    ...code.modifiers.flatMap(modifierPart),
  ];
}

/** True for a group that the classification of 2007 has: nine to a segment. */
export function isGroupOf2007(code: FractureCode): boolean {
  return /^\d\d$/.test(code.segment) && segmentNamed(code.segment) !== undefined && /^[ABC][1-3]$/.test(code.group);
}

function meaningsOf(
  parts: Parts | undefined,
  given: readonly string[],
  shown: (member: string) => string,
): readonly CodePart[] {
  return given.flatMap((member) => {
    const meaning = parts?.words.get(member) ?? "";
    return parts === undefined || meaning === "" ? [] : [{ text: shown(member), meaning, mark: parts.mark }];
  });
}

function modifierPart(text: string): readonly CodePart[] {
  const { figure, letter } = modifierParts(text);
  const known = modifiers.get(figure);
  if (known === undefined) return [];
  const also = known.letters.get(letter);
  const meaning = also === undefined ? known.meaning : `${known.meaning}, ${also}`;
  return [{ text: `[${text}]`, meaning, mark: "from memory" }];
}

function subgroupFault(code: FractureCode): CodeFault | undefined {
  if (code.subgroup === "") return undefined;
  const figure = code.subgroup.slice(1);
  const known = subgroupsOf(code.segment, code.group);
  if (known === undefined) return /^[1-3]$/.test(figure) ? undefined : printed("a subgroup is .1, .2 or .3");
  if (known.words.has(figure)) return undefined;
  const figures = [...known.words.keys()].map((each) => `.${each}`);
  const because =
    figures.length === 0
      ? "a shaft has no subgroups since 2018; its third stands in round brackets"
      : `${code.stem} has the subgroups ${listed(figures)}, not ${code.subgroup}`;
  return { because, mark: known.mark, ...(known.mark === "from memory" ? { grade: "warning" } : {}) };
}

function qualificationFault(code: FractureCode): CodeFault | undefined {
  const known = qualificationsOf(code.segment, code.group);
  const fault = code.qualifications.find((letter) => !(known?.words.has(letter) ?? /^[a-z]$/.test(letter)));
  if (fault === undefined) return repeatedFault(code.qualifications, "qualification");
  const list = known === undefined ? "single small letters" : [...known.words.keys()].join(", ");
  return { because: `round brackets hold ${list} here, not "${fault}"`, mark: known?.mark ?? "printed" };
}

function modifierFault(code: FractureCode): CodeFault | undefined {
  const fault = code.modifiers.find((modifier) => !isModifier(modifier));
  if (fault !== undefined) return remembered(`there is no modifier "${fault}"`);
  const figures = code.modifiers.map((modifier) => modifierParts(modifier).figure);
  const opposed = [...modifiers].filter(
    ([figure, { opposite = "none" }]) => figures.includes(figure) && figures.includes(opposite),
  );
  if (opposed.length > 0) {
    // What excludes each other stands side by side in the table; it is told as it was typed.
    const pair = opposed.slice(0, 2).sort(([a], [b]) => figures.indexOf(a) - figures.indexOf(b));
    const words = pair.map(([figure, { meaning }]) => `${figure} (${meaning})`);
    return remembered(`the modifiers ${listed(words)} exclude each other`);
  }
  return repeatedFault(code.modifiers, "modifier");
}

function repeatedFault(members: readonly string[], what: string): CodeFault | undefined {
  const twice = members.find((member, index) => members.indexOf(member) < index);
  return twice === undefined ? undefined : printed(`the ${what} "${twice}" stands in it twice`);
}

function isModifier(text: string): boolean {
  const { figure, letter } = modifierParts(text);
  const known = modifiers.get(figure);
  return known !== undefined && (letter === "" || known.letters.has(letter));
}

/** What the form of a code says by itself, or the lists that were read. */
function printed(because: string): CodeFault {
  return { because, mark: "printed" };
}

function remembered(because: string): CodeFault {
  return { because, mark: "from memory" };
}

function membersOf(inside: string | undefined): readonly string[] {
  return inside === undefined ? [] : inside.split(",").map((member) => member.trim());
}
