/** The case, the images, the position and the entry. */
import { describe, expect, test } from "vitest";
import { isthmus, noCatalogue, noFallback, protocol } from "./changes.ts";
import { type Change, checkTable, mended, titlesOf } from "./table.ts";

const code = (text: string): Change => ["fracture 42A2", `fracture ${text}`];
const fibula = (text: string): Change => ["fibula 4F2A", `fibula ${text}`];
const edges = (text: string): Change => ["from 208 mm on ap to 232 mm on ap", text];

describe("the code", () => {
  checkTable("code-unknown", [
    { what: "a group of 2018", change: [], is: "clear" },
    { what: "with thirds and modifiers", change: [code("42A2(b)[2,9]")], is: "clear" },
    { what: "a group that was dropped", change: [code("42B1")], is: "error", at: "42B1" },
    {
      what: "a group there never was",
      change: [code("42A4")],
      is: "error",
      says: "the tibial shaft has no group 42A4",
    },
    { what: "a third there is not", change: [code("42A2(d)")], is: "error", says: "round brackets hold a, b, c here" },
    { what: "a reach on a simple fracture", change: [code("42A2(j)")], is: "error" },
    { what: "a modifier there is not", change: [code("42A2[15]")], is: "error", says: 'no modifier "15"' },
    {
      what: "a modifier with a letter it does not take",
      change: [code("42A2[9a]")],
      is: "error",
      says: 'no modifier "9a"',
    },
    { what: "a spelling of 2007", change: [code("42-A2")], is: "clear", besides: ["code-old-spelling"] },
    { what: "a fibula's code for the tibia", change: [code("4F2A")], is: "error", says: "4F is a fibula's code" },
    {
      what: "a tibia's code for the fibula",
      change: [fibula("42A2")],
      is: "error",
      says: "a fibula's code begins with 4F",
    },
    {
      what: "a group 2007 did not have either",
      change: [code("42-A4")],
      is: "error",
      says: "2007 does not have it either",
    },
    {
      what: "an end segment's letter, whose list is not kept",
      change: [code("41A2(z)"), ["fits 42A1", "fits 41A2, 42A1"]],
      is: "clear",
      besides: ["segment-disagrees"],
    },
    {
      what: "a group a neighbour has",
      change: [code("31C3")],
      is: "error",
      says: "the proximal femur has no group 31C3",
      besides: ["segment-disagrees"],
    },
    { what: "a fibula's group there is not", change: [fibula("4F2C")], is: "error", at: "4F2C" },
  ]);

  test("a group that was dropped may be written with a modifier; else the groups of the same type are offered", () => {
    expect(titlesOf("code-unknown", code("42B1"))).toEqual(["42B1 → 42B2[13]: intact wedge"]);
    expect(titlesOf("code-unknown", code("42A4"))).toEqual([
      "42A4 → 42A1: spiral",
      "42A4 → 42A2: oblique, 30 deg or more",
      "42A4 → 42A3: transverse, less than 30 deg",
    ]);
  });

  checkTable("code-old-spelling", [
    { what: "2018", change: [], is: "clear" },
    {
      what: "the same group",
      change: [code("42-A2")],
      is: "information",
      at: "42-A2",
      says: "since 2018 it is written 42A2.",
    },
    {
      what: "a group that changed",
      change: [code("42-B1")],
      is: "warning",
      says: "for the surgeon to say",
      besides: [],
    },
    { what: "a figure after the point", change: [code("42-A2.1")], is: "warning", says: "figure after the point" },
  ]);

  test("a group that is gone without a likeness has no fix", () => {
    expect(titlesOf("code-old-spelling", code("31-C3"))).toEqual([]);
  });

  test("only a group that kept its meaning is rewritten without asking", () => {
    expect(mended("code-old-spelling", [code("42-A2")]).text).toContain("fracture 42A2, from");
    expect(titlesOf("code-old-spelling", code("42-B1"))).toEqual(["42-B1 → 42B2[13]: intact wedge"]);
    expect(titlesOf("code-old-spelling", code("42-C1"))).toEqual([
      "42-C1 → 42C2: intact segment",
      "42-C1 → 42C3: fragmentary segment",
    ]);
  });

  const fits: Change = ["fits 42A1", "fits 41A2, 43A1, 42A1"];
  const exactEnds: readonly Change[] = [
    ["epiphysis proximal 88 mm on ap", "epiphysis proximal 76 mm"],
    ["epiphysis distal 58 mm on ap", "epiphysis distal 52 mm"],
    ["landmark plafond 432 mm ± 2 mm on ap", "landmark plafond 380 mm"],
    ["    hole P2, top 28 mm", "    hole P3, top 16 mm, runs medial-lateral, takes peg\n    hole P2, top 28 mm"],
    ["    cap 5 mm\n", "    lock P3, drilled 53 mm, screw 54 mm\n    cap 5 mm\n"],
    ["take D1, D2, P2", "take D1, D2, P2, P3"],
  ];

  checkTable("segment-disagrees", [
    { what: "a shaft fracture", change: [], is: "clear" },
    {
      what: "the code of the distal end",
      change: [fits, code("43A1")],
      is: "warning",
      at: "43A1",
      says: /above the distal square/,
    },
    {
      what: "the code of the proximal end",
      change: [fits, code("41A2")],
      is: "warning",
      says: /below the proximal square/,
    },
    {
      what: "shaft code, 6 mm below the square's edge",
      change: [...exactEnds, edges("from 80 mm to 84 mm")],
      is: "clear",
    },
    {
      what: "shaft code, on the square's edge",
      change: [...exactEnds, edges("from 74 mm to 78 mm")],
      is: "warning",
      says: "lies on the edge, which counts as inside the proximal square",
    },
    {
      what: "shaft code, 2 mm inside the square",
      change: [...exactEnds, edges("from 72 mm to 76 mm")],
      is: "warning",
      says: "lies 2 mm inside the proximal square",
    },
    {
      what: "end code, on the square's edge",
      change: [...exactEnds, fits, code("41A2"), edges("from 74 mm to 78 mm")],
      is: "clear",
    },
    {
      what: "end code, 1 mm below the square",
      change: [...exactEnds, fits, code("41A2"), edges("from 75 mm to 79 mm")],
      is: "warning",
      says: "lies 1 mm below the proximal square",
    },
    {
      what: "end code, on an edge known to 2 mm",
      change: [...exactEnds, fits, code("41A2"), edges("from 74 mm to 78 mm ± 4 mm")],
      is: "information",
      says: / may .*\(probability 50 %\)\.$/,
    },
    {
      what: "a code of the malleoli, which have bounds of their own",
      change: [code("44B1"), ["fits 42A1", "fits 44B1, 42A1"]],
      is: "cannot tell",
    },
    {
      what: "shaft code, one square unknown and the fracture in the other",
      change: [...exactEnds, ["    epiphysis distal 52 mm\n", ""], edges("from 70 mm to 74 mm")],
      is: "warning",
      says: "lies 4 mm inside the proximal square",
    },
    {
      what: "a code of the femur",
      change: [code("32A2")],
      is: "error",
      says: "The code 32A2 is of the femur, but the bone is the tibia.",
    },
    {
      what: "no squares given",
      change: [
        ["    epiphysis proximal 88 mm on ap\n", ""],
        ["    epiphysis distal 58 mm on ap\n", ""],
      ],
      is: "cannot tell",
    },
  ]);

  checkTable("nail-unfit", [
    { what: "listed", change: [], is: "clear" },
    { what: "listed, with thirds and modifiers", change: [code("42A2(b)[2]")], is: "clear" },
    { what: "not listed", change: [code("42B2"), ["42A3, 42B2, 42B3", "42A3, 42B3"]], is: "warning", at: "fenwick" },
    {
      what: "another bone",
      change: [["    for tibia\n", "    for femur\n"]],
      is: "error",
      says: "made for the femur, but the bone is the tibia",
    },
    {
      what: "a subgroup that is listed",
      change: [code("42B2.1"), ["42A3, 42B2, 42B3", "42A3, 42B2.1, 42B3"]],
      is: "clear",
      // A shaft has no subgroups since 2018.
      besides: ["code-unknown"],
    },
    {
      what: "another subgroup",
      change: [code("42B2.2"), ["42A3, 42B2, 42B3", "42A3, 42B2.1, 42B3"]],
      is: "warning",
      says: "42B2.1",
      besides: ["code-unknown"],
    },
    { what: "no list", change: [["    fits 42A1, 42A2, 42A3, 42B2, 42B3, 42C2, 42C3\n", ""]], is: "cannot tell" },
    { what: "no catalogue", change: [noCatalogue], is: "cannot tell" },
  ]);
});

