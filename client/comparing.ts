/**
 * When the text in the editor is held against the text the server has: some time after it was last changed, and again after it was
 * handed over anew. Nothing of the editor is needed to say it, so a test can.
 */

/** Milliseconds after the last change; a text that is being typed is not asked about. */
export const pause = 2_000;

/** A text that differs again right after it was handed over is not handed over for ever. */
export const mostRepairs = 3;

export interface Comparison {
  /** Whether the server's text is the editor's; undefined where it cannot be told now. */
  ask(uri: string): Promise<boolean | undefined>;
  /** Hands the editor's text over anew. */
  repair(uri: string): void;
}

export class Comparing {
  readonly #comparison: Comparison;
  readonly #waiting = new Map<string, ReturnType<typeof setTimeout>>();
  readonly #repairs = new Map<string, number>();

  constructor(comparison: Comparison) {
    this.#comparison = comparison;
  }

  /** Opened, changed, or known to a server that has started anew. */
  changed(uri: string): void {
    clearTimeout(this.#waiting.get(uri));
    this.#waiting.set(
      uri,
      setTimeout(() => void this.#compare(uri), pause),
    );
  }

  closed(uri: string): void {
    clearTimeout(this.#waiting.get(uri));
    this.#waiting.delete(uri);
    this.#repairs.delete(uri);
  }

  dispose(): void {
    for (const uri of [...this.#waiting.keys()]) this.closed(uri);
  }

  async #compare(uri: string): Promise<void> {
    const timer = this.#waiting.get(uri);
    const same = await this.#comparison.ask(uri).catch(() => undefined);
    // Changed or closed meanwhile: the answer is about an older text.
    if (same === undefined || this.#waiting.get(uri) !== timer) return;
    const repaired = this.#repairs.get(uri) ?? 0;
    if (same) this.#repairs.delete(uri);
    else if (repaired < mostRepairs) {
      this.#repairs.set(uri, repaired + 1);
      this.#comparison.repair(uri);
      this.changed(uri);
    }
  }
}
