/**
 * Where an offset stands among shaped statements: the statements round it, the clause, the slot and the thing in it. It looks at
 * what is written and says nothing about what might be.
 */
import type { Shaped, ShapedClause, ShapedStatement } from "./shaped.ts";
import type { Item, Span } from "./tree.ts";
import type { Slot } from "./vocabulary/rule.ts";

export interface ShapedPlace {
  /** The statements that hold the offset, the outermost first. */
  readonly path: readonly ShapedStatement[];
  /** Undefined in the head of the innermost statement. */
  readonly clause: ShapedClause | undefined;
  /** The slot whose thing holds the offset. */
  readonly slot: Slot | undefined;
  readonly item: Item | undefined;
}

/** Finds the place of an offset; both ends of a span belong to it. Outside all statements the path is empty. */
export function placeAt(shaped: Shaped, offset: number): ShapedPlace {
  const path: ShapedStatement[] = [];
  for (let inner = find(shaped.statements, offset); inner !== undefined; inner = find(inner.children, offset))
    path.push(inner);
  const last = path.at(-1);
  const clause = last?.clauses.find(({ span }) => holds(span, offset));
  const section = clause ?? last;
  for (const slot of section?.rule?.slots ?? []) {
    const item = section?.slots.get(slot.name)?.find(({ span }) => holds(span, offset));
    if (item !== undefined) return { path, clause, slot, item };
  }
  return { path, clause, slot: undefined, item: undefined };
}

function find(statements: readonly ShapedStatement[], offset: number): ShapedStatement | undefined {
  return statements.find(({ statement }) => holds(statement.span, offset));
}

function holds(span: Span, offset: number): boolean {
  return span.start <= offset && offset <= span.end;
}
