/**
 * The worked plan with some lines changed: what becomes of single numbers, with their words. Each figure can be followed by hand; the
 * views magnify 1.15 and 1.16, and a ± is two standard uncertainties.
 */
import { describe, expect, test } from "vitest";
import { answerText } from "../../server/answers/wording.ts";
import { examplePlan } from "../../server/findings/example.ts";
import { reckon } from "../../server/reckoning/reckon.ts";
import type { Reckoning } from "../../server/reckoning/reckoning.ts";
import { exampleWith } from "./answers-of.ts";

type Changes = readonly (readonly [from: string, to: string])[];

function reckoned(changes: Changes): ReadonlyMap<string, Reckoning> {
  return reckon(exampleWith(...changes)).byId;
}

/** "id: value (remark); formula with numbers", or that it is not reckoned. */
function told(changes: Changes, ids: readonly string[]): readonly string[] {
  const byId = reckoned(changes);
  return ids.map((id) => {
    const reckoning = byId.get(id);
    if (reckoning === undefined) return `${id} is not reckoned`;
    const { filled, remark } = reckoning;
    return `${id}: ${answerText(reckoning)}${remark === undefined ? "" : ` (${remark})`}; ${filled}`;
  });
}

/** The worked plan says the changed lines; every row begins with the id it is asked for. */
function expectTold(changes: Changes, ...rows: readonly string[]): void {
  expect(
    told(
      changes,
      rows.map((row) => row.split(/[: ]/)[0] ?? ""),
    ),
  ).toEqual(rows);
}

const viewAp = "view ap, marker 25 mm, seen 28.75 mm ± 0.2 mm";
const ofView =
  "holds for the plane of the marker; a marker 1 cm off the plane of the bone errs by about 1 % " +
  "(Klever 2022, doi 10.1055/s-0041-1735316, measured at the hip; none found for the leg)";

describe("a view", () => {
  test.each<readonly [view: string, ...rows: string[]]>([
    // 416 / 1.05; the zero within the number stays, those that only its ± asks for go.
    [
      "view ap, marker 25 mm, seen 26.25 mm ± 0.2 mm",
      `magnification.ap: 1.0500 ± 0.0080 (${ofView}); 26.25 mm / 25 mm`,
      "level.scar: 396.2 mm ± 3.6 mm; 416 mm / 1.05",
    ],
    [
      "view ap, marker 25 mm, seen 25 mm ± 0.2 mm",
      `magnification.ap: 1.0000 ± 0.0080 (${ofView}); 25.00 mm / 25 mm`,
      "level.scar: 416.0 mm ± 3.9 mm; 416 mm / 1",
    ],
    ["view ap, true-size", "magnification.ap: 1; true size", "level.scar: 416.0 mm ± 2.0 mm; 416.0 mm"],
    [
      "view ap, marker 25 mm, seen 0 mm",
      `magnification.ap: unknown: the magnification of ap is not above 0 (${ofView}); 0 mm / 25 mm`,
      "level.scar: unknown: the magnification of ap is not above 0; unknown",
    ],
    [
      "view ap, marker 25 mm, seen -3 mm",
      `magnification.ap: unknown: the magnification of ap is not above 0 (${ofView}); (-3 mm) / 25 mm`,
    ],
    [
      "view ap, marker 25 mm",
      `magnification.ap: unknown: the marker's size on view ap is not given (${ofView}); unknown / 25 mm`,
      "level.scar: unknown: the marker's size on view ap is not given; unknown",
    ],
    [
      "view ap, seen 28 mm",
      `magnification.ap: unknown: the marker of view ap is not given (${ofView}); 28 mm / unknown`,
      "level.scar: unknown: the marker of view ap is not given; unknown",
    ],
  ])("%s", (view, ...rows) => {
    expectTold([[viewAp, view]], ...rows);
  });
});

