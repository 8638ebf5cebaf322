/** A limit as it is in force: its value, who set it and why, what that overrides, and what it rests on. It judges nothing. */
import { type LimitEntry, type LimitName, limitTable } from "../findings/limit-table.ts";
import { type Limit, limitsOf } from "../findings/limits.ts";
import { profiles } from "../findings/profiles.ts";
import type { Document, Place, Protocol } from "../meaning/plan.ts";
import { constant } from "../quantity/arithmetic.ts";
import { print } from "../quantity/print.ts";
import type { Basis } from "../reckoning/reckoning.ts";
import { linesOf } from "./lines.ts";
import { code, plain } from "./markdown.ts";

/** The protocols that set the limits of a document: those a plan follows in their order, or the protocol itself. */
export function protocolsOf(document: Document | undefined): readonly Protocol[] {
  if (document?.kind === "protocol") return [document];
  return document?.kind === "plan" ? document.follows.flatMap((follow) => follow.document ?? []) : [];
}

/**
 * Markdown without a heading; undefined when no limit has the name. The last protocol is the strongest. With the `texts` of the
 * protocols' files it also says in which line a limit is set.
 */
export function limitMarkdown(
  name: string,
  protocols: readonly Protocol[],
  texts: ReadonlyMap<string, string> = new Map(),
): string | undefined {
  const entry: (LimitEntry & { readonly name: LimitName }) | undefined = limitTable.find((each) => each.name === name);
  if (entry === undefined) return undefined;
  const [inForce, ...overridden] = history(entry.name, protocols);
  if (inForce === undefined) return undefined;
  const lines = [`**Limit \`${name}\`**, ${entry.title}: ${limitValue(inForce)}`];
  if (inForce.from !== "default") {
    const reason = inForce.because === undefined ? "" : `, because "${plain(inForce.because)}"`;
    const origin = (limit: Limit): string => limitOrigin(limit, protocols, texts);
    const before = overridden.map((limit) => `${origin(limit)}: ${limitValue(limit)}`);
    lines.push(`Set by ${origin(inForce)}${reason}. It overrides ${before.join("; ")}.`);
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

/** What each profile sets a limit to, and the line a protocol would write for it. */
export function limitSetting(name: string): string | undefined {
  const entry: LimitEntry | undefined = limitTable.find((each) => each.name === name);
  if (entry === undefined) return undefined;
  const named = profiles.flatMap((profile) =>
    profile.sets
      .filter(({ limit }) => limit === name)
      .map(({ most, unit }) => `\`${profile.name}\` up to ${print(constant(most, unit), unit)}`),
  );
  const text = named.length === 0 ? [] : [`Profiles: ${named.join("; ")}.`];
  const end = entry.most ?? entry.least ?? 1;
  const shown = print(constant(end, entry.unit), entry.unit);
  const way = entry.most === undefined && entry.least !== undefined ? "at-least" : "up-to";
  const line = `limit ${name} ${way} ${shown}, because "our reason", source "what it rests on"`;
  return [...text, `A protocol can write, with \`up-to\`, \`at-least\` or a range:\n\n${code(line)}`].join("\n\n");
}

/** The limit in force first, then each it overrides, the default last. */
function history(name: LimitName, protocols: readonly Protocol[]): readonly Limit[] {
  const states = protocols.flatMap((protocol, at) => {
    const before = protocols.slice(0, at);
    return statesOf(protocol).map((part) => limitsOf([...before, part]).get(name));
  });
  const all = [limitsOf([]).get(name), ...states];
  return all.filter((limit, at) => !isSame(limit.from, all[at - 1]?.from)).reverse();
}

/** The protocol as far as each of its lines, so that a line it overrides itself is told too. */
function statesOf(protocol: Protocol): readonly Protocol[] {
  const { limits, profiles: named } = protocol;
  const starts = [...limits, ...named].map(({ place }) => place.span.start).sort((a, b) => a - b);
  const until = <Line extends { readonly place: Place }>(lines: readonly Line[], start: number): readonly Line[] =>
    lines.filter(({ place }) => place.span.start <= start);
  return starts.map((start) => ({ ...protocol, limits: until(limits, start), profiles: until(named, start) }));
}

function isSame(one: Limit["from"], other: Limit["from"] | undefined): boolean {
  if (one === "default" || other === "default" || other === undefined) return one === other;
  return one.file === other.file && one.span.start === other.span.start;
}

/** Who set a limit: "the default", or the protocol with its file and line. */
export function limitOrigin(
  { from, profile }: Limit,
  protocols: readonly Protocol[],
  texts: ReadonlyMap<string, string>,
): string {
  if (from === "default") return "the default";
  const title = protocols.find(({ file }) => file === from.file)?.title.text;
  const named = title === undefined ? "the protocol" : `the protocol "${plain(title)}"`;
  const text = texts.get(from.file);
  const where =
    text === undefined
      ? ""
      : ` (${plain(fileName(from.file))}, line ${linesOf(text).position(from.span.start).line + 1})`;
  return profile === undefined ? `${named}${where}` : `the profile \`${profile}\` of ${named}${where}`;
}

export function fileName(file: string): string {
  return file.slice(file.lastIndexOf("/") + 1);
}
