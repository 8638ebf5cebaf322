/**
 * Sentences whose number must not contradict them: what is beyond its limit for sure, what is beyond as it stands but unsure, and what
 * keeps its limit as it stands and may yet be beyond.
 */
import { describe, expect, test } from "vitest";
import { changed, findingsOf } from "../judged.ts";
import { achieved, cap, compress, gap, isthmus, lines, sunk, unreamed } from "./changes.ts";
import type { Change } from "./table.ts";

const scar = (level: string): Change => ["landmark scar 416 mm ± 2 mm on ap", `landmark scar ${level}`];
const d2 = (text: string): Change => ["lock D2, drilled 31 mm, screw 32 mm", `lock D2, ${text}`];
const middle: readonly Change[] = [
  ["    hole D2, tip 26 mm", "    hole M1, top 190 mm, runs medial-lateral, takes peg\n    hole D2, tip 26 mm"],
  [lines.cap, `    lock M1, drilled 23 mm, screw 24 mm\n${lines.cap}`],
  ["take D1, D2, P2", "take D1, D2, P2, M1"],
];
const edge = (level: string): Change => ["from 208 mm on ap to 232 mm on ap", `from 180 mm to ${level}`];
const exactSquares: readonly Change[] = [
  ["epiphysis proximal 88 mm on ap", "epiphysis proximal 76 mm"],
  ["fits 42A1", "fits 41A2, 42A1"],
  ["fracture 42A2, from 208 mm on ap to 232 mm on ap", "fracture 41A2, from 74 mm to CENTRE"],
];

