/**
 * Judging a value against a limit with its uncertainty (JCGM 106:2012, 7), so that a rule stays short: it names the value, the
 * limit, the place and the words, and gets its verdict. What is judged, and what is said about it, stands in the rules.
 */
import type { Place } from "../meaning/plan.ts";
import { compare, isExact, negate, subtract } from "../quantity/arithmetic.ts";
import { print, printAgainst, printPercent } from "../quantity/print.ts";
import { probabilityAbove, probabilityBelow } from "../quantity/probability.ts";
import type { Known, Quantity, Unknown } from "../quantity/quantity.ts";
import { sameDimension } from "../quantity/units.ts";
import type { Fix, Found, Grade, Related, Verdict } from "./finding.ts";

/** From here on a finding has its full grade. */
const sureFrom = 0.95;
/** Below this nothing is said. */
const silentBelow = 0.05;

/** Ends a value is held against. A `Limit` is one; a rule may also give ends of its own (a catalogue's travel). */
export interface Bounds {
  readonly least?: Quantity;
  readonly most?: Quantity;
  readonly unreadable?: string;
  /** The protocol's line that set them; it is told as a related place. */
  readonly from?: "default" | Place;
}

export interface Beyond {
  readonly kind: "beyond";
  readonly side: "most" | "least";
  readonly value: Known;
  readonly limit: Known;
  /** Positive is beyond the limit. */
  readonly margin: Quantity;
  /** Of being beyond the limit; 1 when exact. */
  readonly probability: number;
  /** True from 95 %: the finding keeps its full grade. False: one grade milder, and worded "may". */
  readonly sure: boolean;
  readonly grade: Grade;
  /** "" when exact, else "probability 37 %". */
  readonly chance: string;
}

/** Undefined: the limit is kept, or beyond it with less than 5 %. Unknown: it cannot be told. */
export type Judged = Beyond | Unknown | undefined;

interface Strictness {
  /** A value equal to the limit is beyond it too. By default equality keeps the limit. */
  readonly strict?: boolean;
}

/** Beyond when the value is above the limit. No limit (undefined) is never passed. */
export function judgeAtMost(
  value: Quantity,
  limit: Quantity | undefined,
  grade: Grade,
  options: Strictness = {},
): Judged {
  return judgeSide("most", value, limit, grade, options);
}

/** Beyond when the value is below the limit. No limit (undefined) is never passed. */
export function judgeAtLeast(
  value: Quantity,
  limit: Quantity | undefined,
  grade: Grade,
  options: Strictness = {},
): Judged {
  return judgeSide("least", value, limit, grade, options);
}

/** What a rule's words are made of. */
export interface Told {
  /** Printed value with its ±, with as many digits as it takes not to contradict the limit beside it. */
  readonly value: string;
  readonly limit: string;
  /** By how much it is beyond the limit, printed. */
  readonly margin: string;
  readonly side: "most" | "least";
  readonly sure: boolean;
  /** The first words when sure, the second ("may …") when it cannot be excluded: `told.may("lies", "may lie")`. */
  readonly may: (sure: string, maybe: string) => string;
  readonly beyond: Beyond;
}

export interface Question extends Strictness {
  readonly value: Quantity;
  readonly bounds: Bounds;
  /** Only this end is asked about; both when absent. */
  readonly side?: "most" | "least";
  /** The rule's own grade. */
  readonly grade: Grade;
  /** Unit in which value, limit and margin are printed. */
  readonly unit: string;
  readonly place: Place;
  readonly at?: string | undefined;
  /** A sentence with its full stop. The probability is put in before the full stop here, not in the rule. */
  readonly message: (told: Told) => string;
  readonly related?: readonly Related[] | undefined;
  readonly fixes?: readonly Fix[] | ((told: Told) => readonly Fix[]) | undefined;
}

/** Holds a value against its bounds and words what is beyond: the whole check of most rules. */
export function judgeBounds(question: Question): Verdict {
  const { bounds, side } = question;
  if (bounds.unreadable !== undefined) return cannotTell(bounds.unreadable);
  const verdicts: Verdict[] = [];
  if (side !== "least")
    verdicts.push(verdictOf(question, judgeAtMost(question.value, bounds.most, question.grade, question)));
  if (side !== "most")
    verdicts.push(verdictOf(question, judgeAtLeast(question.value, bounds.least, question.grade, question)));
  return together(verdicts);
}

