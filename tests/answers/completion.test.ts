/**
 * Completion, place by place: a line of a sample is written anew up to the cursor, and what is offered there is named. Laws over
 * every statement of the samples stand in `completion-laws.test.ts`.
 */
import { describe, test } from "vitest";
import { checkOffers, cursorIn, type Expected, sampleWith } from "../check.ts";

type Row = readonly [line: string, typed: string, expected: Expected];

const plan = "plans/simple-shaft.isthmus";

/** Each row: the line as the sample has it, what is typed of it, what is offered. */
function table(rows: readonly Row[], path = plan): void {
  const name = path.startsWith("plans/") ? {} : { name: `../${path}` };
  const titled = rows.map((row) => [row[1].trim(), ...row] as const);
  test.each(titled)("%s", (_, line, typed, expected) => {
    checkOffers(sampleWith(path, [line, typed]), { ...expected, ...name });
  });
}

describe("at the start of a line", () => {
  table([
    [
      "  status for-review\n",
      "  $0\n",
      {
        are: ["use", "follow", "sources", "status", "waive", "reviewed", "fallback", "achieved", "let", "ask"],
        details: { status: "How far the plan has come." },
        snippets: {
          status: "status «draft,for-review,approved,performed»",
          fallback: 'fallback "«when»" {\n  «»\n}',
          let: "let «name» = «value»",
        },
      },
    ],
    ["    side right\n", "    $0\n", { are: ["side", "concern", "let", "ask"] }],
    ["    side right\n", "    si$0\n", { hold: ["side"], replace: "si" }],
    ["    side right\n", "    si$0de right\n", { hold: ["side"], replace: "si" }],
    ["    bone tibia\n    age 29 years\n", "    $0\n", { are: ["bone", "age", "concern", "let", "ask"] }],
    // Reaming and not reaming exclude each other, so only one of them is offered.
    [
      "    wire ball-tip\n",
      "    $0\n",
      { hold: ["wire", "prepare", "check", "lock"], lack: ["ream", "unreamed", "nail"] },
    ],
    ["    ream 8.5 mm to 11 mm by 0.5 mm\n", "    $0\n", { hold: ["ream", "unreamed"], lack: ["nail"] }],
    ["    view lateral, marker 25 mm, seen 29 mm ± 0.15 mm\n", "    $0\n", { are: ["view", "let", "ask"] }],
    ["    take P2\n", "    $0\n", { are: ["take", "step", "let", "ask"] }],
    ["isthmus 1\n", "$0\n", { are: ["isthmus"], snippets: { isthmus: "isthmus 1" } }],
    // Nothing may stand before the edition, and a file holds one document.
    ["isthmus 1\n", "$0\nisthmus 1\n", { are: [] }],
    ["isthmus 1\n", "isthmus 1\n$0\n", { are: [] }],
    // Something follows already: no places to fill in.
    ["    side right\n", "    si$0 right\n", { snippets: {}, hold: ["side"] }],
  ]);
});

describe("in the head of a statement", () => {
  table([
    ["status for-review", "status $0", { are: ["draft", "for-review", "approved", "performed"] }],
    ["status for-review", "status for-$0", { hold: ["for-review"], replace: "for-" }],
    ["isthmus 1\n", "isthmus $0\n", { are: ["1"] }],
    ["side right\n", "side $0\n", { are: ["left", "right"], details: { left: "The patient's left." } }],
    ["side right\n", "side right $0\n", { are: [] }],
    ["case HB-2201 {", "case $0 {", { are: [] }],
    ["soft-tissue closed C1", "soft-tissue $0", { are: ["closed", "open"] }],
    ["soft-tissue closed C1", "soft-tissue closed $0", { hold: ["C0", "C3"] }],
    ["canal at 60 mm,", "canal $0", { are: ["at"] }],
    ["review at 2 weeks, 6 weeks, 12 weeks", "review $0", { are: ["at"] }],
    ["prepare antibiotic, time-out", "prepare antibiotic, $0", { are: ["time-out", "tourniquet"] }],
    ["check ap, lateral, rotation", "check ap, lateral, $0", { are: ["rotation", "length", "stability"] }],
    ["  status for-review\n", "  let $0\n", { are: [] }],
    ["  status for-review\n", "  let offset $0\n", { are: ["="] }],
    ["weight-bearing tolerated,", "weight-bearing $0", { are: ["none", "partial", "tolerated"] }],
    ["landmark scar 395 mm ± 2 mm on ap", "landmark $0", { are: ["scar", "joint", "knee-joint", "lesser-trochanter"] }],
    ["landmark plafond 410 mm ± 2 mm on ap", "landmark pl$0afond 410 mm", { hold: ["plafond"], lack: ["scar"] }],
  ]);
});

