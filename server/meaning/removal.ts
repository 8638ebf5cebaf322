/**
 * The `removal` block: the steps that take the nail out again, in the order they stand.
 */
import type { ShapedStatement } from "../../grammar/shaped.ts";
import type { Removal } from "./plan.ts";
import { lineSpan, placeOf, type Reader, saids, within } from "./read.ts";

export function removalOf(outer: Reader, block: ShapedStatement | undefined): Removal | undefined {
  if (block === undefined) {
    return undefined;
  }
  const reader = within(outer, block);
  const steps = block.children.flatMap((line) => stepOf(reader, line));
  return { place: placeOf(reader, lineSpan(block)), steps };
}

function stepOf(reader: Reader, line: ShapedStatement): Removal["steps"] {
  const kind = line.rule?.word;
  const place = placeOf(reader, lineSpan(line));
  switch (kind) {
    case "take":
      return [{ kind, things: saids(reader, line, "things"), place }];
    case "attach":
    case "withdraw":
      return [{ kind, things: saids(reader, line, "what"), place }];
    case "step":
      return [{ kind, things: saids(reader, line, "text"), place }];
    default:
      return [];
  }
}
