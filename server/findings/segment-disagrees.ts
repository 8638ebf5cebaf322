/**
 * The fracture code names another bone than the plan, or another segment than the one the fracture's centre lies in. Where a segment
 * ends is in `segment.ts`; the malleoli have bounds of their own and are not judged.
 */
import type { Said } from "../meaning/plan.ts";
import { compare, constant, negate, subtract } from "../quantity/arithmetic.ts";
import type { Quantity } from "../quantity/quantity.ts";
import { landmarkOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { segmentEdges } from "../reckoning/segment.ts";
import type { PlanRule, Related, Subject, Verdict } from "./finding.ts";
import { type FractureCode, readCode } from "./fracture-code.ts";
import { boneOf, segmentNamed } from "./fracture-codes.ts";
import { cannotTell, found, judgeBounds, type Told, together } from "./judging.ts";
import { isNominal } from "./limit-words.ts";

const onEdge = constant(0, "mm");

export const rule: PlanRule = {
  kind: "plan",
  slug: "segment-disagrees",
  title: "Fracture code of another segment than the fracture lies in",
  why:
    "The segment decides which nails fit and how many screws the short fragment wants. " +
    "It is told by the rule of squares: an end segment is as high as the end of the bone is wide, and the fracture's centre decides. " +
    "A femur's proximal end ends at the lesser trochanter instead.",
  grade: "warning",
  basis: {
    mark: "printed",
    text: "rule of squares (Heim; Müller), Rockwood and Green 10e, fig. 5-7, for the segments of AO/OTA 2018, with the proximal femur to the lower edge of the lesser trochanter; a centre on the edge counts as in the end, our own reading",
  },
  limits: [],
  wrong: {
    change: [
      ["fracture 42A2", "fracture 43A1"],
      ["fits 42A1", "fits 43A1, 42A1"],
    ],
  },
  right: { change: [] },
  check: (subject) => {
    const { plan } = subject;
    const said = plan.case?.fracture?.code;
    const code = said === undefined ? undefined : readCode(said.text);
    if (said === undefined || code === undefined) return cannotTell("the fracture has no code that can be read");
    const bone = plan.case?.bone;
    if (boneOf(code.segment) === "fibula") return cannotTell("the fracture's code is of the fibula");
    const coded = boneOf(code.segment);
    if (bone !== undefined && segmentNamed(code.segment) !== undefined && bone.text !== coded)
      return otherBone(said, coded, bone);
    return bySquares(subject, said, code);
  },
};

function otherBone(said: Said, coded: string, bone: Said): Verdict {
  return found({
    place: said.place,
    message: `The code ${said.text} is of the ${coded}, but the bone is the ${bone.text}.`,
    grade: "error",
    at: said.text,
    related: [{ place: bone.place, message: "The bone." }],
  });
}

/** How far the centre lies outside the segment the code names; judged against nothing at all. */
function bySquares(subject: Subject, said: Said, code: FractureCode): Verdict {
  const { reckonings } = subject;
  const answer = reckonings.byId.get("segment")?.answer;
  const name = segmentNamed(code.segment)?.name ?? "";
  const outside = outsideBy(subject, code.segment);
  if (outside.length === 0) return cannotTell("the malleoli have bounds of their own");
  const verdicts = outside.map(({ value, edge, inside }) =>
    judgeBounds({
      value,
      bounds: { most: onEdge },
      side: "most",
      // A centre on the square's edge counts as inside it.
      strict: inside,
      grade: "warning",
      unit: "mm",
      place: said.place,
      at: said.text,
      message: (told) => words(`The code ${said.text} is of the ${name}; the fracture's centre`, edge, told),
      related: bounding(subject),
    }),
  );
  const beyond = verdicts.find((verdict) => verdict.found.length > 0);
  if (beyond !== undefined) return beyond;
  // One edge of the coded segment may tell against it though the other end is not known; it cannot tell for it.
  return answer?.kind === "unknown" ? cannotTell(answer.because) : together(verdicts);
}

function words(start: string, edge: string, told: Told): string {
  const { margin } = told.beyond;
  if (told.sure && margin.kind === "known" && compare(margin, onEdge) === 0)
    return `${start} lies on the edge, which counts as ${edge}.`;
  if (!told.sure && !isNominal(told)) return `${start} lies by the edge and may lie ${edge}.`;
  return `${start} ${told.may("lies", "may lie")} ${told.margin} ${edge}.`;
}

interface Outside {
  readonly value: Quantity;
  readonly edge: string;
  /** The centre lies inside another end, whose edge counts as its own. */
  readonly inside: boolean;
}

/** Each value is above 0 when the centre lies on the wrong side of one edge of the coded segment; none for the malleoli. */
function outsideBy({ plan, reckonings }: Subject, segment: string): readonly Outside[] {
  const centre = answerOf(reckonings, "level.fracture.centre");
  const edges = segmentEdges(plan);
  const below = subtract(centre, edges.proximal.level);
  const above = subtract(edges.distal.level, centre);
  const { outside, inside } = edgeWords(edges.proximal.called);
  const outsideProximal = { value: below, edge: outside, inside: false };
  const insideProximal = { value: negate(below), edge: inside, inside: true };
  const outsideDistal = { value: above, edge: "above the distal square", inside: false };
  const insideDistal = { value: negate(above), edge: "inside the distal square", inside: true };
  switch (segment.slice(1)) {
    case "1":
      return [outsideProximal, insideDistal];
    case "2":
      return [insideProximal, insideDistal];
    case "3":
      return [outsideDistal, insideProximal];
    default:
      return [];
  }
}

function edgeWords(called: string): { readonly outside: string; readonly inside: string } {
  return called.endsWith("square")
    ? { outside: `below the ${called}`, inside: `inside the ${called}` }
    : { outside: `below the ${called}`, inside: `above the lower edge of the ${called}` };
}

function bounding({ plan }: Subject): readonly Related[] {
  const fracture = plan.case?.fracture;
  const ends = plan.measures.epiphyses.map(({ place, end }) => ({ place, message: `The ${end.text} square's side.` }));
  const trochanter = plan.case?.bone?.text === "femur" ? landmarkOf(plan, "lesser-trochanter") : undefined;
  return [
    ...(fracture?.from === undefined ? [] : [{ place: fracture.from.place, message: "Where the fracture begins." }]),
    ...(trochanter === undefined ? [] : [{ place: trochanter.place, message: "Where the proximal end ends." }]),
    ...ends,
  ];
}