describe("after a comma", () => {
  table([
    [
      "nail tarnbeck, diameter 10 mm, length 330 mm, sunk 9 mm",
      "nail tarnbeck, $0",
      {
        are: ["diameter", "length", "sunk"],
        details: { sunk: "How far below the entry surface the driving end lies." },
        snippets: { sunk: "sunk «depth»" },
      },
    ],
    ["diameter 10 mm, length 330 mm, sunk 9 mm", "diameter 10 mm, $0, sunk 9 mm", { are: ["length"] }],
    ["length 330 mm, sunk 9 mm", "length 330 mm, sunk 9 mm, $0", { are: [] }],
    ["gap 4 mm ± 1 mm, fibula 4F2A", "fi$0", { are: ["gap", "contact", "fibula"], replace: "fi" }],
    [
      "canal at 60 mm, width 26 mm on ap, depth 24 mm on lateral",
      "canal at 60 mm,\n      $0",
      { are: ["width", "depth"] },
    ],
    ["width 26 mm on ap, depth 24 mm on lateral", "width 26 mm on ap, $0", { are: ["depth"] }],
    // Of two ways the one that is begun is gone on with.
    ["view ap, marker 25 mm, seen 28 mm ± 0.15 mm", "view ap, $0", { are: ["marker", "seen", "true-size"] }],
    ["view ap, marker 25 mm, seen 28 mm ± 0.15 mm", "view ap, marker 25 mm, $0", { are: ["seen"] }],
    ["rotation 8 deg external, short 4 mm", "rotation 8 deg external, $0", { are: ["short", "long"] }],
    ["rotation 8 deg external, short 4 mm", "$0, short 4 mm", { are: ["rotation"] }],
    ["alignment coronal 7 deg valgus,", "alignment $0,", { are: ["coronal"] }],
    ["reduce closed, using traction\n", "reduce closed, $0\n", { are: ["using", "hold"] }],
    // A list goes on, or a clause begins.
    [
      "reduce closed, using traction\n",
      "reduce closed, using traction, $0\n",
      { are: ["clamp", "distractor", "joystick", "hold"] },
    ],
    ["status for-review\n", "waive screw-short at D2, $0\n", { are: ["because", "signed"] }],
    ["status for-review\n", 'waive screw-short at D2, because "a reason", $0\n', { are: ["signed"] }],
  ]);
});

describe("in a clause", () => {
  table([
    [
      "enter infrapatellar, from-midline 8 mm lateral",
      "enter infrapatellar, from-midline 8 mm $0",
      { are: ["medial", "lateral"] },
    ],
    ["alignment coronal 7 deg valgus,", "alignment coronal 7 deg $0,", { are: ["varus", "valgus"] }],
    ["support distal-thigh, knee 100 deg", "support $0, knee 100 deg", { are: ["distal-thigh", "knee", "none"] }],
    ["screw 34 mm", "screw 34 mm, grip $0", { are: ["both", "near"] }],
  ]);
});

