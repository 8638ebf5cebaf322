/** What is proposed for the sample plan and for changes of it, and why nothing is where nothing is. */
import { describe, expect, test } from "vitest";
import {
  lengthMargin,
  neighbours,
  type Proposal,
  type Proposed,
  propose,
  stillFound,
} from "../../server/answers/propose.ts";
import { figuresOf } from "../../server/answers/propose-figures.ts";
import { proposedLines } from "../../server/answers/propose-lines.ts";
import { chanceText } from "../../server/answers/propose-search.ts";
import { print, printValue } from "../../server/quantity/print.ts";
import { answerOf } from "../../server/reckoning/reckon.ts";
import { analyseText, sampleText } from "../check.ts";
import { changed, judged } from "../findings/judged.ts";

type Change = readonly [from: string, to: string];

const proposed = (...change: readonly Change[]): Proposed => propose(changed(...change));

function called({ candidate: { nail, diameter, length, heads } }: Proposal): string {
  const last = heads.at(-1);
  const reamed = last === undefined ? "unreamed" : `reamed to ${printValue(last, "mm")}`;
  return `${nail.name.text} ${printValue(diameter, "mm")} × ${printValue(length, "mm")}, ${reamed}`;
}

function linesOf({ frame }: Proposed, proposal: Proposal | undefined): readonly string[] {
  return frame === undefined || proposal === undefined ? [] : proposedLines(frame, proposal).map((line) => line.trim());
}

const noReamNoNail: readonly Change[] = [
  ["    ## Chatter starts at the isthmus; let the reamer do the work.\n    ream 8.5 mm to 11 mm by 0.5 mm\n", ""],
  ["    nail fenwick, diameter 10 mm, length 345 mm, sunk 8 mm\n", ""],
];

const noFallback: Change = [
  '  fallback "the 10 mm nail stops at the isthmus" {\n    ream 8.5 mm to 11.5 mm by 0.5 mm\n  }\n\n',
  "",
];

describe("the worked plan", () => {
  const found = proposed();
  const [first] = found.proposals;

  test("gets its own nail first: 10 mm × 345 mm, reamed to 11 mm", () => {
    expect(found.proposals.map(called)).toEqual([
      "fenwick 10 mm × 345 mm, reamed to 11 mm",
      "fenwick 12 mm × 345 mm, reamed to 13.5 mm",
      "fenwick 11 mm × 345 mm, reamed to 12 mm",
    ]);
    expect(linesOf(found, first)).toEqual([
      "ream 8.5 mm to 11 mm by 0.5 mm",
      "nail fenwick, diameter 10 mm, length 345 mm, sunk 8 mm",
      "lock D2, drilled 31 mm, screw 32 mm",
      "lock D1, drilled 33 mm, screw 34 mm",
      "lock P2, drilled 53 mm, screw 54 mm",
      "lock P1, drilled 51 mm, screw 52 mm",
      "cap 5 mm",
    ]);
  });

  test("shows the numbers that reckoning the plan itself gives", () => {
    const { reckonings } = changed();
    for (const { id, quantity, unit } of first === undefined ? [] : figuresOf(first)) {
      const reckoning = reckonings?.byId.get(id);
      expect([id, unit, print(quantity, unit)]).toEqual([
        id,
        reckoning?.unit,
        reckonings === undefined ? "" : print(answerOf(reckonings, id), unit),
      ]);
    }
    expect(first === undefined ? [] : figuresOf(first).map(({ id }) => id)).toEqual([
      ...["length.margin", "ream.over", "fit.ratio", "ream.removed", "ream.cortexLeft", "cap.top"],
      ...["screw.D2.beyond", "screw.D1.beyond", "screw.P2.beyond", "screw.P1.beyond"],
    ]);
  });

  test("says what rules out the neighbours, in the findings' own words", () => {
    const around = first === undefined ? [] : neighbours(found, first);
    const longer = changed(["length 345 mm", "length 360 mm"]).judgement.findings.find(
      ({ slug }) => slug === "nail-long",
    );
    expect(around.map(({ what, way, words }) => [what, way, words])).toEqual([
      ["diameter", "larger", "Nothing is found against it: it is proposal 3."],
      ["diameter", "smaller", "Nothing is found against it, but its fit ratio is 0.856 ± 0.022."],
      ["length", "larger", longer?.message],
      ["length", "smaller", "Nothing is found against it, but 345 mm fits too, with more than 99 %."],
    ]);
    expect(longer?.message).toContain("past the physeal scar");
  });

  test("needs few of the choices judged, and the same text gives the same proposals", () => {
    expect(found.judged).toBeLessThan(found.candidates / 10);
    expect(found.complete).toBe(true);
    const again = proposed();
    expect(again).not.toBe(found);
    expect(again.proposals.map((each) => [called(each), each.rank, each.fits])).toEqual(
      found.proposals.map((each) => [called(each), each.rank, each.fits]),
    );
  });

  test("tells what is still found with a proposal, and under which fallback", () => {
    const [, second] = found.proposals;
    expect(first === undefined ? undefined : stillFound(found, first)).toEqual([]);
    expect(second === undefined ? [] : stillFound(found, second).map(({ slug, fallback }) => [slug, fallback])).toEqual(
      [["reaming-undershoot", "the 10 mm nail stops at the isthmus"]],
    );
  });
});

