/**
 * Text in, text out: one `check` for each feature. This is the one test file that knows the tool's doors, so that a change of a
 * door is a change of this file and of no test.
 */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect } from "vitest";
import { layout } from "../grammar/layout.ts";
import { parse } from "../grammar/parse.ts";
import { type Analysis, analyse, libraryOver } from "../server/answers/analyse.ts";
import { type FileRead, readInside } from "../server/files/disk.ts";
import type { Finding } from "../server/findings/finding.ts";
import { print } from "../server/quantity/print.ts";
import { readMarked, writeMarked } from "./markers.ts";

const samples = fileURLToPath(new URL("../samples", import.meta.url));

// The samples do not change while tests run, so each import is read and parsed once.
const reads = new Map<string, FileRead>();
const library = libraryOver((from, path) => {
  const key = `${from}\n${path}`;
  const read = reads.get(key) ?? readInside(samples, from, path);
  reads.set(key, read);
  return read;
});

/** Analyses a text as if it stood in samples/plans, so that it can use the sample catalogue and protocol. */
export function analyseText(text: string, name = "checked.isthmus"): Analysis {
  return analyse(`${samples}/plans/${name}`, text, library);
}

export function sampleText(path: string): string {
  return readFileSync(`${samples}/${path}`, "utf8");
}

/** A sample plan with some of its text replaced; each `from` must stand in it exactly once. */
export function sampleWith(path: string, ...changes: readonly (readonly [from: string, to: string])[]): string {
  return changes.reduce((text, [from, to]) => {
    if (text.split(from).length !== 2)
      throw new Error(`"${from}" stands ${text.split(from).length - 1} times in ${path}`);
    return text.replace(from, () => to);
  }, sampleText(path));
}

/** The findings are exactly the marked ones: `^^^^ grade slug` or `^^^^ grade slug: part of the message`. */
export function checkFindings(source: string): void {
  const { text, marks } = readMarked(source);
  const found = analyseText(text).judgement.findings.map((finding) => {
    const { start, end } = finding.place.span;
    const mark = marks.find((each) => each.start === start && each.end === end && matches(each.says, finding));
    return { start, end, says: mark?.says ?? `${finding.grade} ${finding.slug}: ${finding.message}` };
  });
  expect(writeMarked(text, found)).toBe(writeMarked(text, marks));
}

function matches(says: string, finding: Finding): boolean {
  const [head = "", ...rest] = says.split(": ");
  return head === `${finding.grade} ${finding.slug}` && finding.message.includes(rest.join(": "));
}

/** One reckoning as it is printed. */
export function checkReckoning(text: string, id: string, printed: string): void {
  const reckoning = analyseText(text).reckonings?.byId.get(id);
  const answer = reckoning?.answer;
  if (reckoning === undefined || answer === undefined) expect(`no reckoning ${id}`).toBe(printed);
  else if (answer.kind === "word") expect(answer.word).toBe(printed);
  else if (answer.kind === "unknown") expect(`unknown: ${answer.because}`).toBe(printed);
  else expect(print(answer, reckoning.unit)).toBe(printed);
}

/** The canonical layout of a text; undefined expected means it must be refused. */
export function checkLayout(text: string, expected: string | undefined): void {
  const laidOut = layout(parse(text));
  expect(laidOut).toBe(expected);
  if (laidOut !== undefined) expect(layout(parse(laidOut)), "laid out twice").toBe(laidOut);
}
