/**
 * Walks over the syntax tree for the rules that read what was typed: statements in order, their words, and the quantities in an
 * expression. It judges nothing and knows no vocabulary.
 */
import type { Item, QuantityItem, Span, Statement, Tree } from "../../grammar/tree.ts";

/** The statement and everything in its block, in the order of the text; a statement for which `skip` is true is left out whole. */
export function* statementsIn(
  statement: Statement,
  skip: (inner: Statement) => boolean = () => false,
): Iterable<Statement> {
  if (skip(statement)) return;
  yield statement;
  for (const inner of statement.block?.statements ?? []) yield* statementsIn(inner, skip);
}

/** The statements that hold a stretch of the text, the outermost first. */
export function statementsAt(tree: Tree, { start, end }: Span): readonly Statement[] {
  return tree.statements
    .flatMap((statement) => [...statementsIn(statement)])
    .filter(({ span }) => span.start <= start && end <= span.end);
}

/** Every item of a statement's own line, the parts of expressions and ranges included. */
export function* itemsOf(statement: Statement): Iterable<Item> {
  for (const phrase of statement.phrases) {
    for (const item of phrase.items) yield* partsOf(item);
  }
}

/** The quantities typed inside a stretch of the text. */
export function quantitiesWithin(root: Statement, span: Span): readonly QuantityItem[] {
  const found: QuantityItem[] = [];
  for (const statement of statementsIn(root, (inner) => inner.span.end <= span.start || inner.span.start >= span.end)) {
    for (const item of itemsOf(statement)) {
      if (item.kind === "quantity" && item.span.start >= span.start && item.span.end <= span.end) found.push(item);
    }
  }
  return found;
}

function* partsOf(item: Item): Iterable<Item> {
  yield item;
  switch (item.kind) {
    case "range":
      yield* partsOf(item.from);
      yield* partsOf(item.to);
      if (item.by !== undefined) yield* partsOf(item.by);
      return;
    case "call":
      for (const argument of item.arguments) yield* partsOf(argument);
      return;
    case "group":
    case "negated":
      yield* partsOf(item.inner);
      return;
    case "binary":
      yield* partsOf(item.left);
      yield* partsOf(item.right);
      return;
    case "reading":
      yield* partsOf(item.value);
      return;
    default:
      return;
  }
}
