/** The nail's size and where its ends lie, each limit from below, at it, above it and straddled; the end cap too. */
import { describe, expect, test } from "vitest";
import { cap, compress, gap, nail, nailLength, noCatalogue, noFallback, protocol, sunk, without } from "./changes.ts";
import { type Change, checkTable, mended, titlesOf } from "./table.ts";

const exactScar: Change = ["landmark scar 416 mm ± 2 mm on ap", "landmark scar 353 mm"];
const noScar: Change = ["    landmark scar 416 mm ± 2 mm on ap\n", ""];
const plafond = (level: string): Change => ["landmark plafond 432 mm ± 2 mm on ap", `landmark plafond ${level}`];
const noPlafond: Change = ["    landmark plafond 432 mm ± 2 mm on ap\n", ""];

describe("the length", () => {
  checkTable("nail-long", [
    { what: "8.7 mm short of the scar", change: [], is: "clear" },
    { what: "at the scar itself", change: [exactScar], is: "clear" },
    {
      what: "0.5 mm past the scar",
      change: [["landmark scar 416 mm ± 2 mm on ap", "landmark scar 352.5 mm"]],
      is: "warning",
      at: "345 mm",
      says: "lies 0.5 mm past the physeal scar",
    },
    {
      what: "0 mm ± 3 mm from the scar",
      change: [["landmark scar 416 mm ± 2 mm on ap", "landmark scar 353 mm ± 3 mm"]],
      is: "information",
      says: / may .*\(probability 50 %\)\.$/,
    },
    { what: "5 mm from the joint, the limit itself", change: [noScar, plafond("358 mm")], is: "clear" },
    {
      what: "4 mm from the joint",
      change: [noScar, plafond("357 mm")],
      is: "warning",
      says: "lies 4 mm short of the joint surface; at least 5 mm",
    },
    {
      what: "2 mm into the joint, and past the scar",
      change: [exactScar, plafond("351 mm")],
      is: "error",
      says: "lies 2 mm past the joint surface",
    },
    {
      what: "0 mm ± 2 mm from the joint",
      change: [noScar, plafond("353 mm ± 2 mm")],
      is: "warning",
      says: / may .*\(probability 50 %\)\.$/,
    },
    { what: "neither landmark", change: [noScar, noPlafond], is: "cannot tell" },
  ]);

  test("a nail too long becomes the longest listed one that leaves nothing to be found", () => {
    expect(titlesOf("nail-long", nailLength("375 mm"))).toEqual(["nail 375 mm → 345 mm: tip 8.7 mm short of the scar"]);
    expect(titlesOf("nail-long", noScar, plafond("357 mm"))).toEqual([
      "nail 345 mm → 330 mm: tip 19 mm short of the joint surface",
    ]);
  });

  checkTable("nail-short", [
    { what: "the longest that fits", change: [], is: "clear" },
    { what: "one step shorter, with compression", change: [nailLength("330 mm")], is: "clear" },
    {
      what: "two steps shorter",
      change: [nailLength("315 mm")],
      is: "information",
      at: "315 mm",
      says: "A nail of 345 mm fits too",
    },
    {
      what: "one step shorter, and not sure that the longer one fits",
      change: [nailLength("330 mm"), without("compress"), sunk("16 mm")],
      is: "clear",
      besides: ["nail-deep"],
    },
    {
      what: "one step shorter, without compression or dynamisation",
      change: [nailLength("330 mm"), without("compress")],
      is: "information",
    },
    {
      what: "40 mm past the fracture, the limit itself",
      change: [nailLength("330 mm"), ["from 208 mm on ap to 232 mm on ap", "from 250 mm to 298 mm"]],
      is: "clear",
      besides: ["fatigue-distance"],
    },
    {
      what: "39 mm past the fracture",
      change: [nailLength("330 mm"), ["from 208 mm on ap to 232 mm on ap", "from 250 mm to 299 mm"]],
      is: "warning",
      besides: ["fatigue-distance"],
      says: "passes the fracture by 39 mm only; at least 40 mm",
    },
    {
      what: "40 mm ± 2 mm past the fracture",
      change: [nailLength("330 mm"), ["from 208 mm on ap to 232 mm on ap", "from 250 mm to 298 mm ± 2 mm"]],
      is: "information",
      besides: ["fatigue-distance"],
      says: / may .*\(probability 50 %\)\.$/,
    },
  ]);

  checkTable("nail-unlisted", [
    { what: "listed", change: [], is: "clear" },
    { what: "a length between two", change: [nailLength("350 mm")], is: "error", at: "350 mm" },
    { what: "a diameter between two", change: [nail("10.5 mm"), noFallback], is: "error", at: "10.5 mm" },
    {
      what: "a name near a listed one",
      change: [["    nail fenwick, diameter", "    nail fenwik, diameter"]],
      is: "error",
      at: "fenwik",
    },
    { what: "no catalogue", change: [noCatalogue], is: "cannot tell" },
  ]);

  test("the nearest name and the sizes on either side are offered", () => {
    expect(titlesOf("nail-unlisted", ["    nail fenwick, diameter", "    nail fenwik, diameter"])).toEqual([
      "nail fenwik → fenwick",
    ]);
    expect(titlesOf("nail-unlisted", nailLength("425 mm"))).toEqual(["length 425 mm → 420 mm, as listed"]);
    expect(titlesOf("nail-unlisted", nail("10.5 mm"), noFallback)).toEqual([
      "diameter 10.5 mm → 10 mm, as listed",
      "diameter 10.5 mm → 11 mm, as listed",
    ]);
  });
});

