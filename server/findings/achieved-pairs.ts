/**
 * What was planned beside what was achieved: sizes, words, and steps that stand on one side alone. A step of which the achieved block
 * says nothing counts as done as planned; of screws it says all or nothing. How far apart they may lie is judged elsewhere.
 */
import { overlay } from "../meaning/overlay.ts";
import type {
  Achieved,
  BlockStep,
  Directed,
  EnterStep,
  LockStep,
  Place,
  Plan,
  Said,
  Step,
  Typed,
} from "../meaning/plan.ts";
import { negate } from "../quantity/arithmetic.ts";
import type { Quantity } from "../quantity/quantity.ts";
import { ofKind, type StepOf } from "../reckoning/given.ts";
import { answerOf, reckon } from "../reckoning/reckon.ts";
import type { LimitName } from "./limits.ts";

/** One thing that can be compared, with the words for it at the start of a sentence: "The length of the nail". */
interface Compared {
  readonly what: string;
  readonly at: string;
  /** Where it was achieved. */
  readonly place: Place;
  /** Where it was planned; undefined when it is planned nowhere. */
  readonly plannedAt: Place | undefined;
}

export interface SizePair extends Compared {
  readonly kind: "size";
  readonly planned: Quantity;
  readonly done: Quantity;
  readonly limit: LimitName;
}

export interface WordPair extends Compared {
  readonly kind: "word";
  readonly planned: string;
  readonly done: string;
}

/** Planned and not done, or done and not planned. */
export interface Alone extends Compared {
  readonly kind: "alone";
  readonly side: "planned" | "done";
}

export type Pair = SizePair | WordPair | Alone;

export function achievedPairs(plan: Plan, achieved: Achieved): readonly Pair[] {
  const [before, after] = [plan.steps, achieved.steps];
  return [
    ...reducePairs(before, after),
    ...entryPairs(last(before, "enter"), last(after, "enter")),
    ...reamPairs(before, after),
    ...nailPairs(before, after),
    ...lockPairs(ofKind(before, "lock"), ofKind(after, "lock"), achieved.place),
    ...blockPairs(ofKind(before, "block"), ofKind(after, "block"), achieved.place),
    ...compressionPairs(plan, achieved),
    ...backslapPairs(before, after),
    ...capPairs(before, after),
  ];
}

function last<Kind extends Step["kind"]>(steps: readonly Step[], kind: Kind): StepOf<Kind> | undefined {
  return ofKind(steps, kind).at(-1);
}

function sizes(
  what: string,
  at: string,
  limit: LimitName,
  planned: Typed | undefined,
  done: Typed | undefined,
): Pair[] {
  if (done === undefined || planned === undefined) return [];
  const places = { place: done.place, plannedAt: planned.place };
  return [{ kind: "size", what, at, limit, planned: planned.quantity, done: done.quantity, ...places }];
}

function words(what: string, at: string, planned: Said | undefined, done: Said | undefined): Pair[] {
  if (done === undefined || planned === undefined || done.text === planned.text) return [];
  const places = { place: done.place, plannedAt: planned.place };
  return [{ kind: "word", what, at, planned: planned.text, done: done.text, ...places }];
}

function reducePairs(before: readonly Step[], after: readonly Step[]): Pair[] {
  return words("The reduction", "reduce", last(before, "reduce")?.how, last(after, "reduce")?.how);
}

function entryPairs(planned: EnterStep | undefined, done: EnterStep | undefined): Pair[] {
  const [from, to] = [planned?.fromMidline, done?.fromMidline];
  return [
    ...words("The entry", "enter", planned?.approach, done?.approach),
    ...sizes("The entry from the midline, lateral positive,", "enter", "achieved-level", lateral(from), lateral(to)),
  ];
}

function lateral(directed: Directed | undefined): Typed | undefined {
  if (directed === undefined) return undefined;
  const { amount, direction } = directed;
  return direction.text === "medial" ? { place: amount.place, quantity: negate(amount.quantity) } : amount;
}

function reamPairs(before: readonly Step[], after: readonly Step[]): Pair[] {
  const [planned, done] = [last(before, "ream"), last(after, "ream")];
  const [unreamed, leftUnreamed] = [last(before, "unreamed"), last(after, "unreamed")];
  if (done !== undefined && unreamed !== undefined)
    return [alone("done", "Reaming", "ream", done.place, unreamed.place)];
  if (leftUnreamed !== undefined && planned !== undefined) {
    return [alone("planned", "Reaming", "ream", leftUnreamed.place, planned.place)];
  }
  return sizes(
    "The last reamer head",
    "ream",
    "achieved-diameter",
    planned?.heads.sizes.at(-1),
    done?.heads.sizes.at(-1),
  );
}

