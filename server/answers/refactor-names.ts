/** Giving a typed value a name, and putting a named value back in place of its name. */
import { isWord } from "../../grammar/tokens.ts";
import type { Expression, Item, Span, Statement } from "../../grammar/tree.ts";
import { rulesOf } from "../../grammar/vocabulary/blocks.ts";
import { insertBefore, takeOut } from "../findings/line-edits.ts";
import type { Analysis } from "./analyse.ts";
import { itemsAt } from "./at.ts";
import { mentionsHere, nameAt } from "./names.ts";
import type { Refactoring } from "./refactorings.ts";
import { headName, holds, pathTo } from "./statements.ts";

/** The selected expression, or the whole one at the cursor, becomes `let NAME = …` before its statement. */
export function namedValue(analysis: Analysis, span: Span): readonly Refactoring[] {
  const { text } = analysis;
  const expression = selected(analysis, span);
  const shaped = pathTo(analysis, span.start).at(-1);
  if (expression === undefined || shaped?.rule === undefined || shaped.statement.broken) return [];
  const { statement, block } = shaped;
  if (statement.word.name === "let" || !rulesOf(block).has("let") || !standsAlone(text, statement)) return [];
  const name = freeName(
    analysis,
    statement,
    clauseWord(shaped.clauses, expression.span) ?? slotName(shaped.slots, expression),
  );
  const value = text.slice(expression.span.start, expression.span.end);
  if (/[\r\n]/.test(value)) return [];
  return [
    {
      title: `Name this value: let ${name} = ${value}`,
      kind: "extract",
      edits: [insertBefore(text, statement.span, `let ${name} = ${value}`), { span: expression.span, text: name }],
    },
  ];
}

/** Every use of the name at the cursor becomes the value it names, and its line goes. */
export function inlined(analysis: Analysis, span: Span): readonly Refactoring[] {
  const { text } = analysis;
  const name = nameAt(analysis, span.start);
  if (name?.kind !== "value" || name.declared?.file !== analysis.file) return [];
  const statement = pathTo(analysis, name.declared.span.start).at(-1)?.statement;
  const value = statement === undefined ? undefined : namedExpression(statement);
  if (statement === undefined || value === undefined || !standsAlone(text, statement)) return [];
  const uses = mentionsHere(analysis, name).filter(({ declares }) => !declares);
  if (uses.length === 0) return [];
  const written = text.slice(value.span.start, value.span.end);
  const put =
    value.kind === "binary" || value.kind === "negated" || value.kind === "reading" ? `(${written})` : written;
  return [
    {
      title: `Put ${written} back in place of \`${name.name}\``,
      kind: "inline",
      edits: [
        takeOut(text, statement.span),
        ...uses.map(({ place }) => ({ span: place.span, text: alone(analysis, place.span) ? written : put })),
      ],
    },
  ];
}

function selected({ parsed, text }: Analysis, span: Span): Expression | undefined {
  const items = itemsAt(parsed.tree, span.start).filter(isExpression);
  if (span.start === span.end) return items.filter(({ kind }) => kind !== "word").at(-1);
  const picked = text.slice(span.start, span.end);
  const start = span.start + picked.length - picked.trimStart().length;
  const end = span.end - (picked.length - picked.trimEnd().length);
  return itemsAt(parsed.tree, start)
    .filter(isExpression)
    .find((item) => item.kind !== "word" && item.span.start === start && item.span.end === end);
}

function isExpression(item: Item): item is Expression {
  return ["quantity", "word", "call", "group", "negated", "binary", "reading"].includes(item.kind);
}

/** True when the name is all of its item, so that no brackets are needed round what takes its place. */
function alone({ parsed }: Analysis, span: Span): boolean {
  return itemsAt(parsed.tree, span.start).filter(isExpression).length === 1;
}

function namedExpression({ phrases }: Statement): Expression | undefined {
  const items = phrases[0]?.items ?? [];
  const value = items.at(-1);
  return items.length === 3 && value !== undefined && isExpression(value) ? value : undefined;
}

/** Nothing else may stand on the lines of a statement that a line is put before or that goes. */
function standsAlone(text: string, { span }: Statement): boolean {
  return (
    /(?:^|[\r\n])[ \t\ufeff]*$/.test(text.slice(0, span.start)) && /^[ \t]*(?:#|[\r\n]|$)/.test(text.slice(span.end))
  );
}

function clauseWord(
  clauses: readonly { readonly word: { readonly name: string }; readonly span: Span }[],
  { start }: Span,
): string | undefined {
  return clauses.find(({ span }) => holds(span, start))?.word.name;
}

function slotName(slots: ReadonlyMap<string, readonly Item[]>, { span }: Expression): string | undefined {
  for (const [name, items] of slots) if (items.some((item) => holds(item.span, span.start))) return name;
  return undefined;
}

/** `lock-D2-drilled`, or the same with a number behind it when that is taken. */
function freeName(analysis: Analysis, statement: Statement, part: string | undefined): string {
  const shaped = pathTo(analysis, statement.word.span.start).at(-1);
  const head = shaped === undefined ? undefined : headName(shaped);
  const base = [statement.word.name, head ?? "", part ?? "value"].filter(isWord).join("-");
  const taken = new Set(analysis.meaning.references.declarations.map(({ name }) => name));
  let name = base;
  for (let count = 2; taken.has(name); count += 1) name = `${base}-${count}`;
  return name;
}
