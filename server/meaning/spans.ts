/**
 * Finds among many spans those that touch a place, without looking at each: a text full of mistakes is as quick to read as one
 * with a few.
 */
import type { Span } from "../../grammar/tree.ts";

export interface SpanFinder<T> {
  /** The first in the order of the text that touches `place`. */
  first(place: Span): T | undefined;
  /** All that touch `place`, in the order of the text. */
  all(place: Span): readonly T[];
}

/** Two spans touch when they have a character in common, or when one is empty and lies inside the other. */
export function spanFinder<T>(items: readonly T[], spanOf: (item: T) => Span): SpanFinder<T> {
  const sorted = items.map((item) => ({ item, span: spanOf(item) })).sort((a, b) => a.span.start - b.span.start);
  const reach: number[] = [];
  for (const { span } of sorted) {
    reach.push(Math.max(reach.at(-1) ?? 0, span.end));
  }
  const all = (place: Span): readonly T[] => {
    const found: T[] = [];
    // Behind `at` everything begins too late; where the furthest reach ends before the place, everything further on does.
    for (let at = countBefore(sorted, place.end) - 1; at >= 0 && (reach[at] ?? 0) > place.start; at -= 1) {
      const candidate = sorted[at];
      if (candidate !== undefined && candidate.span.end > place.start) {
        found.unshift(candidate.item);
      }
    }
    return found;
  };
  return { all, first: (place) => (sorted.length === 0 ? undefined : all(place)[0]) };
}

/** How many begin before `offset`. */
function countBefore(sorted: readonly { readonly span: Span }[], offset: number): number {
  let [low, high] = [0, sorted.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((sorted[middle]?.span.start ?? offset) < offset) {
      low = middle + 1;
    } else {
      high = middle;
    }
  }
  return low;
}