describe("the canal", () => {
  test("a narrow one gets a thin nail and heads that begin at it", () => {
    const found = proposed(["depth 12.2 mm ± 0.3 mm on lateral", "depth 10 mm ± 0.3 mm on lateral"]);
    expect(found.proposals.map(called)[0]).toBe("fenwick 9 mm × 345 mm, reamed to 10 mm");
    expect(found.proposals[0]?.candidate.heads.map((head) => printValue(head, "mm"))[0]).toBe("8.5 mm");
  });

  test("one in which only the smallest head may begin is told so", () => {
    const found = proposed(["depth 12.2 mm ± 0.3 mm on lateral", "depth 8.7 mm ± 0.3 mm on lateral"]);
    const [first] = found.proposals;
    expect(first?.candidate.heads.map((head) => printValue(head, "mm"))[0]).toBe("8 mm");
    expect(first === undefined ? [] : stillFound(found, first).map(({ slug }) => slug)).toContain("narrow-canal");
  });

  test("one too narrow for any head gets nothing, in the finding's words", () => {
    const narrow: Change = ["depth 12.2 mm ± 0.3 mm on lateral", "depth 8 mm ± 0.3 mm on lateral"];
    const found = proposed(narrow);
    expect(found.proposals).toEqual([]);
    expect(found.because).toEqual([
      expect.stringMatching(/^The first head is 1\.10? mm ± 0\.2\d mm over the isthmus; the limit is 0\.5 mm/),
    ]);
    expect(neighbours(found, proposed().proposals[0] as Proposal)).toHaveLength(4);
  });

  test("an unreamed nail stays unreamed, and one too wide for the isthmus is not proposed", () => {
    const unreamed: Change = ["    ream 8.5 mm to 11 mm by 0.5 mm\n", "    unreamed\n"];
    const fitting = proposed(unreamed);
    expect(fitting.proposals.map(called)).toEqual(
      [
        "fenwick 9 mm × 345 mm, unreamed",
        // 10 mm in 10.52 mm ± 0.27 mm fills 0.95 of it.
        "fenwick 10 mm × 345 mm, unreamed",
        "fenwick 11 mm × 345 mm, unreamed",
      ].slice(0, fitting.proposals.length),
    );
    expect(fitting.proposals.length).toBe(2);
    const tight = proposed(unreamed, ["depth 12.2 mm ± 0.3 mm on lateral", "depth 9 mm ± 0.3 mm on lateral"]);
    expect(tight.proposals).toEqual([]);
    expect(tight.because[0]).toContain("goes in unreamed; the isthmus is only 7.76 mm");
  });
});

