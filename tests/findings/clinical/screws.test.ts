/** Holes, screws and fragments, each limit from below, at it, above it and straddled by the uncertainty of what was read. */
import { describe, expect, test } from "vitest";
import { changed, findingsOf } from "../judged.ts";
import { lines, noCatalogue, noFallback, protocol, without } from "./changes.ts";
import { type Change, checkTable, mended, titlesOf } from "./table.ts";

const d2 = (text: string): Change => ["lock D2, drilled 31 mm, screw 32 mm", `lock D2, ${text}`];

describe("the hole", () => {
  checkTable("hole-unknown", [
    { what: "all known", change: [], is: "clear" },
    {
      what: "locked",
      change: [
        ["    lock D1, drilled", "    lock D7, drilled"],
        ["take D1, D2, P2", "take D2, P2"],
      ],
      is: "error",
      at: "D7",
    },
    {
      what: "locked and taken out: one mistake",
      change: [
        ["    lock D1, drilled", "    lock D7, drilled"],
        ["take D1, D2, P2", "take D7, D2, P2"],
      ],
      is: "error",
      at: "D7",
    },
    { what: "taken out only", change: [["take D1, D2, P2", "take D1, D2, P2, P8"]], is: "error", at: "P8" },
    {
      what: "dynamised",
      change: [["    review at 2", "    dynamise at 10 weeks, remove P7\n    review at 2"]],
      is: "error",
      at: "P7",
    },
    { what: "no catalogue", change: [noCatalogue], is: "cannot tell" },
  ]);

  test("the nearest name and the holes without a screw are offered", () => {
    expect(titlesOf("hole-unknown", ["    lock D1, drilled", "    lock D11, drilled"])).toContain("hole D11 → D1");
  });

  checkTable("hole-repeated", [
    { what: "each once", change: [], is: "clear" },
    { what: "one twice", change: [["    cap 5 mm\n", `${lines.d2}    cap 5 mm\n`]], is: "error", at: "D2" },
    {
      what: "one three times",
      change: [["    cap 5 mm\n", `${lines.d2}${lines.d2}    cap 5 mm\n`]],
      is: "error",
      at: "D2",
      count: 2,
    },
  ]);

  const middle = (top: string, at = "0"): readonly Change[] => [
    ["    hole D2, tip 26 mm", `    hole M1, top ${top}, runs medial-lateral, takes peg\n    hole D2, tip 26 mm`],
    ["    cap 5 mm\n", "    lock M1, drilled 23 mm, screw 24 mm\n    cap 5 mm\n"],
    ["take D1, D2, P2", "take D1, D2, P2, M1"],
    ["from 208 mm on ap to 232 mm on ap", `from 180 mm to 200 mm${at === "0" ? "" : ` ± ${at}`}`],
  ];

  checkTable("screw-in-fracture", [
    { what: "12 mm outside", change: middle("204 mm"), is: "clear" },
    { what: "on the edge", change: middle("192 mm"), is: "clear", besides: ["screw-near-fracture"] },
    { what: "1 mm inside", change: middle("191 mm"), is: "error", at: "M1", says: "lies 1 mm inside the fracture" },
    {
      what: "on an edge known to 2 mm",
      change: middle("192 mm", "2 mm"),
      is: "warning",
      says: / may .*\(probability 50 %\)\.$/,
    },
    { what: "no catalogue", change: [noCatalogue], is: "cannot tell" },
  ]);

  checkTable("screw-near-fracture", [
    { what: "12 mm away", change: middle("204 mm"), is: "clear" },
    { what: "10 mm away, the limit itself", change: middle("202 mm"), is: "clear" },
    {
      what: "9 mm away",
      change: middle("201 mm"),
      is: "warning",
      at: "M1",
      says: "lies 9 mm from the fracture; at least 10 mm",
    },
    {
      what: "10 mm ± 2 mm away",
      change: middle("202 mm", "2 mm"),
      is: "information",
      says: / may .*\(probability 50 %\)\.$/,
    },
    { what: "inside it", change: middle("190 mm"), is: "clear", besides: ["screw-in-fracture"] },
    {
      what: "9 mm away where 8 mm are enough",
      change: [...middle("201 mm"), protocol("limit hole-to-fracture at-least 8 mm")],
      is: "clear",
    },
  ]);
});