describe("after a number without its unit", () => {
  table([
    ["weight 74 kg", "weight 74 $0", { are: ["kg", "g"] }],
    ["weight 74 kg", "weight 74$0", { are: ["kg", "g"], replace: "" }],
    ["age 29 years", "age 29 ye$0", { hold: ["years", "months"], lack: ["mm"], replace: "ye" }],
    ["landmark scar 395 mm ± 2 mm on ap", "landmark scar 395 $0", { are: ["mm", "cm", "m"] }],
    ["landmark scar 395 mm ± 2 mm on ap", "landmark scar 395 mm ± 2 $0", { are: ["mm", "cm", "m"] }],
    ["landmark scar 395 mm ± 2 mm on ap", "landmark scar 395 mm ± $0", { are: [] }],
    ["weight 74 kg", "weight 74 + 2 $0", { are: ["kg", "g"] }],
    ["ream 8.5 mm to 11 mm by 0.5 mm", "ream 8.5 mm to 11 mm by 0.5 $0", { are: ["mm", "cm", "m"] }],
    ["compress 2 turns", "compress 2 $0", { are: ["turns", "mm", "cm", "m"] }],
    ["review at 2 weeks, 6 weeks, 12 weeks", "review at 2 weeks, 6 $0", { hold: ["weeks", "days"], lack: ["kg"] }],
    ["weight-bearing tolerated,", "weight-bearing partial 20 $0,", { are: ["kg", "g", "N", "kN", "%"] }],
    ["diastolic 76 mmHg", "diastolic 76 $0", { are: ["mmHg", "kPa", "MPa", "GPa"] }],
    ["  status for-review\n", "  let slope = sin(30 $0)\n", { are: ["deg", "rad"] }],
    ["  status for-review\n", "  let any = 30 $0\n", { hold: ["mm", "deg", "kg", "%", "turns"] }],
    ["fracture 42A3(b),", "fracture 42 $0,", { are: [] }],
  ]);
});

describe("names", () => {
  table([
    ["landmark scar 395 mm ± 2 mm on ap", "landmark scar 395 mm on $0", { are: ["ap", "lateral"] }],
    [
      "landmark scar 395 mm ± 2 mm on ap",
      "landmark scar 395 mm on la$0",
      { are: ["ap", "lateral"], replace: "la", details: { lateral: "magnification 1.1600 ± 0.0060" } },
    ],
    ["landmark scar 395 mm ± 2 mm on ap", "landmark scar 395 mm $0", { are: ["on ap", "on lateral"] }],
    ["from 190 mm on ap to 198 mm on ap", "from 190 mm on ap to scar - 190 mm on $0", { are: ["ap", "lateral"] }],
    // A landmark is a value wherever a level stands, but not in its own line.
    [
      "landmark scar 395 mm ± 2 mm on ap",
      "landmark scar $0",
      { hold: ["plafond", "min(values, …)"], lack: ["scar"], details: { plafond: "366.1 mm ± 2.7 mm" } },
    ],
    ["landmark scar 395 mm ± 2 mm on ap", "landmark scar plafond - $0", { hold: ["plafond"], lack: ["scar"] }],
    ["landmark scar 395 mm ± 2 mm on ap", "landmark scar mean(pl$0)", { hold: ["plafond"], replace: "pl" }],
    ["landmark scar 395 mm ± 2 mm on ap", "landmark scar mean(410 mm, $0", { hold: ["plafond", "mean(values, …)"] }],
    ["canal at 60 mm,", "canal at $0,", { hold: ["scar", "plafond"] }],
    ["sunk 9 mm", "sunk $0", { lack: ["scar", "plafond"] }],
    // Holes: not locked yet; to be taken out, locked and not taken yet.
    [
      "lock D2, drilled 32 mm, screw 34 mm",
      "lock $0",
      { are: ["P3", "D3", "D2"], details: { D2: "24 mm from the tip, medial-lateral, takes dowel" } },
    ],
    ["lock D2, drilled 32 mm, screw 34 mm", "lock D$0, drilled 32 mm", { are: ["P3", "D3", "D2"], replace: "D" }],
    ["take D1, D2, P1\n", "take D1, $0\n", { are: ["cap", "P1", "D2"] }],
    [
      "    review at 2 weeks, 6 weeks, 12 weeks\n",
      "    dynamise at 10 weeks, remove $0\n",
      { are: ["P2", "P1", "D2", "D1"] },
    ],
    [
      "  aftercare {",
      '  fallback "a" {\n    lock $0\n  }\n\n  aftercare {',
      { are: ["P3", "P2", "P1", "D3", "D2", "D1"] },
    ],
    // Nails and screw families of the catalogue.
    [
      "nail tarnbeck,",
      "nail $0,",
      { are: ["tarnbeck", "tarnbeck-low"], details: { tarnbeck: "nail of Tarnbeck, an invented set" } },
    ],
    ["drilled 32 mm, screw 34 mm", "drilled 32 mm, screw $0", { hold: ["dowel", "34 mm"] }],
    // Findings that may be waived; the holes they are about.
    [
      "  status for-review\n",
      "  waive $0\n",
      { hold: ["screw-short", "identifier"], lack: ["unknown-word", "waiver-unused"] },
    ],
    ["  status for-review\n", "  waive screw-short $0\n", { are: ["at"] }],
    ["  status for-review\n", "  waive screw-short at $0\n", { are: ["P3", "P2", "P1", "D3", "D2", "D1"] }],
  ]);

  test("a named value is offered where it can be seen and fits", () => {
    const measured = "    let deep = 9 mm\n    landmark scar 395 mm ± 2 mm on ap";
    const source = (line: string, typed: string): string =>
      sampleWith(
        plan,
        ["  status for-review\n", "  status for-review\n  let lean = 5 deg\n  let down = 9 mm\n"],
        ["    landmark scar 395 mm ± 2 mm on ap", measured],
        [line, typed],
      );
    checkOffers(source("sunk 9 mm", "sunk $0"), { are: ["down"], details: { down: "9 mm" } });
    checkOffers(source("knee 100 deg", "knee $0"), { are: ["lean"] });
    checkOffers(source("epiphysis proximal 86 mm on ap", "epiphysis proximal $0"), { are: ["down", "deep"] });
    checkOffers(source("landmark plafond 410 mm ± 2 mm on ap", "landmark plafond 3 mm * $0"), {
      hold: ["lean", "down", "deep", "scar"],
    });
  });

  test("a waiver offers what was found first, with its message and its hole", () => {
    const source = (typed: string): string =>
      sampleWith(plan, ["drilled 32 mm, screw 34 mm", "drilled 32 mm, screw 60 mm"], ["  status for-review\n", typed]);
    checkOffers(source("  waive $0\n"), { details: { "screw-overlength": "28 mm past the far cortex" } });
    checkOffers(source("  waive screw-overlength at $0\n"), { details: { D2: "28 mm past the far cortex" } });
  });
});

