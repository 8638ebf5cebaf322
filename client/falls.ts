/** How often a server that fell is started again. Times alone: nothing of the editor is needed to say it, so a test can. */

const window = 3 * 60 * 1000;

/** With this many falls within three minutes the next start would fall too. */
export const mostFalls = 5;

/** What becomes of a fall at `now`, in milliseconds, after those at `before`, oldest first. */
export function afterFall(
  before: readonly number[],
  now: number,
): { readonly falls: readonly number[]; readonly startAgain: boolean } {
  const falls = [...before.filter((at) => now - at <= window), now];
  return { falls, startAgain: falls.length < mostFalls };
}
