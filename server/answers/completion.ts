/**
 * Completion: what may stand at the cursor by the vocabulary, in the vocabulary's order, with the names, sizes and codes this plan
 * and its catalogue know. How a size would fit comes from reckoning the plan with it; nothing is computed here.
 */
import { lex } from "../../grammar/tokens.ts";
import type { Span } from "../../grammar/tree.ts";
import { blockRules, rulesOf } from "../../grammar/vocabulary/blocks.ts";
import { functionWords } from "../../grammar/vocabulary/functions.ts";
import type {
  Alternatives,
  DimensionName,
  NameKind,
  Part,
  Slot,
  StatementRule,
} from "../../grammar/vocabulary/rule.ts";
import { unitWords } from "../../grammar/vocabulary/units.ts";
import { limitTable } from "../findings/limit-table.ts";
import type { Analysis } from "./analyse.ts";
import { type Cursor, cursorAt, type Inside } from "./cursor.ts";
import { sizeValues } from "./sizes.ts";
import { clauseSnippet, statementSnippet } from "./snippets.ts";
import { headName } from "./statements.ts";
import { codeValues, namedValues, nameValues, type Value } from "./values.ts";

export interface Offer {
  readonly label: string;
  readonly kind: "statement" | "clause" | "choice" | "name" | "size" | "unit" | "code" | "function" | "citation";
  readonly detail: string;
  readonly documentation?: string;
  readonly text: string;
  /** The same with places to fill in, in the syntax of editor snippets. */
  readonly snippet?: string;
  /** What it replaces: what is typed of the word at the cursor. */
  readonly span: Span;
}

type Draft = Omit<Offer, "span">;

/** In the order they should be shown; nothing is offered that the place cannot take. Any offset; outside the text its nearest end. */
export function offersAt(analysis: Analysis, offset: number): Offer[] {
  const { text } = analysis;
  const at = offset > 0 ? Math.min(Math.floor(offset), text.length) : 0;
  const cited = citationOffers(analysis, at);
  if (cited.length > 0) return cited;
  // Digits before the cursor may be a size or a code being typed, and may be a number that wants its unit.
  const whole = cursorAt(text, at, "number");
  const sizes = offersOf(analysis, whole).filter(({ kind }) => kind === "size" || kind === "code");
  const offers = [...sizes, ...offersOf(analysis, cursorAt(text, at))];
  const seen = new Set<string>();
  return offers.filter(({ label }) => !seen.has(label) && seen.add(label));
}