describe("the segment, where the centre is near an edge", () => {
  const from = (level: number): Changes => [
    ["from 208 mm on ap to 232 mm on ap", `from ${level} mm on ap to ${level} mm on ap`],
  ];
  const square = (end: string, size: number, halfWidth: number): Changes => [
    [`epiphysis ${end} ${size} mm on ap`, `epiphysis ${end} ${size} mm ± ${halfWidth} mm on ap`],
  ];

  // The distal square begins at 432 - 58 = 374 mm on the view, of which one standard uncertainty is 1 mm: 1 mm off is 16 or 84 %.
  test("1 mm on either side of the distal square", () => {
    const rest = "proximal if $ ≤ 0 mm + 76.52 mm; distal if $ ≥ 375.7 mm - 50.43 mm; else shaft";
    const doubt = "edge of the distal square at 325.2 mm; probability that the centre lies in it";
    expectTold(from(373), `segment: shaft (${doubt}: 16 %); ${rest.replaceAll("$", "324.3 mm")}`);
    expectTold(from(375), `segment: distal (${doubt}: 84 %); ${rest.replaceAll("$", "326.1 mm")}`);
  });

  // The proximal square ends at 88 mm on the view, with the same uncertainty.
  test("1 mm on either side of the proximal square", () => {
    const rest = "proximal if $ ≤ 0 mm + 76.5 mm; distal if $ ≥ 375.7 mm - 50.43 mm; else shaft";
    const doubt = "edge of the proximal square at 76.5 mm; probability that the centre lies in it";
    const vague = square("proximal", 88, 2);
    expectTold([...from(87), ...vague], `segment: proximal (${doubt}: 84 %); ${rest.replaceAll("$", "75.65 mm")}`);
    expectTold([...from(89), ...vague], `segment: shaft (${doubt}: 16 %); ${rest.replaceAll("$", "77.39 mm")}`);
    expectTold([...from(45), ...vague], `segment: proximal; ${rest.replaceAll("$", "39.13 mm")}`);
    expectTold([...from(180), ...vague], `segment: shaft; ${rest.replaceAll("$", "156.5 mm")}`);
  });

  // 180 - 88 = 92 mm of the 100 mm that one standard uncertainty is on the view: 18 %. The distal edge is 194 mm away.
  test("the nearer edge is told, however far it is", () => {
    expectTold(
      [...from(180), ...square("proximal", 88, 200)],
      "segment: shaft (edge of the proximal square at 80 mm; probability that the centre lies in it: 18 %); " +
        "proximal if 156.5 mm ≤ 0 mm + 80 mm; distal if 156.5 mm ≥ 375.7 mm - 50.43 mm; else shaft",
    );
  });

  // In true size the edges are at 88 and 374 mm; 231 is their middle, 1.43 standard uncertainties from either: 8 %.
  test("of two edges as near as each other the proximal one is told", () => {
    expectTold(
      [
        [viewAp, "view ap, true-size"],
        ["from 208 mm on ap to 232 mm on ap", "from 231 mm on ap to 231 mm on ap"],
        ["landmark plafond 432 mm ± 2 mm on ap", "landmark plafond 432 mm on ap"],
        ...square("proximal", 88, 200),
        ...square("distal", 58, 200),
      ],
      "segment: shaft (edge of the proximal square at 90 mm; probability that the centre lies in it: 8 %); " +
        "proximal if 231 mm ≤ 0 mm + 90 mm; distal if 231 mm ≥ 432 mm - 60 mm; else shaft",
    );
  });
});

describe("reaming", () => {
  const heads = (list: string): Changes => [["ream 8.5 mm to 11 mm by 0.5 mm\n    nail", `ream ${list}\n    nail`]];

  test("the widest step is told with its two heads, wherever it is", () => {
    expectTold(heads("8.5 mm, 9 mm, 10 mm, 10.5 mm"), "ream.step: 1 mm; 10 mm - 9 mm");
    expectTold(heads("11 mm"), "ream.step is not reckoned", "ream.heads: 11 mm; 11 mm", "ream.final: 11 mm; 11 mm");
  });
});

