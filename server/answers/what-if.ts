/**
 * What if: the plan's text with one value written over, analysed again, and what that changes. The text on the disk stays as it
 * is; which value is meant is said by a name or by a path of statement and clause (`scar`, `nail.length`, `lock.D1.screw`).
 */
import type { ShapedClause, ShapedStatement } from "../../grammar/shape.ts";
import type { Item, Span } from "../../grammar/tree.ts";
import type { Part } from "../../grammar/vocabulary/rule.ts";
import type { Finding } from "../findings/finding.ts";
import type { Library } from "../meaning/library.ts";
import { type Analysis, analyse } from "./analyse.ts";
import { headName, itemName, statementsOf } from "./statements.ts";
import { answerText } from "./wording.ts";

export interface WhatIf {
  readonly analysis: Analysis;
  /** Reckonings that read differently, before → after; absent ones as "—". */
  readonly changed: readonly { readonly id: string; readonly before: string; readonly after: string }[];
  readonly gone: readonly Finding[];
  readonly come: readonly Finding[];
}

/** Undefined when no value is called `name`. `value` is written as it would stand in the text: `352 mm ± 1 mm`. */
export function whatIf(analysis: Analysis, library: Library, name: string, value: string): WhatIf | undefined {
  const span = valueSpan(analysis, name);
  if (span === undefined) return undefined;
  const text = `${analysis.text.slice(0, span.start)}${value}${analysis.text.slice(span.end)}`;
  const changed = analyse(analysis.file, text, library);
  return { analysis: changed, ...differences(analysis, changed) };
}

/** Reckonings and findings that two analyses do not share. */
export function differences(before: Analysis, after: Analysis): Omit<WhatIf, "analysis"> {
  const ids = new Set([...(before.reckonings?.byId.keys() ?? []), ...(after.reckonings?.byId.keys() ?? [])]);
  const changed = [...ids].flatMap((id) => {
    const [old, now] = [answerText(before.reckonings?.byId.get(id)), answerText(after.reckonings?.byId.get(id))];
    return old === now ? [] : [{ id, before: old, after: now }];
  });
  const [old, now] = [before.judgement.findings, after.judgement.findings];
  return { changed, gone: without(old, now), come: without(now, old) };
}

function without(findings: readonly Finding[], others: readonly Finding[]): readonly Finding[] {
  const key = ({ slug, grade, at, fallback }: Finding): string => [slug, grade, at, fallback].join("\n");
  const known = new Set(others.map(key));
  return findings.filter((finding) => !known.has(key(finding)));
}

function valueSpan(analysis: Analysis, name: string): Span | undefined {
  const [first = "", ...rest] = name.split(".");
  const statements = [...statementsOf(analysis.meaning.shaped.statements)].filter(
    ({ rule }) => rule?.block === undefined,
  );
  const named = statements.find(({ statement: { word } }) => word.name === first);
  if (rest.length === 0) {
    const declared = statements.find(
      (shaped) => isDeclaration(shaped.statement.word.name) && headName(shaped) === first,
    );
    return declared === undefined ? named && headSpan(named, undefined) : headSpan(declared, first);
  }
  const [second = ""] = rest;
  const own = statements.find(
    (shaped) => shaped.statement.word.name === first && shaped.slots.size > 0 && headName(shaped) === second,
  );
  if (own === undefined) return rest.length === 1 && named !== undefined ? clauseSpan(named, second) : undefined;
  return rest.length === 1 ? headSpan(own, second) : clauseSpan(own, rest.slice(1).join("."));
}

function isDeclaration(word: string): boolean {
  return word === "let" || word === "landmark";
}

// The head's value; for a statement that has none, all it holds but the name by which it was found.
function headSpan(shaped: ShapedStatement, name: string | undefined): Span | undefined {
  return valueIn(shaped) ?? around(itemsOf(shaped).filter((item) => name === undefined || itemName(item) !== name));
}

function clauseSpan({ clauses }: ShapedStatement, word: string): Span | undefined {
  const clause = clauses.find(({ rule }) => rule.word === word);
  return clause === undefined ? undefined : (valueIn(clause) ?? around(itemsOf(clause)));
}

type Slotted = Pick<ShapedStatement | ShapedClause, "slots" | "rule">;

/** What stands in the slots that take a value; a direction, a family or a name beside it stays as it is. */
function valueIn({ rule, slots }: Slotted): Span | undefined {
  const valued = (rule?.slots ?? []).filter(({ part }) => takesValue(part));
  return around(valued.flatMap(({ name }) => slots.get(name) ?? []));
}

function takesValue(part: Part): boolean {
  switch (part.kind) {
    case "quantity":
    case "level":
    case "range":
    case "expression":
      return true;
    case "either":
      return part.parts.some(takesValue);
    default:
      return false;
  }
}

function itemsOf({ slots }: Slotted): readonly Item[] {
  return [...slots.values()].flat();
}

function around(items: readonly Item[]): Span | undefined {
  if (items.length === 0) return undefined;
  return {
    start: Math.min(...items.map(({ span }) => span.start)),
    end: Math.max(...items.map(({ span }) => span.end)),
  };
}
