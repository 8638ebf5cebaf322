/**
 * Changes of the plan that the rules' examples are changes of, its catalogue and its protocol: each a case a surgeon may write, sound
 * or not, and together most of what the rules tell apart. Invented like the plan. Not a test itself.
 */

import { examplePlan } from "../../server/findings/example.ts";
import { achieved, cap, compress, nail, nailLength, sunk, without } from "./clinical/changes.ts";
import type { Change } from "./clinical/table.ts";

const reamed: Change = ["    ream 8.5 mm to 11 mm by 0.5 mm\n    nail", "    unreamed\n    nail"];
const fracture = "fracture 42A2, from 208 mm on ap to 232 mm on ap, gap 3 mm ± 1 mm, fibula 4F2A";
const coronal = "coronal 9 deg varus, sagittal 6 deg procurvatum, rotation 12 deg external, short 8 mm";
const beforeReaming = "    ## Chatter starts";
const block = (line: string): Change => [beforeReaming, `    ${line}\n${beforeReaming}`];
const dynamised = (line: string): Change => ["  aftercare {", `  aftercare {\n    ${line}`];

const [, steps = ""] = /\n {2}operation \{\n(.*?) {2}\}\n/s.exec(examplePlan) ?? [];

/** Each step of the operation first, last, and one place earlier. A note goes with its step. */
function* stepsMoved(): Generator<readonly [name: string, change: readonly Change[]]> {
  const all = steps.match(/(?: *##.*\n)* +[a-z].*\n/g) ?? [];
  for (const [at, step] of all.entries()) {
    const others = all.toSpliced(at, 1);
    const places = new Map([
      ["first", 0],
      ["last", others.length],
      ["one place earlier", at - 1],
    ]);
    for (const [said, to] of places) {
      const moved = others.toSpliced(Math.max(to, 0), 0, step).join("");
      if (moved !== steps) yield [`\`${step.split("\n").at(-2)?.trim()}\` ${said}`, [[steps, moved]]];
    }
  }
}

export const variants: readonly (readonly [name: string, change: readonly Change[]])[] = [
  // What was done against what was planned.
  ["reduced otherwise", [achieved("reduce open, using clamp")]],
  ["entered otherwise", [achieved("enter suprapatellar, from-midline 8 mm medial")]],
  ["entered 4 mm further", [achieved("enter infrapatellar, from-midline 12 mm lateral")]],
  ["unreamed in the end", [achieved("unreamed")]],
  ["reamed in the end", [reamed, achieved("ream 8.5 mm to 10 mm by 0.5 mm")]],
  ["reamed further than planned", [achieved("ream 8.5 mm to 12 mm by 0.5 mm")]],
  ["another nail", [achieved("nail harrow, diameter 10 mm, length 345 mm, sunk 8 mm")]],
  ["a thinner nail", [achieved("nail fenwick, diameter 9 mm, length 345 mm, sunk 8 mm")]],
  ["a shorter nail, deeper", [achieved("nail fenwick, diameter 10 mm, length 330 mm, sunk 14 mm")]],
  ["one screw of four", [achieved("lock D1, drilled 33 mm, screw 34 mm")]],
  ["a screw more", [achieved("lock D3, drilled 33 mm, screw 34 mm", "lock D2, drilled 31 mm, screw 32 mm")]],
  ["a longer screw", [achieved("lock D2, drilled 31 mm, screw 36 mm")]],
  ["a screw of another family", [achieved("lock D2, drilled 31 mm, screw rod 32 mm")]],
  ["a blocking screw that was not planned", [achieved("block at 120 mm, side lateral, screw 40 mm")]],
  [
    "a blocking screw elsewhere",
    [
      block("block at 100 mm, side lateral, screw 40 mm"),
      achieved("block at 110 mm, side lateral, screw 40 mm", "block at 120 mm, side medial, screw 40 mm"),
    ],
  ],
  [
    "one blocking screw of two",
    [
      block("block at 100 mm, side lateral, screw 40 mm\n    block at 110 mm, side posterior, screw 40 mm"),
      achieved("block at 100 mm, side lateral, screw 40 mm"),
    ],
  ],
  ["compressed further", [achieved("compress 4 turns")]],
  ["compressed unplanned", [without("compress"), achieved("compress 2 turns")]],
  ["compressed by a length", [achieved("compress 2.5 mm")]],
  ["backslap unplanned", [achieved("backslap 2 mm")]],
  ["backslap instead", [["    compress 2 turns", "    backslap 2 mm"], achieved("backslap 5 mm")]],
  ["no cap in the end", [achieved("cap none")]],
  ["a cap after all", [cap("none"), achieved("cap 5 mm")]],
  ["another cap", [achieved("cap 15 mm")]],
  [
    "left in varus",
    [achieved("alignment coronal 7 deg varus, sagittal 12 deg recurvatum, rotation 16 deg internal, short 14 mm")],
  ],
  // Blocking screws against every deformity.
  ...["varus", "valgus"].flatMap((way) =>
    ["lateral", "medial", "anterior", "posterior"].map((side): readonly [string, readonly Change[]] => [
      `a blocking screw on the ${side} side in ${way}`,
      [block(`block at 100 mm, side ${side}, screw 40 mm`), [coronal, `coronal 9 deg ${way}`]],
    ]),
  ),
  ...["procurvatum", "recurvatum"].flatMap((way) =>
    ["anterior", "posterior"].map((side): readonly [string, readonly Change[]] => [
      `a blocking screw on the ${side} side in ${way}`,
      [block(`block at 100 mm, side ${side}, screw 40 mm`), [coronal, `sagittal 6 deg ${way}`]],
    ]),
  ),
  [
    "a blocking screw where the bone is straight",
    [block("block at 100 mm, side lateral, screw 40 mm"), [coronal, "coronal 0 deg varus"]],
  ],
  [
    "a blocking screw after reaming",
    [["    check ap, lateral\n", "    block at 100 mm, side medial, screw 40 mm\n    check ap, lateral\n"]],
  ],
  // Codes of fractures.
  ["a group that does not exist", [["fracture 42A2", "fracture 42A4"]]],
  ["a subgroup that does not exist", [["fracture 42A2", "fracture 42A2.9"]]],
  ["a qualification of another group", [["fracture 42A2", "fracture 42A2(q)"]]],
  ["a modifier there is not", [["fracture 42A2", "fracture 42A2[77]"]]],
  ["a qualification and a modifier", [["fracture 42A2", "fracture 42A2(a,z)[5a,99]"]]],
  ["the old spelling", [["fracture 42A2", "fracture 42-A2.1"]]],
  ["the fibula's code wrong", [["fibula 4F2A", "fibula 4F9Z"]]],
  ["another bone's code", [["fracture 42A2", "fracture 32A2"]]],
  ["an end segment's code", [["fracture 42A2", "fracture 43A1"]]],
  ["a code the nail is not for", [["fracture 42A2", "fracture 41C3"]]],
  // Where the fracture lies.
  ["near the knee", [[fracture, "fracture 42A2, from 60 mm on ap to 80 mm on ap, gap 3 mm ± 1 mm"]]],
  ["near the ankle", [[fracture, "fracture 42A2, from 352 mm on ap to 372 mm on ap, gap 3 mm ± 1 mm"]]],
  ["where the screws go", [[fracture, "fracture 42A2, from 356 mm on ap to 392 mm on ap, gap 3 mm ± 1 mm"]]],
  ["upside down", [[fracture, "fracture 42A2, from 232 mm on ap to 208 mm on ap, gap 3 mm ± 1 mm"]]],
  ["over half the shaft", [[fracture, "fracture 42C3, from 120 mm on ap to 300 mm on ap, gap 0 mm"]]],
  // The nail and what holds it.
  ["a nail as long as the bone", [nailLength("375 mm")]],
  ["a nail far too short", [nailLength("240 mm")]],
  ["a length that is not listed", [["length 345 mm, sunk", "length 347 mm, sunk"]]],
  ["a nail that stands proud", [sunk("0 mm")]],
  ["a nail sunk deep", [sunk("25 mm")]],
  ["the thickest nail", [nail("12 mm")]],
  ["the thinnest nail", [nail("9 mm")]],
  [
    "a solid nail",
    [
      ["    bore 5 mm\n", "    bore 0 mm\n"],
      ["wire ball-tip", "wire smooth"],
    ],
  ],
  [
    "no screw beyond the fracture",
    [["    lock D2, drilled 31 mm, screw 32 mm\n    lock D1, drilled 33 mm, screw 34 mm\n", ""]],
  ],
  [
    "one screw at each end",
    [
      ["    lock D1, drilled 33 mm, screw 34 mm\n", ""],
      ["    lock P1, drilled 51 mm, screw 52 mm\n", ""],
    ],
  ],
  [
    "screws too long",
    [
      ["screw 32 mm", "screw 40 mm"],
      ["screw 54 mm", "screw 65 mm"],
    ],
  ],
  [
    "screws too short",
    [
      ["screw 32 mm", "screw 26 mm"],
      ["screw 54 mm", "screw 44 mm"],
    ],
  ],
  ["screws that are not listed", [["screw 32 mm", "screw 33 mm"]]],
  ["a hole twice", [["lock D1, drilled 33 mm", "lock D2, drilled 33 mm"]]],
  [
    "a screw through one cortex",
    [["lock P1, drilled 51 mm, screw 52 mm", "lock P1, drilled 26 mm, screw 26 mm, grip near"]],
  ],
  // Reaming.
  [
    "heads by whole millimetres",
    [["ream 8.5 mm to 11 mm by 0.5 mm\n    nail", "ream 8.5 mm to 11.5 mm by 1 mm\n    nail"]],
  ],
  ["heads from the middle", [["ream 8.5 mm to 11 mm by 0.5 mm\n    nail", "ream 11 mm to 13 mm by 0.5 mm\n    nail"]]],
  [
    "reamed to the nail alone",
    [["ream 8.5 mm to 11 mm by 0.5 mm\n    nail", "ream 8.5 mm to 10 mm by 0.5 mm\n    nail"]],
  ],
  [
    "reamed far over the nail",
    [["ream 8.5 mm to 11 mm by 0.5 mm\n    nail", "ream 8.5 mm to 13.5 mm by 0.5 mm\n    nail"]],
  ],
  ["unreamed", [reamed]],
  [
    "a narrow canal",
    [["width 12.4 mm ± 0.3 mm on ap, depth 12.2 mm ± 0.3 mm", "width 8.8 mm ± 0.3 mm on ap, depth 8.9 mm ± 0.3 mm"]],
  ],
  ["no wire", [["    wire ball-tip\n", ""]]],
  ["a tourniquet", [["prepare antibiotic, time-out", "prepare antibiotic, time-out, tourniquet"]]],
  // Compression, backslap, dynamisation.
  ["compression over the gap", [compress("4 turns")]],
  ["compression over the travel", [compress("6 turns")]],
  ["compression by a length", [compress("2.5 mm")]],
  ["compression after every screw", [without("compress"), ["    cap 5 mm\n", "    compress 2 turns\n    cap 5 mm\n"]]],
  ["compression before the far screws", [without("compress"), ["    lock D2,", "    compress 2 turns\n    lock D2,"]]],
  ["a backslap before the far screws", [without("compress"), ["    lock D2,", "    backslap 3 mm\n    lock D2,"]]],
  ["dynamised early", [dynamised("dynamise at 3 weeks, remove P1")]],
  ["dynamised by every near screw", [dynamised("dynamise at 10 weeks, remove P1, P2")]],
  ["dynamised at the far end", [dynamised("dynamise at 10 weeks, remove D2")]],
  ["dynamised by a screw there is not", [dynamised("dynamise at 10 weeks, remove D9")]],
  [
    "dynamised with no slot",
    [["runs medial-lateral, slot 6 mm", "runs medial-lateral"], dynamised("dynamise at 10 weeks, remove P1")],
  ],
  // The patient.
  [
    "a child",
    [
      ["growth-plates closed", "growth-plates open"],
      ["age 34 years", "age 11 years"],
    ],
  ],
  ["a stiff knee", [["knee-flexion 120 deg", "knee-flexion 70 deg"]]],
  [
    "an open fracture without antibiotic",
    [
      ["soft-tissue closed C1", "soft-tissue open IIIB"],
      ["prepare antibiotic, time-out", "prepare time-out"],
    ],
  ],
  ["a tense compartment", [["diastolic 72 mmHg, pressure 28 mmHg", "diastolic 60 mmHg, pressure 45 mmHg"]]],
  ["a watch without readings", [["watch compartment, diastolic 72 mmHg, pressure 28 mmHg", "watch compartment"]]],
  ["soft bone", [["bone-quality good", "bone-quality poor"]]],
  ["weight at once", [["weight-bearing partial 20 kg, until 6 weeks", "weight-bearing tolerated"]]],
  // Readings.
  ["a marker of another size", [["marker 25 mm, seen 29 mm", "marker 25 mm, seen 24 mm"]]],
  ["one view without a marker", [["    view lateral, marker 25 mm, seen 29 mm ± 0.2 mm\n", ""]]],
  ["readings in one plane", [[", depth 12.2 mm ± 0.3 mm on lateral", ""]]],
  ["a landmark in centimetres", [["landmark scar 416 mm", "landmark scar 41.6 mm"]]],
  // The catalogue.
  ["holes that overlap", [["hole P1, top 40 mm", "hole P1, top 29 mm"]]],
  ["a hole outside the nail", [["hole D2, tip 26 mm", "hole D2, tip 500 mm"]]],
  ["travel longer than the slot", [["compression travel 6 mm", "compression travel 9 mm"]]],
  ["sizes out of order", [["caps 0 mm, 5 mm, 10 mm, 15 mm", "caps 0 mm, 10 mm, 5 mm, 15 mm"]]],
  ["a core as thick as the thread", [["core 3.9 mm", "core 4.6 mm"]]],
  ["a drill as thick as the thread", [["drill 3.8 mm", "drill 5 mm"]]],
  ["no notice", [['  notice "Invented for examples. Not an implant on any market."\n', ""]]],
  ["lengths that do not reach", [["lengths 240 mm to 420 mm by 15 mm", "lengths 240 mm to 417 mm by 15 mm"]]],
  [
    "screws that go with no nail",
    [
      [
        "  reamers {",
        "  screws rod {\n    thread 5 mm\n    core 4 mm\n    drill 4 mm\n    lengths 30 mm to 60 mm by 2 mm\n  }\n\n  reamers {",
      ],
    ],
  ],
  // The protocol and the frame.
  ["a demand more", [["demand time-out, antibiotic", "demand time-out, antibiotic, consent"]]],
  ["a stricter limit", [["limit sagittal up-to 10 deg", "limit sagittal up-to 2 deg"]]],
  ["a limit there is not", [["limit sagittal up-to 10 deg", "limit saggital up-to 10 deg"]]],
  [
    "a waiver without a use",
    [["  status for-review", '  status for-review\n  waive cap-proud, because "none", signed "A. B., 2026-01-10"']],
  ],
  ["approved", [["  status for-review", "  status approved"]]],
  ["another side", [["    side left", "    side right"]]],
  [
    "out of order",
    [
      ["    prepare antibiotic, time-out\n", ""],
      ["    cap 5 mm\n", "    cap 5 mm\n    prepare antibiotic, time-out\n"],
    ],
  ],
  ["removal without its screws", [["    take D1, D2, P2\n    take P1\n", ""]]],
  [
    "removal in a wrong order",
    [
      ["    take cap\n    attach extractor\n", "    attach extractor\n"],
      ["    withdraw nail\n", "    take cap\n    withdraw nail\n"],
    ],
  ],
  // Parts that are not given, or cannot be worked out.
  ["a nail without a length", [[", length 345 mm", ""]]],
  ["a nail without a diameter", [[", diameter 10 mm", ""]]],
  ["a nail without a depth", [[", sunk 8 mm", ""]]],
  ["a length that cannot be worked out", [nailLength("345 mm / 0")]],
  ["a diameter that cannot be worked out", [nail("10 mm / 0")]],
  ["a depth that cannot be worked out", [sunk("8 mm / 0")]],
  ["a drilled depth that cannot be worked out", [["drilled 31 mm", "drilled 31 mm / 0"]]],
  ["a screw that cannot be worked out", [["screw 32 mm", "screw 32 mm / 0"]]],
  ["a compression that cannot be worked out", [compress("2 turns / 0")]],
  ["a cap that cannot be worked out", [cap("5 mm / 0")]],
  ["a screw without a depth", [["lock D2, drilled 31 mm, screw 32 mm", "lock D2, screw 32 mm"]]],
  ["a hole drilled without a screw", [["lock D2, drilled 31 mm, screw 32 mm", "lock D2, drilled 31 mm"]]],
  ["heads without a step", [["ream 8.5 mm to 11 mm by 0.5 mm\n    nail", "ream 8.5 mm, 11 mm\n    nail"]]],
  ["compression without an amount", [["compress 2 turns", "compress"]]],
  ["a cap without a length", [["    cap 5 mm", "    cap"]]],
  ["no gap", [[", gap 3 mm ± 1 mm", ""]]],
  ["no code of the fibula", [[", fibula 4F2A", ""]]],
  ["no levels of the fracture", [[", from 208 mm on ap to 232 mm on ap", ""]]],
  ["no depth of the entry", [[", from-midline 8 mm lateral", ""]]],
  ["no angle of the knee", [[", knee 100 deg", ""]]],
  ["no nail in the catalogue of that name", [["nail fenwick, diameter", "nail harrow, diameter"]]],
  ["a nail without a pitch", [[", pitch 1.25 mm", ""]]],
  ["a nail without compression", [["    compression travel 6 mm, pitch 1.25 mm\n", ""]]],
  ["a nail without lengths", [["    lengths 240 mm to 420 mm by 15 mm\n", ""]]],
  ["a nail without diameters", [["    diameters 9 mm to 12 mm by 1 mm\n", ""]]],
  ["a nail without caps", [["    caps 0 mm, 5 mm, 10 mm, 15 mm\n", ""]]],
  ["a nail without fractures it is for", [["    fits 42A1, 42A2, 42A3, 42B2, 42B3, 42C2, 42C3\n", ""]]],
  ["a nail without a material", [["    material titanium-alloy\n    modulus 110 GPa\n", ""]]],
  ["screws without a thread", [["    thread 4.6 mm\n", ""]]],
  ["screws without lengths", [["    lengths 24 mm to 60 mm by 2 mm, 65 mm to 90 mm by 5 mm\n", ""]]],
  ["no reamers that cut at the front", [["    front-cutting 8 mm, 8.5 mm\n", ""]]],
  [
    "two faults of one catalogue",
    [
      ["caps 0 mm, 5 mm, 10 mm, 15 mm", "caps 0 mm, 10 mm, 5 mm, 15 mm"],
      ["core 3.9 mm", "core 4.6 mm"],
    ],
  ],
  ["a bore as wide as the nail", [["bore 5 mm", "bore 9 mm"]]],
  [
    "a nail of steel, screws near the fracture",
    [
      ["material titanium-alloy\n    modulus 110 GPa", "material steel\n    modulus 190 GPa"],
      [fracture, "fracture 42A2, from 330 mm on ap to 350 mm on ap, gap 3 mm ± 1 mm"],
    ],
  ],
  [
    "a fallback with another nail",
    [["    ream 8.5 mm to 11.5 mm by 0.5 mm\n  }", "    nail fenwick, diameter 9 mm, length 375 mm, sunk 0 mm\n  }"]],
  ],
  // Measures that are typed otherwise than they were read.
  ...["43.2 mm", "432 cm", "4.32 m", "0.432 m", "4320 mm", "43.2 cm", "432 m", "260 mm"].map(
    (level): readonly [string, readonly Change[]] => [
      `the plafond at ${level}`,
      [["landmark plafond 432 mm ± 2 mm", `landmark plafond ${level} ± 2 mm`]],
    ],
  ),
  ...["124 mm", "12.4 cm", "1.24 mm", "1.24 cm", "0.0124 m", "12.4 m", "12 mm", "012 mm"].map(
    (width): readonly [string, readonly Change[]] => [
      `the canal ${width} wide`,
      [["width 12.4 mm ± 0.3 mm on ap, depth", `width ${width} ± 0.3 mm on ap, depth`]],
    ],
  ),
  ...["260 mm", "26 cm", "2.6 mm", "2.6 cm", "26 m", "0.026 m"].map((width): readonly [string, readonly Change[]] => [
    `the bone ${width} wide`,
    [["bone at 205 mm, width 26 mm on ap", `bone at 205 mm, width ${width} on ap`]],
  ]),
  ...["femur", "humerus"].flatMap((bone) =>
    ["12.4 mm", "32 mm", "3 mm"].map((width): readonly [string, readonly Change[]] => [
      `a ${bone} with a canal ${width} wide`,
      [
        ["bone tibia", `bone ${bone}`],
        ["width 12.4 mm ± 0.3 mm on ap, depth", `width ${width} ± 0.3 mm on ap, depth`],
      ],
    ]),
  ),
  [
    "no canal read",
    [
      ["    canal at 60 mm, width 27 mm on ap, depth 24 mm on lateral\n", ""],
      ["    canal at 205 mm, width 12.4 mm ± 0.3 mm on ap, depth 12.2 mm ± 0.3 mm on lateral\n", ""],
      ["    canal at 330 mm, width 24 mm on ap, depth 21 mm on lateral\n", ""],
    ],
  ],
  ["a knee joint given", [["  measures {\n", "  measures {\n    landmark knee-joint 10 mm on ap\n"]]],
  ["a knee joint beyond the plafond", [["  measures {\n", "  measures {\n    landmark knee-joint 432 mm on ap\n"]]],
  // Steps where they do not belong, or where they may as well be.
  ...stepsMoved(),
];
