/**
 * A catalogue the plan reads whose own figures do not go together. It is told once for each catalogue; the faults themselves are told
 * in its own file.
 */
import type { Catalogue, Import } from "../meaning/plan.ts";
import { ownFigures } from "./catalogue-checks.ts";
import { type Fault, faultsOf } from "./catalogue-faults.ts";
import type { Found, Grade, PlanRule } from "./finding.ts";
import { counted, quoted } from "./words.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "catalogue-faulty",
  title: "Catalogue that contradicts itself",
  why:
    "Whatever is reckoned for the nail and its screws rests on the figures of the catalogue. " +
    "Where those contradict each other one of them is wrong, and nobody can tell from the plan which.",
  grade: "error",
  basis: ownFigures,
  limits: [],
  wrong: { change: [["core 3.9 mm", "core 4.9 mm"]] },
  right: { change: [] },
  check: ({ plan }) => ({ found: plan.uses.flatMap(faulty) }),
};

function faulty({ path, document }: Import<Catalogue>): readonly Found[] {
  if (document === undefined) return [];
  const faults = faultsOf(document);
  const [first] = faults;
  if (first === undefined) return [];
  const fault = counted(faults.length, "fault", "faults");
  return [
    {
      place: path.place,
      message: `${quoted(path.text)} has ${fault} of its own; the first: ${first.message}`,
      grade: gravest(faults),
      related: faults.slice(0, mostTold).map(({ place, message }) => ({ place, message })),
    },
  ];
}

/** More than these nobody reads at the line of a plan. */
const mostTold = 8;

function gravest(faults: readonly Fault[]): Grade {
  return faults.some(({ grade }) => grade === "error") ? "error" : "warning";
}
