/**
 * Writes a statement's own line in canonical form, in chunks that end after a comma, where a line may be broken. What stands above
 * and below the line, and where lines break, is the layout's.
 */
import type { Expression, Item, QuantityItem, Span, Statement, UnitItem } from "./tree.ts";
import { unitAfter } from "./vocabulary/units.ts";

/** A stretch of the line up to and with its comma, and where it came from. */
export interface Chunk {
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

interface Pen {
  readonly chunks: Chunk[];
  text: string;
  start: number | undefined;
  end: number;
}

/** The line from the statement's word to its brace, if it has one; at least one chunk. */
export function chunksOf(statement: Statement): readonly Chunk[] {
  const pen: Pen = { chunks: [], text: "", start: undefined, end: statement.word.span.end };
  leaf(pen, statement.word.name, statement.word.span);
  statement.phrases.forEach((phrase, index) => {
    if (index > 0) comma(pen);
    phrase.items.forEach((item, place) => {
      if (index === 0 || place > 0) pen.text += " ";
      writeItem(pen, item);
    });
  });
  if (statement.block !== undefined) pen.text += " {";
  endChunk(pen);
  return pen.chunks;
}

function leaf(pen: Pen, text: string, span: Span): void {
  pen.start ??= span.start;
  pen.end = span.end;
  pen.text += text;
}

function comma(pen: Pen): void {
  pen.text += ",";
  endChunk(pen);
}

function endChunk(pen: Pen): void {
  pen.chunks.push({ text: pen.text, start: pen.start ?? pen.end, end: pen.end });
  pen.text = "";
  pen.start = undefined;
}

function writeItem(pen: Pen, item: Item): void {
  switch (item.kind) {
    case "text":
      leaf(pen, item.source, item.span);
      return;
    case "code":
    case "date":
    case "broken":
      leaf(pen, item.text, item.span);
      return;
    case "equals":
      leaf(pen, "=", item.span);
      return;
    case "range":
      writeExpression(pen, item.from);
      pen.text += " to ";
      writeExpression(pen, item.to);
      if (item.by === undefined) return;
      pen.text += " by ";
      writeExpression(pen, item.by);
      return;
    default:
      writeExpression(pen, item);
      return;
  }
}

function writeExpression(pen: Pen, expression: Expression): void {
  switch (expression.kind) {
    case "word":
      leaf(pen, expression.name, expression.span);
      return;
    case "quantity":
      writeQuantity(pen, expression);
      return;
    case "group":
      leaf(pen, "(", { start: expression.span.start, end: expression.span.start + 1 });
      writeExpression(pen, expression.inner);
      leaf(pen, ")", { start: expression.span.end - 1, end: expression.span.end });
      return;
    case "negated":
      leaf(pen, "-", { start: expression.span.start, end: expression.span.start + 1 });
      writeExpression(pen, expression.inner);
      return;
    case "reading":
      writeExpression(pen, expression.value);
      pen.text += " on ";
      leaf(pen, expression.view.name, expression.view.span);
      return;
    case "binary":
      writeExpression(pen, expression.left);
      pen.text += ` ${expression.operator} `;
      writeExpression(pen, expression.right);
      return;
    case "call":
      leaf(pen, `${expression.name.name}(`, expression.name.span);
      expression.arguments.forEach((argument, index) => {
        if (index > 0) comma(pen);
        writeExpression(pen, argument);
      });
      leaf(pen, ")", { start: expression.span.end - 1, end: expression.span.end });
      return;
  }
}

function writeQuantity(pen: Pen, { number, unit, plusMinus, plusMinusUnit }: QuantityItem): void {
  leaf(pen, `${number.text}${unitBehind(unit, number.value)}`, number.span);
  if (unit !== undefined) pen.end = Math.max(pen.end, unit.span.end);
  if (plusMinus === undefined) return;
  pen.text += " ± ";
  leaf(pen, `${plusMinus.text}${unitBehind(plusMinusUnit, plusMinus.value)}`, plusMinus.span);
  if (plusMinusUnit !== undefined) pen.end = plusMinusUnit.span.end;
}

function unitBehind(unit: UnitItem | undefined, value: number): string {
  return unit === undefined ? "" : ` ${unitAfter(unit.unit, value)}`;
}
