/** What the tests share that write down all that is told of some plans, and of the same plans with one line left out. Not a test itself. */
import { readFileSync } from "node:fs";
import { expect } from "vitest";

/** A row without its numbers and the names of holes: what is told of one hole is not told again of the next. */
export function shapeOf(row: string): string {
  return row.replace(/\b(?:[PDM]\d|\d+(?:\.\d+)?)\b/g, "#");
}

/** The text without each of its statements' lines in turn; those that open or close a block stay. */
export function withoutEachLine(text: string): readonly (readonly [said: string, text: string])[] {
  const lines = text.split("\n");
  return lines.flatMap((line, at) =>
    /^\s+[a-z][^{}]*$/.test(line) ? [[line.trim(), lines.toSpliced(at, 1).join("\n")] as const] : [],
  );
}

/**
 * The parts one after the other, or "nothing", are what the file at the absolute `path` holds. Mutants are only to be noticed: of them no
 * more parts are made than up to the first that differs, and the difference is not drawn.
 */
export async function keeps(parts: Iterable<string>, path: string): Promise<void> {
  if (process.env.ISTHMUS_MUTATED === undefined) {
    await expect([...parts].join("\n") || "nothing\n").toMatchFileSnapshot(path);
    return;
  }
  const kept = readFileSync(path, "utf8");
  let at = 0;
  for (const part of parts) {
    expect(kept.startsWith(part, at)).toBe(true);
    at += part.length + 1;
  }
  expect(at === 0 ? kept === "nothing\n" : at === kept.length + 1).toBe(true);
}
