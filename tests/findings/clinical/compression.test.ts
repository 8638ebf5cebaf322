/** Compression and the order of locking: travel, gap, what must hold the nail before and after. */
import { describe, expect, test } from "vitest";
import { achieved, cap, compress, gap, lines, moved, noCatalogue, protocol, sunk, without } from "./changes.ts";
import { type Change, checkTable, mended, titlesOf } from "./table.ts";

/** Room for more compression than the sample has. */
const room: readonly Change[] = [gap("9 mm"), sunk("12 mm")];

describe("the amount", () => {
  checkTable("compression-beyond-travel", [
    { what: "2.5 mm of 6 mm", change: [], is: "clear" },
    { what: "6 mm of 6 mm, the limit itself", change: [...room, compress("6 mm")], is: "clear" },
    {
      what: "6.25 mm of 6 mm",
      change: [...room, compress("5 turns")],
      is: "error",
      at: "compress 5 turns",
      says: "The compression is 6.25 mm; the travel is 6 mm.",
    },
    {
      what: "6 mm ± 0.2 mm of 6 mm",
      change: [...room, compress("6 mm ± 0.2 mm")],
      is: "warning",
      says: / may .*\(probability 50 %\)\.$/,
    },
    {
      what: "5 mm where the department allows 4 mm",
      change: [...room, compress("4 turns"), protocol("limit compression up-to 4 mm")],
      is: "warning",
      says: "is 5 mm; the limit is 4 mm",
    },
    {
      what: "4 mm where the department allows 4 mm",
      change: [...room, compress("4 mm"), protocol("limit compression up-to 4 mm")],
      is: "clear",
    },
    {
      what: "a nail without a compression screw",
      change: [["    compression travel 6 mm, pitch 1.25 mm\n", ""]],
      is: "error",
      says: "lists no compression for nail fenwick",
    },
    { what: "no compression", change: [without("compress")], is: "clear" },
    { what: "no catalogue", change: [noCatalogue], is: "cannot tell" },
  ]);

  test("is turned down in quarters of a turn, or in tenths of a millimetre", () => {
    expect(titlesOf("compression-beyond-travel", ...room, compress("5 turns"))).toEqual([
      "compress 5 turns → 4.75 turns: 5.94 mm of 6 mm travel",
    ]);
    expect(titlesOf("compression-beyond-travel", ...room, compress("6.4 mm"))).toEqual([
      "compress 6.4 mm → 6 mm: 6 mm of 6 mm travel",
    ]);
    const limited = protocol("limit compression up-to 4 mm");
    expect(titlesOf("compression-beyond-travel", ...room, compress("4 turns"), limited)).toEqual([
      "compress 4 turns → 3 turns: 3.75 mm of 4 mm travel",
    ]);
  });

  checkTable("compression-past-gap", [
    { what: "1.5 mm left", change: [gap("4 mm")], is: "clear" },
    { what: "just closed, the limit itself", change: [gap("2.5 mm")], is: "clear" },
    {
      what: "0.5 mm past",
      change: [gap("2 mm")],
      is: "warning",
      at: "compress 2 turns",
      says: "goes 0.5 mm past the closed gap and shortens the bone",
    },
    {
      what: "0.5 mm ± 1.0 mm left",
      change: [],
      is: "information",
      says: /the gap left is 0\.5 mm ± 1\.0 mm \(probability 16 %\)/,
    },
    { what: "0 mm ± 1.0 mm left", change: [gap("2.5 mm ± 1 mm")], is: "information", says: /probability 50 %/ },
    { what: "no compression", change: [without("compress"), gap("0 mm")], is: "clear" },
    { what: "no gap given", change: [[", gap 3 mm ± 1 mm", ""]], is: "cannot tell" },
  ]);

  test("is turned down until it surely stays within the gap", () => {
    expect(titlesOf("compression-past-gap", gap("2 mm"))).toEqual([
      "compress 2 turns → 1.5 turns: 1.88 mm into a gap of 2 mm",
    ]);
    expect(titlesOf("compression-past-gap", gap("0.2 mm"))).toEqual([]);
    expect(titlesOf("compression-past-gap", gap("2 mm ± 1 mm"))).toEqual([
      "compress 2 turns → 0.75 turns: 0.94 mm into a gap of 2.0 mm ± 1.0 mm",
    ]);
  });
});

