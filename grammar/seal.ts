/**
 * The seal of a plan: a digest of its text in canonical layout without its `reviewed` lines, so that blanks, line ends and further
 * reviews keep it and anything else changes it. It covers the plan's own text, not the files the plan reads, and signs nothing.
 */
import { byteOrderMark } from "./characters.ts";
import { layout } from "./layout.ts";
import { parse } from "./parse.ts";
import { sha256 } from "./sha-256.ts";
import { lex } from "./tokens.ts";
import type { Span, Statement } from "./tree.ts";

/** As many digits of the digest are written; a seal may give more of them, up to all 64. */
const shortest = 16;

/** The first 16 hexadecimal digits of the digest; undefined when the text cannot be laid out, because something in it is broken. */
export function sealOf(text: string): string | undefined {
  return digestOf(text)?.slice(0, shortest);
}

/** `unlike`: the seal is none that this tool makes, or that of another text. Undefined when the text cannot be laid out. */
export function sealFits(seal: string, text: string): boolean | undefined {
  const digest = digestOf(text);
  return digest === undefined ? undefined : seal.length >= shortest && digest.startsWith(seal.toLowerCase());
}

function digestOf(text: string): string | undefined {
  const canonical = sealedText(text);
  return canonical === undefined ? undefined : sha256(canonical);
}

/** The text the digest is made of; lines end with a line feed, and no line is blank but inside a text in quotes. */
export function sealedText(text: string): string | undefined {
  const plain = (text.startsWith(byteOrderMark) ? text.slice(byteOrderMark.length) : text).replace(/\r\n?/g, "\n");
  const laidOut = layout(parse(plain));
  return laidOut === undefined ? undefined : withoutBlankLines(withoutReviews(laidOut));
}

/** Each `reviewed` line with its notes and what stands behind it on its row. */
function withoutReviews(text: string): string {
  const plans = parse(text).tree.statements.filter(({ word }) => word.name === "plan");
  const reviews = plans.flatMap(({ block }) => block?.statements.filter(({ word }) => word.name === "reviewed") ?? []);
  let [kept, at] = ["", 0];
  for (const review of reviews) {
    const { start, end } = rowsOf(text, review);
    kept += text.slice(at, start);
    at = end;
  }
  return kept + text.slice(at);
}

function rowsOf(text: string, { notes, span }: Statement): Span {
  const start = text.lastIndexOf("\n", notes[0]?.span.start ?? span.start) + 1;
  const end = text.indexOf("\n", span.end);
  return { start, end: end < 0 ? text.length : end + 1 };
}

function withoutBlankLines(text: string): string {
  const quoted = lex(text).filter(({ kind, text: said }) => kind === "text" && said.includes("\n"));
  let [kept, at] = ["", 0];
  for (const { span } of quoted) {
    kept += squeezed(text.slice(at, span.start)) + text.slice(span.start, span.end);
    at = span.end;
  }
  return kept + squeezed(text.slice(at));
}

function squeezed(text: string): string {
  return text.replace(/\n{2,}/g, "\n");
}
