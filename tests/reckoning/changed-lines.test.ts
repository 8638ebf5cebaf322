/**
 * The worked plan with some lines changed: what becomes of single numbers, with their words. Each figure can be followed by hand; the
 * views magnify 1.15 and 1.16, and a ± is two standard uncertainties.
 */
import { describe, expect, test } from "vitest";
import { parse } from "../../grammar/parse.ts";
import { exampleDocument } from "../../server/findings/example.ts";
import { understand } from "../../server/meaning/understand.ts";
import { print } from "../../server/quantity/print.ts";
import { reckon } from "../../server/reckoning/reckon.ts";

type Changes = readonly (readonly [from: string, to: string])[];

/** "id: value (remark); formula with numbers", or that it is not reckoned. */
function told(changes: Changes, ids: readonly string[]): readonly string[] {
  const { file, text, library } = exampleDocument({ change: changes });
  const { document } = understand(parse(text), file, library);
  if (document?.kind !== "plan") throw new Error("the text is a plan");
  const { byId } = reckon(document);
  return ids.map((id) => {
    const reckoning = byId.get(id);
    if (reckoning === undefined) return `${id} is not reckoned`;
    const { answer, unit, filled, remark } = reckoning;
    const value =
      answer.kind === "word"
        ? answer.word
        : answer.kind === "known"
          ? print(answer, unit)
          : `unknown: ${answer.because}`;
    return `${id}: ${value}${remark === undefined ? "" : ` (${remark})`}; ${filled}`;
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
