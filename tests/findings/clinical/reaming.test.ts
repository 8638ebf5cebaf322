/** Reaming, wire and canal: each limit from below, at it, above it and straddled by the uncertainty of what was read. */
import { describe, expect, test } from "vitest";
import { changed, findingsOf } from "../judged.ts";
import { isthmus, lines, nail, noCatalogue, noFallback, protocol, reamed, unreamed, without } from "./changes.ts";
import { applied, checkTable, mended, titlesOf } from "./table.ts";

describe("the last head over the nail", () => {
  checkTable("reaming-overshoot", [
    { what: "1 mm over", change: reamed("8.5 mm to 11 mm by 0.5 mm"), is: "clear" },
    { what: "1.5 mm over, the limit itself", change: reamed("8.5 mm to 11.5 mm by 0.5 mm"), is: "clear" },
    {
      what: "2 mm over",
      change: reamed("8.5 mm to 12 mm by 0.5 mm"),
      is: "warning",
      at: "8.5 mm to 12 mm by 0.5 mm",
      says: "The last head is 2 mm larger than the nail; the limit is 1.5 mm.",
    },
    {
      what: "1.5 mm ± 0.2 mm, so half of it beyond",
      change: [...reamed("8.5 mm to 11.5 mm by 0.5 mm"), nail("10 mm ± 0.2 mm")],
      is: "information",
      says: /is 1\.50 mm ± 0\.20 mm larger than the nail, which may pass the limit of 1\.5 mm \(probability 50 %\)\.$/,
    },
    {
      what: "a department that allows 2 mm",
      change: [...reamed("8.5 mm to 12 mm by 0.5 mm"), protocol("limit reaming-over-nail 0.5 mm to 2 mm")],
      is: "clear",
    },
    { what: "unreamed", change: unreamed(), is: "clear" },
  ]);

  test("is mended by leaving out the heads beyond, of a range and of a list", () => {
    expect(titlesOf("reaming-overshoot", ...reamed("8.5 mm to 12.5 mm by 0.5 mm"))).toEqual([
      "last head 12.5 mm → 11.5 mm: 1.5 mm over the nail",
    ]);
    const range = mended("reaming-overshoot", reamed("8.5 mm to 12.5 mm by 0.5 mm"));
    expect(range.text).toContain("    ream 8.5 mm to 11.5 mm by 0.5 mm\n");
    const list = mended("reaming-overshoot", reamed("10.5 mm, 11 mm, 11.5 mm, 12 mm"));
    expect(list.text).toContain("    ream 10.5 mm to 11.5 mm by 0.5 mm\n");
  });

  test("has no fix when no head of the list keeps the limit", () => {
    expect(titlesOf("reaming-overshoot", ...reamed("12 mm"))).toEqual([]);
  });

  checkTable("reaming-undershoot", [
    { what: "1 mm over", change: [noFallback], is: "clear" },
    { what: "0.5 mm over, the limit itself", change: reamed("8.5 mm to 10.5 mm by 0.5 mm"), is: "clear" },
    {
      what: "as wide as the nail",
      change: reamed("8.5 mm to 10 mm by 0.5 mm"),
      is: "warning",
      says: "is 0 mm over the nail; at least 0.5 mm",
    },
    {
      what: "0.5 mm ± 0.2 mm",
      change: [...reamed("8.5 mm to 10.5 mm by 0.5 mm"), nail("10 mm ± 0.2 mm")],
      is: "information",
      says: /may be .*\(probability 50 %\)/,
    },
  ]);

  test("an undershoot is mended by going on to the first listed head that keeps the limit", () => {
    const again = mended(
      "reaming-undershoot",
      reamed("8.5 mm, 9 mm, 9.5 mm"),
      "last head 9.5 mm → 10.5 mm: 0.5 mm over the nail",
    );
    expect(again.text).toContain("    ream 8.5 mm to 10.5 mm by 0.5 mm\n");
  });
});

