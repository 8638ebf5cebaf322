/**
 * Draws a syntax tree as short text, so that a test can say in one line what was read: operators in brackets, broken stretches
 * between angles, blocks indented. Also the walks over a tree that several laws need.
 */
import type { Expression, Item, Span, Statement, Tree, UnitItem } from "../../grammar/tree.ts";

export function sketch(tree: Tree): string {
  return [...tree.statements.map((statement) => sketchStatement(statement, "")), ...tree.adrift.map(noteText)].join(
    "\n",
  );
}

function noteText({ text }: { readonly text: string }): string {
  return `## ${text}`;
}

function sketchStatement(statement: Statement, indent: string): string {
  const phrases = statement.phrases.map(({ items }) => items.map(sketchItem).join(" ")).join(", ");
  const line = `${statement.word.name} ${phrases}${statement.broken ? " !" : ""}`.trimEnd();
  const notes = statement.notes.map((note) => `${indent}${noteText(note)}\n`).join("");
  const { block } = statement;
  if (block === undefined) return `${notes}${indent}${line}`;
  const inner = block.statements.map((child) => sketchStatement(child, `${indent}  `));
  const adrift = block.adrift.map((note) => `${indent}  ${noteText(note)}`);
  const close = block.close === undefined ? `${indent}(no brace)` : `${indent}}`;
  return [`${notes}${indent}${line} {`, ...inner, ...adrift, close].join("\n");
}

function sketchItem(item: Item): string {
  switch (item.kind) {
    case "text":
      return JSON.stringify(item.value);
    case "code":
      return `code:${item.text}`;
    case "date":
      return `date:${item.text}`;
    case "equals":
      return "=";
    case "broken":
      return `<${item.text}>`;
    case "range": {
      const by = item.by === undefined ? "" : ` by ${sketchExpression(item.by)}`;
      return `[${sketchExpression(item.from)} to ${sketchExpression(item.to)}${by}]`;
    }
    default:
      return sketchExpression(item);
  }
}

function sketchExpression(expression: Expression): string {
  switch (expression.kind) {
    case "word":
      return expression.name;
    case "quantity": {
      const { number, unit, plusMinus, plusMinusUnit } = expression;
      const half = plusMinus === undefined ? "" : `±${plusMinus.value}${unitText(plusMinusUnit)}`;
      return `${number.value}${unitText(unit)}${half}`;
    }
    case "group":
      return `group(${sketchExpression(expression.inner)})`;
    case "negated":
      return `neg(${sketchExpression(expression.inner)})`;
    case "reading":
      return `(${sketchExpression(expression.value)} on ${expression.view.name})`;
    case "call":
      return `${expression.name.name}(${expression.arguments.map(sketchExpression).join("; ")})`;
    case "binary":
      return `(${sketchExpression(expression.left)} ${expression.operator} ${sketchExpression(expression.right)})`;
  }
}

function unitText(unit: UnitItem | undefined): string {
  return unit === undefined ? "" : unit.unit;
}

export function statementsIn(statements: readonly Statement[]): Statement[] {
  return statements.flatMap((statement) => [statement, ...statementsIn(statement.block?.statements ?? [])]);
}

/** Every quantity's number in a tree, wherever it stands. */
export function numbersIn(node: unknown): number[] {
  if (Array.isArray(node)) return node.flatMap(numbersIn);
  if (typeof node !== "object" || node === null) return [];
  const own = "kind" in node && node.kind === "quantity" && "number" in node ? [node.number as { value: number }] : [];
  return [...own.map(({ value }) => value), ...Object.values(node).flatMap(numbersIn)];
}

/** Parts of a statement that stand outside its span, or share a place with another part. */
const apart = new Set(["notes", "unit", "plusMinusUnit"]);

/** Every node whose span does not lie within its parent's, or runs backwards, as text; empty when all is well. */
export function badSpans(node: unknown, outer: Span, path = "tree"): string[] {
  if (Array.isArray(node)) return node.flatMap((member, index) => badSpans(member, outer, `${path}[${index}]`));
  if (typeof node !== "object" || node === null) return [];
  const own = "span" in node ? (node.span as Span) : outer;
  const good = own.start >= outer.start && own.end <= outer.end && own.start <= own.end;
  const whole = { start: 0, end: Number.MAX_SAFE_INTEGER };
  const inner = Object.entries(node).flatMap(([key, value]) =>
    key === "span" ? [] : badSpans(value, apart.has(key) ? whole : own, `${path}.${key}`),
  );
  return good ? inner : [`${path} ${own.start}-${own.end} outside ${outer.start}-${outer.end}`, ...inner];
}
