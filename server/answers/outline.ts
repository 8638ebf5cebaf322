/** The outline of a text: blocks and statements by their trade names, with the number each one decides. */
import type { ShapedStatement } from "../../grammar/shape.ts";
import type { Span } from "../../grammar/tree.ts";
import type { Analysis } from "./analyse.ts";
import { itemName, keyReckonings } from "./statements.ts";
import { answerInWords } from "./wording.ts";

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
    return [
      {
        name: oneLine(`${statement.word.name} ${headText(analysis.text, shaped)}`),
        detail: detailOf(analysis, shaped),
        kind: kindOf(shaped),
        span: statement.span,
        wordSpan: statement.word.span,
        children,
      },
    ];
  };
  return analysis.meaning.shaped.statements
    .filter(({ statement }) => statement.word.name !== "isthmus")
    .flatMap(entries);
}

function kindOf({ block, statement }: ShapedStatement): OutlineEntry["kind"] {
  if (block === "file") return "document";
  if (statement.block !== undefined) return "block";
  if (block === "operation" || block === "fallback" || block === "achieved" || block === "removal") return "step";
  return statement.word.name === "landmark" || statement.word.name === "let" ? "value" : "statement";
}

function detailOf(analysis: Analysis, shaped: ShapedStatement): string {
  const [first] = keyReckonings(analysis, shaped);
  return (first === undefined ? undefined : answerInWords(first)) ?? "";
}

/** The name a statement gives, or its head as typed; a lone text without its quotes. */
function headText(text: string, { statement, rule, slots }: ShapedStatement): string {
  const first = statement.phrases[0]?.items[0];
  const items = [...slots.values()].flat();
  if (first === undefined || items.length === 0) return "";
  if (rule?.slots[0]?.part.kind === "declares" || (items.length === 1 && first.kind === "text")) {
    return itemName(first) ?? "";
  }
  return text.slice(first.span.start, Math.max(...items.map(({ span }) => span.end)));
}

function oneLine(text: string): string {
  return text.replace(/\s+/g, " ").trim().slice(0, longestName).trim();
}

const longestName = 80;