describe("a screw", () => {
  const inD2 = (words: string): Changes => [["lock D2, drilled 31 mm, screw 32 mm", `lock D2, ${words}`]];
  const withDiameters = (list: string): Changes => [
    ["    drill 3.8 mm\n", `    drill 3.8 mm\n    with diameters ${list}\n`],
  ];
  const usual = "shortest listed from 31 mm + 0 mm to 31 mm + 2 mm";

  test("in the near cortex alone says so, and must not be longer than what was drilled", () => {
    expectTold(
      inD2("drilled 31 mm, screw 32 mm, grip near"),
      "screw.D2.beyond: 1 mm (the screw grips the near cortex alone); 32 mm - 31 mm",
      "screw.D2.best: 30 mm; longest listed ≤ 31 mm",
    );
  });

  test("of a family for some nails goes with any of them", () => {
    expectTold(withDiameters("9 mm, 10 mm"), `screw.D2.best: 32 mm; ${usual}`);
    expectTold(withDiameters("9 deg, 10 mm"), `screw.D2.best: 32 mm; ${usual}`);
    expectTold(withDiameters("9 mm, 11 mm"), `screw.D2.best: unknown: no listed screw goes into hole D2; ${usual}`);
  });

  test("is chosen by the limit in force, whichever of its ends it has", () => {
    const limit = (setting: string): Changes => [["limit tip-beyond-cortex 0 mm to 2 mm", setting]];
    expectTold(limit("limit tip-beyond-cortex up-to 2 mm"), `screw.D2.best: 32 mm; ${usual}`);
    expectTold(limit("limit tip-beyond-cortex at-least 1 mm"), "screw.D2.best: 32 mm; shortest listed ≥ 31 mm + 1 mm");
    expectTold(
      limit("limit tip-beyond-cortex 3 mm to 4 mm"),
      "screw.D2.best: 34 mm; shortest listed from 31 mm + 3 mm to 31 mm + 4 mm",
    );
    expectTold(limit(""), `screw.D2.best: 32 mm; ${usual}`);
  });
});

describe("the driving end", () => {
  test("a cap without its extension", () => {
    expectTold([["cap 5 mm", "cap"]], "cap.top: unknown: the extension of the cap is not given; 5.5 mm - unknown");
  });

  test("a backslap without its length", () => {
    expectTold(
      [["compress 2 turns", "backslap\n    compress 2 turns"]],
      "nail.topAfter: unknown: it is not given how far the nail is drawn back; 8 mm - unknown - 2.5 mm",
      "overinsertion.needed: unknown: it is not given how far the nail is drawn back; unknown + 2.5 mm",
    );
  });

  test("compression may use up the whole slot, and no more", () => {
    const compressed = (length: string): Changes => [
      ["  aftercare {", "  aftercare {\n    dynamise at 8 weeks, remove P1"],
      ["compress 2 turns", `compress ${length}`],
    ];
    const used = "the compression uses up part of the slot at the driving end";
    expectTold(
      compressed("6 mm"),
      `dynamisation.left: 0 mm (${used}); 6 mm - 6 mm`,
      "nail.topDynamised: 2 mm; 2 mm - 0 mm",
      "overinsertion.needed: 6 mm; 6 mm + 0 mm",
    );
    expectTold(
      compressed("6.5 mm"),
      `dynamisation.left: -0.5 mm (${used}); 6 mm - 6.5 mm`,
      "nail.topDynamised: unknown: the compression is longer than the slot; 1.5 mm - unknown",
    );
  });
});

