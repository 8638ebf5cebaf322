/** Changes of the sample plan that many tables share. Not a test itself. */
import type { Change } from "./table.ts";

/** Leaves the operation alone, so that what is found is found once. */
export const noFallback: Change = [
  '  fallback "the 10 mm nail stops at the isthmus" {\n    ream 8.5 mm to 11.5 mm by 0.5 mm\n  }\n\n',
  "",
];

const mainReaming = "    ream 8.5 mm to 11 mm by 0.5 mm\n";

/** Reams the operation otherwise and leaves the fallback out. */
export function reamed(heads: string): readonly Change[] {
  return [noFallback, [mainReaming, `    ream ${heads}\n`]];
}

export function unreamed(): readonly Change[] {
  return [noFallback, [mainReaming, "    unreamed\n"]];
}

export function nail(diameter: string): Change {
  return ["nail fenwick, diameter 10 mm", `nail fenwick, diameter ${diameter}`];
}

export function nailLength(length: string): Change {
  return ["length 345 mm", `length ${length}`];
}

export function sunk(depth: string): Change {
  return ["sunk 8 mm", `sunk ${depth}`];
}

export function compress(amount: string): Change {
  return ["    compress 2 turns\n", `    compress ${amount}\n`];
}

/** The canal's middle reading. */
export function isthmus(width: string, depth: string): Change {
  return [
    "canal at 205 mm, width 12.4 mm ± 0.3 mm on ap, depth 12.2 mm ± 0.3 mm on lateral",
    `canal at 205 mm, width ${width}, depth ${depth}`,
  ];
}

/** One more line in the protocol. */
export function protocol(line: string): Change {
  return ["  grade cap-missing warning\n", `  grade cap-missing warning\n  ${line}\n`];
}

export function gap(amount: string): Change {
  return ["gap 3 mm ± 1 mm", `gap ${amount}`];
}

export function cap(extension: string): Change {
  return ["    cap 5 mm\n", `    cap ${extension}\n`];
}

export function achieved(...lines: readonly string[]): Change {
  return ["  aftercare {\n", `  achieved {\n    ${lines.join("\n    ")}\n  }\n\n  aftercare {\n`];
}

/** The catalogue as if it could not be read. */
export const noCatalogue: Change = ['  use "catalogue/fenwick.isthmus"\n', ""];

export const lines = {
  wire: "    wire ball-tip\n",
  enter: "    enter infrapatellar, from-midline 8 mm lateral\n",
  nail: "    nail fenwick, diameter 10 mm, length 345 mm, sunk 8 mm\n",
  check: "    check ap, lateral\n",
  finalCheck: "    check ap, lateral, rotation\n",
  d2: "    lock D2, drilled 31 mm, screw 32 mm\n",
  d1: "    lock D1, drilled 33 mm, screw 34 mm\n",
  p2: "    lock P2, drilled 53 mm, screw 54 mm\n",
  p1: "    lock P1, drilled 51 mm, screw 52 mm\n",
  compress: "    compress 2 turns\n",
  cap: "    cap 5 mm\n",
} as const;

/** Takes a line of the operation from its place and puts it before another. */
export function moved(line: keyof typeof lines, before: keyof typeof lines): readonly Change[] {
  return [
    [lines[line], ""],
    [lines[before], lines[line] + lines[before]],
  ];
}

export function without(line: keyof typeof lines): Change {
  return [lines[line], ""];
}