describe("the screw", () => {
  checkTable("screw-overlength", [
    { what: "1 mm past", change: [], is: "clear" },
    { what: "2 mm past, the limit itself", change: [d2("drilled 30 mm, screw 32 mm")], is: "clear" },
    {
      what: "2.5 mm past",
      change: [d2("drilled 29.5 mm, screw 32 mm")],
      is: "warning",
      at: "32 mm",
      says: "The screw in D2 stands 2.5 mm past the far cortex; the limit is 2 mm.",
    },
    {
      what: "2 mm ± 1 mm past",
      change: [d2("drilled 30 mm ± 1 mm, screw 32 mm")],
      is: "information",
      says: / may .*\(probability 50 %\)\.$/,
    },
    { what: "held in the near cortex alone", change: [d2("drilled 35 mm, screw 32 mm, grip near")], is: "clear" },
    {
      what: "a length that is not listed",
      change: [d2("drilled 31 mm, screw 39 mm")],
      is: "cannot tell",
      besides: ["screw-unlisted"],
    },
  ]);

  checkTable("screw-short", [
    { what: "1 mm past", change: [], is: "clear" },
    { what: "at the cortex itself", change: [d2("drilled 32 mm, screw 32 mm")], is: "clear" },
    {
      what: "0.5 mm short",
      change: [d2("drilled 32.5 mm, screw 32 mm")],
      is: "warning",
      at: "32 mm",
      says: "ends 0.5 mm short of the far cortex",
    },
    {
      what: "0 mm ± 1 mm",
      change: [d2("drilled 32 mm ± 1 mm, screw 32 mm")],
      is: "information",
      says: / may .*\(probability 50 %\)\.$/,
    },
    {
      what: "1 mm past where 1.5 mm are asked",
      change: [["limit tip-beyond-cortex 0 mm to 2 mm", "limit tip-beyond-cortex 1.5 mm to 4 mm"]],
      is: "warning",
      count: 4,
      says: "stands 1 mm past the far cortex; at least 1.5 mm is wanted",
    },
    { what: "held in the near cortex alone", change: [d2("drilled 35 mm, screw 32 mm, grip near")], is: "clear" },
  ]);

  test("a length that is wrong becomes the one that suits the drilled depth", () => {
    expect(titlesOf("screw-overlength", d2("drilled 37 mm, screw 40 mm"))).toEqual([
      "screw 40 mm → 38 mm: tip 1 mm past the cortex",
    ]);
    expect(titlesOf("screw-short", d2("drilled 34 mm, screw 30 mm"))).toEqual([
      "screw 30 mm → 34 mm: tip 0 mm past the cortex",
    ]);
    expect(titlesOf("screw-overlength", d2("drilled 61 mm, screw 70 mm"))).toEqual([]);
  });

  checkTable("screw-perforates", [
    { what: "3 mm short", change: [d2("drilled 35 mm, screw 32 mm, grip near")], is: "clear" },
    { what: "as long as drilled", change: [d2("drilled 32 mm, screw 32 mm, grip near")], is: "clear" },
    {
      what: "1 mm longer",
      change: [d2("drilled 31 mm, screw 32 mm, grip near")],
      is: "warning",
      at: "32 mm",
      says: "is 1 mm longer than the drilled depth",
    },
    {
      what: "0 mm ± 1 mm",
      change: [d2("drilled 32 mm ± 1 mm, screw 32 mm, grip near")],
      is: "information",
      says: / may .*\(probability 50 %\)\.$/,
    },
    { what: "held in both", change: [], is: "clear" },
  ]);

  const studs = (lengths: string): Change => [
    "  screws peg {",
    `  screws stud {\n    thread 5 mm\n    ${lengths}\n  }\n\n  screws peg {`,
  ];

  checkTable("screw-unlisted", [
    { what: "listed", change: [], is: "clear" },
    {
      what: "between two lengths",
      change: [d2("drilled 31 mm, screw 33 mm")],
      is: "error",
      at: "33 mm",
      says: "lists no length 33 mm of peg",
    },
    { what: "a family nobody lists", change: [d2("drilled 31 mm, screw dowel 32 mm")], is: "error", at: "dowel" },
    { what: "no catalogue", change: [noCatalogue], is: "cannot tell" },
  ]);

  test("a length none of the families a hole takes lists is told so", () => {
    const two: readonly Change[] = [
      studs("lengths 25 mm, 35 mm"),
      [
        "hole D2, tip 26 mm, runs medial-lateral, takes peg",
        "hole D2, tip 26 mm, runs medial-lateral, takes peg, stud",
      ],
    ];
    const [found] = findingsOf(changed(...two, d2("drilled 31 mm, screw 33 mm")), "screw-unlisted");
    expect(found?.message).toBe("The catalogue lists no length 33 mm of the screws this hole takes.");
    expect(findingsOf(changed(...two, d2("drilled 34 mm, screw 35 mm")), "screw-unlisted")).toEqual([]);
  });

  test("an unlisted length becomes the best one, else its neighbours are offered", () => {
    expect(titlesOf("screw-unlisted", d2("drilled 31 mm, screw 33 mm"))).toEqual([
      "screw 33 mm → 32 mm: tip 1 mm past the cortex",
    ]);
    expect(titlesOf("screw-unlisted", d2("drilled 61 mm, screw 63 mm"))).toEqual([
      "screw 63 mm → 60 mm, as listed",
      "screw 63 mm → 65 mm, as listed",
    ]);
    expect(titlesOf("screw-unlisted", d2("drilled 31 mm, screw dowel 32 mm"))).toEqual([
      "screw dowel → peg, which hole D2 takes",
    ]);
  });

  checkTable("screw-wrong", [
    { what: "the family the hole takes", change: [d2("drilled 31 mm, screw peg 32 mm")], is: "clear" },
    {
      what: "another family",
      change: [studs("lengths 24 mm to 60 mm by 2 mm"), d2("drilled 31 mm, screw stud 32 mm")],
      is: "error",
      at: "stud",
    },
    {
      what: "a family for this nail",
      change: [["    core 3.9 mm\n", "    core 3.9 mm\n    with diameters 9 mm, 10 mm\n"]],
      is: "clear",
    },
    {
      what: "a family for thicker nails",
      change: [["    core 3.9 mm\n", "    core 3.9 mm\n    with diameters 11 mm, 12 mm\n"]],
      is: "error",
      count: 4,
      says: "Screws peg go with nails of 11 mm and 12 mm, not of 10 mm.",
    },
  ]);
});

