/**
 * The one alignment statement, which the case has as injured and the achieved block as it was done: three planes and the length.
 */
import { angle, choice, clause, length, one } from "./parts.ts";
import type { StatementRule } from "./rule.ts";

const coronal = choice({
  varus: "The far fragment leans towards the midline.",
  valgus: "The far fragment leans away from the midline.",
});
const sagittal = choice({
  procurvatum: "The fracture's apex points forwards.",
  recurvatum: "The fracture's apex points backwards.",
});
const rotation = choice({
  internal: "The far fragment is turned inwards.",
  external: "The far fragment is turned outwards.",
});

export const alignmentRule: StatementRule = {
  word: "alignment",
  doc: "The deformity: angles in the coronal and sagittal plane, rotation, shortening or lengthening.",
  slots: [],
  clauses: [
    clause(
      "coronal",
      "Angle in the coronal plane.",
      one("amount", angle, "How far it leans."),
      one("direction", coronal, "Towards which side."),
    ),
    clause(
      "sagittal",
      "Angle in the sagittal plane.",
      one("amount", angle, "How far it is bent."),
      one("direction", sagittal, "Which way the apex points."),
    ),
    clause(
      "rotation",
      "Turn of the far fragment about the bone's axis, against the other side.",
      one("amount", angle, "How far it is turned."),
      one("direction", rotation, "Which way it is turned."),
    ),
    clause("short", "The bone is too short.", one("amount", length, "By how much it is too short.")),
    clause("long", "The bone is too long.", one("amount", length, "By how much it is too long.")),
  ],
  alternatives: { ways: [["short"], ["long"]] },
  times: "optional",
  example: "alignment coronal 9 deg varus, sagittal 6 deg procurvatum, rotation 12 deg external, short 8 mm",
};