describe("the fracture", () => {
  checkTable("fracture-reversed", [
    { what: "in order", change: [], is: "clear" },
    { what: "one level", change: [edges("from 190 mm to 190 mm")], is: "clear" },
    {
      what: "reversed",
      change: [edges("from 200 mm to 190 mm")],
      is: "error",
      at: "200 mm to 190 mm",
      says: "begin at 200 mm and to end at 190 mm",
    },
    {
      what: "10 mm either way",
      change: [edges("from 190 mm ± 5 mm to 190 mm")],
      is: "warning",
      says: /may be before it begins \(probability 50 %\)/,
    },
    {
      what: "beyond the joint",
      change: [edges("from 190 mm to 380 mm")],
      is: "error",
      says: "ends at 380 mm, beyond the joint surface at 375.7 mm",
      besides: ["nail-short", "screw-in-fracture", "screws-few"],
    },
    {
      what: "above the bone",
      change: [edges("from 0 mm - 5 mm to 10 mm")],
      is: "error",
      says: "begins at -5 mm, above the bone's upper end",
      besides: ["segment-disagrees", "screws-few-short-fragment"],
    },
    {
      what: "no plafond to end at",
      change: [["    landmark plafond 432 mm ± 2 mm on ap\n", ""], noFallback],
      is: "cannot tell",
    },
  ]);

  test("the edges are exchanged as typed", () => {
    const again = mended("fracture-reversed", [edges("from 232 mm on ap to 208 mm  on ap")]);
    expect(again.text).toContain("from 208 mm  on ap to 232 mm on ap");
  });

  checkTable("growth-plates-open", [
    { what: "closed", change: [], is: "clear" },
    { what: "not said", change: [["    growth-plates closed\n", ""]], is: "cannot tell" },
    { what: "open", change: [["growth-plates closed", "growth-plates open"]], is: "error", at: "open" },
  ]);

  const concern = (text: string): Change => [
    "    soft-tissue closed C1\n",
    `    soft-tissue closed C1\n    concern ${text}\n`,
  ];

  checkTable("infection", [
    { what: "none", change: [], is: "clear" },
    { what: "another concern", change: [concern("deformity")], is: "clear" },
    { what: "infection", change: [concern("infection")], is: "error", at: "infection" },
  ]);

  const tissue = (text: string): Change => ["soft-tissue closed C1", `soft-tissue ${text}`];

  checkTable("soft-tissue-contradiction", [
    { what: "closed C1", change: [], is: "clear" },
    { what: "closed, no grade", change: [tissue("closed")], is: "clear" },
    { what: "open IIIA", change: [tissue("open IIIA")], is: "clear" },
    { what: "closed II", change: [tissue("closed II")], is: "error", at: "soft-tissue closed II" },
    { what: "open C2", change: [tissue("open C2")], is: "error", says: "C2 is a grade of closed fractures" },
  ]);

  const demands: Change = ["demand time-out, antibiotic", "demand time-out"];
  const prepares = (text: string): Change => ["prepare antibiotic, time-out", `prepare ${text}`];

  checkTable("antibiotic-missing", [
    { what: "closed", change: [demands, prepares("time-out")], is: "clear" },
    { what: "open, with it", change: [demands, tissue("open I")], is: "clear" },
    {
      what: "open, without it",
      change: [demands, tissue("open I"), prepares("time-out")],
      is: "warning",
      at: "prepare time-out",
    },
    {
      what: "open, without it, told by the department's demand",
      change: [tissue("open I"), prepares("time-out")],
      is: "clear",
      besides: ["demanded"],
    },
    {
      what: "open, nothing prepared",
      change: [["  demand time-out, antibiotic\n", ""], tissue("open I"), ["    prepare antibiotic, time-out\n", ""]],
      is: "warning",
      at: "soft-tissue open I",
    },
  ]);

  test("the antibiotic is put into the preparations, or made the first step", () => {
    expect(mended("antibiotic-missing", [demands, tissue("open I"), prepares("time-out")]).text).toContain(
      "    prepare time-out, antibiotic\n",
    );
    const bare: readonly Change[] = [
      ["  demand time-out, antibiotic\n", ""],
      tissue("open I"),
      ["    prepare antibiotic, time-out\n", ""],
    ];
    expect(mended("antibiotic-missing", bare).text).toContain("  operation {\n    prepare antibiotic\n    position");
  });
});