describe("the fragments", () => {
  const takenOut: Change = ["take D1, D2, P2", "take D2, P2"];

  checkTable("screws-few", [
    { what: "two in each", change: [], is: "clear" },
    {
      what: "one in the distal",
      change: [without("d1"), takenOut],
      is: "warning",
      at: "lock",
      says: "Screws in the distal fragment: 1; at least 2 are wanted.",
    },
    {
      what: "none in the distal",
      change: [without("d1"), without("d2"), without("compress"), ["take D1, D2, P2", "take P2"]],
      is: "warning",
      at: "nail",
      says: "Screws in the distal fragment: 0",
    },
    {
      what: "two where three are asked",
      change: [protocol("limit screws-per-fragment at-least 3")],
      is: "warning",
      count: 2,
    },
    {
      what: "one where one is enough",
      change: [without("d1"), takenOut, protocol("limit screws-per-fragment at-least 1")],
      is: "clear",
    },
    { what: "no catalogue", change: [noCatalogue], is: "cannot tell" },
  ]);

  const high: readonly Change[] = [
    noFallback,
    ["fracture 42A2, from 208 mm on ap to 232 mm on ap", "fracture 41A2, from 70 mm on ap to 88 mm on ap"],
    ["fits 42A1", "fits 41A2, 42A1"],
  ];
  const third: readonly Change[] = [
    ["    hole P2, top 28 mm", "    hole P3, top 16 mm, runs medial-lateral, takes peg\n    hole P2, top 28 mm"],
    ["    cap 5 mm\n", "    lock P3, drilled 53 mm, screw 54 mm\n    cap 5 mm\n"],
    ["take D1, D2, P2", "take D1, D2, P2, P3"],
  ];

  checkTable("screws-few-short-fragment", [
    { what: "a shaft fracture", change: [], is: "clear" },
    {
      what: "two in a short fragment",
      change: high,
      is: "warning",
      at: "lock",
      says: "Screws in the short proximal fragment: 2; at least 3 are wanted.",
    },
    { what: "three in a short fragment", change: [...high, ...third], is: "clear" },
    {
      what: "the segment not known",
      change: [
        ["    epiphysis proximal 88 mm on ap\n", ""],
        ["    epiphysis distal 58 mm on ap\n", ""],
      ],
      is: "cannot tell",
    },
  ]);
});

test("a fix of a screw leaves the rest of the line as typed", () => {
  const again = mended("screw-overlength", [d2("drilled 37 mm,   screw 40 mm")]);
  expect(again.text).toContain("lock D2, drilled 37 mm,   screw 38 mm\n");
});
