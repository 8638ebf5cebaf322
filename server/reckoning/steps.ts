/**
 * The steps of the operation in the order they are done, each with the steps it depends on and why. Read from the table in `order.ts`;
 * whether the order works is judged by the rules.
 */
import type { Place, Plan, Step } from "../meaning/plan.ts";
import type { Subject } from "./ledger.ts";
import { isBefore, type Precedence, precedences } from "./order.ts";
import type { Basis } from "./reckoning.ts";
import { inWords, reckoned } from "./writing.ts";

const basis: Basis = {
  mark: "common practice",
  text: "common practice, no single source: what each step needs done first",
};

export interface PlannedStep {
  /** From 1, in the order done. */
  readonly number: number;
  /** "lock D2". */
  readonly what: string;
  readonly needs: readonly Need[];
  readonly place: Place;
}

/** A step that has to be done first. */
export interface Need {
  readonly number: number;
  readonly because: string;
  /** False when it comes later in the plan. */
  readonly kept: boolean;
}

/** `steps` in words: "5 wire after 4; 6 ream after 5"; absent when nothing is planned. */
export const reckonSteps: Subject = ({ plan }) => {
  const steps = plannedSteps(plan);
  if (steps.length === 0) {
    return [];
  }
  const reasons = new Set(steps.flatMap(({ needs }) => needs.map(({ because }) => because)));
  return [
    reckoned({
      id: "steps",
      label: "steps in order, each after those it needs",
      answer: { kind: "word", word: steps.map(worded).join("; ") },
      unit: "1",
      by: inWords(
        "steps in order",
        steps.map(({ place }) => place),
      ),
      basis,
      remark: () => [...reasons].join("; "),
    }),
  ];
};

/** Every step in the order it is done, those it needs by their numbers, least first. */
export function plannedSteps(plan: Plan): readonly PlannedStep[] {
  const table = precedences.map((precedence) => ({
    precedence,
    earlier: precedence.earlier(plan),
    later: new Set(precedence.later(plan)),
  }));
  return plan.steps.map((step, index) => ({
    number: index + 1,
    what: whatOf(step),
    needs: table
      .filter(({ later }) => later.has(step))
      .flatMap(({ precedence, earlier }) => needsOf(plan, precedence, earlier, step))
      .toSorted((a, b) => a.number - b.number),
    place: step.place,
  }));
}

function needsOf(plan: Plan, { because, one }: Precedence, earlier: readonly Step[], step: Step): readonly Need[] {
  const done = earlier.filter((each) => isBefore(plan, each, step));
  const needed = one === true && done.length > 0 ? done : earlier;
  return needed.map((each) => ({ number: plan.steps.indexOf(each) + 1, because, kept: done.includes(each) }));
}

function worded({ number, what, needs }: PlannedStep): string {
  const after = (kept: boolean): string =>
    [...new Set(needs.filter((need) => need.kept === kept).map((need) => need.number))].join(", ");
  const [kept, broken] = [after(true), after(false)];
  return [
    `${number} ${what}`,
    ...(kept === "" ? [] : [` after ${kept}`]),
    ...(broken === "" ? [] : [`, before ${broken}, which it needs`]),
  ].join("");
}

/** Longer texts are cut: the list is read at a glance. */
const mostLetters = 40;

function whatOf(step: Step): string {
  switch (step.kind) {
    case "lock":
      return `lock ${step.hole.text}`;
    case "nail":
      return step.name === undefined ? "nail" : `nail ${step.name.text}`;
    case "check":
      return `check ${step.things.map(({ text }) => text).join(", ")}`.trim();
    case "step":
      return shortened(step.text?.text ?? "step");
    default:
      return step.kind;
  }
}

function shortened(text: string): string {
  const line = text.replace(/\s+/g, " ").trim();
  const letters = [...line];
  return letters.length <= mostLetters ? line : `${letters.slice(0, mostLetters - 1).join("")}…`;
}
