/**
 * The rules on a femur and a humerus, each limit from below, at it and above it: the same landmarks under either name, ends of the bone
 * bounded in their own way, and figures of the tibia that stay silent or say whose they are.
 */
import { describe, expect, test } from "vitest";
import type { Finding } from "../../server/findings/finding.ts";
import { analyseText, sampleText, sampleWith } from "../check.ts";
import { changed, findingsOf, outcomeOf } from "./judged.ts";

type Change = readonly [from: string, to: string];

const plans = { femur: "plans/femoral-shaft.isthmus", humerus: "plans/humeral-shaft.isthmus" } as const;
type Bone = keyof typeof plans;

function judgedBone(bone: Bone, ...changes: readonly Change[]) {
  return analyseText(sampleWith(plans[bone], ...changes));
}

function told(findings: readonly Finding[]): readonly string[] {
  return findings.map(({ grade, message }) => `${grade}: ${message}`);
}

/** Rows of a bone, what is changed, and what the rule says: nothing, or the start of one finding. */
function checkBone(slug: string, bone: Bone, rows: readonly (readonly [what: string, Change[], string | undefined])[]) {
  test.each(rows)(`${slug} · ${bone} · %s`, (_, changes, says) => {
    const found = told(findingsOf(judgedBone(bone, ...changes), slug));
    expect(found).toHaveLength(says === undefined ? 0 : 1);
    if (says !== undefined) expect(found[0]).toContain(says);
  });
}

const edges = (text: string): Change => ["from 215 mm on ap to 224 mm on ap", text];
const code = (text: string): Change => ["fracture 32A3(b)", `fracture ${text}`];
const armEdges = (text: string): Change => ["from 138 mm on ap to 158 mm on ap", text];
const armCode = (text: string): Change => ["fracture 12A2(b)", `fracture ${text}`];

test.each(["femur", "humerus"] as const)("the sample of a %s has no findings", (bone) => {
  expect(told(judgedBone(bone).judgement.findings)).toEqual([]);
});

describe("the far joint under either name", () => {
  const joint = (level: string): Change => ["landmark joint 504 mm ± 2 mm on ap", `landmark joint ${level}`];

  checkBone("fracture-reversed", "femur", [
    ["ends at the joint", [joint("450 mm"), edges("from 440 mm to 450 mm")], undefined],
    ["ends before it", [joint("450 mm"), edges("from 440 mm to 449 mm")], undefined],
    [
      "ends beyond it",
      [joint("450 mm"), edges("from 440 mm to 451 mm")],
      "error: The fracture ends at 451 mm, beyond the joint surface at 450 mm.",
    ],
    // The head of a femur lies above the entry point.
    ["begins above the entry point", [edges("from 0 mm - 5 mm to 10 mm")], undefined],
    [
      "a near joint is the tibia's",
      [["    landmark scar", "    landmark knee-joint 300 mm\n    landmark scar"]],
      undefined,
    ],
  ]);

  test("is asked for by its own name", () => {
    const untold = (bone: Bone, line: string): readonly string[] =>
      judgedBone(bone, [line, ""]).judgement.outcomes.get("fracture-reversed")?.because ?? [];
    expect(untold("femur", "    landmark joint 504 mm ± 2 mm on ap\n")).toEqual(["no landmark joint is given"]);
    const tibia = changed(["    landmark plafond 432 mm ± 2 mm on ap\n", ""]);
    expect(tibia.judgement.outcomes.get("fracture-reversed")?.because).toEqual(["no landmark plafond is given"]);
  });

  test("a tibia may call it a joint, and is judged alike", () => {
    const plafond = "landmark plafond 432 mm ± 2 mm on ap";
    const slugs = (word: string, level: string): readonly string[] =>
      changed([plafond, `landmark ${word} ${level}`]).judgement.findings.map(
        ({ slug, message, at }) => `${slug} ${at === word ? "at the joint" : (at ?? "")} ${message}`,
      );
    for (const level of ["356 mm", "357.9 mm", "358 mm", "300 mm", "220 mm", "600 mm"])
      expect(slugs("joint", level), level).toEqual(slugs("plafond", level));
    expect(slugs("joint", "356 mm").join()).toContain("nail-long at the joint");
  });

  // Common practice, no single source: the tip at least 5 mm off the joint. The tip lies at 406 mm.
  const noScar: Change = ["    landmark scar 468 mm ± 2 mm on ap\n", ""];
  checkBone("nail-long", "femur", [
    ["6 mm off", [noScar, joint("412 mm")], undefined],
    ["5 mm off", [noScar, joint("411 mm")], undefined],
    ["4 mm off", [noScar, joint("410 mm")], "warning: The tip lies 4 mm short of the joint surface; at least 5 mm"],
  ]);

  test("a waiver names it as the plan does", () => {
    const [finding] = findingsOf(judgedBone("femur", noScar, joint("410 mm")), "nail-long");
    expect(finding?.at).toBe("joint");
  });
});