/** Nothing found, nothing left open. */
export const clear: Verdict = { found: [] };

/** What could not be judged, and why. */
export function cannotTell(...because: readonly string[]): Verdict {
  return { found: [], untold: because };
}

export function found(...findings: readonly Found[]): Verdict {
  return { found: findings };
}

/** All of several verdicts; a reason said twice is kept once. */
export function together(verdicts: readonly Verdict[]): Verdict {
  const untold = new Set(verdicts.flatMap((verdict) => verdict.untold ?? []));
  const all = verdicts.flatMap((verdict) => verdict.found);
  return untold.size === 0 ? { found: all } : { found: all, untold: [...untold] };
}

/** One grade milder; information stays information. */
export function milder(grade: Grade): Grade {
  return grade === "error" ? "warning" : "information";
}

function judgeSide(
  side: "most" | "least",
  value: Quantity,
  limit: Quantity | undefined,
  grade: Grade,
  options: Strictness,
): Judged {
  if (limit === undefined) return undefined;
  if (value.kind === "unknown") return value;
  if (limit.kind === "unknown") return limit;
  if (!sameDimension(value.dimension, limit.dimension)) {
    return { kind: "unknown", because: "a value and its limit are of different kinds" };
  }
  const probability = probabilityBeyond(side, value, limit, options.strict === true);
  if (probability < silentBelow) return undefined;
  const difference = subtract(value, limit);
  const sure = probability >= sureFrom;
  return {
    kind: "beyond",
    side,
    value,
    limit,
    margin: side === "most" ? difference : negate(difference),
    probability,
    sure,
    grade: sure ? grade : milder(grade),
    chance: difference.kind === "known" && isExact(difference) ? "" : `probability ${percent(probability)}`,
  };
}

function probabilityBeyond(side: "most" | "least", value: Known, limit: Known, strict: boolean): number {
  const difference = subtract(value, limit);
  const exact = difference.kind === "known" && isExact(difference);
  if (strict && exact && compare(value, limit) === 0) return 1;
  return side === "most" ? probabilityAbove(value, limit) : probabilityBelow(value, limit);
}

/** Rounded percentages must not contradict the grade: 94.9 % is not shown as 95 %. */
function percent(probability: number): string {
  const shown = printPercent(probability);
  return probability < sureFrom && shown === printPercent(sureFrom) ? `just under ${shown}` : shown;
}

function verdictOf(question: Question, judged: Judged): Verdict {
  if (judged === undefined) return clear;
  if (judged.kind === "unknown") return cannotTell(judged.because);
  const told = tell(judged, question.unit);
  const { at, fixes } = question;
  const related = [...(question.related ?? []), ...aboutLimit(question.bounds)];
  return found({
    place: question.place,
    message: withChance(question.message(told), judged.chance),
    grade: judged.grade,
    ...(at === undefined ? {} : { at }),
    value: judged.value,
    limit: judged.limit,
    margin: judged.margin,
    unit: question.unit,
    probability: judged.probability,
    ...(related.length === 0 ? {} : { related }),
    ...(fixes === undefined ? {} : { fixes: typeof fixes === "function" ? fixes(told) : fixes }),
  });
}

function aboutLimit({ from }: Bounds): readonly Related[] {
  return from === undefined || from === "default"
    ? []
    : [{ place: from, message: "The protocol sets the limit here." }];
}

function tell(beyond: Beyond, unit: string): Told {
  return {
    ...printAgainst(beyond.value, beyond.limit, unit),
    margin: print(beyond.margin, unit),
    side: beyond.side,
    sure: beyond.sure,
    may: (sure, maybe) => (beyond.sure ? sure : maybe),
    beyond,
  };
}

function withChance(message: string, chance: string): string {
  if (chance === "") return message;
  return `${message.replace(/\.$/, "")} (${chance}).`;
}
