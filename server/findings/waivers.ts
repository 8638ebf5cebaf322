/**
 * Which findings a waiver covers. A waiver counts only with its reason and its signature, and where no protocol forbids it; what it
 * covers stays visible, marked as waived.
 */
import type { Plan, Said, Waiver } from "../meaning/plan.ts";
import type { Finding, Fix, Rule } from "./finding.ts";
import { takeOut } from "./line-edits.ts";

/** What the text itself is wrong about cannot be accepted away: it has no meaning to accept. */
export function isWaivable({ kind }: Rule): boolean {
  return kind === "plan" || kind === "text";
}

/** What a waiver lacks, in plain words; empty when it is complete. */
export function lacking(waiver: Waiver): readonly string[] {
  return [...(blank(waiver.because) ? ["reason"] : []), ...(blank(waiver.signed) ? ["signature"] : [])];
}

/** What the protocols of the plan let no waiver cover, by slug, each with the first place that says so. */
export function neverWaived(plan: Plan): ReadonlyMap<string, Said> {
  const refused = new Map<string, Said>();
  for (const said of plan.follows.flatMap(({ document }) => document?.neverWaived ?? [])) {
    if (!refused.has(said.text)) refused.set(said.text, said);
  }
  return refused;
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

/** What was signed is not taken out without being asked. */
export function withoutWaiver(text: string, waiver: Waiver): Fix {
  return { title: "take the waiver out", class: "needs a choice", edits: [takeOut(text, waiver.place.span)] };
}