describe("listed sizes, each with what it leads to", () => {
  table([
    [
      "diameter 10 mm,",
      "diameter $0,",
      {
        are: ["8 mm", "9 mm", "10 mm", "11 mm", "12 mm"],
        details: { "10 mm": "1 mm over the nail", "12 mm": "1 mm under the nail" },
      },
    ],
    [
      "length 330 mm,",
      "length $0,",
      { hold: ["240 mm", "420 mm"], details: { "330 mm": "tip to scar 13.7 mm ± 2.6 mm" } },
    ],
    ["length 330 mm,", "length 33$0,", { hold: ["330 mm"], details: { "330 mm": "tip to scar 13.7 mm ± 2.6 mm" } }],
    [
      "ream 8.5 mm to 11 mm by 0.5 mm",
      "ream $0",
      { hold: ["8 mm", "14 mm"], details: { "11 mm": "1 mm over the nail" } },
    ],
    ["ream 8.5 mm to 11 mm by 0.5 mm", "ream 8.5 mm, $0", { hold: ["9 mm"], lack: ["8.5 mm"] }],
    ["ream 8.5 mm to 11 mm by 0.5 mm", "ream 8.5 mm to $0 by 0.5 mm", { details: { "12 mm": "2 mm over the nail" } }],
    [
      "drilled 32 mm, screw 34 mm",
      "drilled 32 mm, screw $0",
      {
        hold: ["24 mm", "90 mm"],
        details: { "34 mm": "2 mm past the far cortex", "30 mm": "2 mm short of the far cortex" },
      },
    ],
    ["drilled 32 mm, screw 34 mm", "drilled 32 mm, screw dowel $0", { hold: ["34 mm"], lack: ["dowel"] }],
    [
      "cap 5 mm\n",
      "cap $0\n",
      { are: ["none", "0 mm", "5 mm", "10 mm", "15 mm"], details: { "10 mm": "3.5 mm proud of the bone" } },
    ],
    ["compress 2 turns", "compress $0", { are: [] }],
  ]);

  test("in a fallback they are tried in the plan with the fallback laid over it", () => {
    const laid =
      '  fallback "tight" {\n    ream 8.5 mm to 12 mm by 0.5 mm\n    nail tarnbeck, diameter $0, length 330 mm, sunk 9 mm\n  }\n\n';
    checkOffers(sampleWith(plan, ["  aftercare {", `${laid}  aftercare {`]), {
      details: { "11 mm": "1 mm over the nail" },
    });
  });

  test("without a catalogue there is nothing to offer", () => {
    const bare = sampleWith(plan, ['  use "../catalogue/tarnbeck.isthmus"\n', ""], ["diameter 10 mm,", "diameter $0,"]);
    checkOffers(bare, { are: [] });
  });
});

