/** The outline: blocks and statements by their trade names, each with the number it decides. */
import { describe, test } from "vitest";
import { checkOutline, sampleText } from "../check.ts";

test("a plan", () => {
  checkOutline(
    sampleText("plans/simple-shaft.isthmus"),
    `
plan Transverse fracture of the right tibial shaft
  use ../catalogue/tarnbeck.isthmus
  follow ../protocol/ellerby.isthmus
  status for-review
  summary Reamed locked nail with two turns of compression across a narrow gap.
  case HB-2201
    side right
    bone tibia
    age 29 years
    growth-plates closed
    bone-quality good
    weight 74 kg
    knee-flexion 125 deg
    soft-tissue closed C1
    fracture 42A3(b) » at 173.21 mm ± 0.93 mm
    alignment
  images
    view ap » × 1.1200 ± 0.0060
    view lateral » × 1.1600 ± 0.0060
  measures
    landmark scar » at 352.7 mm ± 2.6 mm
    landmark plafond » at 366.1 mm ± 2.7 mm
    epiphysis proximal 86 mm on ap
    epiphysis distal 56 mm on ap
    canal at 60 mm
    canal at 200 mm
    canal at 320 mm
    bone at 40 mm
    bone at 200 mm
    bone at 320 mm
  operation
    prepare antibiotic, time-out
    position supine
    reduce closed
    enter infrapatellar
    wire ball-tip
    ream 8.5 mm to 11 mm by 0.5 mm » 1 mm over the nail
    nail tarnbeck » tip at 339 mm
    check ap, lateral
    lock D2 » at 315 mm
    lock D1 » at 329 mm
    lock P2 » at 39 mm
    compress 2 turns » 2.5 mm
    lock P1 » at 51 mm
    cap 5 mm » 1.5 mm below the bone
    check ap, lateral, rotation
  aftercare
    weight-bearing tolerated
    watch compartment » gradient 52 mmHg
    review at 2 weeks, 6 weeks, 12 weeks
  removal
    take cap
    attach extractor
    take D1, D2, P1
    take P2
    withdraw nail`,
  );
});

test("a protocol", () => {
  checkOutline(
    sampleText("protocol/ellerby.isthmus"),
    `
protocol Ellerby, an invented teaching department
  limit sagittal up-to 10 deg
  limit tip-beyond-cortex 0 mm to 2 mm
  grade cap-missing warning
  demand time-out, antibiotic`,
    "../protocol/other.isthmus",
  );
});

describe("what is half written", () => {
  test.each([
    ["", ""],
    ["isthmus 1\n", ""],
    ["# only a comment\n", ""],
    ["{\n}\n", ""],
    ['plan "a\n  b"', "plan\nb"],
    ['plan "" {\n  status\n}', "plan\n  status"],
    ['plan "a" {\n  {\n    status draft\n  }\n}', "plan a\n  status"],
  ])("%j", (text, expected) => checkOutline(text, expected));

  test("a number that is withheld is left out", () => {
    checkOutline(
      'isthmus 1\n\nplan "a" {\n  measures {\n    landmark scar 395 mm on ap\n  }\n}\n',
      "plan a\n  measures\n    landmark scar",
    );
  });
});
