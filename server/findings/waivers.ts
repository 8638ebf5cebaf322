/**
 * Which findings a waiver covers. A waiver counts only with its reason and its signature; what it covers stays visible, marked as
 * waived.
 */
import type { Said, Waiver } from "../meaning/plan.ts";
import type { Finding } from "./finding.ts";

/** What a waiver lacks, in plain words; empty when it is complete. */
export function lacking(waiver: Waiver): readonly string[] {
  return [...(blank(waiver.because) ? ["reason"] : []), ...(blank(waiver.signed) ? ["signature"] : [])];
}

/** True when the waiver speaks of this finding, whether or not it is complete. */
export function concerns(waiver: Waiver, finding: Pick<Finding, "slug" | "at">): boolean {
  if (waiver.finding.text !== finding.slug) return false;
  return waiver.at === undefined || waiver.at.text === finding.at;
}

/** The finding, marked as waived when a complete waiver concerns it. */
export function withWaiver(finding: Finding, waivers: readonly Waiver[]): Finding {
  const waiver = waivers.find((each) => lacking(each).length === 0 && concerns(each, finding));
  if (waiver?.because === undefined || waiver.signed === undefined) return finding;
  return { ...finding, waived: { because: waiver.because.text, signed: waiver.signed.text } };
}

function blank(said: Said | undefined): boolean {
  return said === undefined || said.text.trim() === "";
}
