/**
 * Texts understood once however often tests ask: which rule looks at a plan, or which small change of a rule is tried against the
 * tests, changes nothing in its numbers. The longest unused is let go. Not a test itself.
 */
import { type Understood, understood } from "../server/answers/understood.ts";
import type { Library } from "../server/meaning/library.ts";

/** Where the same tests are run for thousands of mutants all their plans come again; else only some, and each holds memory. */
const most = process.env.ISTHMUS_MUTATED === undefined ? 300 : 1000;
const known = new Map<string, Understood>();

/** `reads` are the paths that the text may read from the library: what they hold tells one text from another, too. */
export function understoodOnce(file: string, text: string, library: Library, reads: readonly string[]): Understood {
  const key = JSON.stringify([file, text, reads.map((path) => library.openText(file, path))]);
  const found = known.get(key) ?? understood(file, text, library);
  known.delete(key);
  known.set(key, found);
  for (const oldest of known.keys()) if (known.size > most) known.delete(oldest);
  return found;
}
