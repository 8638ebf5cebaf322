/**
 * The nail's length rests on one estimate whose spread is wider than the step from one listed length to the next. With a landmark at
 * the far end the length is judged in `nail-long` and `nail-short`.
 */
import type { Plan } from "../meaning/plan.ts";
import { absolute, compare, exact, halfWidthIn, isExact, subtract, valueIn } from "../quantity/arithmetic.ts";
import { print, printValue } from "../quantity/print.ts";
import type { Known, Quantity } from "../quantity/quantity.ts";
import { ascending, farJointOf, isUnknown, nailStepOf, nailUnlisted, scarOf } from "../reckoning/given.ts";
import type { PlanRule, Related } from "./finding.ts";
import { cannotTell, clear, found } from "./judging.ts";
import { isLength, pairsOf } from "./listed-sizes.ts";
import { counted, listed } from "./words.ts";

/** More lengths than these are counted, not listed. */
const mostListed = 5;

export const rule: PlanRule = {
  kind: "plan",
  slug: "nail-length-estimate",
  title: "Nail length from an estimate that cannot choose it",
  why:
    "An estimate from the surface of the leg is too wide to choose among listed lengths: of five methods none came within 10 mm. " +
    "A landmark at the far end, a ruler or the guide wire settles it.",
  grade: "warning",
  basis: {
    mark: "printed",
    text:
      "Sharma et al., Strateg Trauma Limb Reconstr 2021;16, doi 10.5005/jp-journals-10080-1520; for the spread " +
      "BMC Musculoskelet Disord 2025;26:395, doi 10.1186/s12891-025-08657-1: root mean square error 10.84 mm",
  },
  population: "163 tibiae in the second series",
  limits: [],
  wrong: {
    change: [
      ["    landmark scar 416 mm ± 2 mm on ap\n", ""],
      ["    landmark plafond 432 mm ± 2 mm on ap\n", "    nail-length 348 mm ± 22 mm\n"],
    ],
  },
  right: {
    change: [
      ["    landmark scar 416 mm ± 2 mm on ap\n", ""],
      ["    landmark plafond 432 mm ± 2 mm on ap\n", "    nail-length 348 mm ± 4 mm\n"],
    ],
  },
  check: ({ plan }) => {
    if (scarOf(plan) !== undefined || farJointOf(plan) !== undefined) return clear;
    const typed = plan.measures.nailLength;
    if (typed === undefined) return cannotTell("neither a landmark at the far end nor a length of the nail is given");
    const estimate = typed.quantity;
    if (estimate.kind === "unknown") return cannotTell(estimate.because);
    if (isExact(estimate)) return cannotTell("the measured length of the nail is given without its ±");
    const lengths = listedLengths(plan);
    if ("because" in lengths) return cannotTell(lengths.because);
    const spread = exact(halfWidthIn(estimate, "mm"), "mm");
    const step = stepAbout(lengths, estimate);
    if (!isLength(step) || !isLength(spread) || compare(spread, step) <= 0) return clear;
    return found({
      place: typed.place,
      message:
        `The nail's length rests on ${print(estimate, "mm")} alone, wider than the step of ${printValue(step, "mm")} ` +
        `between lengths: ${within(lengths, estimate, spread)} lie inside it.`,
      at: "nail-length",
      value: spread,
      limit: step,
      margin: subtract(spread, step),
      unit: "mm",
      probability: 1,
      related: aboutLength(plan),
    });
  },
};

function listedLengths(plan: Plan): readonly Known[] | { readonly because: string } {
  if (plan.nail === undefined) return { because: nailUnlisted(plan) };
  const lengths = ascending(plan.nail.lengths, "length", `nail ${plan.nail.name.text}`);
  return isUnknown(lengths) ? lengths : lengths.map(({ quantity }) => quantity);
}

/** The step between the listed lengths on either side of the estimate; undefined for a single length. */
function stepAbout(lengths: readonly Known[], estimate: Known): Quantity | undefined {
  const pairs = pairsOf(lengths);
  const pair = pairs.find(([, high]) => compare(high, estimate) > 0) ?? pairs.at(-1);
  return pair === undefined ? undefined : subtract(pair[1], pair[0]);
}

function within(lengths: readonly Known[], estimate: Known, spread: Known): string {
  const middle = exact(valueIn(estimate, "mm"), "mm");
  const inside = lengths.filter((length) => {
    const away = absolute(subtract(length, middle));
    return isLength(away) && compare(away, spread) <= 0;
  });
  const names = inside.map((length) => printValue(length, "mm"));
  return names.length > mostListed ? counted(names.length, "length", "listed lengths") : listed(names);
}

function aboutLength(plan: Plan): readonly Related[] {
  const length = nailStepOf(plan)?.length;
  return length === undefined ? [] : [{ place: length.place, message: "The length chosen." }];
}
