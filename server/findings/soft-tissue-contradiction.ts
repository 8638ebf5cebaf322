/**
 * A closed fracture with a grade of open ones, or the other way round.
 */
import type { Fix, PlanRule } from "./finding.ts";
import { clear, found } from "./judging.ts";

const closedGrades = new Set(["C0", "C1", "C2", "C3"]);
const openGrades = new Set(["I", "II", "IIIA", "IIIB", "IIIC"]);

export const rule: PlanRule = {
  kind: "plan",
  slug: "soft-tissue-contradiction",
  title: "Closed and open soft-tissue grades together",
  why:
    "C0 to C3 grade the soft tissue of a closed fracture, I to IIIC that of an open one. " +
    "Whether the fracture is open decides about antibiotic, debridement and the time of nailing, so it may not be left in doubt.",
  grade: "error",
  basis: {
    mark: "printed",
    text:
      "closed: Tscherne & Oestern, Unfallheilkunde 1982;85:111; open: Gustilo & Anderson, J Bone Joint Surg Am 1976;58-A:453, " +
      "Gustilo, Mendoza & Williams, J Trauma 1984;24:742",
  },
  limits: [],
  wrong: { change: [["soft-tissue closed C1", "soft-tissue closed IIIA"]] },
  right: { change: [] },
  check: ({ plan }) => {
    const softTissue = plan.case?.softTissue;
    const grade = softTissue?.grade;
    if (softTissue === undefined || grade === undefined) return clear;
    const { kind } = softTissue;
    const other = kind.text === "closed" ? "open" : "closed";
    const contradicts = kind.text === "closed" ? openGrades.has(grade.text) : closedGrades.has(grade.text);
    if (!contradicts) return clear;
    const fix: Fix = {
      title: `${kind.text} ${grade.text} → ${other} ${grade.text}`,
      class: "needs a choice",
      edits: [{ span: kind.place.span, text: other }],
    };
    return found({
      place: softTissue.place,
      message: `The fracture is called ${kind.text}, but ${grade.text} is a grade of ${other} fractures.`,
      at: "soft-tissue",
      fixes: [fix],
    });
  },
};
