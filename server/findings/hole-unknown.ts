/**
 * A hole that the nail does not have, named where a screw is put in, taken out for dynamisation or taken out with the nail.
 */
import { nearest } from "../../grammar/nearest.ts";
import type { CatalogueNail, Plan, Said } from "../meaning/plan.ts";
import { stepsOf } from "../reckoning/given.ts";
import type { Fix, Found, PlanRule } from "./finding.ts";
import { cannotTell, clear } from "./judging.ts";
import { aboutListedNail } from "./places.ts";
import { listed, quoted } from "./words.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "hole-unknown",
  title: "Hole that the nail does not have",
  why:
    "A screw can only go through a hole the catalogue lists for the nail. " +
    "Where that hole lies, what it takes and how far it is from the fracture all come from there.",
  grade: "error",
  basis: { mark: "catalogue", text: "the holes listed for the nail in the catalogues that the plan reads" },
  limits: [],
  wrong: {
    change: [
      ["lock D1, drilled", "lock D4, drilled"],
      ["take D1, D2, P2", "take D4, D2, P2"],
    ],
  },
  right: { change: [] },
  check: ({ plan }) => {
    const named = holesNamed(plan);
    if (named.length === 0) return clear;
    const { nail } = plan;
    if (nail === undefined) return cannotTell("the nail is in no catalogue that was read");
    const holes = nail.holes.map((hole) => hole.name.text);
    // The same wrong name in locking and in removal is one mistake, told where it stands first.
    const astray = new Map<string, Said>();
    for (const said of named) {
      if (!holes.includes(said.text) && !astray.has(said.text)) astray.set(said.text, said);
    }
    return { found: [...astray.values()].map((said) => unknownHole(plan, nail, said, holes)) };
  },
};

/** Wherever the plan names a hole, in the order it is told. */
function holesNamed(plan: Plan): readonly Said[] {
  return [
    ...stepsOf(plan, "lock").map((lock) => lock.hole),
    ...(plan.aftercare?.dynamise?.remove ?? []),
    ...(plan.removal?.steps ?? []).filter((step) => step.kind === "take").flatMap((step) => step.things),
  ].filter((said) => said.text !== "cap");
}

function unknownHole(plan: Plan, nail: CatalogueNail, said: Said, holes: readonly string[]): Found {
  return {
    place: said.place,
    message: `Nail ${nail.name.text} has no hole ${quoted(said.text)}; it has ${listed(holes)}.`,
    at: said.text,
    related: aboutListedNail(plan),
    fixes: otherHoles(plan, said, holes),
  };
}

/** The nearest name first, then the holes of the nail that carry no screw yet; written wherever the wrong name stands. */
function otherHoles(plan: Plan, said: Said, holes: readonly string[]): readonly Fix[] {
  const locked = new Set(stepsOf(plan, "lock").map((lock) => lock.hole.text));
  const near = nearest(said.text, holes);
  const alike = holesNamed(plan).filter(({ text }) => text === said.text);
  const unused = holes.filter((hole) => !locked.has(hole));
  return [...new Set([...(near === undefined ? [] : [near]), ...unused])].slice(0, 3).map((hole) => ({
    title: `hole ${said.text} → ${hole}`,
    class: "needs a choice",
    edits: alike.map(({ place }) => ({ span: place.span, text: hole })),
  }));
}