describe("the heads", () => {
  checkTable("reaming-step", [
    { what: "0.5 mm, the limit itself", change: [noFallback], is: "clear" },
    {
      what: "1 mm once among small steps",
      change: reamed("8.5 mm, 9 mm, 10 mm, 10.5 mm, 11 mm"),
      is: "warning",
      says: "1 mm at once",
    },
    {
      what: "1 mm allowed by the department",
      change: [...reamed("8 mm to 11 mm by 1 mm"), protocol("limit reaming-step up-to 1 mm")],
      is: "clear",
    },
    {
      what: "a step whose head is only known roughly",
      change: reamed("8.5 mm, 9 mm, 9.5 mm, 10 mm, 10.5 mm, 11 mm ± 0.1 mm"),
      is: "information",
      says: / may .*\(probability 50 %\)\.$/,
    },
    { what: "one head alone makes no step", change: reamed("10.5 mm"), is: "clear" },
    {
      what: "heads that do not grow",
      change: reamed("8.5 mm, 9.5 mm, 9 mm, 10 mm, 10.5 mm, 11 mm"),
      is: "cannot tell",
      besides: ["reaming-order"],
    },
  ]);

  test("a wide step is mended with the listed heads between", () => {
    const list = reamed("8.5 mm, 9 mm, 10 mm, 10.5 mm, 11 mm");
    expect(titlesOf("reaming-step", ...list)).toEqual(["5 heads → 6 heads: no step above 0.5 mm"]);
    expect(mended("reaming-step", list).text).toContain("    ream 8.5 mm to 11 mm by 0.5 mm\n");
    expect(mended("reaming-step", reamed("8 mm to 11 mm by 1 mm")).text).toContain(
      "    ream 8 mm to 11 mm by 0.5 mm\n",
    );
  });

  test("a wide step has no fix when the catalogue lists nothing between", () => {
    const coarse = [
      ...reamed("8 mm to 11 mm by 1 mm"),
      ["heads 8 mm to 14 mm by 0.5 mm", "heads 8 mm to 14 mm by 1 mm"],
    ] as const;
    expect(titlesOf("reaming-step", ...coarse)).toEqual([]);
  });

  checkTable("reaming-order", [
    { what: "growing", change: [noFallback], is: "clear" },
    {
      what: "the same head twice",
      change: reamed("10 mm, 10.5 mm, 10.5 mm, 11 mm"),
      is: "error",
      at: "10.5 mm",
      says: "The 10.5 mm head follows the 10.5 mm head",
    },
    {
      what: "two heads exchanged",
      change: reamed("10 mm, 11 mm, 10.5 mm"),
      is: "error",
      at: "10.5 mm",
    },
    { what: "unreamed", change: unreamed(), is: "clear" },
  ]);

  test("heads out of order are sorted, each once", () => {
    expect(mended("reaming-order", reamed("10 mm, 10.5 mm, 10.5 mm, 11 mm")).text).toContain(
      "    ream 10 mm to 11 mm by 0.5 mm\n",
    );
  });

  checkTable("head-unlisted", [
    { what: "all listed", change: [noFallback], is: "clear" },
    {
      what: "one not listed",
      change: reamed("10 mm, 10.5 mm, 10.8 mm, 11 mm"),
      is: "error",
      says: "does not list the 10.8 mm head",
    },
    {
      what: "two not listed",
      change: reamed("10 mm, 10.25 mm, 10.5 mm, 10.75 mm, 11 mm"),
      is: "error",
      says: "10.25 mm and 10.75 mm heads",
    },
    { what: "unreamed", change: unreamed(), is: "clear" },
    {
      what: "no catalogue",
      change: [noFallback, noCatalogue],
      is: "cannot tell",
    },
  ]);

  test("an unlisted head becomes the nearest listed one, unless that is there already", () => {
    expect(mended("head-unlisted", reamed("8.5 mm, 9 mm, 9.5 mm, 10 mm, 10.6 mm, 11 mm")).text).toContain(
      "ream 8.5 mm to 11 mm by 0.5 mm\n",
    );
    expect(titlesOf("head-unlisted", ...reamed("10 mm, 10.5 mm, 10.6 mm, 11 mm"))).toEqual([]);
  });
});

