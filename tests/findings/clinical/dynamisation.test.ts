/** Dynamisation: when, whether anything is set free, and of which pattern; and weight on a pattern that does not hold its length. */
import { describe, expect, test } from "vitest";
import { compress, gap, lines, noCatalogue, protocol, sunk } from "./changes.ts";
import { type Change, checkTable, mended, titlesOf } from "./table.ts";

const dynamise = (text: string): Change => ["    review at 2 weeks", `    dynamise ${text}\n    review at 2 weeks`];
const code = (text: string): Change => ["fracture 42A2", `fracture ${text}`];

describe("the time", () => {
  checkTable("dynamise-early", [
    { what: "none planned", change: [], is: "clear" },
    { what: "7 weeks", change: [dynamise("at 7 weeks, remove P1")], is: "clear" },
    { what: "6 weeks, the limit itself", change: [dynamise("at 6 weeks, remove P1")], is: "clear" },
    {
      what: "41 days",
      change: [dynamise("at 41 days, remove P1")],
      is: "information",
      at: "41 days",
      says: /earlier than 6 weeks\.$/,
    },
    {
      what: "5 weeks",
      change: [dynamise("at 5 weeks, remove P1")],
      is: "information",
      says: "The nail is dynamised at 5 weeks, earlier than 6 weeks.",
    },
    {
      what: "6 weeks ± 1 weeks",
      change: [dynamise("at 6 weeks ± 1 weeks, remove P1")],
      is: "information",
      says: / may .*\(probability 50 %\)\.$/,
    },
    {
      what: "7 weeks where 8 weeks are wanted",
      change: [dynamise("at 7 weeks, remove P1"), protocol("limit dynamise-from at-least 8 weeks")],
      is: "information",
    },
  ]);

  test("can be put off to the limit", () => {
    expect(titlesOf("dynamise-early", dynamise("at 5 weeks, remove P1"))).toEqual(["dynamise at 5 weeks → 6 weeks"]);
  });
});

describe("what is set free", () => {
  const room: readonly Change[] = [gap("9 mm"), sunk("14 mm")];
  checkTable("dynamise-impossible", [
    { what: "none planned", change: [], is: "clear" },
    { what: "the fixed screw of the slotted end out", change: [dynamise("at 10 weeks, remove P1")], is: "clear" },
    {
      what: "the slot's own screw out",
      change: [dynamise("at 10 weeks, remove P2")],
      is: "error",
      at: "dynamise at 10 weeks, remove P2",
      says: "none is left in one",
    },
    {
      what: "the far screws out",
      change: [dynamise("at 10 weeks, remove D1, D2")],
      is: "error",
      says: "P1 still holds the end with the slot",
    },
    {
      what: "5.9 mm of the slot used",
      change: [...room, compress("5.9 mm"), dynamise("at 10 weeks, remove P1")],
      is: "clear",
    },
    {
      what: "all 6 mm of the slot used",
      change: [...room, compress("6 mm"), dynamise("at 10 weeks, remove P1")],
      is: "error",
      says: "Compression uses up the slot: no travel is left for dynamisation.",
    },
    {
      what: "6.25 mm of the 6 mm slot used",
      change: [...room, compress("5 turns"), dynamise("at 10 weeks, remove P1")],
      is: "error",
      besides: ["compression-beyond-travel"],
    },
    {
      what: "6 mm ± 0.4 mm of the slot used",
      change: [...room, compress("6 mm ± 0.4 mm"), dynamise("at 10 weeks, remove P1")],
      is: "warning",
      says: / may .*\(probability 50 %\)\.$/,
      besides: ["compression-beyond-travel"],
    },
    {
      what: "a hole that is not listed",
      change: [dynamise("at 10 weeks, remove P7")],
      is: "cannot tell",
      besides: ["hole-unknown"],
    },
    { what: "no catalogue", change: [noCatalogue, dynamise("at 10 weeks, remove P1")], is: "cannot tell" },
  ]);

  test("is mended by taking out the fixed screws of the slotted end", () => {
    for (const wrong of ["P2", "D1, D2"]) {
      const again = mended("dynamise-impossible", [dynamise(`at 10 weeks, remove ${wrong}`)]);
      expect(again.text).toContain("dynamise at 10 weeks, remove P1\n");
    }
  });

  test("has no fix where no screw stands in a slot", () => {
    const change: readonly Change[] = [
      [lines.p2, ""],
      [lines.compress, ""],
      ["take D1, D2, P2", "take D1, D2"],
      dynamise("at 10 weeks, remove D1"),
    ];
    expect(titlesOf("dynamise-impossible", ...change)).toEqual([]);
  });
});

describe("the pattern", () => {
  checkTable("dynamise-unstable", [
    { what: "none planned", change: [code("42B3")], is: "clear" },
    { what: "an oblique fracture", change: [dynamise("at 10 weeks, remove P1")], is: "clear" },
    { what: "an intact wedge", change: [code("42B2"), dynamise("at 10 weeks, remove P1")], is: "clear" },
    {
      what: "a fragmentary wedge",
      change: [code("42B3"), dynamise("at 10 weeks, remove P1")],
      is: "warning",
      at: "dynamise at 10 weeks, remove P1",
      says: "a fragmentary wedge shorten",
    },
    {
      what: "a segmental fracture",
      change: [code("42C2"), dynamise("at 10 weeks, remove P1")],
      is: "warning",
      says: "a multifragmentary fracture shorten",
    },
  ]);

  const bearing = (how: string): Change => ["weight-bearing partial 20 kg", `weight-bearing ${how}`];
  checkTable("bearing-unstable", [
    { what: "an oblique fracture, as tolerated", change: [bearing("tolerated")], is: "clear" },
    { what: "an intact wedge, as tolerated", change: [code("42B2"), bearing("tolerated")], is: "clear" },
    { what: "a fragmentary wedge, partial", change: [code("42B3")], is: "clear" },
    {
      what: "a fragmentary wedge, as tolerated",
      change: [code("42B3"), bearing("tolerated")],
      is: "warning",
      at: "tolerated",
      says: "Weight as tolerated from the start",
    },
    {
      what: "a multifragmentary fracture, as tolerated only later",
      change: [code("42C2"), ["until 6 weeks\n", "until 6 weeks\n    weight-bearing tolerated, until 12 weeks\n"]],
      is: "clear",
    },
  ]);
});
