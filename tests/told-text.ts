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

/** `path` is absolute. Mutants are only to be noticed; a difference of a thousand lines takes longer to draw than to find. */
export async function keeps(text: string, path: string): Promise<void> {
  if (process.env.ISTHMUS_MUTATED === undefined) await expect(text).toMatchFileSnapshot(path);
  else expect(text === readFileSync(path, "utf8")).toBe(true);
}
