/**
 * Files checked in threads beside each other. Each thread is the program once more, reads for itself and answers a batch of files at a
 * time; what it answers comes out in the order of the files, and no more is held than the batches under way.
 */
import { parentPort, Worker, workerData } from "node:worker_threads";
import { type Checked, checker, type Settings } from "./checked.ts";
import { threadWord } from "./threads.ts";

/** Few enough that all threads end at about the same time, many enough that handing over costs little. */
const filesPerBatch = 16;

type Batch = readonly string[];
type Answer = readonly Checked[];

interface Thread {
  /** Answers come in the order of what was asked. Rejects when the thread ends before it has answered. */
  readonly ask: (batch: Batch) => Promise<Answer>;
  readonly end: () => Promise<unknown>;
}

/** Throws when a thread ends before its time. With the last answer, and when nobody wants more, all threads are ended. */
export async function* checkedBeside(
  files: readonly string[],
  settings: Settings,
  jobs: number,
  program: string,
): AsyncGenerator<Checked> {
  const batches = Array.from({ length: Math.ceil(files.length / filesPerBatch) }, (_, at) =>
    files.slice(at * filesPerBatch, (at + 1) * filesPerBatch),
  );
  const threads = Array.from({ length: Math.min(jobs, batches.length) }, () => threadOf(program, settings));
  const asked = (at: number): Promise<Answer> | undefined => {
    const [batch, thread] = [batches[at], threads[at % threads.length]];
    return batch && thread?.ask(batch);
  };
  try {
    // Two batches a thread, so that none waits for the next.
    const answers = batches.slice(0, 2 * threads.length).map((_, at) => asked(at));
    for (let at = 0; at < batches.length; at += 1) {
      yield* (await answers[at]) ?? [];
      answers[at] = undefined;
      answers.push(asked(answers.length));
    }
  } finally {
    await Promise.all(threads.map((thread) => thread.end()));
  }
}

function threadOf(program: string, settings: Settings): Thread {
  const worker = new Worker(program, { workerData: settings, argv: [threadWord] });
  const waiting: PromiseWithResolvers<Answer>[] = [];
  let ended: Error | undefined;
  const end = (why: Error): void => {
    ended ??= why;
    for (const each of waiting.splice(0)) each.reject(ended);
  };
  worker.on("message", (answer: Answer) => waiting.shift()?.resolve(answer));
  worker.on("error", end);
  worker.on("exit", () => end(new Error("a thread ended before its time")));
  return {
    ask: (batch) => {
      const answer = Promise.withResolvers<Answer>();
      // One that falls while another is waited for is told of by that one.
      answer.promise.catch(() => undefined);
      if (ended === undefined) {
        waiting.push(answer);
        worker.postMessage(batch);
      } else answer.reject(ended);
      return answer.promise;
    },
    end: () => worker.terminate(),
  };
}

/** What the program does when it is such a thread: answers batches until it is ended. False where it is none. */
export function answerBatches(): boolean {
  if (parentPort === null) return false;
  const check = checker(workerData as Settings);
  parentPort.on("message", (batch: Batch) => parentPort?.postMessage(batch.map(check)));
  return true;
}
