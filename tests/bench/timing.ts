/**
 * How anything is timed: each contender in a process of its own, in rounds that alternate between all of them, and medians over the
 * rounds. In one process they would share what the engine knows of the code it runs, two parsers of one library most of all, which
 * slows each of them as it never is where it works alone. Other programs on the machine slow every contender alike, so only the
 * ratios within one run mean anything.
 */
import { type ChildProcess, fork } from "node:child_process";
import { once } from "node:events";
import { fileURLToPath } from "node:url";
import type { Name } from "./contenders.ts";

const timed = fileURLToPath(new URL("timed.ts", import.meta.url));

/** Milliseconds for one run of each, by name. Rejects when one of them fails. */
export async function timeTogether(
  names: readonly Name[],
  lines: number,
  rounds: number,
): Promise<ReadonlyMap<Name, number>> {
  const children = new Map<Name, ChildProcess>();
  const times = new Map(names.map((name): [Name, number[]] => [name, []]));
  try {
    // One after the other, so that none is warmed while another takes its share of the machine.
    for (const name of names) {
      const child = fork(timed, [name, String(lines)]);
      children.set(name, child);
      await answerOf(name, child);
    }
    for (let round = 0; round < rounds; round++) {
      for (const [name, child] of children) {
        child.send("round");
        times.get(name)?.push(Number(await answerOf(name, child)));
      }
    }
  } finally {
    for (const child of children.values()) child.kill();
  }
  return new Map([...times].map(([name, all]) => [name, quantile(all, 0.5)]));
}

async function answerOf(name: Name, child: ChildProcess): Promise<unknown> {
  const settled = new AbortController();
  const ended = once(child, "exit", settled).then(() => {
    throw new Error(`${name} ended before it was timed`);
  });
  try {
    const [answer] = await Promise.race([once(child, "message", settled), ended]);
    return answer;
  } finally {
    // Whichever still listens is not waited for any more.
    ended.catch(() => undefined);
    settled.abort();
  }
}

/** The value below which `share` of all values lie, by the nearest rank. */
export function quantile(values: readonly number[], share: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)] ?? sorted[0] ?? Number.NaN;
}
