/**
 * The door: a plan in, every reckoning out. It holds the order in which the subjects are reckoned and the order in which their answers
 * are listed; the formulas are in the subjects' own files.
 */
import type { Plan } from "../meaning/plan.ts";
import type { Quantity } from "../quantity/quantity.ts";
import { reckonAlignment } from "./alignment.ts";
import { reckonBlocking } from "./blocking.ts";
import { reckonBoneRemoved } from "./bone-removed.ts";
import { reckonCanal } from "./canal.ts";
import { reckonCompartment } from "./compartment.ts";
import { reckonCompression } from "./compression.ts";
import { reckonCortex } from "./cortex.ts";
import { reckonDrivingEnd } from "./driving-end.ts";
import { reckonDynamisation } from "./dynamisation.ts";
import { reckonFit } from "./fit.ts";
import { reckonFragments } from "./fragments.ts";
import { reckonGapMotion } from "./gap-motion.ts";
import { reckonHoles } from "./holes.ts";
import { quantityOf, type Subject } from "./ledger.ts";
import { reckonLength } from "./length.ts";
import { reckonLevels } from "./levels.ts";
import { reckonMagnification } from "./magnification.ts";
import { reckonMechanics } from "./mechanics.ts";
import { reckonNearJoint } from "./near-joint.ts";
import { reckonReaming } from "./reaming.ts";
import type { Reckoning, Reckonings } from "./reckoning.ts";
import { reckonScrews } from "./screws.ts";
import { reckonSegment } from "./segment.ts";
import { reckonSteps } from "./steps.ts";
import { reckonTip } from "./tip.ts";
import { reckonTray } from "./tray.ts";

/** A subject stands after all it reads from. */
const subjects: readonly Subject[] = [
  reckonMagnification,
  reckonLevels,
  reckonCanal,
  reckonSegment,
  reckonLength,
  reckonCompression,
  reckonDynamisation,
  reckonDrivingEnd,
  reckonNearJoint,
  reckonTip,
  reckonReaming,
  reckonBoneRemoved,
  reckonBlocking,
  reckonCortex,
  reckonFit,
  reckonHoles,
  reckonScrews,
  reckonFragments,
  reckonAlignment,
  reckonMechanics,
  reckonGapMotion,
  reckonCompartment,
  reckonTray,
  reckonSteps,
];

/** Beginnings of ids in the order they are listed; within one beginning, in the order they were reckoned. */
const listed: readonly string[] = [
  "magnification",
  "level",
  "canal",
  "segment",
  "length",
  "nail.top",
  "nail.tip",
  "nail.topAfter",
  "nail.topDynamised",
  "nail.toKneeJoint",
  "nail.tipDynamised",
  "cap",
  "overinsertion",
  "ream",
  "fit",
  "block",
  "hole",
  "screw",
  "compression",
  "dynamisation",
  "fragment",
  "span",
  "tip",
  "alignment",
  "nail.bending",
  "nail.torsion",
  "gap",
  "compartment",
  "tray",
  "steps",
];

/**
 * Every reckoning of the plan. Lengths in mm, angles in deg, each with its uncertainty; what cannot be reckoned is unknown with its
 * reason, what has no meaning for the plan is absent. Never throws; the same plan gives the same reckonings.
 */
export function reckon(plan: Plan): Reckonings {
  const byId = new Map<string, Reckoning>();
  for (const subject of subjects) {
    for (const reckoning of subject({ plan, byId })) {
      // The first of a name given twice stands; the second is found as a repetition.
      if (!byId.has(reckoning.id)) {
        byId.set(reckoning.id, reckoning);
      }
    }
  }
  const ranked = [...byId.values()].map((reckoning) => ({ reckoning, rank: rank(reckoning.id) }));
  const list = ranked.sort((a, b) => a.rank - b.rank).map(({ reckoning }) => reckoning);
  return { list, byId };
}

/** The answer of `id` as a quantity: unknown when it is absent or a word. */
export function answerOf(reckonings: Reckonings, id: string): Quantity {
  return quantityOf(reckonings.byId, id);
}

/** Beginnings as whole words: "nail.top." does not begin "nail.topAfter.". */
const beginnings: readonly string[] = listed.map((beginning) => `${beginning}.`);

function rank(id: string): number {
  const whole = `${id}.`;
  return beginnings.findIndex((beginning) => whole.startsWith(beginning));
}
