/**
 * Reads marked texts, so that no test counts lines or columns. `$0` is the cursor; a line that begins with carets says what is
 * expected under the stretch above it: `    ^^^^ warning reaming-overshoot: 2.0 mm over the nail`. Marks are taken out of the text.
 */
export interface Mark {
  readonly start: number;
  readonly end: number;
  /** What stands behind the carets. */
  readonly says: string;
}

export interface Marked {
  readonly text: string;
  readonly marks: readonly Mark[];
  /** Offset of `$0` in the text; undefined when there is none. */
  readonly cursor: number | undefined;
}

export function readMarked(source: string): Marked {
  const kept: string[] = [];
  const marks: Mark[] = [];
  let lineStart = 0;
  let nextStart = 0;
  for (const line of source.split("\n")) {
    const found = /^(\s*)(\^+)\s*(.*)$/.exec(line);
    if (found === null) {
      kept.push(line);
      lineStart = nextStart;
      nextStart += line.replace("$0", "").length + 1;
      continue;
    }
    const [, indent = "", carets = "", says = ""] = found;
    const start = lineStart + indent.length;
    marks.push({ start, end: start + carets.length, says });
  }
  const joined = kept.join("\n");
  const cursor = joined.indexOf("$0");
  if (joined.indexOf("$0", cursor + 1) > cursor && cursor >= 0) throw new Error("a marked text has one cursor at most");
  return { text: joined.replace("$0", ""), marks, cursor: cursor < 0 ? undefined : cursor };
}

/** The text with every expectation written under its line again: what a failing test shows. */
export function writeMarked(text: string, marks: readonly Mark[]): string {
  const rows: string[] = [];
  let start = 0;
  for (const line of text.split("\n")) {
    rows.push(line);
    for (const mark of marks) {
      if (mark.start < start || mark.start > start + line.length) continue;
      const width = Math.max(1, Math.min(mark.end, start + line.length) - mark.start);
      rows.push(`${" ".repeat(mark.start - start)}${"^".repeat(width)} ${mark.says}`);
    }
    start += line.length + 1;
  }
  return rows.join("\n");
}