function nailPairs(before: readonly Step[], after: readonly Step[]): Pair[] {
  const [planned, done] = [last(before, "nail"), last(after, "nail")];
  return [
    ...words("The nail", "nail", planned?.name, done?.name),
    ...sizes("The diameter of the nail", "nail", "achieved-diameter", planned?.diameter, done?.diameter),
    ...sizes("The length of the nail", "nail", "achieved-length", planned?.length, done?.length),
    ...sizes("The depth of the nail's driving end", "nail", "achieved-level", planned?.sunk, done?.sunk),
  ];
}

function lockPairs(before: readonly LockStep[], after: readonly LockStep[], block: Place): Pair[] {
  if (after.length === 0) return [];
  const holes = [...new Set([...before, ...after].map(({ hole }) => hole.text))];
  return holes.flatMap((hole): Pair[] => {
    const [planned, done] = [before, after].map((steps) => steps.findLast((step) => step.hole.text === hole));
    if (done === undefined) return [alone("planned", `The screw in hole ${hole}`, hole, block, planned?.place)];
    if (planned === undefined) return [alone("done", `The screw in hole ${hole}`, hole, done.place, undefined)];
    const grips = [planned, done].map(({ grip, place }): Said => ({ text: `${grip} cortices`, place }));
    return [
      ...sizes(`The screw in hole ${hole}`, hole, "achieved-screw", planned.screw, done.screw),
      ...words(`The screw in hole ${hole}`, hole, planned.family, done.family),
      ...words(`The grip of the screw in hole ${hole}`, hole, grips[0], grips[1]),
    ];
  });
}

/** Blocking screws have no names: those of one side are compared in their order. */
function blockPairs(before: readonly BlockStep[], after: readonly BlockStep[], block: Place): Pair[] {
  if (after.length === 0) return [];
  const sides = [...new Set([...before, ...after].map(({ side }) => side?.text ?? ""))];
  return sides.flatMap((side): Pair[] => {
    const [planned = [], done = []] = [before, after].map((steps) =>
      steps.filter((step) => (step.side?.text ?? "") === side),
    );
    const what = side === "" ? "A blocking screw" : `A blocking screw on the ${side} side`;
    return Array.from({ length: Math.max(planned.length, done.length) }).flatMap((_, at): Pair[] => {
      const [was, is] = [planned[at], done[at]];
      if (is === undefined) return [alone("planned", what, "block", block, was?.place)];
      if (was === undefined) return [alone("done", what, "block", is.place, undefined)];
      return sizes(`The level of a blocking screw on the ${side} side`, "block", "achieved-level", was.level, is.level);
    });
  });
}

/** Turns and lengths are held against each other as lengths, by the pitch of the nail that was put in. */
function compressionPairs(plan: Plan, achieved: Achieved): Pair[] {
  const [planned, done] = [last(plan.steps, "compress"), last(achieved.steps, "compress")];
  if (done === undefined) return [];
  const at = "compress";
  if (planned === undefined) return [alone("done", "Compression", at, done.place, undefined)];
  const amountOf = (of: Plan): Quantity => answerOf(reckon(of), "compression.amount");
  const as = overlay(plan, {
    when: { text: "achieved", place: done.place },
    steps: achieved.steps,
    place: achieved.place,
  });
  const amounts = { planned: amountOf(plan), done: amountOf(as) };
  const places = { place: done.place, plannedAt: planned.place };
  return [{ kind: "size", what: "The compression", at, limit: "achieved-compression", ...amounts, ...places }];
}

function backslapPairs(before: readonly Step[], after: readonly Step[]): Pair[] {
  const [planned, done] = [last(before, "backslap"), last(after, "backslap")];
  if (done !== undefined && planned === undefined)
    return [alone("done", "Backslap", "backslap", done.place, undefined)];
  return sizes("The backslap", "backslap", "achieved-compression", planned?.amount, done?.amount);
}

function capPairs(before: readonly Step[], after: readonly Step[]): Pair[] {
  const [planned, done] = [last(before, "cap"), last(after, "cap")];
  if (done === undefined) return [];
  const isPlanned = planned !== undefined && !planned.none;
  if (done.none) return isPlanned ? [alone("planned", "An end cap", "cap", done.place, planned.place)] : [];
  if (!isPlanned) return [alone("done", "An end cap", "cap", done.place, planned?.place)];
  return sizes("The end cap", "cap", "achieved-length", planned.extension, done.extension);
}

function alone(side: Alone["side"], what: string, at: string, place: Place, plannedAt: Place | undefined): Alone {
  return { kind: "alone", side, what, at, place, plannedAt };
}