describe("the wire", () => {
  checkTable("wire-missing", [
    { what: "a wire", change: [], is: "clear" },
    { what: "a smooth wire", change: [["wire ball-tip", "wire smooth"]], is: "clear" },
    { what: "none", change: [without("wire")], is: "error", at: "ream" },
    { what: "none, and no fallback", change: [without("wire"), noFallback], is: "error", at: "ream" },
    { what: "none, and no reaming", change: [without("wire"), ...unreamed()], is: "clear" },
    {
      what: "none, and only the fallback reams",
      change: [without("wire"), ["    ream 8.5 mm to 11 mm by 0.5 mm\n", "    unreamed\n"]],
      is: "error",
      at: "ream",
    },
  ]);

  test("is put in before the notes of the reaming", () => {
    expect(mended("wire-missing", [without("wire")]).text).toContain(
      `${lines.enter}${lines.wire}    ## Chatter starts`,
    );
  });
});

describe("the canal", () => {
  checkTable("reaming-start", [
    { what: "below the isthmus", change: [noFallback], is: "clear" },
    {
      what: "0.5 mm over it, the limit itself",
      change: [...reamed("11 mm"), isthmus("10.5 mm", "12 mm")],
      is: "clear",
    },
    {
      what: "0.6 mm over it",
      change: [...reamed("11 mm"), isthmus("10.4 mm", "12 mm")],
      is: "warning",
      says: "is 0.6 mm over the isthmus; the limit is 0.5 mm",
    },
    {
      what: "0.48 mm ± 0.27 mm over it",
      change: reamed("11 mm"),
      is: "information",
      says: /is 0\.48 mm ± 0\.27 mm over the isthmus, which may .*\(probability 45 %\)\.$/,
    },
    { what: "unreamed", change: unreamed(), is: "clear" },
  ]);

  test("a late start is mended with the listed heads before it", () => {
    const again = mended(
      "reaming-start",
      [...reamed("11 mm, 11.5 mm"), isthmus("10.2 mm", "12 mm")],
      "first head 11 mm → 10.5 mm",
    );
    expect(again.text).toContain("    ream 10.5 mm to 11.5 mm by 0.5 mm\n");
  });

  checkTable("reaming-over-isthmus", [
    { what: "0.5 mm", change: [noFallback], is: "clear" },
    {
      what: "1.9 mm",
      change: [...reamed("8.5 mm to 12 mm by 0.5 mm"), isthmus("10.1 mm", "12 mm"), nail("11 mm")],
      is: "clear",
    },
    {
      what: "2 mm, the limit itself",
      change: [...reamed("8.5 mm to 12 mm by 0.5 mm"), isthmus("10 mm", "12 mm"), nail("11 mm")],
      is: "clear",
    },
    {
      what: "2.1 mm",
      change: [...reamed("8.5 mm to 12 mm by 0.5 mm"), isthmus("9.9 mm", "12 mm"), nail("11 mm")],
      is: "information",
      at: "8.5 mm to 12 mm by 0.5 mm",
      says: "The last head is 2.1 mm over the isthmus; the limit is 2 mm.",
    },
    {
      what: "2 mm ± 0.3 mm",
      change: [...reamed("8.5 mm to 12 mm by 0.5 mm"), isthmus("10 mm ± 0.3 mm", "12 mm"), nail("11 mm")],
      is: "information",
      says: / may pass the limit of 2 mm \(probability 50 %\)\.$/,
    },
    { what: "unreamed", change: unreamed(), is: "clear" },
  ]);

  checkTable("narrow-canal", [
    { what: "10.5 mm", change: [noFallback], is: "clear" },
    {
      what: "8 mm, the limit itself, reamed to 10 mm",
      change: [...reamed("8 mm to 10 mm by 0.5 mm"), isthmus("8 mm", "12 mm"), nail("9 mm")],
      is: "clear",
    },
    {
      what: "7.9 mm, reamed to 10 mm",
      change: [...reamed("8 mm to 10 mm by 0.5 mm"), isthmus("7.9 mm", "12 mm"), nail("9 mm")],
      is: "warning",
      besides: ["reaming-over-isthmus"],
      says: "The isthmus is 7.9 mm, narrower than 8 mm.",
    },
    {
      what: "8 mm reamed to 10.5 mm",
      change: [...reamed("8 mm to 10.5 mm by 0.5 mm"), isthmus("8 mm", "12 mm")],
      is: "warning",
      besides: ["reaming-over-isthmus"],
      at: "8 mm to 10.5 mm by 0.5 mm",
    },
    {
      what: "8.1 mm ± 0.2 mm, reamed to 10 mm",
      change: [...reamed("8 mm to 10 mm by 0.5 mm"), isthmus("8.1 mm ± 0.2 mm", "12 mm"), nail("9 mm")],
      is: "information",
      besides: ["reaming-over-isthmus"],
      says: /is 8\.10 mm ± 0\.20 mm and may be narrower .*\(probability 16 %\)\.$/,
    },
  ]);

  checkTable("tourniquet-reaming", [
    {
      what: "a wide canal",
      change: [noFallback, ["prepare antibiotic, time-out", "prepare antibiotic, time-out, tourniquet"]],
      is: "clear",
    },
    {
      what: "a canal of 8 mm",
      change: [
        ...reamed("8 mm to 10 mm by 0.5 mm"),
        isthmus("8 mm", "12 mm"),
        nail("9 mm"),
        ["prepare antibiotic, time-out", "prepare antibiotic, time-out, tourniquet"],
      ],
      is: "information",
      at: "tourniquet",
    },
    {
      what: "a canal of 8 mm, unreamed",
      change: [
        ...unreamed(),
        isthmus("8 mm", "12 mm"),
        nail("9 mm"),
        ["prepare antibiotic, time-out", "prepare antibiotic, time-out, tourniquet"],
      ],
      is: "clear",
      besides: ["unreamed-tight"],
    },
    {
      what: "a canal of 8 mm without a tourniquet",
      change: [...reamed("8 mm to 10 mm by 0.5 mm"), isthmus("8 mm", "12 mm"), nail("9 mm")],
      is: "clear",
    },
  ]);

  checkTable("cortex-thin", [
    { what: "5.8 mm", change: [noFallback], is: "clear" },
    {
      what: "3 mm, the limit itself",
      change: [noFallback, ["bone at 205 mm, width 26 mm on ap", "bone at 205 mm, width 17 mm"]],
      is: "clear",
    },
    {
      what: "2.95 mm",
      change: [noFallback, ["bone at 205 mm, width 26 mm on ap", "bone at 205 mm, width 16.9 mm"]],
      is: "information",
      says: "Reaming leaves 2.95 mm of cortex",
    },
    {
      what: "3 mm ± 0.1 mm",
      change: [noFallback, ["bone at 205 mm, width 26 mm on ap", "bone at 205 mm, width 17 mm ± 0.2 mm"]],
      is: "information",
      says: / may .*\(probability 50 %\)\.$/,
    },
    {
      what: "0.05 mm: thin, and possible",
      change: [noFallback, ["bone at 205 mm, width 26 mm on ap", "bone at 205 mm, width 11.1 mm"]],
      is: "information",
      says: "Reaming leaves 0.05 mm of cortex",
    },
    {
      what: "0 mm, the reamed canal as wide as the bone",
      change: [noFallback, ["bone at 205 mm, width 26 mm on ap", "bone at 205 mm, width 11 mm"]],
      is: "error",
      says: "Reaming leaves no cortex at the thinnest: half of what the bone is wider than the reamed canal is 0 mm.",
    },
    {
      what: "0.05 mm less than none",
      change: [noFallback, ["bone at 205 mm, width 26 mm on ap", "bone at 205 mm, width 10.9 mm"]],
      is: "error",
      says: /is -0\.05 mm\.$/,
    },
    {
      what: "0 mm ± 0.1 mm",
      change: [noFallback, ["bone at 205 mm, width 26 mm on ap", "bone at 205 mm, width 11 mm ± 0.2 mm"]],
      is: "warning",
      says: / may leave no cortex .*\(probability 50 %\)\.$/,
    },
    { what: "unreamed", change: unreamed(), is: "clear" },
    {
      what: "the canal in one plane only, and no cortex left there",
      change: [
        noFallback,
        ["canal at 205 mm, width 12.4 mm ± 0.3 mm on ap, depth", "canal at 205 mm, depth"],
        ["bone at 205 mm, width 26 mm on ap, depth 29 mm on lateral", "bone at 205 mm, width 26 mm on ap, depth 11 mm"],
      ],
      is: "error",
      besides: ["one-plane"],
    },
    {
      what: "the canal in one plane only",
      change: [noFallback, ["canal at 205 mm, width 12.4 mm ± 0.3 mm on ap, depth", "canal at 205 mm, depth"]],
      is: "cannot tell",
      besides: ["one-plane"],
    },
  ]);

  checkTable("unreamed-tight", [
    { what: "10 mm through 10.5 mm", change: unreamed(), is: "clear" },
    {
      what: "10 mm through 10 mm exactly",
      change: [...unreamed(), isthmus("10 mm", "12 mm")],
      is: "clear",
      besides: ["fit-ratio"],
    },
    { what: "10 mm through 9.9 mm", change: [...unreamed(), isthmus("9.9 mm", "12 mm")], is: "error", at: "10 mm" },
    {
      what: "10 mm through 10 mm ± 0.3 mm",
      change: [...unreamed(), isthmus("10 mm ± 0.3 mm", "12 mm")],
      is: "warning",
      says: / may .*\(probability 50 %\)\.$/,
    },
  ]);

  checkTable("fit-ratio", [
    { what: "0.909", change: [noFallback], is: "clear" },
    { what: "0.80, the limit itself", change: [noFallback, isthmus("12.5 mm", "13 mm")], is: "clear" },
    {
      what: "just under 0.80",
      change: [noFallback, isthmus("12.6 mm", "13 mm")],
      is: "warning",
      at: "10 mm",
      says: /fills 0\.794 of/,
    },
    {
      what: "0.80 ± 0.02",
      change: [noFallback, isthmus("12.5 mm ± 0.3 mm", "13 mm")],
      is: "information",
      says: / may .*\(probability 50 %\)\.$/,
    },
    {
      what: "0.95, reamed no wider than the nail",
      change: reamed("8.5 mm to 10 mm by 0.5 mm"),
      is: "clear",
      besides: ["reaming-undershoot"],
    },
    {
      what: "1.00, reamed no wider than the nail in a canal as wide",
      change: [...reamed("8.5 mm to 10 mm by 0.5 mm"), isthmus("10 mm", "12 mm")],
      is: "cannot tell",
      besides: ["reaming-undershoot"],
    },
    {
      what: "0.74, reamed far past the nail",
      change: reamed("8.5 mm to 13.5 mm by 0.5 mm"),
      is: "cannot tell",
      besides: ["reaming-over-isthmus", "reaming-overshoot"],
    },
  ]);

  checkTable("one-plane", [
    { what: "both planes everywhere", change: [], is: "clear" },
    {
      what: "no depth at one level",
      change: [["canal at 330 mm, width 24 mm on ap, depth 21 mm on lateral", "canal at 330 mm, width 24 mm on ap"]],
      is: "warning",
      says: "width is given here without its depth",
    },
  ]);
});

test("a fix of a fallback edits the fallback's own line", () => {
  const analysis = changed(["    ream 8.5 mm to 11.5 mm by 0.5 mm\n", "    ream 8.5 mm to 12.5 mm by 0.5 mm\n"]);
  const [found, another] = findingsOf(analysis, "reaming-overshoot");
  expect(another).toBeUndefined();
  expect(found?.fallback).toBe("the 10 mm nail stops at the isthmus");
  const [fix] = found?.fixes ?? [];
  expect(fix).toBeDefined();
  if (fix !== undefined) expect(applied(analysis.text, fix)).toContain("    ream 8.5 mm to 11.5 mm by 0.5 mm\n");
});
