/** A reaming list written out head by head, or as one range where the heads grow evenly. */
import type { Span } from "../../grammar/tree.ts";
import { headsOf, written } from "../findings/head-list.ts";
import { printValue } from "../quantity/print.ts";
import type { Analysis } from "./analyse.ts";
import type { Refactoring } from "./refactorings.ts";
import { holds } from "./statements.ts";

export function headsRewritten({ meaning, file, text }: Analysis, span: Span): readonly Refactoring[] {
  const { document } = meaning;
  if (document?.kind !== "plan") return [];
  const others = [...document.fallbacks, ...(document.achieved === undefined ? [] : [document.achieved])];
  const steps = [...document.steps, ...others.flatMap((other) => other.steps)];
  const ream = steps.find(
    (step) => step.kind === "ream" && step.place.file === file && holds(step.place.span, span.start),
  );
  const heads = ream?.kind === "ream" ? headsOf(ream) : undefined;
  if (ream?.kind !== "ream" || heads === undefined || heads.length < 2 || heads.length > mostHeads) return [];
  if (heads.some(({ influences }) => influences.length > 0)) return [];
  const place = ream.heads.place.span;
  const range = written(heads);
  const list = heads.map((head) => printValue(head, "mm")).join(", ");
  const now = text.slice(place.start, place.end).replace(/\s+/g, " ");
  const forms: readonly Refactoring[] = [
    { title: `Write the heads out: ${list}`, kind: "rewrite", edits: [{ span: place, text: list }] },
    { title: `Write the heads as a range: ${range}`, kind: "rewrite", edits: [{ span: place, text: range }] },
  ];
  const isRange = / to /.test(now);
  return forms.filter(
    ({ edits }, index) => edits[0]?.text !== now && isRange === (index === 0) && (index === 0 || range !== list),
  );
}

/** A longer list fits no line and no table. */
const mostHeads = 40;
