/**
 * Small pieces of wording that many rules share, so that the same thing is always said in the same words. Numbers come in already
 * printed; nothing here judges.
 */

/** "P1", "P1 and P2", "P1, P2 and D1". */
export function listed(words: readonly string[], joint: "and" | "or" = "and"): string {
  const last = words.at(-1);
  if (last === undefined) return "";
  if (words.length === 1) return last;
  return `${words.slice(0, -1).join(", ")} ${joint} ${last}`;
}

/** The word between quotation marks, control and invisible characters shown by their code, shortened in the middle when long. */
export function quoted(word: string): string {
  return `"${shortened(visible(word), 60)}"`;
}

/** Characters nobody can see, and line ends, by their code: `\u{200b}`. */
export function visible(text: string): string {
  return text.replace(/[\p{C}\p{Zl}\p{Zp}]/gu, codeOf);
}

function codeOf(character: string): string {
  return `\\u{${character.codePointAt(0)?.toString(16)}}`;
}

function shortened(text: string, most: number): string {
  const characters = [...text];
  if (characters.length <= most) return text;
  return `${characters.slice(0, most - 21).join("")} … ${characters.slice(-18).join("")}`;
}

/** "one screw", "3 screws": a count with its noun. */
export function counted(count: number, one: string, many: string): string {
  if (count === 0) return `no ${one}`;
  return count === 1 ? `one ${one}` : `${count} ${many}`;
}

/** First letter large: to open a sentence. */
export function opening(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** "a length", "an angle"; what begins with a digit or a sign stays as it is. */
export function withArticle(words: string): string {
  if (/^(?:an? |[^a-z])/i.test(words)) return words;
  return /^[aeiou]/i.test(words) ? `an ${words}` : `a ${words}`;
}