describe("the length", () => {
  const oneSize: readonly Change[] = [
    noFallback,
    ["diameters 9 mm to 12 mm by 1 mm", "diameters 10 mm"],
    ["heads 8 mm to 14 mm by 0.5 mm", "heads 8.5 mm to 11 mm by 0.5 mm"],
    ["front-cutting 8 mm, 8.5 mm", "front-cutting 8.5 mm"],
  ];

  test("of those that may fit comes in the order of the probability", () => {
    const found = proposed(
      ...oneSize,
      ["heads 8.5 mm to 11 mm by 0.5 mm", "heads 8.5 mm to 10.5 mm by 0.5 mm"],
      ["landmark scar 416 mm ± 2 mm on ap", "landmark scar 409 mm ± 20 mm on ap"],
    );
    const chances = found.proposals.map(({ fits }) => fits);
    expect(found.proposals.map(called)).toEqual([
      "fenwick 10 mm × 330 mm, reamed to 10.5 mm",
      "fenwick 10 mm × 345 mm, reamed to 10.5 mm",
      "fenwick 10 mm × 360 mm, reamed to 10.5 mm",
    ]);
    expect(chances).toEqual(chances.toSorted((a, b) => b - a));
    expect(found.proposals.map(chanceText)).toEqual(["98 %", "62 %", "8 %"]);
    expect(found.proposals.map((each) => print(lengthMargin(each), "mm"))).toEqual([
      "18 mm ± 18 mm",
      "3 mm ± 18 mm",
      "-12 mm ± 18 mm",
    ]);
  });

  test("is never called certain when a reading in it is not", () => {
    const loose = proposed();
    expect(loose.proposals.map(chanceText)).toEqual(Array(3).fill("more than 99 %"));
    const exact = proposed(
      ["landmark scar 416 mm ± 2 mm on ap", "landmark scar 353 mm"],
      ["landmark plafond 432 mm ± 2 mm on ap", "landmark plafond 370 mm"],
    );
    expect(exact.proposals.map(called)[0]).toBe("fenwick 10 mm × 345 mm, reamed to 11 mm");
    expect(exact.proposals.map(chanceText)[0]).toBe("100 %");
  });

  test("that is too long in every size is told in the finding's words", () => {
    const found = proposed(["lengths 240 mm to 420 mm by 15 mm", "lengths 375 mm, 390 mm"]);
    expect(found.proposals).toEqual([]);
    expect(found.because[0]).toMatch(/^The tip lies .* past the joint surface/);
  });

  test("goes down where a longer one puts a screw into the fracture", () => {
    const found = proposed(
      ...oneSize,
      ["landmark scar 416 mm ± 2 mm on ap", "landmark scar 300 mm ± 2 mm on ap"],
      ["lengths 240 mm to 420 mm by 15 mm", "lengths 180 mm, 195 mm, 210 mm, 240 mm"],
      ["hole D2, tip 26 mm", "hole D2, tip 40 mm"],
    );
    // With 240 mm D2 lies at 208 mm and D1 at 236 mm; the fracture reaches from 180.9 mm to 201.7 mm.
    expect(found.proposals.map(called)[0]).toBe("fenwick 10 mm × 240 mm, reamed to 11 mm");
    const lower = proposed(
      ...oneSize,
      ["landmark scar 416 mm ± 2 mm on ap", "landmark scar 300 mm ± 2 mm on ap"],
      ["lengths 240 mm to 420 mm by 15 mm", "lengths 180 mm, 225 mm"],
      ["hole D2, tip 26 mm", "hole D2, tip 40 mm"],
    );
    expect(lower.proposals.map(called)[0]).toBe("fenwick 10 mm × 180 mm, reamed to 11 mm");
    const [first] = lower.proposals;
    const longer =
      first === undefined
        ? []
        : neighbours(lower, first).filter(({ way, what }) => what === "length" && way === "larger");
    expect(longer.map(({ finding, words }) => [finding?.grade, finding?.slug, words])).toEqual([
      ["error", "screw-in-fracture", expect.stringContaining("inside the fracture")],
    ]);
  });
});

