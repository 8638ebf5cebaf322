/**
 * Texts of a document put into Markdown: what a plan, a catalogue or a protocol says is shown as it is written and never becomes a
 * link, an image or HTML.
 */
import { visible } from "../findings/words.ts";

/** One line; signs that would begin a link, an image, HTML or code stand for themselves, and what cannot be seen is shown by its code. */
export function plain(text: string): string {
  return visible(text.replace(/\s+/g, " ")).replace(/[\\`*_[\]<>]/g, "\\$&");
}

/** A stretch of the language; a fence inside it does not end it, and what cannot be seen is shown by its code. */
export function code(written: string): string {
  const text = written.split("\n").map(visible).join("\n");
  const fence = text.includes("```") ? "~~~~" : "```";
  return `${fence}isthmus\n${text}\n${fence}`;
}

/** Parts one below the other with a line between them. */
export function sections(parts: readonly string[]): string {
  return parts.join("\n\n---\n\n");
}
