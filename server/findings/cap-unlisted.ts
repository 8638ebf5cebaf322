/**
 * An end cap that the catalogue does not list for the nail.
 */
import type { Typed } from "../meaning/plan.ts";
import { print, printValue } from "../quantity/print.ts";
import type { Known } from "../quantity/quantity.ts";
import { stepsOf } from "../reckoning/given.ts";
import { capThatFits } from "./caps.ts";
import type { Fix, PlanRule, Subject } from "./finding.ts";
import { cannotTell, clear, found } from "./judging.ts";
import { isLength, isListed, lengthsOf, neighbours } from "./listed-sizes.ts";
import { aboutListedNail } from "./places.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "cap-unlisted",
  title: "End cap that the catalogue does not list",
  why:
    "A cap that is not on the tray is replaced in a hurry by one that may stand proud. " +
    "The extension is looked up among the caps listed for the nail.",
  grade: "error",
  basis: { mark: "catalogue", text: "the caps listed for the nail in the catalogues that the plan reads" },
  limits: [],
  wrong: { change: [["    cap 5 mm\n", "    cap 4 mm\n"]] },
  right: { change: [] },
  check: (subject) => {
    const { plan } = subject;
    const cap = stepsOf(plan, "cap").at(-1);
    if (cap === undefined || cap.none) return clear;
    if (plan.nail === undefined) return cannotTell("the nail is in no catalogue that was read");
    const { extension } = cap;
    const typed = extension?.quantity;
    if (extension === undefined || !isLength(typed)) return cannotTell("the extension of the cap is not known");
    const caps = lengthsOf(plan.nail.caps);
    if (caps.length === 0) return cannotTell(`nail ${plan.nail.name.text} lists no caps`);
    if (isListed(caps, typed)) return clear;
    return found({
      place: extension.place,
      message: `The catalogue lists no cap of ${printValue(typed, "mm")} for nail ${plan.nail.name.text}.`,
      value: typed,
      unit: "mm",
      related: aboutListedNail(plan),
      fixes: others(subject, extension, typed),
    });
  },
};

/** The listed caps on either side that leave nothing proud. */
function others(subject: Subject, typed: Typed, extension: Known): readonly Fix[] {
  const { plan } = subject;
  const longest = capThatFits(subject)?.extension;
  const near = neighbours(lengthsOf(plan.nail?.caps), extension);
  return near
    .filter((cap) => longest !== undefined && cap.value <= longest.value)
    .map((cap) => ({
      title: `cap ${print(extension, "mm")} → ${printValue(cap, "mm")}, as listed`,
      class: "needs a choice",
      edits: [{ span: typed.place.span, text: printValue(cap, "mm") }],
    }));
}