describe("the listed lengths", () => {
  test("all too long", () => {
    const tooLong = "every listed length is too long";
    expectTold(
      [["lengths 240 mm to 420 mm by 15 mm", "lengths 400 mm to 420 mm by 10 mm"]],
      `length.longest: unknown: ${tooLong}; longest listed ≤ 353.7 mm`,
      `length.margin: unknown: ${tooLong}; 353.7 mm - unknown`,
      "length.next: 400 mm; shortest listed > 353.7 mm",
      "length.nextMargin: 46.3 mm ± 3.1 mm (probability that 400 mm fits: less than 1 %); 400 mm - 353.7 mm",
    );
  });

  test("nothing is likely or unlikely between exact lengths", () => {
    expectTold(
      [
        ["landmark scar 416 mm ± 2 mm on ap", "landmark scar 416 mm on ap"],
        [viewAp, "view ap, true-size"],
      ],
      "length.margin: 3 mm; 408 mm - 405 mm",
      "length.nextMargin: 12 mm; 420 mm - 408 mm",
    );
  });
});

describe("compression", () => {
  test("without a case there is no gap to close", () => {
    const whole = examplePlan.slice(examplePlan.indexOf("  case TN-0417 {"), examplePlan.indexOf("  images {"));
    expectTold(
      [[whole, ""]],
      "compression.gapLeft: unknown: no gap of the fracture is given (below 0 the bone is shortened by that much); unknown - 2.5 mm",
      "segment is not reckoned",
    );
  });

  test("in turns and by a length rests on the pitch", () => {
    const twice: Changes = [["compress 2 turns", "compress 2 turns\n    compress 1 mm"]];
    expectTold(twice, "compression.amount: 3.5 mm; 2 turns × 1.25 mm/turn + 1 mm");
    const basis = (changes: Changes) => reckoned(changes).get("compression.amount")?.basis;
    expect(basis(twice)).toEqual(basis([]));
    expect(basis([["compress 2 turns", "compress 2.5 mm"]])).not.toEqual(basis([]));
  });
});

describe("what is not known", () => {
  test("one length of a list that is none leaves the choice open", () => {
    const list: Changes = [["lengths 240 mm to 420 mm by 15 mm", "lengths 300 mm, 3 deg, 345 mm"]];
    const unread = "unknown: nail length could not be read";
    expectTold(
      list,
      `length.longest: ${unread}; longest listed ≤ 353.7 mm`,
      `length.next: ${unread}; shortest listed > 353.7 mm`,
    );
  });

  test("the length of the nail", () => {
    expectTold(
      [["length 345 mm, sunk 8 mm", "sunk 8 mm"]],
      "nail.tip: unknown: the length of the nail is not given; 8 mm + unknown",
    );
  });

  test("the bone's widths: the formula stands all the same", () => {
    const bare: Changes = [
      ["    bone at 30 mm, width 62 mm on ap, depth 50 mm on lateral\n", ""],
      ["    bone at 205 mm, width 26 mm on ap, depth 29 mm on lateral\n", ""],
      ["    bone at 340 mm, width 36 mm on ap, depth 37 mm on lateral\n", ""],
    ];
    expectTold(
      bare,
      "ream.cortexLeft: unknown: at no level are the width of the bone and of the canal both known; (unknown - max(unknown, 11 mm)) / 2",
    );
    expect(reckoned(bare).get("ream.cortexLeft")?.formula).toBe("(bone - max(canal, last head)) / 2");
  });

  test("a bone of a metre is reckoned with, none beyond it", () => {
    const length = (text: string): Changes => [["length 345 mm, sunk 8 mm", `length ${text}, sunk 8 mm`]];
    expect(reckoned(length("992 mm")).get("ream.removed")?.answer.kind).toBe("known");
    expectTold(
      length("992.5 mm"),
      "ream.removed: unknown: the tip lies farther than any bone is long; circle of 11 mm outside the canal from 0 mm to 1000.5 mm",
    );
  });
});

