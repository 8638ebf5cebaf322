/**
 * The problems of stretches that are no token of the language: odd characters, numbers of other conventions, texts that do not
 * close. Each says what was found and, where a machine can know it, how it is put right.
 */
import { hasHidden, plainRepair, rewrite, shown } from "./characters.ts";
import { numberRange, readNumber, readOddNumber } from "./numbers.ts";
import type { Problem, Repair } from "./problems.ts";
import { readText } from "./texts.ts";
import type { Span } from "./tree.ts";

/** Undefined when hidden characters are all that is wrong: they are told of by themselves. */
export function oddProblem(text: string, span: Span): Problem | undefined {
  if (hasHidden(text)) return undefined;
  const problem: Problem = { slug: "unreadable", span, found: shown(text) };
  const repair = plainRepair(text, span) ?? slipRepair(text, span);
  return repair === undefined ? problem : { ...problem, repairs: [repair] };
}

const slips: readonly (readonly [RegExp, (match: RegExpExecArray) => string])[] = [
  [/^\.(\d{1,32})$/, ([, digits = ""]) => `0.${digits}`],
  [/^(\d{1,32})\.$/, ([, digits = ""]) => digits],
  [/^([\w.%]{1,64})-(\d{1,32}(?:\.\d{1,32})?)$/, ([, left = "", right = ""]) => `${left} - ${right}`],
  [/^(\d{2}-?[a-c]\d?|\d[fru]\d[a-c]\d?)$/, ([code = ""]) => code.toUpperCase()],
];

function slipRepair(text: string, span: Span): Repair | undefined {
  for (const [pattern, better] of slips) {
    const match = pattern.exec(text);
    if (match !== null) return rewrite(better(match), span);
  }
  return undefined;
}

/** Digits with a decimal comma or with thousands set apart. */
export function oddNumberProblem(text: string, span: Span): Problem {
  const odd = readOddNumber(text);
  if (odd.kind === "malformed") return { slug: "unreadable", span, found: shown(text), expected: ["a number"] };
  const readable = odd.readings.filter((reading) => readNumber(reading).kind === "number");
  const repairs = readable.map((reading) => rewrite(reading, span));
  return { slug: odd.kind, span, found: shown(text), ...(repairs.length > 0 && { repairs }) };
}

/** A number that is written well but too long, too large or too small. */
export function numberProblem(text: string, span: Span): Problem {
  return { slug: "unreadable", span, found: shown(text), expected: [numberRange] };
}

/** `10 mm -5 mm`: a sign where an operator must be meant. */
export function signProblem(offset: number, text: string): Problem {
  const span = { start: offset, end: offset + 1 };
  const after = { start: offset + 1, end: offset + 1 };
  const before = { start: offset, end: offset };
  const spaced = /[ \t]/.test(text[offset - 1] ?? "");
  const edits = spaced
    ? [{ span: after, text: " " }]
    : [
        { span: before, text: " " },
        { span: after, text: " " },
      ];
  return {
    slug: "unreadable",
    span,
    found: "-",
    expected: ["a minus with a space on both sides", "a comma"],
    repairs: [{ title: "Put spaces round the minus", edits }],
  };
}

/** What is wrong with a text, or undefined. */
export function textProblem(source: string, span: Span): Problem | undefined {
  if (!source.startsWith('"')) return quotesProblem(source, span);
  if (!source.startsWith('"""') && !source.includes("\\") && source.length > 1 && source.endsWith('"'))
    return undefined;
  const read = readText(source);
  switch (read.kind) {
    case "text":
      return undefined;
    case "bad-escape": {
      const at = span.start + read.at;
      const found = shown(source.slice(read.at, read.at + 2));
      const twice: Repair = {
        title: "Write the backslash twice",
        edits: [{ span: { start: at, end: at }, text: "\\" }],
      };
      const expected = ['\\"', "\\\\", "\\n"];
      return { slug: "unreadable", span: { start: at, end: at + 2 }, found, expected, repairs: [twice] };
    }
    case "unclosed": {
      const end = { start: span.end, end: span.end };
      const close: Repair = { title: "Close the text", edits: [{ span: end, text: read.closing }] };
      return {
        slug: "unreadable",
        span,
        found: shown(source),
        expected: [`a closing ${read.closing}`],
        repairs: [close],
      };
    }
  }
}

/** Typographic or single quotes round a text. */
function quotesProblem(source: string, span: Span): Problem {
  const repairs = [rewrite(`"${source.slice(1, -1)}"`, span)];
  return { slug: "unreadable", span, found: shown(source), expected: ["a text in straight double quotes"], repairs };
}
