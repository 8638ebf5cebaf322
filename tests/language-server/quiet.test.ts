/** Memory is given back in a pause, once for each growth, and never while messages come. */
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { collectingWhenQuiet, ownHeap } from "../../server/language-server/quiet.ts";

const megabyte = 1024 ** 2;
const heap = {
  bytes: 0,
  collections: 0,
  held: () => heap.bytes,
  collect: () => {
    heap.collections += 1;
    heap.bytes = 60 * megabyte;
  },
};

beforeEach(() => {
  vi.useFakeTimers();
  Object.assign(heap, { bytes: 50 * megabyte, collections: 0 });
});
afterEach(() => {
  vi.useRealTimers();
});

test("what a burst of work left behind goes in the pause after it, once", () => {
  const message = collectingWhenQuiet(heap);
  heap.bytes = 400 * megabyte;
  for (let count = 0; count < 100; count += 1) {
    message();
    vi.advanceTimersByTime(200);
  }
  expect(heap.collections).toBe(0);
  vi.advanceTimersByTime(5000);
  expect(heap.collections).toBe(1);
  message();
  vi.advanceTimersByTime(60_000);
  expect(heap.collections).toBe(1);
});

test("each growth is told from what the last collection left", () => {
  const message = collectingWhenQuiet(heap);
  heap.bytes = 400 * megabyte;
  vi.advanceTimersByTime(5000);
  heap.bytes = 150 * megabyte;
  message();
  vi.advanceTimersByTime(5000);
  expect(heap.collections).toBe(1);
  heap.bytes = 160 * megabyte;
  message();
  vi.advanceTimersByTime(5000);
  expect(heap.collections).toBe(2);
});

test("a small heap is left alone", () => {
  const message = collectingWhenQuiet(heap);
  heap.bytes = 140 * megabyte;
  message();
  vi.advanceTimersByTime(60_000);
  expect(heap.collections).toBe(0);
});

test("the engine gives back what nothing holds", () => {
  const before = ownHeap.held();
  let held: readonly unknown[] = Array.from({ length: 1_000_000 }, (_, at) => ({ at, beside: [at] }));
  const full = ownHeap.held();
  expect(full - before).toBeGreaterThan(32 * megabyte);
  expect(held).toHaveLength(1_000_000);
  held = [];
  ownHeap.collect();
  expect(full - ownHeap.held()).toBeGreaterThan(32 * megabyte);
});
