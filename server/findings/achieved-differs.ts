/**
 * What was achieved is not what was planned, beyond the tolerances of the record. A plan aims at a straight bone; an angle beyond the
 * limit of its plane is told there alone.
 */
import type { Alignment, Directed } from "../meaning/plan.ts";
import { absolute, subtract } from "../quantity/arithmetic.ts";
import { print } from "../quantity/print.ts";
import { type Alone, achievedPairs, type SizePair, type WordPair } from "./achieved-pairs.ts";
import type { Found, PlanRule, Related, Subject, Verdict } from "./finding.ts";
import { clear, found, judgeAtMost, judgeBounds, together } from "./judging.ts";
import { passing } from "./limit-words.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "achieved-differs",
  title: "Achieved otherwise than planned",
  why:
    "A plan is learned from when what was done is held against it, size by size. " +
    "A difference is no fault; the reason for it is worth a note. " +
    "Steps that the achieved block leaves out count as done as planned.",
  grade: "information",
  basis: { mark: "department's choice", text: "the tolerances are the department's choice" },
  limits: [
    "achieved-alignment",
    "achieved-compression",
    "achieved-diameter",
    "achieved-length",
    "achieved-level",
    "achieved-screw",
  ],
  wrong: {
    change: [
      [
        "  aftercare {\n",
        "  achieved {\n    nail fenwick, diameter 10 mm, length 330 mm, sunk 8 mm\n  }\n\n  aftercare {\n",
      ],
    ],
  },
  right: {
    change: [
      [
        "  aftercare {\n",
        "  achieved {\n    nail fenwick, diameter 10 mm, length 345 mm, sunk 10 mm\n  }\n\n  aftercare {\n",
      ],
    ],
  },
  check: (subject) => {
    const { achieved } = subject.plan;
    if (achieved === undefined) return clear;
    const pairs = achievedPairs(subject.plan, achieved).map((pair): Verdict => {
      if (pair.kind === "size") return sized(subject, pair);
      return found(pair.kind === "word" ? worded(pair) : unmatched(pair));
    });
    return together([...pairs, ...alignmentVerdicts(subject, achieved.alignment)]);
  },
};

function sized({ limits }: Subject, pair: SizePair): Verdict {
  const { what, at, place, planned, done } = pair;
  const { unit, ...bounds } = limits.get(pair.limit);
  return judgeBounds({
    value: absolute(subtract(done, planned)),
    bounds,
    side: "most",
    grade: "information",
    unit,
    place,
    at,
    related: plannedAt(pair),
    message: (told) =>
      passing(told, `${what} was ${print(done, unit)}, planned ${print(planned, unit)}: ${told.value} apart`),
  });
}

function worded(pair: WordPair): Found {
  const { what, at, place, planned, done } = pair;
  return { place, at, message: `${what}: ${done} was done, ${planned} was planned.`, related: plannedAt(pair) };
}

function unmatched(pair: Alone): Found {
  const { what, at, place, side } = pair;
  const message = side === "planned" ? `${what} was planned and not done.` : `${what} was done and not planned.`;
  return { place, at, message, related: plannedAt(pair) };
}

function plannedAt({ plannedAt: place }: Pick<SizePair, "plannedAt">): readonly Related[] {
  return place === undefined ? [] : [{ place, message: "It was planned here." }];
}

function alignmentVerdicts(subject: Subject, alignment: Alignment | undefined): readonly Verdict[] {
  return (["coronal", "sagittal", "rotation"] as const).map((plane) => angle(subject, plane, alignment?.[plane]));
}

function angle(
  { limits }: Subject,
  plane: "coronal" | "sagittal" | "rotation",
  directed: Directed | undefined,
): Verdict {
  if (directed === undefined) return clear;
  const { amount, direction } = directed;
  const value = absolute(amount.quantity);
  const named = plane === "rotation" ? plane : `${plane} angle`;
  // Beyond its own limit, or perhaps so, it is told by the rule of that limit.
  if (judgeAtMost(value, limits.get(plane).most, "information")?.kind === "beyond") return clear;
  return judgeBounds({
    value,
    bounds: limits.get("achieved-alignment"),
    side: "most",
    grade: "information",
    unit: "deg",
    place: amount.place,
    at: plane,
    message: (told) => passing(told, `The ${named} achieved is ${told.value} ${direction.text}`),
  });
}
