/** One contender in a process of its own: made and warmed by its name, then timed for a round each time its parent asks. */
import { contender, type Name } from "./contenders.ts";

/** Milliseconds each contender runs before it is timed. */
const warming = 2000;
/** Milliseconds of a round, about. */
const roundLength = 60;

const [, , name, lines] = process.argv;
const work = await contender(name as Name, Number(lines));
// The engine compiles what is hot only after many runs, large programs later than small ones; a cold start has a row of its own.
const warm = await quickest(warming);
const times = Math.max(1, Math.round(roundLength / warm));

process.on("message", () => {
  void round(times).then((took) => process.send?.(took));
});
process.send?.("warm");

/** Milliseconds of one run, over so many. */
async function round(repeats: number): Promise<number> {
  const start = performance.now();
  for (let time = 0; time < repeats; time++) {
    const made = work();
    // Awaited only where it is a promise: a turn of the event loop is not the work.
    if (made instanceof Promise) await made;
  }
  return (performance.now() - start) / repeats;
}

/** Milliseconds of the quickest run within a time, so that what has not warmed up does not count. */
async function quickest(milliseconds: number): Promise<number> {
  const end = performance.now() + milliseconds;
  let best = await round(1);
  while (performance.now() < end) best = Math.min(best, await round(1));
  return Math.max(best, 0.0005);
}
