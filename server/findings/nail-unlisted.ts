/**
 * A nail, a diameter or a length that no catalogue the plan reads lists. A catalogue that could not be read is told elsewhere.
 */
import { nearest } from "../../grammar/nearest.ts";
import type { CatalogueNail, NailStep, Plan, SizeList, Typed } from "../meaning/plan.ts";
import { printValue } from "../quantity/print.ts";
import { stepsOf } from "../reckoning/given.ts";
import type { Fix, Found, PlanRule, Verdict } from "./finding.ts";
import { cannotTell, clear, found, together } from "./judging.ts";
import { isListed, lengthsOf, neighbours } from "./listed-sizes.ts";
import { aboutListedNail } from "./places.ts";
import { quoted } from "./words.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "nail-unlisted",
  title: "Nail, diameter or length that the catalogue does not list",
  why:
    "A size that is not made is found out when the tray is opened. " +
    "Everything reckoned for the nail, its holes and its screws rests on what the catalogue lists.",
  grade: "error",
  basis: { mark: "catalogue", text: "the nails, diameters and lengths listed in the catalogues that the plan reads" },
  limits: [],
  wrong: { change: [["length 345 mm", "length 350 mm"]] },
  right: { change: [] },
  check: ({ plan }) => {
    const [step] = stepsOf(plan, "nail");
    if (step === undefined) return cannotTell("no nail is planned");
    const listed = plan.nail;
    if (listed === undefined) return name(plan, step);
    return together([
      size(plan, listed, step.diameter, listed.diameters, "diameter"),
      size(plan, listed, step.length, listed.lengths, "length"),
    ]);
  },
};

function name(plan: Plan, step: NailStep): Verdict {
  if (step.name === undefined) return cannotTell("the nail is not named");
  if (plan.uses.length === 0) return cannotTell("the plan reads no catalogue");
  const read = plan.uses.flatMap(({ document }) => (document === undefined ? [] : [document]));
  if (read.length < plan.uses.length) return cannotTell("a catalogue could not be read");
  const nails = read.flatMap((catalogue) => catalogue.nails);
  return found({
    place: step.name.place,
    message: `No catalogue that the plan reads lists a nail ${quoted(step.name.text)}.`,
    at: step.name.text,
    fixes: others(plan, step.name.text, step.name.place, nails),
  });
}

function others(plan: Plan, typed: string, at: Typed["place"], nails: readonly CatalogueNail[]): readonly Fix[] {
  const names = nails.map((nail) => nail.name.text);
  const near = nearest(typed, names);
  if (near === undefined || at.file !== plan.file) return [];
  return [{ title: `nail ${typed} → ${near}`, class: "needs a choice", edits: [{ span: at.span, text: near }] }];
}

function size(
  plan: Plan,
  nail: CatalogueNail,
  typed: Typed | undefined,
  list: SizeList | undefined,
  what: string,
): Verdict {
  if (typed === undefined) return cannotTell(`the ${what} of the nail is not given`);
  if (typed.quantity.kind === "unknown") return cannotTell(typed.quantity.because);
  const sizes = lengthsOf(list);
  if (sizes.length === 0) return cannotTell(`the nail lists no ${what}`);
  if (isListed(sizes, typed.quantity)) return clear;
  const shown = printValue(typed.quantity, "mm");
  const near = neighbours(sizes, typed.quantity);
  const finding: Found = {
    place: typed.place,
    message: `The catalogue does not list the ${what} ${shown} for nail ${nail.name.text}.`,
    at: what,
    value: typed.quantity,
    unit: "mm",
    related: aboutListedNail(plan),
    fixes: near.map((each) => ({
      title: `${what} ${shown} → ${printValue(each, "mm")}, as listed`,
      class: "needs a choice",
      edits: [{ span: typed.place.span, text: printValue(each, "mm") }],
    })),
  };
  return found(finding);
}
