/**
 * The known word that is probably meant by a mistyped one: optimal string alignment distance (Damerau–Levenshtein with adjacent
 * swaps) within two slips and a third of the word. Ties go to the word that stands first.
 */

const mostSlips = 2;
/** Longer words are no slips of the keyboard; the cap keeps hostile text cheap. */
const longestWord = 64;

/** The nearest of the known words, or undefined when none is near enough. A word that is known is its own nearest. */
export function nearest(word: string, known: Iterable<string>): string | undefined {
  if (word.length > longestWord) return undefined;
  let best: string | undefined;
  let least = Math.min(mostSlips, Math.floor(word.length / 3)) + 1;
  for (const candidate of known) {
    if (candidate === word) return candidate;
    if (Math.abs(candidate.length - word.length) >= least) continue;
    const slips = distance(word, candidate);
    if (slips >= least) continue;
    least = slips;
    best = candidate;
  }
  return best;
}

/** Rows of the alignment table: `before` is two rows up, `above` one, both of length b + 1. */
function distance(a: string, b: string): number {
  let before: number[] = [];
  let above = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const same = a[i - 1] === b[j - 1];
      let least = Math.min((above[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (above[j - 1] ?? 0) + (same ? 0 : 1));
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      if (swapped) least = Math.min(least, (before[j - 2] ?? 0) + 1);
      row.push(least);
    }
    before = above;
    above = row;
  }
  return above[b.length] ?? 0;
}
