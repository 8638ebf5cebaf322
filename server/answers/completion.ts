/**
 * Completion: what may stand at the cursor by the vocabulary, in the vocabulary's order, with the names, sizes and codes this plan
 * and its catalogue know. How a size would fit comes from reckoning the plan with it; nothing is computed here.
 */
import type { Span } from "../../grammar/tree.ts";
import { rulesOf } from "../../grammar/vocabulary/blocks.ts";
import { functionWords } from "../../grammar/vocabulary/functions.ts";
import type { ClauseRule, DimensionName, Part, Slot, StatementRule } from "../../grammar/vocabulary/rule.ts";
import { unitWords } from "../../grammar/vocabulary/units.ts";
import type { Analysis } from "./analyse.ts";
import { type Cursor, cursorAt } from "./cursor.ts";
import { codeValues, nameValues, sizeValues, type Value } from "./values.ts";

export interface Offer {
  readonly label: string;
  readonly kind: "statement" | "clause" | "choice" | "name" | "size" | "unit" | "code" | "function" | "path";
  readonly detail: string;
  readonly documentation?: string;
  readonly text: string;
  /** The same with places to fill in, in the syntax of editor snippets. */
  readonly snippet?: string;
  /** What it replaces. */
  readonly span: Span;
}

type Inside = Extract<Cursor, { kind: "inside" }>;
type Draft = Omit<Offer, "span">;

/** In the order they should be shown; nothing is offered that the place cannot take. */
export function offersAt(analysis: Analysis, offset: number): Offer[] {
  const cursor = cursorAt(analysis, offset);
  if (cursor.kind === "nowhere") return [];
  const drafts = cursor.kind === "statement" ? statements(cursor) : insideOffers(analysis, cursor);
  const seen = new Set<string>();
  return drafts
    .filter(({ label }) => !seen.has(label) && seen.add(label))
    .map((draft) => ({ ...draft, span: cursor.typed }));
}

function statements({ block, siblings }: Extract<Cursor, { kind: "statement" }>): Draft[] {
  const present = new Set(siblings.map(({ statement }) => statement.word.name));
  return [...rulesOf(block).values()]
    .filter(({ times, word }) => times === "many" || !present.has(word))
    .sort((a, b) => weight(a) - weight(b))
    .map((rule) => ({
      label: rule.word,
      kind: "statement",
      detail: rule.doc,
      documentation: `\`\`\`isthmus\n${rule.example}\n\`\`\``,
      text: rule.word,
      snippet: snippetOf(rule),
    }));
}

// What must stand comes first.
function weight({ times }: StatementRule): number {
  return times === "one" ? 0 : 1;
}

function insideOffers(analysis: Analysis, cursor: Inside): Draft[] {
  if (cursor.bareNumber) return unitsOf(dimensionsOf(previousSlots(cursor)));
  const values = cursor.slots.flatMap((slot) => slotOffers(analysis, cursor, slot));
  return cursor.opens ? [...values, ...clauses(cursor)] : values;
}

function clauses({ rule, shaped }: Inside): Draft[] {
  const used = new Set(shaped.clauses.map(({ rule: { word } }) => word));
  return rule.clauses
    .filter(({ word, repeats }) => repeats === true || !used.has(word))
    .map((clause) => ({
      label: clause.word,
      kind: "clause",
      detail: clause.doc,
      text: clause.word,
      snippet: `${clause.word}${slotsSnippet(clause, 1).text}`,
    }));
}

function slotOffers(analysis: Analysis, cursor: Inside, slot: Slot): Draft[] {
  return partOffers(analysis, cursor, slot, slot.part);
}

function partOffers(analysis: Analysis, cursor: Inside, slot: Slot, part: Part): Draft[] {
  switch (part.kind) {
    case "choice":
      return Object.entries(part.words).map(([word, doc]) => ({
        label: word,
        kind: "choice",
        detail: doc,
        text: word,
      }));
    case "names":
      return nameValues(analysis, cursor.shaped, part.name).map((value) => valueDraft(value, "name"));
    case "level":
    case "expression":
      return [
        ...nameValues(analysis, cursor.shaped, "value").map((value) => valueDraft(value, "name")),
        ...functions(),
      ];
    case "quantity":
    case "range":
      return sizeValues(analysis, cursor.shaped, cursor.clause?.word, slot.name).map((value) =>
        valueDraft(value, "size"),
      );
    case "code":
      return codeValues(analysis, part.bones).map((value) => valueDraft(value, "code"));
    case "either":
      return part.parts.flatMap((each) => partOffers(analysis, cursor, slot, each));
    case "declares":
    case "text":
    case "path":
    case "date":
    case "number":
      return [];
  }
}

function valueDraft({ text, detail }: Value, kind: Offer["kind"]): Draft {
  return { label: text, kind, detail, text };
}

function functions(): Draft[] {
  return [...functionWords.values()].map(({ word, signature, doc }) => ({
    label: signature,
    kind: "function",
    detail: doc,
    text: `${word}(`,
    snippet: `${word}($1)`,
  }));
}

// A number is there already, so the slot it stands in is the first of the clause or head.
function previousSlots({ clause, rule }: Inside): readonly Slot[] {
  return clause === undefined ? rule.slots : clause.slots;
}

function dimensionsOf(slots: readonly Slot[]): ReadonlySet<DimensionName> {
  const dimensions = new Set<DimensionName>();
  const visit = (part: Part): void => {
    if (part.kind === "quantity" || part.kind === "range") for (const name of part.of) dimensions.add(name);
    if (part.kind === "level") dimensions.add("length");
    if (part.kind === "either") part.parts.forEach(visit);
  };
  for (const { part } of slots) visit(part);
  return dimensions;
}

function unitsOf(dimensions: ReadonlySet<DimensionName>): Draft[] {
  return [...unitWords]
    .filter(([word, { unit, dimension }]) => word === unit && (dimensions.size === 0 || dimensions.has(dimension)))
    .map(([word, { doc }]) => ({ label: word, kind: "unit", detail: doc, text: word }));
}

/** The statement with its required parts as places to fill in. */
function snippetOf(rule: StatementRule): string {
  let next = 1;
  const add = (part: { readonly text: string; readonly next: number }): string => {
    next = part.next;
    return part.text;
  };
  const head = `${rule.word}${add(slotsSnippet(rule, next))}`;
  const required = rule.clauses.filter((clause) => clause.required === true);
  const tail = required.map((clause, index) => {
    const separator = index === 0 && rule.slots.length === 0 ? " " : ", ";
    return `${separator}${clause.word}${add(slotsSnippet(clause, next))}`;
  });
  const braces = rule.block === undefined || rule.blockOptional === true ? "" : ` {\n  $0\n}`;
  return `${head}${tail.join("")}${braces}`;
}

function slotsSnippet(
  { slots }: StatementRule | ClauseRule,
  from: number,
): { readonly text: string; readonly next: number } {
  let next = from;
  let text = "";
  for (const slot of slots) {
    if (slot.times === "optional" || slot.times === "any") continue;
    text += `${slot.lead === undefined ? "" : ` ${slot.lead}`} ${placeholder(slot.part, next, slot.name)}`;
    next += 1;
  }
  return { text, next };
}

function placeholder(part: Part, number: number, name: string): string {
  switch (part.kind) {
    case "choice":
      return `\${${number}|${Object.keys(part.words).join(",")}|}`;
    case "text":
    case "path":
      return `"\${${number}:${name}}"`;
    default:
      return `\${${number}:${name}}`;
  }
}
