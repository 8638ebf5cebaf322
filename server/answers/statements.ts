/** Walks the shaped statements of a text and names what each one decides: the reckonings a reader looks for at that line. */
import type { ShapedStatement } from "../../grammar/shape.ts";
import type { Item, Span } from "../../grammar/tree.ts";
import type { Reckoning } from "../reckoning/reckoning.ts";
import type { Analysis } from "./analyse.ts";

/** Every statement, outer before inner, in the order of the text. */
export function* statementsOf(statements: readonly ShapedStatement[]): Generator<ShapedStatement> {
  for (const statement of statements) {
    yield statement;
    yield* statementsOf(statement.children);
  }
}

/** The innermost statement whose span holds the offset, with the statements around it, outermost first. */
export function pathTo(analysis: Analysis, offset: number): readonly ShapedStatement[] {
  const path: ShapedStatement[] = [];
  let level: readonly ShapedStatement[] = analysis.meaning.shaped.statements;
  for (;;) {
    const inner = level.find(({ statement }) => holds(statement.span, offset));
    if (inner === undefined) return path;
    path.push(inner);
    level = inner.children;
  }
}

/** Whether two stretches share a character or an edge. */
export function touches(one: Span, other: Span): boolean {
  return one.start <= other.end && other.start <= one.end;
}

export function holds(span: Span, offset: number): boolean {
  return span.start <= offset && offset <= span.end;
}

/** The name in a statement's head: `D2` of `lock D2`, `scar` of `landmark scar`; undefined when it has none. */
export function headName({ statement }: ShapedStatement): string | undefined {
  return itemName(statement.phrases[0]?.items[0]);
}

export function itemName(item: Item | undefined): string | undefined {
  switch (item?.kind) {
    case "word":
      return item.name;
    case "text":
      return item.value;
    default:
      return undefined;
  }
}

/** The reckonings shown beside a statement, most telling first; those the plan does not have are left out. */
export function keyReckonings(analysis: Analysis, shaped: ShapedStatement): readonly Reckoning[] {
  const { reckonings } = analysis;
  if (reckonings === undefined || shaped.block === "fallback" || shaped.block === "achieved") return [];
  const name = headName(shaped);
  const { word, span } = shaped.statement;
  if (word.name === "block") return reckonings.list.filter((each) => each.id.startsWith("block.") && isOf(each, span));
  return keyIds(shaped.block, word.name, name).flatMap((id) => reckonings.byId.get(id) ?? []);
}

/** Whether a reckoning comes from the statement as a whole. */
function isOf({ from }: Reckoning, { start, end }: Span): boolean {
  return from.some(({ span }) => span.start === start && span.end === end);
}

function keyIds(block: string, word: string, name: string | undefined): readonly string[] {
  switch (`${block} ${word}`) {
    case "case fracture":
      return ["level.fracture.centre", "segment"];
    case "images view":
      return [`magnification.${name}`];
    case "measures landmark":
      return [`level.${name}`];
    case "operation ream":
      return ["ream.over"];
    case "operation unreamed":
      return ["fit.ratio"];
    case "operation nail":
      return ["nail.tip", "length.margin"];
    case "operation lock":
      return [`hole.${name}.level`, `screw.${name}.beyond`];
    case "operation compress":
      return ["compression.amount", "compression.left", "compression.gapLeft"];
    case "operation cap":
      return ["cap.top"];
    case "aftercare watch":
      return ["compartment.gradient"];
    default:
      return [];
  }
}
