/**
 * How many screws hold a main fragment and whether that fragment is a short one, as both rules about it ask.
 */
import type { NailStep, Place } from "../meaning/plan.ts";
import { locksOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import type { Related, Subject, Verdict } from "./finding.ts";
import { type Bounds, judgeBounds } from "./judging.ts";
import { aboutFracture } from "./places.ts";

export type Fragment = "proximal" | "distal";

export const fragments: readonly Fragment[] = ["proximal", "distal"];

/** The fragment that an end segment leaves short; undefined for a shaft fracture or when the segment is not known. */
export function shortFragment({ reckonings }: Subject): Fragment | undefined {
  const answer = reckonings.byId.get("segment")?.answer;
  const word = answer?.kind === "word" ? answer.word : undefined;
  return word === "proximal" || word === "distal" ? word : undefined;
}

/** The number of screws in a fragment held against a least number. */
export function judgeScrews(
  subject: Subject,
  nail: NailStep,
  fragment: Fragment,
  bounds: Bounds,
  called: string,
): Verdict {
  const { plan, reckonings } = subject;
  return judgeBounds({
    value: answerOf(reckonings, `fragment.${fragment}.screws`),
    bounds,
    side: "least",
    grade: "warning",
    unit: "1",
    place: placeOf(subject, nail, fragment),
    at: fragment,
    message: (told) => `Screws in the ${called}: ${told.value}; at least ${told.limit} are wanted.`,
    related: [...locksIn(subject, fragment), ...aboutFracture(plan)],
  });
}

/** Where the fragment is held: its last lock, else the nail. */
function placeOf(subject: Subject, nail: NailStep, fragment: Fragment): Place {
  const last = locksIn(subject, fragment).at(-1);
  return last?.place ?? nail.wordPlace;
}

function locksIn({ plan, reckonings }: Subject, fragment: Fragment): readonly Related[] {
  const from = answerOf(reckonings, "level.fracture.from");
  const to = answerOf(reckonings, "level.fracture.to");
  return locksOf(plan).flatMap((lock) => {
    const level = answerOf(reckonings, `hole.${lock.hole.text}.level`);
    const inside =
      fragment === "proximal"
        ? level.kind === "known" && from.kind === "known" && level.value <= from.value
        : level.kind === "known" && to.kind === "known" && level.value >= to.value;
    return inside ? [{ place: lock.wordPlace, message: `Hole ${lock.hole.text} is locked here.` }] : [];
  });
}