describe("fracture codes", () => {
  table([
    [
      "fracture 42A3(b),",
      "fracture $0,",
      { hold: ["42A3", "43A1"], lack: ["32A3", "4F2A"], details: { "42A1": "spiral" } },
    ],
    ["fracture 42A3(b),", "fracture 42A$0,", { hold: ["42A3"], replace: "42A" }],
    ["fracture 42A3(b),", "fracture 42$0,", { hold: ["42A3"], lack: ["mm"], replace: "42" }],
    ["fibula 4F2A", "fibula $0", { hold: ["4F2A", "4F3B"], lack: ["42A3"] }],
  ]);

  test("they follow the bone of the case", () => {
    checkOffers(sampleWith(plan, ["bone tibia\n", "bone femur\n"], ["fracture 42A3(b),", "fracture $0,"]), {
      hold: ["32A3"],
      lack: ["42A3"],
    });
  });
});

describe("functions", () => {
  table([
    [
      "  status for-review\n",
      "  let offset = $0\n",
      {
        hold: ["scar", "min(values, …)", "round-down(value, step)"],
        details: { "hypot(values, …)": "The square root of the sum of squares." },
        snippets: { "round-down(value, step)": "round-down(«»)" },
      },
    ],
    ["  status for-review\n", "  let offset = max(3 mm, m$0)\n", { hold: ["max(values, …)"], replace: "m" }],
  ]);
});

describe("nothing is offered", () => {
  table([
    ["  status for-review\n", "  # st$0\n", { are: [] }],
    ["  status for-review\n", "  ## st$0\n", { are: [] }],
    ["  status for-review\n", "  status draft # st$0\n", { are: [] }],
    ["  status for-review\n", '  summary "a $0 b"\n', { are: [] }],
    ["  status for-review\n", '  summary "not closed $0\n', { are: [] }],
    ["  status for-review\n", '  summary """\n  st$0\n  """\n', { are: [] }],
    ["  status for-review\n", '  use "../$0\n', { are: [] }],
    ["  status for-review\n", "  quux $0\n", { are: [] }],
    ["  status for-review\n", "  status draft $0\n", { are: [] }],
    ["gap 4 mm ± 1 mm,", "quux $0,", { are: [] }],
  ]);
});

describe("in a catalogue", () => {
  table(
    [
      [
        "nail tarnbeck {\n    for tibia\n",
        "nail tarnbeck {\n    $0\n",
        { are: ["for", "driving-end", "bend", "hole", "let", "ask"] },
      ],
      ["nail tarnbeck {\n    for tibia\n", "nail tarnbeck {\n    for $0\n", { are: ["tibia", "femur", "humerus"] }],
      [
        "    material titanium-alloy\n    modulus 110 GPa\n    diameters 8 mm to 12 mm",
        "    material $0\n    diameters 8 mm to 12 mm",
        { are: ["titanium-alloy", "steel"] },
      ],
      [
        "modulus 110 GPa\n    diameters 8 mm to 12 mm",
        "modulus 110 $0\n    diameters 8 mm to 12 mm",
        { are: ["GPa", "mmHg", "kPa", "MPa"] },
      ],
      ["hole D3, tip 38 mm,", "hole D3, $0,", { are: ["top", "tip", "tilt", "slot"] }],
      [
        "hole D3, tip 38 mm, runs anterior-posterior, takes dowel",
        "hole D3, tip 38 mm, $0",
        { are: ["runs", "tilt", "slot", "takes"] },
      ],
      [
        "tip 38 mm, runs anterior-posterior,",
        "tip 38 mm, runs $0,",
        { are: ["medial-lateral", "anterior-posterior", "oblique"] },
      ],
      ["tip 38 mm, runs anterior-posterior,", "tip 38 mm, runs oblique 45 $0,", { are: ["deg", "rad"] }],
      [
        "tip 38 mm, runs anterior-posterior, takes dowel",
        "tip 38 mm, runs anterior-posterior, takes $0",
        { are: ["dowel"] },
      ],
      ["compression travel 7 mm,", "compression $0,", { are: ["travel"] }],
      [
        "fits 42A1, 42A2, 42A3, 42B2, 42B3, 42C2,",
        "fits 42A1, $0,",
        { hold: ["42A2", "43A1"], lack: ["42A1", "32A1", "4F2A"] },
      ],
      ["    thread 4.8 mm\n", "    with $0\n", { are: ["diameters"] }],
      ["  reamers {\n", "  $0\n  reamers {\n", { are: ["nail", "screws", "let", "ask"] }],
      ["    heads 8 mm to 14 mm by 0.5 mm\n", "    $0\n", { are: ["heads", "let", "ask"] }],
    ],
    "catalogue/tarnbeck.isthmus",
  );
});

