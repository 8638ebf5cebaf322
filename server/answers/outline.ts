/** The outline of a text: blocks and statements by their trade names, with the number each one decides. */
import type { ShapedStatement } from "../../grammar/shape.ts";
import type { Span } from "../../grammar/tree.ts";
import { printValue } from "../quantity/print.ts";
import type { Analysis } from "./analyse.ts";
import { headName, keyReckonings } from "./statements.ts";

export interface OutlineEntry {
  readonly name: string;
  readonly detail: string;
  readonly kind: "document" | "block" | "step" | "value" | "statement";
  readonly span: Span;
  /** The word that opens it, inside `span`. */
  readonly wordSpan: Span;
  readonly children: readonly OutlineEntry[];
}

/** One entry a statement; `isthmus 1` is left out, and so is a line that has no word to be named by. */
export function outlineOf(analysis: Analysis): OutlineEntry[] {
  const entries = (shaped: ShapedStatement): OutlineEntry[] => {
    const { statement } = shaped;
    const children = shaped.children.flatMap(entries);
    if (statement.word.name === "") return children;
    const name = headName(shaped);
    return [
      {
        name: name === undefined ? statement.word.name : `${statement.word.name} ${oneLine(name)}`,
        detail: detailOf(analysis, shaped),
        kind: kindOf(shaped),
        span: statement.span,
        wordSpan: statement.word.span,
        children,
      },
    ];
  };
  return analysis.meaning.shaped.statements.filter(({ statement }) => statement.word.name !== "isthmus").flatMap(entries);
}

function kindOf({ block, statement }: ShapedStatement): OutlineEntry["kind"] {
  if (block === "file") return "document";
  if (statement.block !== undefined) return "block";
  if (block === "operation" || block === "fallback" || block === "achieved" || block === "removal") return "step";
  return statement.word.name === "landmark" || statement.word.name === "let" ? "value" : "statement";
}

function detailOf(analysis: Analysis, shaped: ShapedStatement): string {
  const [first] = keyReckonings(analysis, shaped);
  if (first === undefined || first.answer.kind === "unknown") return "";
  return first.answer.kind === "word" ? first.answer.word : printValue(first.answer, first.unit);
}

function oneLine(text: string): string {
  return text.replace(/\s+/g, " ").slice(0, 80);
}