describe("fragments", () => {
  const edges = (from: number, to: number): Changes => [
    [viewAp, "view ap, true-size"],
    ["from 208 mm on ap to 232 mm on ap", `from ${from} mm on ap to ${to} mm on ap`],
  ];

  // P1 lies at 8 + 40 mm, D2 at 8 + 345 - 26 mm.
  test("a screw at the edge itself is in the fragment, one beyond it is not", () => {
    expectTold(
      edges(48, 327),
      "fragment.proximal.screws: 2 (2 medial-lateral); count of 36 mm, 48 mm",
      "fragment.distal.screws: 2 (2 medial-lateral); count of 327 mm, 341 mm",
    );
    expectTold(
      edges(47, 328),
      "fragment.proximal.screws: 1 (1 medial-lateral); count of 36 mm",
      "fragment.distal.screws: 1 (1 medial-lateral); count of 341 mm",
    );
  });

  test("none in one of them says so, and has no directions", () => {
    const none: Changes = [
      ["    lock P2, drilled 53 mm, screw 54 mm\n", ""],
      ["    lock P1, drilled 51 mm, screw 52 mm\n", ""],
    ];
    expectTold(
      none,
      "fragment.proximal.screws: 0; none is planned",
      "span.working: unknown: no screw is planned in the proximal fragment; 327 mm - unknown",
    );
    expect(reckoned(none).get("span.working")?.formula).toBe("level of D2 - last proximal screw");
  });
});

describe("sides and ends", () => {
  test("a bone that is longer is told as lengthening", () => {
    const long: Changes = [["short 8 mm", "long 8 mm"]];
    expectTold(long, "alignment.shortening: -8 mm (below 0 the bone is longer); -8 mm + max(2.5 mm - 3.0 mm, 0 mm)");
    expect(reckoned(long).get("alignment.shortening")?.formula).toBe("-lengthening + max(compression - gap, 0 mm)");
  });

  test("a knee joint that is not at 0 moves the square", () => {
    const below: Changes = [["landmark plafond", "landmark knee-joint 5 mm on ap\n    landmark plafond"]];
    expectTold(
      below,
      "segment: shaft; proximal if 191.3 mm ≤ 4.348 mm + 76.52 mm; distal if 191.3 mm ≥ 375.7 mm - 50.43 mm; else shaft",
    );
    expect(reckoned(below).get("segment")?.formula).toContain("centre ≤ knee-joint + proximal square");
  });

  test("both sides of an oblique hole are told where they were not read", () => {
    expectTold(
      [
        ["hole P1, top 40 mm, runs medial-lateral", "hole P1, top 40 mm, runs oblique 45 deg"],
        [
          "bone at 30 mm, width 62 mm on ap, depth 50 mm on lateral",
          "bone at 30 mm, width 62 mm on ap\n    bone at 20 mm, depth 50 mm on lateral",
        ],
      ],
      "hole.P1.path: 44.66 mm ± 0.22 mm (bone interpolated between 30 mm and 205 mm; bone interpolated between 20 mm and 205 mm); " +
        "2 / √((cos(45 deg) / (50.69 mm / 2))² + (sin(45 deg) / (40.36 mm / 2))²)",
    );
  });

  test("where both ends have nothing but slots, the end one screw is taken from is freed", () => {
    const slots = (removed: string): Changes => [
      ["  aftercare {", `  aftercare {\n    dynamise at 8 weeks, remove ${removed}`],
      ["hole D1, tip 12 mm, runs medial-lateral, takes", "hole D1, tip 12 mm, runs medial-lateral, slot 4 mm, takes"],
      ["    lock P1, drilled 51 mm, screw 52 mm\n", ""],
    ];
    // 353 + 4 mm: the tip moves on by the slot at its end.
    expectTold(slots("D2, Q9"), "dynamisation.left: 4 mm; 4 mm", "nail.tipDynamised: 357 mm; 353 mm + 4 mm");
    expectTold(slots("P1, D2"), "nail.tipDynamised is not reckoned", "nail.topDynamised: 2 mm; 5.5 mm - 3.5 mm");
  });
});