/** For sure, as it stands, not as it stands. */
const sentences: readonly (readonly [slug: string, change: readonly Change[], message: string])[] = [
  ["nail-long", [scar("351 mm")], "The tip lies 2 mm past the physeal scar."],
  ["nail-long", [scar("352 mm ± 2 mm")], "The tip may lie 1.0 mm ± 2.0 mm past the physeal scar (probability 84 %)."],
  [
    "nail-long",
    [scar("354 mm ± 2 mm")],
    "The tip lies 1.0 mm ± 2.0 mm short of the physeal scar and may reach past it (probability 16 %).",
  ],
  ["nail-proud", [sunk("2 mm"), cap("none")], "The driving end stands 0.5 mm proud of the bone after compression."],
  [
    "nail-proud",
    [sunk("2 mm ± 1 mm"), cap("none")],
    "The driving end may stand 0.5 mm ± 1.0 mm proud of the bone after compression (probability 84 %).",
  ],
  [
    "nail-proud",
    [sunk("3 mm ± 1 mm"), cap("none")],
    "The driving end lies 0.5 mm ± 1.0 mm below the bone's surface after compression and may stand proud of it (probability 16 %).",
  ],
  ["cap-proud", [sunk("7 mm")], "The cap stands 0.5 mm proud of the bone."],
  ["cap-proud", [sunk("7 mm ± 1 mm")], "The cap may stand 0.5 mm ± 1.0 mm proud of the bone (probability 84 %)."],
  [
    "cap-proud",
    [sunk("8 mm ± 1 mm")],
    "The cap ends 0.5 mm ± 1.0 mm below the bone's surface and may stand proud of it (probability 16 %).",
  ],
  ["screw-short", [d2("drilled 33 mm, screw 32 mm")], "The screw in D2 ends 1 mm short of the far cortex."],
  [
    "screw-short",
    [d2("drilled 33 mm ± 2 mm, screw 32 mm")],
    "The screw in D2 may end 1.0 mm ± 2.0 mm short of the far cortex (probability 84 %).",
  ],
  [
    "screw-short",
    [d2("drilled 31 mm ± 2 mm, screw 32 mm")],
    "The screw in D2 stands 1.0 mm ± 2.0 mm past the far cortex and may end short of it (probability 16 %).",
  ],
  [
    "screw-perforates",
    [d2("drilled 31 mm, screw 32 mm, grip near")],
    "The screw in D2 grips the near cortex alone, but is 1 mm longer than the drilled depth.",
  ],
  [
    "screw-perforates",
    [d2("drilled 31 mm ± 2 mm, screw 32 mm, grip near")],
    "The screw in D2 grips the near cortex alone, but may be 1.0 mm ± 2.0 mm longer than the drilled depth (probability 84 %).",
  ],
  [
    "screw-perforates",
    [d2("drilled 33 mm ± 2 mm, screw 32 mm, grip near")],
    "The screw in D2 grips the near cortex alone; 1.0 mm ± 2.0 mm shorter than drilled, it may go past the drilled depth (probability 16 %).",
  ],
  ["screw-in-fracture", [...middle, edge("199 mm")], "Hole M1 lies 1 mm inside the fracture."],
  [
    "screw-in-fracture",
    [...middle, edge("199 mm ± 2 mm")],
    "Hole M1 may lie 1.0 mm ± 2.0 mm inside the fracture (probability 84 %).",
  ],
  [
    "screw-in-fracture",
    [...middle, edge("197 mm ± 2 mm")],
    "Hole M1 lies 1.0 mm ± 2.0 mm from the fracture and may lie inside it (probability 16 %).",
  ],
  [
    "compression-past-gap",
    [gap("2 mm")],
    "The compression goes 0.5 mm past the closed gap and shortens the bone by that much.",
  ],
  [
    "compression-past-gap",
    [gap("2 mm ± 1 mm")],
    "The compression may go 0.5 mm ± 1.0 mm past the closed gap and shorten the bone (probability 84 %).",
  ],
  [
    "compression-past-gap",
    [],
    "The compression may go past the closed gap and shorten the bone; the gap left is 0.5 mm ± 1.0 mm (probability 16 %).",
  ],
  [
    "segment-disagrees",
    exactSquares.map(([from, to]) => [from, to.replace("CENTRE", "82 mm")] as const),
    "The code 41A2 is of the proximal tibia; the fracture's centre lies 2 mm below the proximal square.",
  ],
  [
    "segment-disagrees",
    exactSquares.map(([from, to]) => [from, to.replace("CENTRE", "80 mm ± 4 mm")] as const),
    "The code 41A2 is of the proximal tibia; the fracture's centre may lie 1.0 mm ± 2.0 mm below the proximal square (probability 84 %).",
  ],
  [
    "segment-disagrees",
    exactSquares.map(([from, to]) => [from, to.replace("CENTRE", "76 mm ± 4 mm")] as const),
    "The code 41A2 is of the proximal tibia; the fracture's centre lies by the edge and may lie below the proximal square (probability 16 %).",
  ],
  [
    "unreamed-tight",
    [...unreamed(), isthmus("9.9 mm ± 0.2 mm", "12 mm")],
    "The nail is 10 mm wide and goes in unreamed; the isthmus of 9.90 mm ± 0.20 mm may be narrower (probability 84 %).",
  ],
  [
    "compression-beyond-travel",
    [gap("9 mm"), sunk("12 mm"), compress("5.9 mm ± 0.2 mm")],
    "The compression is 5.90 mm ± 0.20 mm, which may pass the travel of 6 mm (probability 16 %).",
  ],
  [
    "compartment-low",
    [["diastolic 72 mmHg", "diastolic 59 mmHg ± 2 mmHg"]],
    "The difference to the diastolic pressure is 31.0 mmHg ± 2.0 mmHg and may lie below 30 mmHg (probability 16 %).",
  ],
  [
    "knee-stiff",
    [["knee 100 deg", "knee 91 deg ± 2 deg"]],
    "The knee is to be bent 91.0 deg ± 2.0 deg on the table, which may be less than the 90 deg the entry wants (probability 16 %).",
  ],
  [
    "entry-off",
    [["from-midline 8 mm lateral", "from-midline 15 mm ± 2 mm lateral"]],
    "The entry lies 15.0 mm ± 2.0 mm lateral of the midline, which may be more than the 14.1 mm lateral wanted (probability 82 %).",
  ],
  [
    "alignment-off",
    [achieved("alignment coronal 4.5 deg ± 1 deg varus")],
    "In the coronal plane there are 4.5 deg ± 1.0 deg of varus, which may pass this plane's limit of 5 deg (probability 16 %).",
  ],
  [
    "fit-ratio",
    [...unreamed(), isthmus("10.12 mm ± 0.1 mm", "12 mm")],
    "The nail fills 0.9881 ± 0.0098 of the canal's width, which may pass the limit of 0.99 (probability 35 %).",
  ],
];

describe("what is shown agrees with what is said", () => {
  test.each(sentences.map((row) => [row[0], row[2], row] as const))("%s: %s", (_, __, [slug, change, message]) => {
    expect(findingsOf(changed(...change), slug).map((each) => each.message)).toEqual([message]);
  });
});