describe("the driving end", () => {
  const backslap = (amount: string): Change => [
    "    compress 2 turns\n",
    `    backslap ${amount}\n    compress 2 turns\n`,
  ];

  checkTable("nail-proud", [
    { what: "5.5 mm below", change: [], is: "clear" },
    { what: "0 mm, the limit itself", change: [backslap("5.5 mm"), cap("0 mm")], is: "clear" },
    {
      what: "0.5 mm proud after both",
      change: [backslap("6 mm")],
      is: "error",
      at: "8 mm",
      says: "0.5 mm proud of the bone after backslap and compression",
    },
    {
      what: "2 mm proud after compression",
      change: [sunk("0.5 mm")],
      is: "error",
      says: "2 mm proud of the bone after compression",
    },
    {
      what: "proud as it goes in",
      change: [sunk("0 mm - 1 mm")],
      is: "error",
      says: "stands 1 mm proud of the bone.",
    },
    {
      what: "0 mm ± 1 mm",
      change: [backslap("5.5 mm ± 1 mm"), cap("0 mm")],
      is: "warning",
      says: / may .*\(probability 50 %\)\.$/,
      besides: ["cap-proud"],
    },
    {
      what: "a department that asks for 6 mm",
      change: [protocol("limit top-below-bone 6 mm to 15 mm")],
      is: "warning",
      says: "lies 5.5 mm below the bone's surface after compression; at least 6 mm",
    },
    {
      what: "a department that asks for 5.5 mm",
      change: [protocol("limit top-below-bone 5.5 mm to 15 mm")],
      is: "clear",
    },
  ]);

  test("is sunk by whole millimetres until the cap is below the bone too", () => {
    expect(titlesOf("nail-proud", backslap("6 mm"))).toEqual(["sunk 8 mm → 14 mm: 6 mm deeper"]);
    expect(mended("nail-proud", [backslap("6 mm")]).text).toContain("sunk 14 mm\n");
  });

  const dynamise: Change = ["    review at 2", "    dynamise at 10 weeks, remove P1\n    review at 2"];

  checkTable("overinsertion-short", [
    { what: "nothing is dynamised", change: [], is: "clear" },
    { what: "8 mm for 6 mm", change: [dynamise], is: "clear" },
    { what: "6 mm for 6 mm, the limit itself", change: [dynamise, sunk("6 mm"), cap("0 mm")], is: "clear" },
    {
      what: "5 mm for 6 mm",
      change: [dynamise, sunk("5 mm"), cap("0 mm")],
      is: "warning",
      at: "5 mm",
      says: "sunk 5 mm, but it will be drawn back 6 mm",
    },
    {
      what: "6 mm ± 1 mm for 6 mm",
      change: [dynamise, sunk("6 mm ± 1 mm"), cap("0 mm")],
      is: "information",
      says: /drawn back 6 mm in all, which may be more \(probability 50 %\)\.$/,
    },
    {
      what: "proud at the end of the operation already",
      change: [dynamise, sunk("2 mm"), cap("0 mm")],
      is: "clear",
      besides: ["nail-proud"],
    },
  ]);

  const shallow: readonly Change[] = [nailLength("330 mm")];

  checkTable("nail-deep", [
    { what: "5.5 mm", change: [], is: "clear" },
    { what: "15 mm, the limit itself", change: [...shallow, sunk("17.5 mm")], is: "clear" },
    {
      what: "15.5 mm",
      change: [...shallow, sunk("18 mm")],
      is: "warning",
      at: "18 mm",
      says: "lies 15.5 mm below the bone's surface after compression; the limit is 15 mm",
    },
    {
      what: "16 mm, nothing draws it back",
      change: [...shallow, sunk("16 mm"), without("compress")],
      is: "warning",
      says: "lies 16 mm below the bone's surface; the limit is 15 mm",
    },
    {
      what: "15 mm ± 1 mm",
      change: [...shallow, sunk("17.5 mm ± 1 mm")],
      is: "information",
      says: / may .*\(probability 50 %\)\.$/,
    },
  ]);

  test("a deep nail is raised by whole millimetres", () => {
    expect(titlesOf("nail-deep", ...shallow, sunk("18.2 mm"))).toEqual(["sunk 18.2 mm → 17.2 mm: 1 mm less deep"]);
  });
});

