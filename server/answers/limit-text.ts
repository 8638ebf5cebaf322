/** A limit as it is in force: its value, who set it and why, what that overrides, and what it rests on. It judges nothing. */
import { type LimitEntry, type LimitName, limitTable } from "../findings/limit-table.ts";
import { type Limit, limitsOf } from "../findings/limits.ts";
import type { Document, Protocol } from "../meaning/plan.ts";
import { print } from "../quantity/print.ts";
import type { Basis } from "../reckoning/reckoning.ts";
import { plain } from "./markdown.ts";

/** The protocols that set the limits of a document: those a plan follows in their order, or the protocol itself. */
export function protocolsOf(document: Document | undefined): readonly Protocol[] {
  if (document?.kind === "protocol") return [document];
  return document?.kind === "plan" ? document.follows.flatMap((follow) => follow.document ?? []) : [];
}

/** Markdown without a heading; undefined when no limit has the name. The last protocol is the strongest. */
export function limitMarkdown(name: string, protocols: readonly Protocol[]): string | undefined {
  const entry: (LimitEntry & { readonly name: LimitName }) | undefined = limitTable.find((each) => each.name === name);
  if (entry === undefined) return undefined;
  const [inForce, ...overridden] = history(entry.name, protocols);
  if (inForce === undefined) return undefined;
  const lines = [`**Limit \`${name}\`**, ${entry.title}: ${limitValue(inForce)}`];
  if (inForce.from !== "default") {
    const reason = inForce.because === undefined ? "" : `, because "${plain(inForce.because)}"`;
    const before = overridden.map((limit) => `${originOf(limit, protocols)}: ${limitValue(limit)}`);
    lines.push(`Set by ${originOf(inForce, protocols)}${reason}. It overrides ${before.join("; ")}.`);
  }
  lines.push(`Basis: ${plain(basisText(inForce.basis))}.`);
  if (inForce.population !== undefined) lines.push(`Measured on: ${inForce.population}.`);
  if (entry.remark !== undefined) lines.push(entry.remark);
  return lines.join("\n\n");
}

export function limitValue(limit: Limit): string {
  const { least, most, unit: shown } = limit;
  if (limit.unreadable !== undefined) return `cannot be used: ${plain(limit.unreadable)}`;
  if (least !== undefined && most !== undefined) return `${print(least, shown)} to ${print(most, shown)}`;
  if (most !== undefined) return `up to ${print(most, shown)}`;
  return least === undefined ? "no fixed value" : `at least ${print(least, shown)}`;
}

export function basisText({ mark, text }: Basis): string {
  return text.startsWith(mark) ? text : `${text} (${mark})`;
}

/** The limit in force first, then each it overrides, the default last. */
function history(name: LimitName, protocols: readonly Protocol[]): readonly Limit[] {
  const states = protocols.map((_, at) => limitsOf(protocols.slice(0, at + 1)).get(name));
  const all = [limitsOf([]).get(name), ...states];
  return all.filter((limit, at) => limit.from !== all[at - 1]?.from).reverse();
}

function originOf({ from }: Limit, protocols: readonly Protocol[]): string {
  if (from === "default") return "the default";
  const title = protocols.find(({ file }) => file === from.file)?.title.text;
  return title === undefined ? "the protocol" : `the protocol "${plain(title)}"`;
}
