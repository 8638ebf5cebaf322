/**
 * Texts in quotes: where one ends, and the text it means (escapes undone, common indent of a block removed). An unclosed text ends
 * early, so that it costs no more than its own statement.
 */

/** A text that closes: a block, or a line that closes before its end. */
export const closedText = /"""[\s\S]*?"""|"(?!"")[^"\\\r\n]*(?:\\[^\r\n][^"\\\r\n]*)*"/;

/** A quote that opens a text which does not close, to the end of its line. */
export const openText = /"""[^\r\n]*|"[^"\\\r\n]*(?:\\[^\r\n][^"\\\r\n]*)*\\?/;

/**
 * Where an open text that begins at `offset` is taken to end; `lineEnd` is the end of its line. It leaves a brace at its line's end
 * alone: the block it opens is worth more than one more character.
 */
export function openTextEnd(text: string, offset: number, lineEnd: number): number {
  if (text.startsWith('"""', offset)) return openBlockEnd(text, offset, lineEnd);
  return offset + beforeBrace(text.slice(offset, lineEnd));
}

/** Length of `rest` without blanks and one brace at its end; at least the quote stays. */
function beforeBrace(rest: string): number {
  let end = rest.length;
  while (end > 1 && isBlank(rest.charCodeAt(end - 1))) end -= 1;
  if (rest[end - 1] !== "{") return end;
  end -= 1;
  while (end > 1 && isBlank(rest.charCodeAt(end - 1))) end -= 1;
  return end;
}

function isBlank(code: number): boolean {
  return code === 32 || code === 9;
}

/**
 * An open block ends with the text, or before the first line that is indented no deeper than the line it began in: what follows
 * there are statements again.
 */
function openBlockEnd(text: string, offset: number, lineEnd: number): number {
  const indent = indentAt(text, lineStart(text, offset));
  let end = lineEnd;
  for (let at = afterLineEnd(text, end); at > end && at < text.length; at = afterLineEnd(text, end)) {
    const next = endOfLine(text, at);
    const blank = text.slice(at, next).trim() === "";
    if (!blank && indentAt(text, at) <= indent) break;
    end = next;
  }
  return end;
}

function lineStart(text: string, offset: number): number {
  let at = offset;
  while (at > 0 && text[at - 1] !== "\n" && text[at - 1] !== "\r") at -= 1;
  return at;
}

function indentAt(text: string, start: number): number {
  let at = start;
  while (isBlank(text.charCodeAt(at))) at += 1;
  return at - start;
}

function endOfLine(text: string, start: number): number {
  let at = start;
  while (at < text.length && text[at] !== "\n" && text[at] !== "\r") at += 1;
  return at;
}

/** The offset after the line end at `offset`; `offset` itself at the end of the text. */
function afterLineEnd(text: string, offset: number): number {
  if (text[offset] === "\r" && text[offset + 1] === "\n") return offset + 2;
  return offset < text.length ? offset + 1 : offset;
}

export type TextRead =
  | { readonly kind: "text"; readonly value: string }
  | { readonly kind: "unclosed"; readonly closing: string }
  /** `at` is the offset of the backslash within the source. */
  | { readonly kind: "bad-escape"; readonly at: number };

const closedLine = /^"[^"\\\r\n]*(?:\\[^\r\n][^"\\\r\n]*)*"$/;

/** Reads a text's source, quotes included. */
export function readText(source: string): TextRead {
  if (source.startsWith('"""')) return readBlock(source);
  if (!closedLine.test(source)) return { kind: "unclosed", closing: '"' };
  const inner = source.slice(1, -1);
  if (!inner.includes("\\")) return { kind: "text", value: inner };
  const bad = /^[^\\]*(?:\\["\\n][^\\]*)*/.exec(inner)?.[0].length ?? 0;
  if (bad < inner.length) return { kind: "bad-escape", at: bad + 1 };
  return { kind: "text", value: inner.replace(/\\(["\\n])/g, (_, sign: string) => (sign === "n" ? "\n" : sign)) };
}

function readBlock(source: string): TextRead {
  if (source.length < 6 || !source.endsWith('"""')) return { kind: "unclosed", closing: '"""' };
  const lines = source.slice(3, -3).split(/\r\n|\n|\r/);
  if (lines.length === 1) return { kind: "text", value: lines[0] ?? "" };
  const [first = "", ...others] = lines;
  const indents = others.filter((text) => text.trim() !== "").map((text) => /^[ \t]*/.exec(text)?.[0].length ?? 0);
  const common = indents.reduce((least, indent) => Math.min(least, indent), Number.MAX_SAFE_INTEGER);
  const body = others.map((text) => (text.trim() === "" ? "" : text.slice(common)));
  if (first.trim() !== "") body.unshift(first.trimStart());
  if (body.at(-1) === "") body.pop();
  return { kind: "text", value: body.join("\n") };
}
