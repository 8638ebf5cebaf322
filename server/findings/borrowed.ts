/**
 * Limits whose figure was measured on tibiae, and a plan of another bone: such a limit is not used in silence. What each rule makes of
 * that stands in the rule.
 */
import { isOtherBone } from "../reckoning/given.ts";
import type { Subject } from "./finding.ts";
import type { LimitName } from "./limits.ts";

/** True when the bone is a femur or a humerus and no protocol has set the limit for it. */
export function isBorrowed({ plan, limits }: Subject, name: LimitName): boolean {
  return isOtherBone(plan) && limits.get(name).from === "default";
}

/** ", measured on tibiae" behind a limit that is; else "". */
export function measuredOn(subject: Subject, name: LimitName): string {
  return isBorrowed(subject, name) ? ", measured on tibiae" : "";
}