describe("the images", () => {
  const seen = (text: string): Change => ["view lateral, marker 25 mm, seen 29 mm ± 0.2 mm", `view lateral, ${text}`];
  const exactDepth = isthmus("12.4 mm ± 0.3 mm on ap", "12 mm");

  checkTable("scale-odd", [
    { what: "1.16", change: [], is: "clear" },
    { what: "1.40, the limit itself", change: [seen("marker 25 mm, seen 35 mm"), exactDepth], is: "clear" },
    {
      what: "1.44",
      change: [seen("marker 25 mm, seen 36 mm"), exactDepth],
      is: "warning",
      says: "magnifies 1.44 times, more than 1.4",
    },
    {
      what: "1.40 ± 0.04",
      change: [seen("marker 25 mm, seen 35 mm ± 1 mm"), exactDepth],
      is: "information",
      says: / may .*\(probability 50 %\)\.$/,
    },
    { what: "1.00, the limit itself", change: [seen("marker 25 mm, seen 25 mm"), exactDepth], is: "clear" },
    { what: "0.96", change: [seen("marker 25 mm, seen 24 mm"), exactDepth], is: "warning", says: "less than 1" },
    { what: "true size", change: [seen("true-size"), exactDepth], is: "clear" },
  ]);

  test("a marker typed the wrong way round is exchanged", () => {
    expect(titlesOf("scale-odd", seen("marker 29 mm, seen 25 mm"), exactDepth)).toEqual(["marker 25 mm, seen 29 mm"]);
    expect(titlesOf("scale-odd", seen("marker 25 mm, seen 36 mm"), exactDepth)).toEqual([]);
  });
});

