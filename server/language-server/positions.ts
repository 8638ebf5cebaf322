/** Between the engine's offsets (UTF-16 units) and the protocol's positions in the encoding the client asked for. */
import type { Position, Range } from "vscode-languageserver";
import type { Span } from "../../grammar/tree.ts";
import type { Lines } from "../answers/lines.ts";

export type Encoding = "utf-16" | "utf-8";

/** Any position in, an offset inside the text out; a position inside a surrogate pair goes to its start. */
export function fromProtocol(lines: Lines, position: Position, encoding: Encoding): number {
  const line = finite(position.line);
  const text = lines.text(line);
  const wanted = finite(position.character);
  const character = encoding === "utf-8" ? unitsOfBytes(text, wanted) : Math.min(wanted, text.length);
  const inside = isLowSurrogate(text, character) && isHighSurrogate(text, character - 1) ? character - 1 : character;
  return lines.offset({ line, character: inside });
}

export function toProtocol(lines: Lines, offset: number, encoding: Encoding): Position {
  const { line, character } = lines.position(offset);
  if (encoding === "utf-16") return { line, character };
  return { line, character: bytesOf(lines.text(line).slice(0, character)) };
}

export function toRange(lines: Lines, span: Span, encoding: Encoding): Range {
  return { start: toProtocol(lines, span.start, encoding), end: toProtocol(lines, span.end, encoding) };
}

/** From the start of a range to its end, or empty at its start when they are the wrong way round. */
export function toSpan(lines: Lines, { start, end }: Range, encoding: Encoding): Span {
  const from = fromProtocol(lines, start, encoding);
  return { start: from, end: Math.max(from, fromProtocol(lines, end, encoding)) };
}

function finite(value: number): number {
  return value > 0 ? Math.min(Math.floor(value), 2 ** 31) : 0;
}

function bytesOf(text: string): number {
  return new TextEncoder().encode(text).length;
}

function unitsOfBytes(text: string, bytes: number): number {
  let units = 0;
  let count = 0;
  for (const character of text) {
    count += bytesOf(character);
    if (count > bytes) break;
    units += character.length;
  }
  return units;
}

function isHighSurrogate(text: string, at: number): boolean {
  const code = text.charCodeAt(at);
  return code >= 0xd800 && code < 0xdc00;
}

function isLowSurrogate(text: string, at: number): boolean {
  const code = text.charCodeAt(at);
  return code >= 0xdc00 && code < 0xe000;
}