/** Behind the `@` of a citation, in a note or in a text in quotes: the keys of the plan's bibliographies. */
function citationOffers({ text, meaning: { document } }: Analysis, at: number): Offer[] {
  const begun = /\[@(?:[^[\]\r\n]*@)?([\w:.#$%&+?<>~/-]*)$/.exec(text.slice(text.lastIndexOf("\n", at - 1) + 1, at));
  if (begun === null || document?.kind !== "plan") return [];
  const inside = lex(text).some(
    ({ kind, span }) => (kind === "note" || kind === "text") && span.start < at && at <= span.end,
  );
  if (!inside) return [];
  const typed = { start: at - (begun[1] ?? "").length, end: at };
  const offers = document.bibliographies.flatMap(({ path, read }) =>
    (read?.entries ?? []).map(
      ({ key }): Offer => ({ label: key, kind: "citation", detail: `in ${path.text}`, text: key, span: typed }),
    ),
  );
  return [...new Map(offers.map((offer) => [offer.label, offer])).values()];
}

function offersOf(analysis: Analysis, cursor: Cursor): Offer[] {
  if (cursor.kind === "nowhere") return [];
  const drafts = cursor.kind === "statement" ? statements(cursor) : insideOffers(analysis, cursor);
  return drafts.map(({ snippet, ...draft }) => ({
    ...draft,
    // With something behind the cursor what follows is there already.
    ...(snippet === undefined || (cursor.followed && draft.kind !== "function") ? {} : { snippet }),
    span: cursor.typed,
  }));
}

function statements({ block, before, after }: Extract<Cursor, { kind: "statement" }>): Draft[] {
  const rules = rulesOf(block);
  if (after.some(({ rule }) => rule?.first === true)) return [];
  const present = new Set([...before, ...after].map(({ statement, rule }) => rule?.word ?? statement.word.name));
  const closed = closedWays(blockRules.get(block)?.alternatives, present);
  return [...rules.values()]
    .filter(({ times, word }) => (times === "many" || !present.has(word)) && !closed.has(word))
    .filter(({ first }) => first !== true || before.length === 0)
    .sort((a, b) => weight(a) - weight(b))
    .map((rule) => ({
      label: rule.word,
      kind: "statement",
      detail: rule.doc,
      documentation: `\`\`\`isthmus\n${rule.example}\n\`\`\``,
      text: rule.word,
      snippet: statementSnippet(rule),
    }));
}

// What must stand comes first.
function weight({ times }: StatementRule): number {
  return times === "one" ? 0 : 1;
}

/** The parts of all ways but the one that is taken. */
function closedWays(
  alternatives: Alternatives | undefined,
  taken: { readonly has: (part: string) => boolean },
): ReadonlySet<string> {
  if (alternatives === undefined || alternatives.together === true) return new Set();
  const way = alternatives.ways.find((parts) => parts.some((part) => taken.has(part)));
  return new Set(way === undefined ? [] : alternatives.ways.filter((other) => other !== way).flat());
}

function insideOffers(analysis: Analysis, cursor: Inside): Draft[] {
  switch (cursor.expected) {
    case "unit":
      return units(analysis, cursor);
    case "view":
      return drafts("name", nameValues(analysis, cursor, "view"));
    case "value":
      return [
        ...steppedSizes(analysis, cursor),
        ...drafts("name", valuesInExpression(analysis, cursor)),
        ...functions(),
      ];
    case "slot": {
      const taken = takenParts(cursor);
      const closed = closedWays(cursor.rule.alternatives, taken);
      const open = cursor.section.open.filter(({ name }) => !closed.has(name));
      const slots = open.flatMap((slot, index) =>
        slotOffers(analysis, cursor, slot, cursor.section.ledIn && index === 0),
      );
      return [...slots, ...readings(analysis, cursor), ...(cursor.opens ? clauses(cursor, taken, closed) : [])];
    }
    case "nothing":
      return [];
  }
}

/** Clauses by word and head slots by name that are written in the statement. */
function takenParts({ shaped }: Inside): ReadonlySet<string> {
  return new Set([...shaped.slots.keys(), ...shaped.clauses.map(({ rule }) => rule.word)]);
}

function clauses({ rule }: Inside, taken: ReadonlySet<string>, closed: ReadonlySet<string>): Draft[] {
  return rule.clauses
    .filter(({ word, repeats }) => (repeats === true || !taken.has(word)) && !closed.has(word))
    .map((clause) => ({
      label: clause.word,
      kind: "clause",
      detail: clause.doc,
      text: clause.word,
      snippet: clauseSnippet(clause),
    }));
}

function slotOffers(analysis: Analysis, cursor: Inside, slot: Slot, ledIn: boolean): Draft[] {
  if (slot.lead !== undefined && !ledIn) {
    return [{ label: slot.lead, kind: "clause", detail: slot.doc, text: slot.lead }];
  }
  return partOffers(analysis, cursor, slot, slot.part);
}

function partOffers(analysis: Analysis, cursor: Inside, slot: Slot, part: Part): Draft[] {
  switch (part.kind) {
    case "choice":
      return choices(part.words, listedWords(cursor));
    case "names":
      return drafts("name", nameValues(analysis, cursor, part.name));
    case "declares":
      return choices(part.known ?? {}, declaredElsewhere(analysis, cursor, part.name));
    case "expression":
      return [...drafts("name", namedValues(analysis, cursor, undefined)), ...functions()];
    case "level":
      return [...drafts("name", namedValues(analysis, cursor, ["length"])), ...functions()];
    case "quantity":
      return [
        ...drafts("size", sizeValues(analysis, cursor, slot.name)),
        // A landmark is a level; no width, time or weight is.
        ...drafts("name", namedValues(analysis, cursor, part.of, ["value"])),
      ];
    case "code":
      return drafts("code", codeValues(analysis, cursor, part.bones));
    case "either":
      return part.parts.flatMap((each) => partOffers(analysis, cursor, slot, each));
    case "number":
      return (part.known ?? []).map((text) => ({ label: text, kind: "size", detail: slot.doc, text }));
    case "range":
    case "text":
    case "path":
    case "date":
      return [];
  }
}

function choices(words: Readonly<Record<string, string>>, listed: ReadonlySet<string>): Draft[] {
  return Object.entries(words)
    .filter(([text]) => !listed.has(text))
    .map(([text, detail]) => ({ label: text, kind: "choice", detail, text }));
}

function listedWords({ section }: Inside): ReadonlySet<string> {
  return new Set(section.written.flatMap((item) => (item.kind === "word" ? [item.name] : [])));
}

function declaredElsewhere(analysis: Analysis, { typed }: Inside, kind: NameKind): ReadonlySet<string> {
  const others = analysis.meaning.references.declarations.filter(
    (declared) => declared.kind === kind && declared.place.span.start !== typed.start,
  );
  return new Set(others.map(({ name }) => name));
}

function drafts(kind: Offer["kind"], values: readonly Value[]): Draft[] {
  return values.map(({ text, detail }) => ({ label: text, kind, detail, text }));
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

/** Behind `to` and `by` a value of the slot itself must stand; in sums, products and calls dimensions may mix. */
function valuesInExpression(analysis: Analysis, cursor: Inside): readonly Value[] {
  const whole = cursor.call === undefined && cursor.last?.kind === "operator-word";
  return namedValues(analysis, cursor, whole ? [...dimensionsOf(cursor.section.open)] : undefined);
}

function steppedSizes(analysis: Analysis, cursor: Inside): Draft[] {
  if (cursor.last?.text !== "to") return [];
  return cursor.section.open.flatMap(({ name }) => drafts("size", sizeValues(analysis, cursor, name)));
}

/** Behind a length of the case or the measures: the view it was read on. */
function readings(analysis: Analysis, { block, last, shaped, call }: Inside): Draft[] {
  const measured = block === "measures" || block === "case" || shaped.statement.word.name === "let";
  if (!measured || call !== undefined || last?.kind !== "unit") return [];
  if (unitWords.get(last.text)?.dimension !== "length") return [];
  return analysis.meaning.references.declarations
    .filter(({ kind }) => kind === "view")
    .map(({ name, detail }) => ({ label: `on ${name}`, kind: "name", detail, text: `on ${name}` }));
}

function units(analysis: Analysis, cursor: Inside): Draft[] {
  const dimensions = unitDimensions(cursor);
  const apart = /\s/.test(analysis.text[cursor.typed.start - 1] ?? " ") ? "" : " ";
  return [...unitWords]
    .filter(([word, { unit, dimension }]) => word === unit && (dimensions === "any" || dimensions.has(dimension)))
    .sort(([a], [b]) => usual(cursor.rule, a) - usual(cursor.rule, b))
    .map(([word, { doc }]) => ({ label: word, kind: "unit", detail: doc, text: `${apart}${word}` }));
}

// The unit that the statement's example is written in comes first.
function usual(rule: StatementRule, word: string): number {
  return rule.example.split(/[\s,]+/).includes(word) ? 0 : 1;
}

function unitDimensions(cursor: Inside): ReadonlySet<string> | "any" {
  const { call, section, shaped } = cursor;
  if (call === "sin" || call === "cos" || call === "tan") return new Set(["angle"]);
  if (call !== undefined || section.open.some(({ part }) => part.kind === "expression")) return "any";
  if (shaped.statement.word.name !== "limit") return dimensionsOf(section.open);
  const limit = limitTable.find(({ name }) => name === headName(shaped));
  if (limit === undefined) return dimensionsOf(section.open);
  const entry = unitWords.get(limit.unit);
  return new Set(entry === undefined ? [] : [entry.dimension]);
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