// Rockwood and Green 10e, fig. 5-7 (printed): distal end by the square, proximal femur to the lower edge of the lesser trochanter; a
// centre on an edge counts as in the end, our own reading.
describe("the segment against the code", () => {
  const exact: readonly Change[] = [
    ["landmark lesser-trochanter 74 mm ± 2 mm on ap", "landmark lesser-trochanter 65 mm"],
    ["landmark joint 504 mm ± 2 mm on ap", "landmark joint 440 mm"],
    ["epiphysis distal 88 mm on ap", "epiphysis distal 80 mm"],
  ];
  const at = (centre: number): Change => edges(`from ${centre - 4} mm to ${centre + 4} mm`);

  checkBone("segment-disagrees", "femur", [
    ["32 below the trochanter", [...exact, at(66)], undefined],
    [
      "32 at its lower edge",
      [...exact, at(65)],
      "warning: The code 32A3(b) is of the femoral shaft; the fracture's centre lies on the edge, which counts as above the lower edge of the lesser trochanter.",
    ],
    ["32 above it", [...exact, at(64)], "lies 1 mm above the lower edge of the lesser trochanter."],
    ["31 above it", [...exact, code("31A3"), at(64)], undefined],
    ["31 at it", [...exact, code("31A3"), at(65)], undefined],
    ["31 below it", [...exact, code("31A3"), at(66)], "lies 1 mm below the lesser trochanter."],
    ["32 above the distal square", [...exact, at(359)], undefined],
    ["32 on its edge", [...exact, at(360)], "lies on the edge, which counts as inside the distal square."],
    ["32 inside it", [...exact, at(361)], "lies 1 mm inside the distal square."],
    ["33 above the distal square", [...exact, code("33A2"), at(359)], "lies 1 mm above the distal square."],
    ["33 on its edge", [...exact, code("33A2"), at(360)], undefined],
    ["33 inside it", [...exact, code("33A2"), at(361)], undefined],
    ["33 above the trochanter", [...exact, code("33A2"), at(50)], "lies 310 mm above the distal square."],
    ["a code of the tibia", [code("42A3(b)")], "error: The code 42A3(b) is of the tibia, but the bone is the femur."],
    ["a code of the humerus", [code("12A3(b)")], "error: The code 12A3(b) is of the humerus"],
  ]);

  const noTrochanter: Change = ["    landmark lesser-trochanter 74 mm ± 2 mm on ap\n", ""];
  checkBone("segment-disagrees", "femur", [
    ["31 inside the distal square, no trochanter", [noTrochanter, code("31A3"), at(430)], "inside the distal square"],
    ["32 in the middle, no trochanter", [noTrochanter], undefined],
  ]);

  test("without a trochanter the shaft of a femur cannot be told", () => {
    const analysis = judgedBone("femur", noTrochanter);
    expect(outcomeOf(analysis, "segment-disagrees")).toBe("cannot tell");
    expect(outcomeOf(judgedBone("femur"), "segment-disagrees")).toBe("clear");
  });

  const exactArm: readonly Change[] = [
    ["landmark joint 336 mm ± 2 mm on ap", "landmark joint 300 mm"],
    ["epiphysis distal 62 mm on ap", "epiphysis distal 60 mm"],
  ];
  const armAt = (centre: number): Change => armEdges(`from ${centre - 4} mm to ${centre + 4} mm`);
  checkBone("segment-disagrees", "humerus", [
    ["12 above the distal square", [...exactArm, armAt(239)], undefined],
    ["12 on its edge", [...exactArm, armAt(240)], "lies on the edge, which counts as inside the distal square."],
    ["12 inside it", [...exactArm, armAt(241)], "lies 1 mm inside the distal square."],
    ["13 inside it", [...exactArm, armCode("13A2"), armAt(241)], undefined],
    ["13 on its edge", [...exactArm, armCode("13A2"), armAt(240)], undefined],
    ["13 above it", [...exactArm, armCode("13A2"), armAt(239)], "lies 1 mm above the distal square."],
    ["11 inside the distal square", [...exactArm, armCode("11A2"), armAt(241)], "lies 1 mm inside the distal square."],
    ["11 near the entry, which no square tells", [...exactArm, armCode("11A2"), armAt(20)], undefined],
  ]);

  test("the shaft and the proximal end of a humerus cannot be told", () => {
    for (const changes of [[], [...exactArm, armCode("11A2"), armAt(20)]]) {
      const outcome = judgedBone("humerus", ...changes).judgement.outcomes.get("segment-disagrees");
      expect(outcome?.outcome).toBe("cannot tell");
      expect(outcome?.because.join()).toContain("the proximal end of a humerus is not told by a square");
    }
  });

  test("a short fragment of a femur wants its screws too", () => {
    const few = judgedBone("femur", ...exact, code("33A2"), edges("from 350 mm to 360 mm, gap 0 mm"));
    expect(told(findingsOf(few, "screws-few-short-fragment"))).toEqual([]);
    const short = judgedBone("femur", ...exact, code("33A2"), edges("from 358 mm to 364 mm"));
    expect(told(findingsOf(short, "screws-few-short-fragment"))[0]).toContain("Screws in the short distal fragment: 2");
  });
});

