/**
 * The functions an expression may call, with the number of values each takes. They work on quantities; what the values mean
 * is not known here.
 */
import { nearest } from "../../grammar/nearest.ts";
import type { ProblemSlug } from "../../grammar/problems.ts";
import type { Call, Span } from "../../grammar/tree.ts";
import { type FunctionRule, functionWords } from "../../grammar/vocabulary/functions.ts";
import { absolute } from "../quantity/arithmetic.ts";
import {
  arcTangent2,
  cosine,
  hypotenuse,
  maximum,
  mean,
  minimum,
  roundDown,
  roundUp,
  sine,
  squareRoot,
  tangent,
} from "../quantity/elementary.ts";
import type { Known, Quantity } from "../quantity/quantity.ts";
import { dimensionOf, sameDimension } from "../quantity/units.ts";
import { inWords } from "./dimension-words.ts";

/** What is wrong with an operation, for whoever tells it; `span` when it is narrower than the operation. */
export interface Applied {
  readonly problem: ProblemSlug;
  readonly found: string;
  readonly expected?: readonly string[];
  readonly near?: string | undefined;
  readonly span?: Span;
}

interface Workings {
  /** `alike` = all values of one dimension, `angle` = each an angle. */
  readonly takes: "alike" | "angle" | "any";
  readonly apply: (values: readonly Known[]) => Quantity;
}

/** Applies the function `call` names to `values`; when some are unknown, only the name and the count are looked at. */
export function applyFunction(call: Call, values: readonly Quantity[]): Quantity | Applied {
  const name = call.name.name;
  const rule = functionWords.get(name);
  const workings = workingsOf.get(name);
  if (rule === undefined || workings === undefined) {
    const near = nearest(name, functionWords.keys());
    return { problem: "unknown-word", found: name, expected: [...functionWords.keys()], near, span: call.name.span };
  }
  const least = rule.parameters.length;
  if (values.length < least || (values.length > least && !rule.goesOn)) {
    return { problem: "unreadable", found: `${name} of ${countWords(values.length)}`, expected: [expectedCount(rule)] };
  }
  const unknownValue = values.find((value) => value.kind === "unknown");
  if (unknownValue !== undefined) {
    return unknownValue;
  }
  const known = values.filter((value) => value.kind === "known");
  const misfit = misfitOf(workings, known);
  return misfit === undefined ? workings.apply(known) : { problem: "unit-mismatch", ...misfit };
}

const one =
  (apply: (value: Known) => Quantity) =>
  ([value]: readonly Known[]) =>
    value === undefined ? nothing : apply(value);
const two =
  (apply: (first: Known, second: Known) => Quantity) =>
  ([first, second]: readonly Known[]) =>
    first === undefined || second === undefined ? nothing : apply(first, second);
const nothing: Quantity = { kind: "unknown", because: "a value is missing" };

const workingsOf: ReadonlyMap<string, Workings> = new Map<string, Workings>([
  ["min", { takes: "alike", apply: minimum }],
  ["max", { takes: "alike", apply: maximum }],
  ["mean", { takes: "alike", apply: mean }],
  ["abs", { takes: "any", apply: one(absolute) }],
  ["sqrt", { takes: "any", apply: one(squareRoot) }],
  ["hypot", { takes: "alike", apply: hypotenuseOfAll }],
  ["sin", { takes: "angle", apply: one(sine) }],
  ["cos", { takes: "angle", apply: one(cosine) }],
  ["tan", { takes: "angle", apply: one(tangent) }],
  ["atan2", { takes: "alike", apply: two(arcTangent2) }],
  ["round-up", { takes: "alike", apply: two(roundUp) }],
  ["round-down", { takes: "alike", apply: two(roundDown) }],
]);

function hypotenuseOfAll([first, ...rest]: readonly Known[]): Quantity {
  return first === undefined ? nothing : rest.reduce<Quantity>(hypotenuse, absolute(first));
}

function misfitOf(
  { takes }: Workings,
  values: readonly Known[],
): { readonly found: string; readonly expected: readonly string[] } | undefined {
  const wanted = takes === "angle" ? dimensionOf("angle") : values[0]?.dimension;
  if (takes === "any" || wanted === undefined) {
    return undefined;
  }
  const odd = values.find((value) => !sameDimension(value.dimension, wanted));
  return odd === undefined ? undefined : { found: inWords(odd.dimension), expected: [inWords(wanted)] };
}

function expectedCount(rule: FunctionRule): string {
  const count = countWords(rule.parameters.length);
  return rule.goesOn ? `${count} or more` : count;
}

function countWords(count: number): string {
  return count === 1 ? "one value" : count === 2 ? "two values" : `${count} values`;
}
