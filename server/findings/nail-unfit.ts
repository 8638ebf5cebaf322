/**
 * The nail is not meant for this bone, or its catalogue does not list the fracture among those it fits.
 */
import { nailStepOf } from "../reckoning/given.ts";
import type { PlanRule } from "./finding.ts";
import { readCode } from "./fracture-code.ts";
import { boneOf, groupNamed } from "./fracture-codes.ts";
import { cannotTell, clear, found } from "./judging.ts";
import { aboutFracture, aboutListedNail } from "./places.ts";
import { listed } from "./words.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "nail-unfit",
  title: "Nail that is not listed for this fracture or bone",
  why:
    "A catalogue says for which bone a nail is made and for which fractures its holes lie right. " +
    "Outside that list the short fragment may be left with too few holes to hold it.",
  grade: "warning",
  basis: { mark: "catalogue", text: "the bone and the fracture codes the catalogue lists for the nail" },
  limits: [],
  wrong: {
    change: [
      ["fracture 42A2", "fracture 42B2"],
      ["42A3, 42B2, 42B3", "42A3, 42B3"],
    ],
  },
  right: { change: [["fracture 42A2", "fracture 42B2"]] },
  check: ({ plan }) => {
    const { nail } = plan;
    const name = nailStepOf(plan)?.name;
    if (nail === undefined || name === undefined) return cannotTell("the nail is in no catalogue that was read");
    const { place } = name;
    const bone = plan.case?.bone?.text;
    const made = nail.bone?.text;
    if (bone !== undefined && made !== undefined && bone !== made) {
      return found({
        place,
        message: `Nail ${nail.name.text} is made for the ${made}, but the bone is the ${bone}.`,
        grade: "error",
        at: nail.name.text,
        related: aboutListedNail(plan),
      });
    }
    const code = readCode(plan.case?.fracture?.code?.text ?? "");
    if (code === undefined || groupNamed(code.stem) === undefined) {
      return cannotTell("the fracture has no code of the classification");
    }
    // Then the code is what is wrong: `segment-disagrees`.
    if (bone !== undefined && boneOf(code.segment) !== bone)
      return cannotTell("the fracture's code is of another bone");
    const fits = nail.fits.map((fit) => readCode(fit.text)).filter((fit) => fit !== undefined);
    if (fits.length === 0) return cannotTell(`nail ${nail.name.text} lists no fractures that it fits`);
    if (fits.some((fit) => fit.stem === code.stem && (fit.subgroup === "" || fit.subgroup === code.subgroup)))
      return clear;
    const stems = [...new Set(fits.map((fit) => fit.stem + fit.subgroup))];
    return found({
      place,
      message: `Nail ${nail.name.text} is not listed for ${code.stem}; the catalogue lists ${listed(stems)}.`,
      at: nail.name.text,
      related: [...aboutFracture(plan), ...aboutListedNail(plan)],
    });
  },
};