describe("measures that no bone has", () => {
  const canal = (width: string): Change => ["canal at 80 mm, width 19 mm on ap", `canal at 80 mm, width ${width}`];
  const armCanal = (width: string): Change => ["canal at 60 mm, width 16 mm on ap", `canal at 60 mm, width ${width}`];

  // CT studies: isthmus of the femur 10.49 ± 1.52 mm (printed); half of three standard deviations below it is 2.965 mm (computed).
  // The upper bound is a third of the shortest tibia, Nguyen 2018 (computed): no range of length of another bone was found.
  checkBone("implausible", "femur", [
    ["a canal of 2.97 mm", [canal("2.97 mm")], undefined],
    ["a canal of 2.96 mm", [canal("2.96 mm")], "warning: A canal of 2.96 mm is narrower than any expected."],
    ["a canal of 104 mm", [canal("104 mm")], undefined],
    ["a canal of 104.1 mm", [canal("104.1 mm")], "warning: A canal of 104.1 mm is wider than any expected."],
    ["a femur of any length", [["landmark joint 504 mm ± 2 mm on ap", "landmark joint 620 mm"]], undefined],
  ]);

  // Nguyen 2018, 228 tibiae: isthmus 7 to 14 mm (printed), its half 3.5 mm (computed).
  checkBone("implausible", "humerus", [
    ["a canal of 3.5 mm", [armCanal("3.5 mm")], undefined],
    [
      "a canal of 3.4 mm",
      [armCanal("3.4 mm")],
      "warning: A canal of 3.4 mm is narrower than any expected of a tibia, for no norm of the humerus was found.",
    ],
  ]);

  // Twice the widest isthmus: 2 × (10.49 + 3 × 1.52) = 30.1 mm for a femur, 2 × 14 = 28 mm for a tibia (computed).
  const isthmus = (size: string): readonly Change[] => [
    ["canal at 80 mm, width 19 mm on ap, depth 20 mm on lateral", "canal at 80 mm, width 40 mm, depth 40 mm"],
    ["width 13 mm ± 0.3 mm on ap, depth 13.4 mm ± 0.3 mm on lateral", `width ${size}, depth ${size}`],
    ["canal at 380 mm, width 26 mm on ap, depth 24 mm on lateral", "canal at 380 mm, width 40 mm, depth 40 mm"],
  ];
  checkBone("implausible", "femur", [
    ["an isthmus of 30 mm", [...isthmus("30 mm")], undefined],
    ["an isthmus of 30.1 mm", [...isthmus("30.1 mm")], undefined],
    [
      "an isthmus of 30.2 mm",
      [...isthmus("30.2 mm")],
      "The narrowest canal given is 30.2 mm, twice as wide as any isthmus.",
    ],
  ]);

  const tibial = (size: string): readonly Change[] => [
    ["canal at 60 mm, width 27 mm on ap, depth 24 mm on lateral", "canal at 60 mm, width 40 mm, depth 40 mm"],
    ["width 12.4 mm ± 0.3 mm on ap, depth 12.2 mm ± 0.3 mm on lateral", `width ${size}, depth ${size}`],
    ["canal at 330 mm, width 24 mm on ap, depth 21 mm on lateral", "canal at 330 mm, width 40 mm, depth 40 mm"],
  ];
  test.each([
    ["28 mm", 0],
    ["28.1 mm", 1],
  ])("implausible · tibia · an isthmus of %s", (size, count) => {
    expect(findingsOf(changed(...tibial(size)), "implausible")).toHaveLength(count);
  });

  test("a width that is told is not told again as the isthmus", () => {
    const wide = isthmus("120 mm").map(([from, to]): Change => [from, to.replaceAll("40 mm", "120 mm")]);
    const found = told(findingsOf(judgedBone("femur", ...wide), "implausible"));
    expect(found).toHaveLength(6);
    expect(found.join()).not.toContain("narrowest canal");
  });
});

