/** Finds what stands at an offset of the tree: the items of a statement's line that hold it. */
import type { Expression, Item, Statement, Tree } from "../../grammar/tree.ts";
import { holds } from "./statements.ts";

/** The innermost item that holds the offset; undefined between items. */
export function itemAt(tree: Tree, offset: number): Item | undefined {
  return itemsAt(tree, offset)[0];
}

/** The innermost item that holds the offset, then those around it; empty between items. */
export function itemsAt(tree: Tree, offset: number): readonly Item[] {
  const statement = statementAt(tree.statements, offset);
  for (const { items } of statement?.phrases ?? []) {
    for (const item of items) if (holds(item.span, offset)) return around(item, offset);
  }
  return [];
}

/** The innermost statement whose span holds the offset. */
function statementAt(statements: readonly Statement[], offset: number): Statement | undefined {
  for (const statement of statements) {
    if (!holds(statement.span, offset)) continue;
    return statementAt(statement.block?.statements ?? [], offset) ?? statement;
  }
  return undefined;
}

function around(item: Item, offset: number): readonly Item[] {
  const inner = childrenOf(item).find((child) => holds(child.span, offset));
  return inner === undefined ? [item] : [...around(inner, offset), item];
}

function childrenOf(item: Item): readonly Expression[] {
  switch (item.kind) {
    case "range":
      return item.by === undefined ? [item.from, item.to] : [item.from, item.to, item.by];
    case "binary":
      return [item.left, item.right];
    case "negated":
    case "group":
      return [item.inner];
    case "call":
      return item.arguments;
    case "reading":
      return [item.value, item.view];
    default:
      return [];
  }
}
