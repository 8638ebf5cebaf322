/**
 * Signature help: the function whose brackets the cursor stands in with the value that is due, or the statement with its head and
 * clauses and the one the cursor is in. All words come from the vocabulary.
 */
import { lex } from "../../grammar/tokens.ts";
import { functionWords } from "../../grammar/vocabulary/functions.ts";
import type { ClauseRule, Part, Slot, StatementRule } from "../../grammar/vocabulary/rule.ts";
import type { Analysis } from "./analyse.ts";
import { cursorAt, type Inside } from "./cursor.ts";

export interface Signature {
  readonly label: string;
  readonly doc: string;
  readonly parameters: readonly SignaturePart[];
  /** Index of the parameter at the cursor; undefined when none is. */
  readonly active: number | undefined;
}

export interface SignaturePart {
  /** Offsets in the label. */
  readonly start: number;
  readonly end: number;
  readonly doc: string;
}

/** Undefined outside a statement that takes anything. */
export function signatureAt(analysis: Analysis, offset: number): Signature | undefined {
  const { text } = analysis;
  const at = offset > 0 ? Math.min(Math.floor(offset), text.length) : 0;
  const cursor = cursorAt(text, at);
  if (cursor.kind !== "inside") return undefined;
  return functionSignature(cursor, text.slice(0, at)) ?? statementSignature(cursor);
}

function functionSignature({ call }: Inside, before: string): Signature | undefined {
  const rule = call === undefined ? undefined : functionWords.get(call);
  if (rule === undefined) return undefined;
  const written = commasInBrackets(before);
  const active = Math.min(written, rule.parameters.length - 1);
  let from = rule.signature.indexOf("(");
  const parameters = rule.parameters.map(({ name, doc }) => {
    const start = rule.signature.indexOf(name, from);
    from = start + name.length;
    return { start, end: from, doc };
  });
  return {
    label: rule.signature,
    doc: rule.doc,
    parameters,
    active: rule.goesOn || written <= active ? active : undefined,
  };
}

/** Commas since the bracket that is open at the end. */
function commasInBrackets(before: string): number {
  const counts: number[] = [];
  for (const { kind, text } of lex(before)) {
    if (kind !== "punctuation") continue;
    if (text === "(") counts.push(0);
    if (text === ")") counts.pop();
    if (text === ",") counts.push((counts.pop() ?? 0) + 1);
  }
  return counts.at(-1) ?? 0;
}

function statementSignature({ rule, section }: Inside): Signature | undefined {
  const parts = partsOf(rule);
  if (parts.length === 0) return undefined;
  const parameters: SignaturePart[] = [];
  let label = rule.word;
  for (const [index, { text, doc }] of parts.entries()) {
    label += index === 0 ? " " : ", ";
    const start = label.length;
    label += text;
    parameters.push({ start, end: label.length, doc });
  }
  const active = parts.findIndex(({ clause }) => clause === section.clause);
  return { label, doc: rule.doc, parameters, active: active < 0 ? undefined : active };
}

interface Shown {
  readonly clause: ClauseRule | undefined;
  readonly text: string;
  readonly doc: string;
}

function partsOf(rule: StatementRule): readonly Shown[] {
  const head = rule.slots.length === 0 ? [] : [{ clause: undefined, ...shownSlots("", rule.slots, rule.doc) }];
  const clauses = rule.clauses.map((clause) => {
    const { text, doc } = shownSlots(clause.word, clause.slots, clause.doc);
    return { clause, text: clause.required === true ? text : `[${text}]`, doc };
  });
  return [...head, ...clauses];
}

function shownSlots(
  word: string,
  slots: readonly Slot[],
  doc: string,
): { readonly text: string; readonly doc: string } {
  const texts = [...(word === "" ? [] : [word]), ...slots.map(slotText)];
  const docs = [...(word === "" ? [] : [doc]), ...slots.map((slot) => slot.doc)];
  return { text: texts.join(" "), doc: docs.join(" ") };
}

function slotText({ name, part, lead, times }: Slot): string {
  const text = `${lead === undefined ? "" : `${lead} `}${partText(part, name)}${times === "many" || times === "any" ? " …" : ""}`;
  return times === "optional" || times === "any" ? `[${text}]` : text;
}

/** Short choices are written out. */
function partText(part: Part, name: string): string {
  switch (part.kind) {
    case "choice": {
      const words = Object.keys(part.words);
      return words.length > 5 ? name : words.join(" | ");
    }
    case "range":
      return part.stepped === true ? `${name} to ${name} by step` : `${name} to ${name}`;
    case "text":
    case "path":
      return `"${name}"`;
    default:
      return name;
  }
}