describe("depth and cap", () => {
  test("a depth that is given stays, with the longest cap that stays in the bone", () => {
    const found = proposed(["sunk 8 mm", "sunk 13 mm"]);
    const [first] = found.proposals;
    expect(linesOf(found, first)).toContain("nail fenwick, diameter 10 mm, length 345 mm, sunk 13 mm");
    expect(linesOf(found, first)).toContain("cap 10 mm");
  });

  test("a depth that is not given is the least whole millimetre for what draws the nail back and the cap", () => {
    const found = proposed(...noReamNoNail);
    // 2 turns of 1.25 mm and the plan's cap of 5 mm.
    expect(linesOf(found, found.proposals[0])).toContain("nail fenwick, diameter 10 mm, length 345 mm, sunk 8 mm");
    const bare = proposed(...noReamNoNail, ["    cap 5 mm\n", ""], ["    take cap\n", ""]);
    expect(linesOf(bare, bare.proposals[0])).toEqual(
      expect.arrayContaining(["nail fenwick, diameter 10 mm, length 345 mm, sunk 3 mm", "cap 0 mm"]),
    );
    const dynamised = proposed(...noReamNoNail, [
      "    review at 2",
      "    dynamise at 10 weeks, remove P1\n    review at 2",
    ]);
    // The slot's 6 mm are drawn back as well, less the 2.5 mm of compression in it.
    expect(linesOf(dynamised, dynamised.proposals[0])).toContain(
      "nail fenwick, diameter 10 mm, length 345 mm, sunk 11 mm",
    );
  });

  test("a nail without a cap stays without", () => {
    const found = proposed(["    cap 5 mm\n", "    cap none\n"], ["    take cap\n", ""]);
    expect(linesOf(found, found.proposals[0])).toContain("cap none");
  });

  test("a depth at which nothing can be proud for want of a pitch is told", () => {
    const found = proposed(...noReamNoNail, ["compression travel 6 mm, pitch 1.25 mm", "compression travel 6 mm"]);
    expect(found.proposals).toEqual([]);
    expect(found.because.join()).toMatch(/pitch/);
  });
});

describe("the reaming list", () => {
  test("keeps the department's limits", () => {
    const found = proposed(["  demand time-out", "  limit reaming-over-nail 1 mm to 1 mm\n  demand time-out"]);
    expect(found.proposals.map(called)).toEqual([
      "fenwick 10 mm × 345 mm, reamed to 11 mm",
      "fenwick 11 mm × 345 mm, reamed to 12 mm",
      "fenwick 12 mm × 345 mm, reamed to 13 mm",
    ]);
  });

  test("is told when a limit cannot be used or no step is small enough", () => {
    const unreadable = proposed(["  demand time-out", "  limit reaming-step up-to nothing-known\n  demand time-out"]);
    expect(unreadable.proposals).toEqual([]);
    expect(unreadable.because.length).toBeGreaterThan(0);
    const coarse = proposed(
      ["heads 8 mm to 14 mm by 0.5 mm", "heads 8.5 mm, 10 mm to 14 mm by 0.5 mm"],
      ["front-cutting 8 mm, 8.5 mm", "front-cutting 8.5 mm"],
      ["    ream 8.5 mm to 11 mm by 0.5 mm\n", "    ream 8.5 mm, 10 mm, 10.5 mm, 11 mm\n"],
      noFallback,
    );
    // It begins with the largest that the isthmus of 10.52 mm lets it.
    expect(coarse.proposals[0]?.candidate.heads.map((head) => printValue(head, "mm"))).toEqual(["10.5 mm", "11 mm"]);
    const coarser = proposed(
      ["heads 8 mm to 14 mm by 0.5 mm", "heads 8.5 mm, 12 mm"],
      ["front-cutting 8 mm, 8.5 mm", "front-cutting 8.5 mm"],
      ["    ream 8.5 mm to 11 mm by 0.5 mm\n", "    ream 8.5 mm, 12 mm\n"],
      noFallback,
    );
    expect(coarser.proposals).toEqual([]);
    expect(coarser.because.join()).toContain("The heads grow by 3.5 mm at once; the limit is 0.5 mm.");
  });
});

