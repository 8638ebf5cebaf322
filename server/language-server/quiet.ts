/**
 * Gives memory back while nothing is asked. The engine lets garbage lie for as long as the machine has room, so that a server that has
 * gone through a thousand plans once would hold several times what it needs for the rest of the day.
 */

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
export function collectingWhenQuiet(heap: Heap = ownHeap): () => void {
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

/** Where the engine does not let itself be asked, nothing is collected. What it is asked with is made at the first collection. */
export const ownHeap: Heap = {
  held: () => process.memoryUsage().heapTotal,
  collect: () => {
    process.getBuiltinModule("node:v8").setFlagsFromString("--expose-gc");
    const collect: unknown = process.getBuiltinModule("node:vm").runInNewContext("globalThis.gc");
    // The flavour that also gives freed pages back to the system.
    if (typeof collect === "function") collect({ type: "major", execution: "sync", flavor: "last-resort" });
  },
};
