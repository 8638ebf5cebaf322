/**
 * Gives memory back while nothing is asked. The engine lets garbage lie for as long as the machine has room, so that a server that has
 * gone through a thousand plans once would hold several times what it needs for the rest of the day.
 */
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";

/** Memory is told in bytes. */
export interface Heap {
  readonly held: () => number;
  readonly collect: () => void;
}

/** Nobody types so slowly in one go: what the collection takes, a quarter of a second at most, falls into a pause. */
const quietAfter = 3000;
/** Less is not worth a collection of everything. */
const worthIt = 96 * 1024 ** 2;

/** To be called with every message that comes. After a while without one the heap is collected, if it has grown since the last time. */
export function collectingWhenQuiet(heap: Heap | undefined = ownHeap()): () => void {
  if (heap === undefined) return () => undefined;
  let least = heap.held();
  const timer = setTimeout(() => {
    if (heap.held() - least < worthIt) return;
    heap.collect();
    least = heap.held();
  }, quietAfter);
  // It does not keep a process that has nothing else to do.
  timer.unref();
  return () => void timer.refresh();
}

/** Undefined where the engine does not let itself be asked. */
export function ownHeap(): Heap | undefined {
  setFlagsFromString("--expose-gc");
  const collect: unknown = runInNewContext("globalThis.gc");
  if (typeof collect !== "function") return undefined;
  return {
    held: () => process.memoryUsage().heapTotal,
    // The flavour that also gives freed pages back to the system.
    collect: () => void collect({ type: "major", execution: "sync", flavor: "last-resort" }),
  };
}