describe("position and entry", () => {
  const bends = (text: string): Change => ["knee-flexion 120 deg", `knee-flexion ${text}`];
  const onTable = (text: string): Change => ["knee 100 deg", `knee ${text}`];
  const enter = (text: string): Change => ["enter infrapatellar, from-midline 8 mm lateral", `enter ${text}`];

  checkTable("support-under-knee", [
    { what: "distal thigh", change: [], is: "clear" },
    { what: "none", change: [["support distal-thigh", "support none"]], is: "clear" },
    { what: "the knee", change: [["support distal-thigh", "support knee"]], is: "error", at: "knee" },
  ]);

  checkTable("knee-stiff", [
    { what: "120 deg", change: [], is: "clear" },
    { what: "90 deg, the limit itself", change: [bends("90 deg"), onTable("90 deg")], is: "clear" },
    { what: "85 deg", change: [bends("85 deg")], is: "warning", at: "85 deg", says: "The knee bends only 85 deg" },
    {
      what: "90 deg ± 10 deg",
      change: [bends("90 deg ± 10 deg")],
      is: "information",
      says: / may .*\(probability 50 %\)\.$/,
    },
    {
      what: "bent 80 deg on the table",
      change: [onTable("80 deg")],
      is: "warning",
      at: "80 deg",
      says: "to be bent only 80 deg on the table",
    },
    { what: "85 deg, above the patella", change: [bends("85 deg"), enter("suprapatellar")], is: "clear" },
    { what: "85 deg, beside the patella", change: [bends("85 deg"), enter("parapatellar")], is: "warning" },
    { what: "not given", change: [["    knee-flexion 120 deg\n", ""]], is: "cannot tell" },
    {
      what: "85 deg where 80 deg are enough",
      change: [bends("85 deg"), protocol("limit knee-flexion at-least 80 deg")],
      is: "clear",
    },
  ]);

  test("a stiff knee is entered above the patella, a straight one bent", () => {
    expect(titlesOf("knee-stiff", bends("80 deg"))).toEqual([
      "enter infrapatellar → suprapatellar: the knee bends 80 deg",
    ]);
    expect(titlesOf("knee-stiff", onTable("80 deg"))).toEqual([
      "knee 80 deg → 90 deg",
      "enter infrapatellar → suprapatellar: the knee bends 120 deg",
    ]);
  });

  const from = (text: string): Change => ["from-midline 8 mm lateral", `from-midline ${text}`];

  checkTable("entry-off", [
    { what: "8 mm lateral", change: [], is: "clear" },
    { what: "4.1 mm lateral, the limit itself", change: [from("4.1 mm lateral")], is: "clear" },
    { what: "14.1 mm lateral, the limit itself", change: [from("14.1 mm lateral")], is: "clear" },
    {
      what: "4 mm lateral",
      change: [from("4 mm lateral")],
      is: "warning",
      at: "4 mm",
      says: "lies 4 mm lateral of the midline; at least 4.1 mm lateral",
    },
    { what: "15 mm lateral", change: [from("15 mm lateral")], is: "warning", says: "at most 14.1 mm lateral" },
    { what: "3 mm medial", change: [from("3 mm medial")], is: "warning", says: "lies 3 mm medial of the midline" },
    {
      what: "4.1 mm ± 2 mm lateral",
      change: [from("4.1 mm ± 2 mm lateral")],
      is: "information",
      says: / may .*\(probability 50 %\)\.$/,
    },
    { what: "not given", change: [[", from-midline 8 mm lateral", ""]], is: "cannot tell" },
  ]);
});