describe("what holds the nail", () => {
  const noFixed: Change = ["take P1\n", 'step "Look for the thread."\n'];

  checkTable("compression-unprepared", [
    { what: "far end and slot before, fixed screw after", change: [], is: "clear" },
    {
      what: "the fixed screw before",
      change: moved("p1", "compress"),
      is: "error",
      at: "lock",
      says: "The fixed screw P1 goes in before the compression; it comes after, because a fixed screw",
    },
    {
      what: "the slot screw after",
      change: moved("p2", "p1"),
      is: "error",
      at: "compress",
      says: "The slot screw P2 goes in after the compression",
    },
    {
      what: "no slot screw",
      change: [without("p2"), ["take D1, D2, P2", "take D1, D2"]],
      is: "error",
      says: "No screw stands in a slot",
      besides: ["screws-few"],
    },
    {
      what: "no slot in the nail",
      change: [["slot 6 mm, ", ""]],
      is: "error",
      besides: ["catalogue-faulty"],
      says: "no slot at its driving end",
    },
    {
      what: "no far screw",
      change: [without("d1"), without("d2"), ["take D1, D2, P2", "take P2"]],
      is: "error",
      at: "compress",
      says: "Nothing locks the far end",
      besides: ["screws-few"],
    },
    {
      what: "everything too late is one mistake",
      change: moved("compress", "d2"),
      is: "clear",
      besides: ["locking-order"],
    },
    { what: "no compression", change: [without("compress")], is: "clear" },
    { what: "no catalogue", change: [noCatalogue], is: "cannot tell" },
    {
      what: "a hole that is not known",
      change: [
        ["    lock D1, drilled", "    lock D7, drilled"],
        ["take D1, D2, P2", "take D2, P2"],
      ],
      is: "cannot tell",
      besides: ["hole-unknown"],
    },
  ]);

  test("the screws are moved about the compression", () => {
    expect(mended("compression-unprepared", moved("p1", "compress")).text).toContain(
      lines.p2 + lines.compress + lines.p1,
    );
    expect(mended("compression-unprepared", moved("p2", "p1")).text).toContain(
      lines.d1 + lines.p2 + lines.compress + lines.p1,
    );
  });

  checkTable("compression-unheld", [
    { what: "a fixed screw after", change: [], is: "clear" },
    { what: "none", change: [without("p1"), noFixed], is: "warning", at: "compress", besides: ["screws-few"] },
    { what: "a fixed screw before", change: moved("p1", "compress"), is: "clear", besides: ["compression-unprepared"] },
    { what: "no compression", change: [without("compress")], is: "clear" },
    { what: "no catalogue", change: [noCatalogue], is: "cannot tell" },
  ]);
});

describe("the order of locking", () => {
  const farAfter: readonly Change[] = [
    [lines.d2 + lines.d1, ""],
    [lines.p1, lines.d2 + lines.d1 + lines.p1],
  ];
  const backslap: readonly Change[] = [[lines.compress, "    backslap 3 mm\n"]];

  checkTable("locking-order", [
    { what: "far end first", change: [], is: "clear" },
    { what: "one of two far screws first", change: moved("d1", "p1"), is: "clear" },
    {
      what: "far end after compression",
      change: farAfter,
      is: "error",
      at: "compress",
      says: "D2 and D1 must go in before it",
    },
    {
      what: "far end after backslap",
      change: [...farAfter, ...backslap],
      is: "error",
      at: "backslap",
      says: "only after the backslap",
    },
    {
      what: "no far screw before a backslap",
      change: [...backslap, without("d1"), without("d2"), ["take D1, D2, P2", "take P2"]],
      is: "error",
      at: "backslap",
      says: "Nothing locks the far end",
      besides: ["screws-few"],
    },
    {
      what: "no far screw before a compression",
      change: [without("d1"), without("d2"), ["take D1, D2, P2", "take P2"]],
      is: "clear",
      besides: ["compression-unprepared", "screws-few"],
    },
    { what: "nothing draws on it", change: [...farAfter, without("compress")], is: "clear" },
    { what: "no catalogue", change: [noCatalogue], is: "cannot tell" },
  ]);

  test("the far screws are moved before it, as typed", () => {
    const again = mended("locking-order", farAfter);
    expect(again.text).toContain(lines.check + lines.p2 + lines.d2 + lines.d1 + lines.compress + lines.p1);
  });

  test("with the slot screw late too, the compression is moved behind them all", () => {
    const again = mended("locking-order", moved("compress", "d2"));
    expect(again.text).toContain(lines.d2 + lines.d1 + lines.p2 + lines.compress + lines.p1);
    expect(again.judgement.findings.map((each) => each.slug)).toEqual(["compression-past-gap"]);
  });
});

test("what was achieved is not mistaken for what is planned", () => {
  const analysis = mended("cap-proud", [cap("10 mm"), achieved("alignment short 1 mm")]);
  expect(analysis.text).toContain("    cap 5 mm\n");
});
