/**
 * How many random cases a law is tried on: as many as the test asks for, or as many as the environment allows where the same laws are
 * run again for each of thousands of mutants.
 */

/** `ISTHMUS_RUNS` in the environment is the most; without it the test has its own number. */
export function runs(wanted: number): number {
  const most = process.env.ISTHMUS_RUNS;
  return most === undefined ? wanted : Math.min(wanted, Number(most));
}
