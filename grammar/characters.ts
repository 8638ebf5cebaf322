/**
 * Characters that must not pass unseen: invisible and direction-changing ones, and lookalikes of the signs the language uses. Finds
 * them and says how they are put right by machine; whether they are an error is decided by where they stand.
 */
import type { Repair } from "./problems.ts";
import type { Span } from "./tree.ts";

/**
 * Runs of hidden characters: controls but tab, line feed and carriage return; soft hyphen, joiners and fillers; all twelve
 * Bidi_Control characters; zero-width characters; U+2028, U+2029, U+0085; variation selectors and tag characters.
 */
const hidden = new RegExp(
  "(?:[\\u0000-\\u0008\\u000b\\u000c\\u000e-\\u001f\\u007f-\\u009f\\u00ad\\u034f\\u061c\\u115f\\u1160\\u17b4\\u17b5" +
    "\\u180b-\\u180f\\u200b-\\u200f\\u2028-\\u202e\\u2060-\\u206f\\u3164\\ufe00-\\ufe0f\\ufeff\\uffa0\\ufff0-\\ufffb]" +
    "|\\udb40[\\udc00-\\udfff])+",
  "g",
);

export const byteOrderMark = "\ufeff";

/** Every run of hidden characters, in order; a byte-order mark at the very start is none. */
export function hiddenRuns(text: string): readonly Span[] {
  const from = text.startsWith(byteOrderMark) ? 1 : 0;
  const runs: Span[] = [];
  hidden.lastIndex = from;
  for (let match = hidden.exec(text); match !== null; match = hidden.exec(text)) {
    runs.push({ start: match.index, end: match.index + match[0].length });
  }
  return runs;
}

export function hasHidden(text: string): boolean {
  hidden.lastIndex = 0;
  return hidden.test(text);
}

/** Whether there is nothing but hidden characters in a text. */
export function isHidden(text: string): boolean {
  hidden.lastIndex = 0;
  return hidden.exec(text)?.[0].length === text.length;
}

/** Names characters that cannot be shown: `U+200B U+202E`; at most four of them. */
export function codePoints(text: string): string {
  const points = Array.from(text.slice(0, 16), (char) => (char.codePointAt(0) ?? 0).toString(16).toUpperCase());
  const named = points.slice(0, 4).map((point) => `U+${point.padStart(4, "0")}`);
  return points.length > named.length ? `${named.join(" ")} …` : named.join(" ");
}

/** What was found, short enough for a message. */
export function shown(text: string): string {
  return text.length > 60 ? `${text.slice(0, 60)}…` : text;
}

/** Lookalikes and the ASCII (or, for the degree, the one accepted) form of each. */
const lookalikes: ReadonlyMap<string, string> = new Map([
  ...["\u2212", "\u2010", "\u2011", "\u2012", "\u2013", "\u2014", "\ufe63", "\uff0d"].map(pair("-")),
  ...["\u00ba", "\u02da", "\u2218", "\u1d52"].map(pair("°")),
  ...["\u00d7", "\u22c5", "\u2217", "\u00b7"].map(pair("*")),
  ...["\u00f7", "\u2044", "\u2215"].map(pair("/")),
  ...["\u201c", "\u201d", "\u201e", "\u201f", "\u00ab", "\u00bb"].map(pair('"')),
  ...["\u00a0", "\u2000", "\u2001", "\u2002", "\u2003", "\u2004", "\u2005", "\u2006"].map(pair(" ")),
  ...["\u2007", "\u2008", "\u2009", "\u200a", "\u202f", "\u205f", "\u3000"].map(pair(" ")),
]);

function pair(plain: string): (odd: string) => [string, string] {
  return (odd) => [odd, plain];
}

/** Full-width forms of ASCII and decimal digits of other scripts have one mechanical ASCII form. */
function plainForm(char: string): string {
  const known = lookalikes.get(char);
  if (known !== undefined) return known;
  const code = char.codePointAt(0) ?? 0;
  if (code >= 0xff01 && code <= 0xff5e) return String.fromCharCode(code - 0xfee0);
  return /\p{Nd}/u.test(char) ? digitOf(code) : char;
}

/** Decimal digits stand in runs of ten from zero to nine; Unicode promises that for every script. */
function digitOf(code: number): string {
  let value = 0;
  while (value < 9 && /\p{Nd}/u.test(String.fromCodePoint(code - value - 1))) value += 1;
  return String(value);
}

const longestRepair = 200;
const legible = /^[\w .,;:+\-*/%°()[\]"=]+$/;

/** A repair that writes a stretch of text in plain characters, when every one of its odd characters has one plain form. */
export function plainRepair(text: string, span: Span): Repair | undefined {
  if (text.length > longestRepair) return undefined;
  const plain = Array.from(text, plainForm).join("");
  if (plain === text || !legible.test(plain)) return undefined;
  return rewrite(plain, span);
}

export function rewrite(text: string, span: Span): Repair {
  return { title: `Write ${text.trim() === "" ? "a space" : text}`, edits: [{ span, text }] };
}
