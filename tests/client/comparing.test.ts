/** When the editor's text is held against the server's, by a clock that the test moves. */
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { Comparing, mostRepairs, pause } from "../../client/comparing.ts";

const uri = "file:///plan.isthmus";
let asked = 0;
let repaired = 0;
let answer: () => Promise<boolean | undefined> = () => Promise.resolve(true);
let comparing: Comparing;

beforeEach(() => {
  vi.useFakeTimers();
  [asked, repaired] = [0, 0];
  comparing = new Comparing({
    ask: () => {
      asked += 1;
      return answer();
    },
    repair: () => {
      repaired += 1;
    },
  });
});
afterEach(() => {
  comparing.dispose();
  vi.useRealTimers();
});

async function pass(milliseconds: number): Promise<void> {
  await vi.advanceTimersByTimeAsync(milliseconds);
}

test("asked once after the typing, not while it goes on", async () => {
  answer = () => Promise.resolve(true);
  for (let key = 0; key < 20; key += 1) {
    comparing.changed(uri);
    await pass(pause - 1);
  }
  expect(asked).toBe(0);
  await pass(1);
  expect([asked, repaired]).toEqual([1, 0]);
  await pass(100 * pause);
  expect(asked).toBe(1);
});

test("a text that differs is handed over, then asked about again", async () => {
  const answers = [false, true];
  answer = () => Promise.resolve(answers.shift());
  comparing.changed(uri);
  await pass(pause);
  expect([asked, repaired]).toEqual([1, 1]);
  await pass(100 * pause);
  expect([asked, repaired]).toEqual([2, 1]);
});

test("one that differs for ever is not handed over for ever, and is again once it has been the same", async () => {
  answer = () => Promise.resolve(false);
  comparing.changed(uri);
  await pass(100 * pause);
  expect(repaired).toBe(mostRepairs);
  answer = () => Promise.resolve(true);
  comparing.changed(uri);
  await pass(pause);
  answer = () => Promise.resolve(false);
  comparing.changed(uri);
  await pass(pause);
  expect(repaired).toBe(mostRepairs + 1);
});

test("an answer about an older text, no answer and a closed text repair nothing", async () => {
  let settle: (same: boolean) => void = () => undefined;
  answer = () => new Promise((resolve) => (settle = resolve));
  comparing.changed(uri);
  await pass(pause);
  comparing.changed(uri);
  settle(false);
  await pass(0);
  expect(repaired).toBe(0);
  answer = () => Promise.reject(new Error("the server is gone"));
  await pass(pause);
  answer = () => Promise.resolve(undefined);
  comparing.changed(uri);
  await pass(pause);
  answer = () => Promise.resolve(false);
  comparing.changed(uri);
  comparing.closed(uri);
  await pass(100 * pause);
  expect([asked, repaired]).toEqual([3, 0]);
});
