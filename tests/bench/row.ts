/** One row of the table: what was compared, both figures, their ratio and the ratio to reach; and how rows are written. */

export interface Row {
  readonly what: string;
  readonly ours: string;
  readonly peer: string;
  readonly ratio: string;
  readonly reach: string;
  readonly outcome: "reached" | "missed" | "shown beside" | "not built" | "a test of its own" | "not measured";
}

/** `times` the peer's time is ours; at least `least` of them are to be reached. */
export function fasterRow(what: string, peer: string, ours: number, theirs: number, least: number): Row {
  const ratio = theirs / ours;
  return {
    what,
    ours: milliseconds(ours),
    peer: `${peer}: ${milliseconds(theirs)}`,
    ratio: `${digits(ratio)} × faster`,
    reach: `at least ${least} ×`,
    outcome: ratio >= least ? "reached" : "missed",
  };
}

/** Ours may take at most `most` times the peer's time. */
export function withinRow(what: string, peer: string, ours: number, theirs: number, most: number): Row {
  const ratio = ours / theirs;
  return {
    what,
    ours: milliseconds(ours),
    peer: `${peer}: ${milliseconds(theirs)}`,
    ratio: `${digits(ratio)} ×`,
    reach: `at most ${most} ×`,
    outcome: ratio <= most ? "reached" : "missed",
  };
}

/** A figure against a limit of its own; `peer` tells what was measured beside it. */
export function limitRow(what: string, ours: number, unit: string, most: number, peer: string): Row {
  return {
    what,
    ours: `${digits(ours)} ${unit}`,
    peer,
    ratio: `${digits(ours / most)} of the limit`,
    reach: `at most ${most} ${unit}`,
    outcome: ours <= most ? "reached" : "missed",
  };
}

export function otherRow(what: string, peer: string, reach: string, outcome: Row["outcome"]): Row {
  return { what, ours: "–", peer, ratio: "–", reach, outcome };
}

function milliseconds(value: number): string {
  return `${digits(value)} ms`;
}

/** Three significant digits, without an exponent. */
export function digits(value: number): string {
  if (!Number.isFinite(value)) return "none";
  return value >= 100 ? value.toFixed(0) : value >= 10 ? value.toFixed(1) : value.toPrecision(3);
}

export function markdownTable(rows: readonly Row[]): string {
  const lines = rows.map(({ what, ours, peer, ratio, reach, outcome }) =>
    [what, ours, peer, ratio, reach, outcome].join(" | "),
  );
  const head = ["what | ours | beside it | ratio | to reach | outcome", "--- | --- | --- | --- | --- | ---"];
  return [...head, ...lines].map((line) => `| ${line} |\n`).join("");
}