describe("screws", () => {
  const screwsOf = (found: Proposed): readonly string[] =>
    (found.proposals[0]?.screws ?? []).map(({ hole, drilled, predicted, screw }) =>
      [hole, printValue(drilled, "mm"), printValue(screw, "mm"), ...(predicted ? ["predicted"] : [])].join(" "),
    );

  test("nothing is found against stay, others become the listed length that suits", () => {
    expect(screwsOf(proposed(["drilled 31 mm, screw 32 mm", "drilled 30 mm, screw 32 mm"]))[0]).toBe("D2 30 mm 32 mm");
    // 2 mm ± 2 mm past the cortex may be too long or too short; that is for the writer to say.
    expect(screwsOf(proposed(["drilled 31 mm, screw 32 mm", "drilled 30 mm ± 2 mm, screw 32 mm"]))[0]).toMatch(
      / 32 mm$/,
    );
    expect(screwsOf(proposed(["drilled 31 mm, screw 32 mm", "drilled 31 mm, screw 36 mm"]))[0]).toBe("D2 31 mm 32 mm");
    expect(screwsOf(proposed(["drilled 31 mm, screw 32 mm", "drilled 31 mm, screw 30 mm"]))[0]).toBe("D2 31 mm 32 mm");
    expect(screwsOf(proposed(["drilled 31 mm, screw 32 mm", "drilled 31 mm, screw 33 mm"]))[0]).toBe("D2 31 mm 32 mm");
    expect(screwsOf(proposed(["drilled 31 mm, screw 32 mm", "drilled 31 mm, screw 32 mm, grip near"]))[0]).toBe(
      "D2 31 mm 30 mm",
    );
    expect(screwsOf(proposed(["drilled 31 mm, screw 32 mm", "drilled 31 mm"]))[0]).toBe("D2 31 mm 32 mm");
  });

  test("without a drilled depth go by the bone in the hole's path, and say so", () => {
    const found = proposed(["lock D2, drilled 31 mm, screw 32 mm", "lock D2"]);
    const path =
      found.proposals[0] === undefined ? "" : print(answerOf(found.proposals[0].reckonings, "hole.D2.path"), "mm");
    expect(path).toMatch(/^30\.47/);
    expect(screwsOf(found)[0]).toBe("D2 31 mm 32 mm predicted");
    expect(linesOf(found, found.proposals[0])).toContain("lock D2, drilled 31 mm, screw 32 mm");
    const remarks = found.proposals[0] === undefined ? [] : figuresOf(found.proposals[0]).map(({ remark }) => remark);
    expect(remarks).toContain("31 mm expected from the bone's widths, not drilled");
  });
});

test("a size that only a fallback forbids is not proposed, and the fallback is named", () => {
  const found = proposed(["    ream 8.5 mm to 11.5 mm by 0.5 mm\n", "    unreamed\n"]);
  expect(found.proposals.map(called)).toEqual([
    "fenwick 10 mm × 345 mm, reamed to 11 mm",
    "fenwick 10 mm × 345 mm, reamed to 11.5 mm",
    // Every head below the isthmus leaves the same ratio; the least one removes the least.
    "fenwick 9 mm × 345 mm, reamed to 9.5 mm",
  ]);
  const [first] = found.proposals;
  const [thicker] = first === undefined ? [] : neighbours(found, first);
  expect(thicker?.words).toMatch(
    /^The nail is 11 mm wide and goes in unreamed; .*\(in the fallback "the 10 mm nail stops at the isthmus"\)$/,
  );
});