describe("the knee joint", () => {
  // 5.5 mm below the entry's surface once compression has drawn it back.
  const joint = (level: string): Change => [
    "    landmark plafond",
    `    landmark knee-joint ${level}\n    landmark plafond`,
  ];

  checkTable("nail-near-joint", [
    { what: "not given", change: [], is: "clear" },
    { what: "6.5 mm", change: [joint("-1 mm")], is: "clear" },
    {
      what: "6 mm, the limit itself",
      change: [joint("-0.5 mm")],
      is: "information",
      at: "8 mm",
      says: "ends up 6 mm below the knee joint; at least 6 mm is wanted",
    },
    { what: "4.5 mm", change: [joint("1 mm")], is: "information", says: "4.5 mm below the knee joint" },
    {
      what: "6 mm ± 1 mm",
      change: [joint("-0.5 mm ± 1 mm")],
      is: "information",
      says: / may .*\(probability 50 %\)\.$/,
    },
    {
      what: "another bone",
      change: [joint("1 mm"), ["bone tibia", "bone femur"]],
      is: "clear",
      besides: ["nail-unfit", "segment-disagrees"],
    },
    { what: "a level that cannot be read", change: [joint("1 deg")], is: "cannot tell", besides: ["unit-mismatch"] },
  ]);
});

describe("the end cap", () => {
  checkTable("cap-proud", [
    { what: "0.5 mm below", change: [], is: "clear" },
    { what: "flush, the limit itself", change: [cap("5 mm"), sunk("7.5 mm")], is: "clear" },
    {
      what: "0.5 mm proud",
      change: [sunk("7 mm")],
      is: "error",
      at: "5 mm",
      says: "The cap stands 0.5 mm proud of the bone.",
    },
    { what: "0 mm ± 1 mm", change: [sunk("7.5 mm ± 1 mm")], is: "warning", says: / may .*\(probability 50 %\)\.$/ },
    { what: "no cap", change: [cap("none")], is: "clear", besides: ["cap-missing"] },
    { what: "the nail itself proud", change: [sunk("2 mm")], is: "cannot tell", besides: ["nail-proud"] },
  ]);

  test("a proud cap becomes the longest listed one that is not", () => {
    expect(titlesOf("cap-proud", cap("15 mm"))).toEqual(["cap 15 mm → 5 mm: top 0.5 mm below the bone"]);
    expect(titlesOf("cap-proud", cap("10 mm"), compress("4 turns"), gap("8 mm"))).toEqual([
      "cap 10 mm → 0 mm: top 3 mm below the bone",
    ]);
  });

  checkTable("cap-unlisted", [
    { what: "listed", change: [], is: "clear" },
    { what: "none", change: [cap("none")], is: "clear", besides: ["cap-missing"] },
    { what: "between two", change: [cap("4 mm")], is: "error", at: "4 mm" },
    { what: "no catalogue", change: [noCatalogue], is: "cannot tell" },
  ]);

  test("only caps that are not proud are offered", () => {
    expect(titlesOf("cap-unlisted", cap("5.2 mm"))).toEqual(["cap 5.2 mm → 5 mm, as listed"]);
  });

  checkTable("cap-missing", [
    { what: "a cap", change: [], is: "clear" },
    { what: "none planned, a warning in this department", change: [without("cap")], is: "warning", at: "nail" },
    { what: "none on purpose", change: [cap("none")], is: "warning", at: "cap none" },
    {
      what: "none planned, where no department says otherwise",
      change: [without("cap"), ["  grade cap-missing warning\n", ""]],
      is: "information",
    },
  ]);

  test("the cap goes behind the last step at the driving end", () => {
    expect(mended("cap-missing", [without("cap")]).text).toContain(
      "screw 52 mm\n    cap 5 mm\n    check ap, lateral, rotation\n",
    );
    expect(mended("cap-missing", [cap("none")]).text).toContain("    cap 5 mm\n");
  });
});
