/** What lights up with the name at an offset, and what may be typed together with it: the places in this text that say it. */
import type { Span } from "../../grammar/tree.ts";
import type { Analysis } from "./analyse.ts";
import { isShared, mentionsHere, nameAt } from "./names.ts";
import { isReckonedWith } from "./rename.ts";

export interface Highlight {
  readonly span: Span;
  /** The place that gives the name; the others use it. */
  readonly declares: boolean;
}

export function highlightsAt(analysis: Analysis, offset: number): readonly Highlight[] {
  const name = nameAt(analysis, offset);
  if (name === undefined) return [];
  return mentionsHere(analysis, name).map(({ place, declares }) => ({ span: place.span, declares }));
}

/**
 * Spans that hold one and the same text and may be typed together; empty unless the name lives in this text alone and has its
 * meaning from nowhere else.
 */
export function linkedAt(analysis: Analysis, offset: number): readonly Span[] {
  const name = nameAt(analysis, offset);
  if (name?.declared?.file !== analysis.file || isShared(name) || isReckonedWith(analysis, name)) return [];
  const spans = mentionsHere(analysis, name).map(({ place }) => place.span);
  const texts = new Set(spans.map(({ start, end }) => analysis.text.slice(start, end)));
  return spans.length > 1 && texts.size === 1 ? spans : [];
}
