/**
 * What a terminal or a log may receive: document text with its control characters made visible, colours only where a person
 * looks. Every other file of the command line prints through here.
 */
import { styleText } from "node:util";

export type Style = "error" | "warning" | "information" | "quiet" | "strong";

const styles: Readonly<Record<Style, Parameters<typeof styleText>[0]>> = {
  error: ["bold", "red"],
  warning: ["bold", "yellow"],
  information: ["bold", "cyan"],
  quiet: "gray",
  strong: "bold",
};

/** Whether what is printed is coloured. */
export interface Colours {
  readonly colours: boolean;
}

/** What a command writes to and how it ends; tests hand in their own. */
export interface Terminal extends Colours {
  out(text: string): void;
  err(text: string): void;
}

export const processTerminal: Terminal = {
  colours: process.stdout.isTTY === true && process.env.NO_COLOR === undefined,
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
};

export function styled({ colours }: Colours, style: Style, text: string): string {
  return colours ? styleText(styles[style], text, { validateStream: false }) : text;
}

/** Control, direction-changing and invisible characters shown as `\u{…}`; the tab as a space, so that columns hold. */
export function printable(text: string): string {
  return text.replace(hidden, (character) =>
    character === "\t" ? " " : `\\u{${(character.codePointAt(0) ?? 0).toString(16)}}`,
  );
}

// The same for one column: a caret line under the text stays in step with it.
export function printableColumns(text: string): string {
  return text.replace(hidden, (character) => (character === "\t" ? " " : "\u{fffd}".repeat(character.length)));
}

// Everything a terminal might act on or a reader could not see, but for the line feed.
const hidden = /(?!\n)[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}\p{Variation_Selector}]/gu;

/** A table with its columns in line: left for words, right for numbers. */
export function table(rows: readonly (readonly string[])[], right: readonly number[] = []): string {
  const widths: number[] = [];
  for (const row of rows) {
    for (const [column, cell] of row.entries()) widths[column] = Math.max(widths[column] ?? 0, cell.length);
  }
  const line = (row: readonly string[]): string =>
    row
      .map((cell, column) => {
        const width = widths[column] ?? 0;
        return right.includes(column) ? cell.padStart(width) : cell.padEnd(width);
      })
      .join("  ")
      .trimEnd();
  return rows.map((row) => `${line(row)}\n`).join("");
}