describe("figures of the tibia", () => {
  // "J Orthop Trauma 2018: fit < 70 % → exchange nailing, ideal >= 90 %" (printed); BMC 2022 found no effect: information only.
  const ratio = (canal: string): readonly Change[] => [
    ["width 13 mm ± 0.3 mm on ap, depth 13.4 mm ± 0.3 mm on lateral", `width ${canal}, depth ${canal}`],
    ["    ream 8.5 mm to 12 mm by 0.5 mm\n", "    unreamed\n"],
    ["diameter 11 mm", "diameter 10.5 mm"],
  ];
  checkBone("fit-ratio", "femur", [
    ["0.75", [...ratio("14 mm")], undefined],
    ["0.70", [...ratio("15 mm")], undefined],
    [
      "0.6995",
      [...ratio("15.01 mm")],
      "information: The nail fills 0.6995 of the canal's width; at least 0.7 is wanted.",
    ],
    ["1.00, above the tibia's range", [...ratio("10.5 mm")], undefined],
  ]);

  test("no ratio is held against a humerus, unless a protocol says so", () => {
    const arm = judgedBone("humerus");
    expect(outcomeOf(arm, "fit-ratio")).toBe("cannot tell");
    expect(arm.judgement.outcomes.get("fit-ratio")?.because.join()).toContain("no series");
  });

  const achieved = (alignment: string): Change => [
    "  aftercare {\n",
    `  achieved {\n    alignment ${alignment}\n  }\n\n  aftercare {\n`,
  ];
  checkBone("alignment-off", "femur", [
    ["coronal 4 deg", [achieved("coronal 4 deg varus, sagittal 0 deg procurvatum")], undefined],
    ["coronal 5 deg", [achieved("coronal 5 deg varus, sagittal 0 deg procurvatum")], undefined],
    [
      "coronal 6 deg",
      [achieved("coronal 6 deg varus, sagittal 0 deg procurvatum")],
      "information: In the coronal plane there are 6 deg of varus; the limit of this plane is 5 deg, measured on tibiae",
    ],
    // The department sets this one itself, so it is a limit of its own for every bone.
    ["sagittal 10 deg", [achieved("sagittal 10 deg procurvatum")], undefined],
    [
      "sagittal 11 deg",
      [achieved("sagittal 11 deg procurvatum")],
      "warning: In the sagittal plane there are 11 deg of procurvatum; the limit of this plane is 10 deg",
    ],
  ]);
  checkBone("rotation-off", "humerus", [
    ["10 deg", [achieved("rotation 10 deg external")], undefined],
    [
      "11 deg",
      [achieved("rotation 11 deg external")],
      "information: The arm is turned 11 deg external against the other side; the limit is 10 deg, measured on tibiae.",
    ],
  ]);
  checkBone("shortening-off", "femur", [
    ["10 mm", [achieved("short 10 mm")], undefined],
    [
      "11 mm",
      [achieved("short 11 mm")],
      "information: The bone is 11 mm short; the limit is 10 mm, measured on tibiae.",
    ],
  ]);

  const watch = (pressures: string): Change => [
    "  aftercare {\n",
    `  aftercare {\n    watch compartment, ${pressures}\n`,
  ];
  checkBone("compartment-low", "femur", [
    ["30 mmHg", [watch("diastolic 70 mmHg, pressure 40 mmHg")], undefined],
    [
      "29 mmHg",
      [watch("diastolic 70 mmHg, pressure 41 mmHg")],
      "warning: The difference to the diastolic pressure is 29 mmHg, below 30 mmHg, measured on tibiae.",
    ],
  ]);

  const narrow = (bone: Bone, size: string): readonly Change[] =>
    bone === "femur"
      ? [["width 13 mm ± 0.3 mm on ap, depth 13.4 mm ± 0.3 mm on lateral", `width ${size}, depth ${size}`]]
      : [["width 10 mm ± 0.3 mm on ap, depth 10.4 mm ± 0.3 mm on lateral", `width ${size}, depth ${size}`]];
  checkBone("narrow-canal", "femur", [
    // The series in which an 8 mm canal ran hot beyond 10 mm is of tibiae.
    ["8 mm, reamed to 12 mm", [...narrow("femur", "8 mm")], undefined],
    ["7.9 mm", [...narrow("femur", "7.9 mm")], "warning: The isthmus is 7.9 mm, narrower than 8 mm."],
  ]);
  checkBone("narrow-canal", "humerus", [["7 mm", [...narrow("humerus", "7 mm")], undefined]]);

  test("entry, knee and compartments of the leg are no question of an arm", () => {
    const arm = judgedBone(
      "humerus",
      ['enter "through the head, in line with the canal"', "enter infrapatellar, from-midline 20 mm medial"],
      ["soft-tissue closed C0", "soft-tissue closed C2"],
    );
    for (const slug of ["entry-off", "knee-stiff", "compartment-watch"])
      expect(outcomeOf(arm, slug), slug).toBe("clear");
  });
});

describe("landmarks of a bone", () => {
  test("the knee joint lies at the entry point of a tibia alone", () => {
    const line = "    landmark condyles knee-joint + 3 mm\n";
    const tibia = changed(["    landmark scar", `${line}    landmark scar`]);
    expect(tibia.judgement.findings.map(({ slug }) => slug)).not.toContain("name-unknown");
    const femur = judgedBone("femur", ["    landmark scar", `${line}    landmark scar`]);
    expect(told(findingsOf(femur, "name-unknown")).join()).toContain("knee-joint");
  });

  test("both samples name what they are", () => {
    expect(sampleText(plans.femur)).toContain("bone femur");
    expect(sampleText(plans.humerus)).toContain("bone humerus");
  });
});