describe("in a protocol", () => {
  const line = "  grade cap-missing warning\n";
  table(
    [
      [line, "  $0\n", { are: ["profile", "limit", "grade", "never-waive", "demand", "let", "ask"] }],
      [line, "  profile $0\n", { are: ["every-plane-five", "sagittal-ten"] }],
      [
        line,
        "  never-waive infection, $0\n",
        { hold: ["growth-plates-open"], lack: ["infection", "unknown-word", "waiver-refused"] },
      ],
      [line, "  grade $0\n", { hold: ["cap-missing", "unknown-word"], details: { "cap-missing": "No end cap" } }],
      [line, "  grade cap-missing $0\n", { are: ["error", "warning", "information", "off"] }],
      [
        line,
        "  limit $0\n",
        { hold: ["coronal"], lack: ["sagittal"], details: { coronal: "varus or valgus: up to 5 deg" } },
      ],
      [line, "  limit coronal $0\n", { are: ["up-to", "at-least"] }],
      [line, "  limit coronal up-to $0\n", { are: [] }],
      [line, "  limit coronal up-to 3 $0\n", { are: ["deg", "rad"] }],
      [line, "  limit coronal up-to 3 deg $0\n", { are: [] }],
      [line, "  limit coronal up-to 3 deg, $0\n", { are: ["because", "source"] }],
      [line, "  limit coronal 0 deg to 3 $0\n", { are: ["deg", "rad"] }],
      [line, "  limit fit-ratio at-least 3 $0\n", { are: [] }],
      [line, "  demand time-out, $0\n", { hold: ["antibiotic", "nail", "fracture"], lack: ["time-out", "waive"] }],
    ],
    "protocol/ellerby.isthmus",
  );
});

test("a cursor in a sample's own line", () => {
  checkOffers(cursorIn("lock D2, drilled 32 mm, scr$0ew 34 mm"), { are: ["screw", "grip"], replace: "scr" });
});

describe("behind the sign of a citation", () => {
  const cited = "[@lack2015]: it is first";
  const inNote = (typed: string): string => sampleWith("plans/segmental-open.isthmus", [cited, typed]);
  const name = "segmental-open.isthmus";

  test("the keys of the plan's bibliographies, in notes", () => {
    const all = ["lack2015"];
    checkOffers(inNote("[@$0]: it is first"), { are: all, details: { lack2015: "segmental-open.bib" }, name });
    checkOffers(inNote("[@la$0]: it is first"), { are: all, replace: "la", name });
    checkOffers(inNote("[@one; @la$0]: it is first"), { are: all, replace: "la", name });
  });

  test("nowhere else", () => {
    checkOffers(inNote("[$0@lack2015]: it is first"), { are: [], name });
    checkOffers(inNote("[@lack2015]$0: it is first"), { are: [], name });
    checkOffers(inNote("a@b.c$0: it is first"), { are: [], name });
    checkOffers(sampleWith(plan, ["  status for-review\n", "  status [@$0\n"]), { lack: ["lack2015"] });
  });
});
