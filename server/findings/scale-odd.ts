/**
 * A view whose magnification is below or above what an image of the leg has.
 */
import type { Plan, Typed, View, Width } from "../meaning/plan.ts";
import { compare } from "../quantity/arithmetic.ts";
import { print } from "../quantity/print.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { commonPractice } from "./common-practice.ts";
import type { Fix, PlanRule, Related, Subject, Verdict } from "./finding.ts";
import { judgeBounds, together } from "./judging.ts";
import { isLength } from "./listed-sizes.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "scale-odd",
  title: "View with an unlikely magnification",
  why:
    "Every length read on a view is divided by its magnification, so a marker mistaken by a tenth makes the nail wrong by a length step. " +
    "A marker cannot appear smaller than it is, and rarely appears much larger.",
  grade: "warning",
  basis: commonPractice,
  limits: ["magnification"],
  wrong: {
    change: [
      ["view lateral, marker 25 mm, seen 29 mm ± 0.2 mm", "view lateral, marker 25 mm, seen 37 mm ± 0.2 mm"],
      ["depth 12.2 mm ± 0.3 mm on lateral", "depth 15.6 mm ± 0.3 mm on lateral"],
    ],
  },
  right: { change: [] },
  check: (subject) =>
    together(subject.plan.views.filter((view) => !view.trueSize).map((view) => checkView(subject, view))),
};

function checkView(subject: Subject, view: View): Verdict {
  const { plan, reckonings, limits } = subject;
  const name = view.name.text;
  return judgeBounds({
    value: answerOf(reckonings, `magnification.${name}`),
    bounds: limits.get("magnification"),
    grade: "warning",
    unit: "1",
    place: view.place,
    at: name,
    message: (told) => {
      const than = told.side === "most" ? "more" : "less";
      const which = told.may(",", ", which may be");
      return `View ${name} magnifies ${told.value} times${which} ${than} than ${told.limit}; check the marker.`;
    },
    related: readOn(plan, name),
    fixes: exchanged(view),
  });
}

/** The landmarks, widths and depths that were divided by this view's magnification. */
function readOn({ measures: { landmarks, canals, bones } }: Plan, view: string): readonly Related[] {
  const lengths = [...landmarks.map(({ level }) => level), ...[...canals, ...bones].flatMap(sidesOf)];
  return lengths
    .filter((typed) => typed.reading?.view === view)
    .map(({ place }) => ({ place, message: `Read on ${view}, and divided by its magnification.` }));
}

function sidesOf({ width, depth }: Width): readonly Typed[] {
  return [width, depth].filter((typed) => typed !== undefined);
}

/** A marker seen smaller than it is was most likely typed the wrong way round. */
function exchanged({ marker, seen }: View): readonly Fix[] {
  if (marker === undefined || seen === undefined) return [];
  if (!isLength(marker.quantity) || !isLength(seen.quantity) || compare(seen.quantity, marker.quantity) >= 0) return [];
  const [size, image] = [print(marker.quantity, "mm"), print(seen.quantity, "mm")];
  return [
    {
      title: `marker ${image}, seen ${size}`,
      class: "needs a choice",
      edits: [
        { span: marker.place.span, text: image },
        { span: seen.place.span, text: size },
      ],
    },
  ];
}