describe("nothing is proposed", () => {
  const because = (...change: readonly Change[]): string => {
    const found = proposed(...change);
    expect(found.proposals).toEqual([]);
    return found.because.join(" ");
  };

  test("while an error stands that no nail takes away", () => {
    expect(because(["support distal-thigh", "support knee"])).toMatch(
      /under the knee .* No choice of nail takes this away\.$/,
    );
    expect(because(["growth-plates closed", "growth-plates open"])).toMatch(
      /^The growth plates are open.*\(96 of 96 candidates judged\)$/,
    );
    expect(because(["    side left\n", ""])).toContain("No choice of nail takes this away.");
    expect(because(["weight 78 kg", "wieght 78 kg"])).toContain("No choice of nail takes this away.");
  });

  test("while a fallback has an error with every choice, and the fallback is named", () => {
    const spare: Change = [
      "    ream 8.5 mm to 11.5 mm by 0.5 mm\n",
      "    ream 8.5 mm to 11.5 mm by 0.5 mm\n    cap 15 mm\n",
    ];
    const reasons = because(spare);
    expect(reasons).toContain('proud of the bone. (in the fallback "the 10 mm nail stops at the isthmus") (96 of 96');
    // With a cap that fits, the same fallback is in nobody's way.
    expect(proposed(spare, ["    cap 15 mm\n", "    cap 0 mm\n"]).proposals).toHaveLength(3);
  });

  test("unless it is signed for, or the department grades it down", () => {
    const signed: Change = [
      "  status for-review\n",
      '  status for-review\n  waive support-under-knee, because "no other is there", signed "A. B."\n',
    ];
    expect(proposed(signed, ["support distal-thigh", "support knee"]).proposals).toHaveLength(3);
    const graded: Change = ["  demand time-out", "  grade support-under-knee warning\n  demand time-out"];
    expect(proposed(graded, ["support distal-thigh", "support knee"]).proposals).toHaveLength(3);
  });

  test("when an input is not known", () => {
    expect(
      because(["    landmark scar 416 mm ± 2 mm on ap\n", ""], ["    landmark plafond 432 mm ± 2 mm on ap\n", ""]),
    ).toContain("neither a landmark scar nor a landmark plafond is given");
    expect(
      because(
        ["    canal at 60 mm, width 27 mm on ap, depth 24 mm on lateral\n", ""],
        ["    canal at 205 mm, width 12.4 mm ± 0.3 mm on ap, depth 12.2 mm ± 0.3 mm on lateral\n", ""],
        ["    canal at 330 mm, width 24 mm on ap, depth 21 mm on lateral\n", ""],
      ),
    ).toContain("no width of the canal is given");
    expect(because(['  use "catalogue/fenwick.isthmus"\n', ""])).toContain("No catalogue that was read lists a nail.");
    expect(
      because(["  reamers {\n    heads 8 mm to 14 mm by 0.5 mm\n    front-cutting 8 mm, 8.5 mm\n  }\n", ""]),
    ).toContain("no catalogue that was read lists reamer heads");
  });

  test("when no nail goes with the fracture or the bone", () => {
    expect(because(["42A1, 42A2, 42A3, 42B2", "42A1, 42A3, 42B2"])).toContain("Nail fenwick is not listed for 42A2");
    expect(because(["    for tibia\n", "    for femur\n"])).toContain("made for the femur");
  });

  test("in a text that is no plan", () => {
    const catalogue = judged({ text: 'isthmus 1\n\ncatalogue "x" {\n  notice "Invented."\n}\n' });
    expect(propose(catalogue)).toMatchObject({ frame: undefined, proposals: [], because: ["It is a catalogue."] });
    expect(propose(judged({ text: "" })).because).toEqual(["It holds no plan that can be read."]);
  });

  test("after so many choices with errors that the search is given up, and that is told", () => {
    const found = proposed(
      ["diameters 9 mm to 12 mm by 1 mm", "diameters 9 mm to 12 mm by 0.1 mm"],
      ["sunk 8 mm", "sunk 2 mm"],
    );
    expect(found.complete).toBe(false);
    expect(found.because[0]).toContain("The driving end stands 0.5 mm proud of the bone after compression.");
    expect(found.because.at(-1)).toMatch(/^The search was given up after 300 of \d{3,} choices\.$/);
  });
});

test("a nail of another bone beside one that fits is not searched and is told", () => {
  const found = proposed([
    "  screws peg {\n",
    "  nail quill {\n    for femur\n    diameters 10 mm\n    lengths 345 mm\n  }\n\n  screws peg {\n",
  ]);
  expect(found.proposals.map(called)[0]).toBe("fenwick 10 mm × 345 mm, reamed to 11 mm");
  expect(found.leftOut.map(({ what, because }) => [what, because])).toEqual([
    ["nail quill", "Nail quill is made for the femur, but the bone is the tibia."],
  ]);
});

test("a plan that has neither nail nor reaming nor wire is proposed for from its measures", () => {
  const found = proposed(...noReamNoNail, ["    wire ball-tip\n", ""]);
  expect(linesOf(found, found.proposals[0]).slice(0, 3)).toEqual([
    "wire ball-tip",
    "ream 8.5 mm to 11 mm by 0.5 mm",
    "nail fenwick, diameter 10 mm, length 345 mm, sunk 8 mm",
  ]);
});

test.each(["simple-shaft", "distal-third", "uncertain-limits"])(
  "the sample %s keeps its length or gets a likelier one",
  (name) => {
    const analysis = analyseText(sampleText(`plans/${name}.isthmus`));
    const { proposals } = propose(analysis);
    expect(proposals).toHaveLength(3);
    expect(proposals.every(({ fits }) => fits >= 0.95)).toBe(true);
  },
);
