/**
 * More compression is planned than the nail's compression screw can travel, or than the department allows.
 */
import type { CatalogueNail, CompressStep, Plan } from "../meaning/plan.ts";
import { print } from "../quantity/print.ts";
import { stepsOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { mostCompression, turnDown } from "./compression-amount.ts";
import type { Fix, Grade, PlanRule, Subject, Verdict } from "./finding.ts";
import { type Bounds, clear, found, judgeBounds, together } from "./judging.ts";
import { aboutListedNail } from "./places.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "compression-beyond-travel",
  title: "Compression beyond the travel of the compression screw",
  why:
    "When the compression screw has used its travel it bottoms out and turns the force into the nail or the slot screw. " +
    "The travel is the catalogue's; a department may set less.",
  grade: "error",
  basis: { mark: "catalogue", text: "the compression travel the catalogue lists for the nail" },
  limits: ["compression"],
  wrong: {
    change: [
      ["compress 2 turns", "compress 5 turns"],
      ["gap 3 mm ± 1 mm", "gap 8 mm ± 1 mm"],
      ["sunk 8 mm", "sunk 12 mm"],
    ],
  },
  right: { change: [] },
  check: (subject) => {
    const { plan } = subject;
    const step = stepsOf(plan, "compress").at(-1);
    if (step === undefined) return clear;
    if (plan.nail !== undefined && plan.nail.compression === undefined) return noTravel(plan, plan.nail, step);
    const travel = plan.nail?.compression?.travel?.quantity;
    const needed = judge(subject, step, "error", { most: travel ?? answerOf(subject.reckonings, "compression.left") });
    if (needed.found.length > 0) return needed;
    return together([needed, judge(subject, step, "warning", subject.limits.get("compression"))]);
  },
};

function judge(subject: Subject, step: CompressStep, grade: Grade, bounds: Bounds): Verdict {
  const whose = grade === "error" ? "the travel" : "the limit";
  return judgeBounds({
    value: answerOf(subject.reckonings, "compression.amount"),
    bounds,
    side: "most",
    grade,
    unit: "mm",
    place: step.place,
    message: (told) =>
      `The compression is ${told.value}` +
      told.may(`; ${whose} is ${told.limit}.`, `, which may pass ${whose} of ${told.limit}.`),
    related: aboutListedNail(subject.plan),
    fixes: within(subject),
  });
}

function within({ plan, limits }: Subject): readonly Fix[] {
  const most = mostCompression(plan, limits.get("compression").most);
  if (most === undefined) return [];
  return turnDown(plan, most, (length) => `${print(length, "mm")} of ${print(most, "mm")} travel`);
}

function noTravel(plan: Plan, nail: CatalogueNail, step: CompressStep): Verdict {
  return found({
    place: step.place,
    message: `The catalogue lists no compression for nail ${nail.name.text}.`,
    related: aboutListedNail(plan),
  });
}
