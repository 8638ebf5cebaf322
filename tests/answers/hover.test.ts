/** Hovers, place by place: what a reader learns about a finding, a number, a name or a word by resting on it. */
import { describe, test } from "vitest";
import { checkHover, cursorIn, sampleWith } from "../check.ts";

const plan = "plans/simple-shaft.isthmus";
const loose = "plans/uncertain-limits.isthmus";

describe("a finding", () => {
  const overshot = (line: string): string => sampleWith(plan, ["ream 8.5 mm to 11 mm by 0.5 mm", line]);

  test("says its grade and slug, why it matters and what it rests on", () => {
    checkHover(
      overshot("ream 8.5 mm to 1$03 mm by 0.5 mm"),
      "**warning** `reaming-overshoot`: ",
      "takes cortex away",
      "Basis: common practice, no single source",
    );
  });

  test("shows the limit it was held against, with its origin", () => {
    checkHover(
      overshot("ream 8.5 mm to 1$03 mm by 0.5 mm"),
      "**Limit `reaming-over-nail`**",
      "last reamer head over the nail: 0.5 mm to 1.5 mm",
    );
  });

  test("shows who set that limit, why, and what it overrides", () => {
    checkHover(
      sampleWith(plan, ["drilled 32 mm, screw 34 mm", "drilled 32 mm, screw 4$00 mm"]),
      "`screw-overlength`",
      'Set by the protocol "Ellerby, an invented teaching department" (ellerby.isthmus, line 6), because "one to two threads past the far cortex".',
      /It overrides the default: [^\n]*mm\./,
    );
  });

  test("that is uncertain says what would settle it, or that nothing would", () => {
    checkHover(
      cursorIn("knee-flexion 95 d$0eg ± 10 deg", loose),
      "`knee-stiff`",
      "to be settled it needs knee flexion to ± 6 deg; now ± 10 deg",
    );
    checkHover(
      cursorIn("watch compartment, diastolic 68 mmHg ± 4 mmHg, press$0ure 37 mmHg ± 2 mmHg", loose),
      "`compartment-low`",
      "diastolic pressure alone would not settle it, however well it were known (now ± 4 mmHg)",
    );
  });

  test("that is waived says why and by whom", () => {
    checkHover(
      sampleWith(
        plan,
        ["  status for-review\n", '  waive screw-overlength at D2, because "no shorter one", signed "A. Example"\n'],
        ["drilled 32 mm, screw 34 mm", "drilled 32 mm, screw 4$00 mm"],
      ),
      "waived: no shorter one (A. Example)",
    );
  });

  test("of a fallback names the fallback", () => {
    const tight = '  fallback "it is *tight*" {\n    ream 8.5 mm to 1$04 mm by 0.5 mm\n  }\n\n  aftercare {';
    checkHover(sampleWith(plan, ["  aftercare {", tight]), "`reaming-overshoot`", "(fallback: it is \\*tight\\*)");
  });
});

describe("a reckoning", () => {
  test("shows its formula with the numbers filled in, its uncertainty and its budget", () => {
    checkHover(
      cursorIn("landmark sc$0ar 395 mm ± 2 mm on ap"),
      "**level of scar**: 352.7 mm ± 2.6 mm",
      /- \d+ % from scar \(± 2 mm\), ± \d\.\d+ mm of it/,
      /- \d+ % from marker seen on ap \(± 0\.15 mm\)/,
      "`level.scar`",
    );
    checkHover(
      cursorIn("nail tarnbeck, diameter 10 mm, length 330 mm, su$0nk 9 mm"),
      "**tip of the nail**: 339 mm",
      "= `9 mm + 330 mm`",
    );
  });

  test("says why it is withheld", () => {
    checkHover(
      sampleWith(
        plan,
        ["marker 25 mm, seen 28 mm ± 0.15 mm", "marker 25 mm"],
        ["landmark scar 395 mm", "landmark sc$0ar 395 mm"],
      ),
      "**level of scar**: unknown: ",
    );
  });

  test("names what a line without one of its own feeds", () => {
    checkHover(
      cursorIn("canal at 200 mm, wi$0dth 12 mm ± 0.3 mm on ap, depth 12.4 mm ± 0.3 mm on lateral"),
      "Feeds `canal.isthmus`",
    );
  });
});

describe("a unit", () => {
  test.each([
    [
      "seen 28 m$0m ± 0.15 mm",
      "**mm**: Millimetre.",
      "28.00 mm ± 0.15 mm = 2.800 cm ± 0.015 cm = 0.02800 m ± 0.00015 m",
    ],
    ["age 29 ye$0ars", "Other units of time: minutes, hours, days, weeks, months", "29 years = "],
    ["knee-flexion 125 de$0g", "Degree of arc", "125 deg = 2.182 rad"],
    ["diastolic 76 mm$0Hg, pressure", "Millimetre of mercury", "76 mmHg = 10.13 kPa"],
    ["until 6 wee$0ks", "Week, 7 days.", "6 weeks = 60480 minutes = 1008 hours = 42 days = 1.38 months"],
    ["compress 2 tur$0ns", "Full turn of a screw."],
  ])("%s", (line, ...parts) => checkHover(cursorIn(line), ...parts));
});

test("a value whose ± is of another dimension is not converted", () => {
  checkHover(sampleWith(plan, ["395 mm ± 2 mm on ap", "395 mm ± 2 d$0eg on ap"]), /Other units of angle: rad\.(?! = )/);
});

test("a range, a sum and a sign have units too", () => {
  checkHover(cursorIn("ream 8.5 mm to 11 m$0m by 0.5 mm"), "11 mm = 1.1 cm = 0.011 m");
  checkHover(sampleWith(plan, ["sunk 9 mm", "sunk -(3 mm - 12 m$0m)"]), "12 mm = 1.2 cm = 0.012 m");
});

describe("a name", () => {
  test.each([
    ["landmark scar 395 mm ± 2 mm on a$0p", "**ap**: magnification 1.1200 ± 0.0060"],
    ["view a$0p, marker 25 mm", "**ap**: magnification 1.1200 ± 0.0060"],
    [
      "lock D$02, drilled 32 mm",
      "**D2**: 24 mm from the tip, medial-lateral, takes dowel",
      "Catalogue: Invented for examples.",
    ],
    [
      "nail tarn$0beck, diameter",
      "**tarnbeck**: nail of Tarnbeck, an invented set",
      "Catalogue: Invented for examples.",
    ],
    ["take D1, D$02, P1", "**D2**: 24 mm from the tip"],
    [
      'use "../catalogue/tarn$0beck.isthmus"',
      "**catalogue**: Tarnbeck, an invented set",
      "Catalogue: Invented for examples.",
    ],
    ['follow "../protocol/eller$0by.isthmus"', "**protocol**: Ellerby, an invented teaching department"],
  ])("%s", (line, ...parts) => checkHover(cursorIn(line), ...parts));

  test("of a value shows what it is worth, where it is given and where it is used", () => {
    const given = (off: string, sunk: string): string =>
      sampleWith(plan, ["  status for-review\n", `  let ${off} = plafond - scar\n`], ["sunk 9 mm", `sunk ${sunk}`]);
    checkHover(given("of$0f", "off"), "**off**: 13.4 mm ± 2.5 mm");
    checkHover(given("off", "o$0ff"), "**off**: 13.4 mm ± 2.5 mm");
    checkHover(sampleWith(plan, ["canal at 320 mm,", "canal at sc$0ar,"]), "**scar**: 352.7 mm ± 2.6 mm");
  });
});

describe("a word", () => {
  test.each([
    ["stat$0us for-review", "**status**: How far the plan has come.", "```isthmus\nstatus for-review\n```"],
    ["status for-re$0view", "**for-review**: Ready to be looked over by a colleague."],
    ["reduce closed, usi$0ng traction", "**using**: What helps to reduce it."],
    ["reduce closed, using trac$0tion", "**traction**: By traction, by hand or on the table."],
    ["soft-tissue closed C$01", "**C1**: Closed: superficial abrasion"],
    ["landmark plaf$0ond 410 mm", "**plafond**: The far joint surface of the tibia."],
    [
      "fracture 42A3$0(b), from",
      "**42A3**: tibial shaft, transverse, less than 30 deg, middle third",
      "Meinberg et al.",
    ],
    ["fibula 4F2$0A", "**4F2A**: "],
    ["opera$0tion {", "**operation**: The steps of the operation"],
  ])("%s", (line, ...parts) => checkHover(cursorIn(line), ...parts));

  test.each([["sc$0ar 395 mm ± 2 mm on ap", "mean(395 mm, 397 mm) on ap"]])(
    "a function says what it takes: %s",
    (_, call) => {
      checkHover(
        sampleWith(plan, ["395 mm ± 2 mm on ap", call.replace("mean", "me$0an")]),
        "**mean(values, …)**: The arithmetic mean",
      );
    },
  );

  test("a modifier of a code is read too", () => {
    checkHover(
      sampleWith(plan, ["42A3(b),", "42$0A3(b)[9],"]),
      "transverse, less than 30 deg, middle third, poor bone quality",
    );
  });
});

test.each([
  ["  never-waive infec$0tion\n", ["`infection` · error", "Basis: "]],
  ["  never-waive cap-missing, growth-plates-o$0pen\n", ["`growth-plates-open` · error"]],
  ["  profile sagittal-t$0en\n", ["**sagittal-ten**: Coronal up to 5 deg"]],
  [
    "  profile every-plane-five\n  limit sag$0ittal up-to 8 deg\n",
    [
      "up to 8 deg",
      /It overrides the profile `every-plane-five` of the protocol "Ellerby[^\n]*\(checked\.isthmus, line \d+\): up to 5 deg/,
    ],
  ],
])("in a protocol, %s", (lines, parts) => {
  checkHover(sampleWith("protocol/ellerby.isthmus", ["  demand time-out", `${lines}  demand time-out`]), ...parts);
});

test("in a plan, the finding of a waiver is explained", () => {
  const line = '  waive screw-over$0length, because "a", signed "b"\n';
  checkHover(sampleWith(plan, ["  status for-review\n", line]), "`screw-overlength` · ", "Limits: `tip-beyond-cortex`");
});

describe("in a protocol and a catalogue", () => {
  test.each([
    [
      "limit sagi$0ttal up-to 10 deg",
      "**Limit `sagittal`**",
      "up to 10 deg",
      'because "our alignment profile"',
      "It overrides the default: up to",
    ],
    ["grade cap-mis$0sing warning", "# No end cap", "`cap-missing`"],
    ["grade cap-missing war$0ning", "**warning**: Outside a published limit or the protocol."],
  ])("%s", (line, ...parts) => checkHover(cursorIn(line, "protocol/ellerby.isthmus"), ...parts));

  test.each([
    ["hole D$02, tip 24 mm", "**D2**: 24 mm from the tip, medial-lateral, takes dowel"],
    ["hole D2, tip 24 mm, runs medial-lat$0eral", "**medial-lateral**: From side to side."],
    ["fits 42A1, 42A$02, 42A3, 42B2, 42B3, 42C2", "**42A2**: tibial shaft, oblique"],
    ["modulus 110 G$0Pa\n    diameters 8 mm to 12 mm", "110 GPa = "],
  ])("%s", (line, ...parts) => checkHover(cursorIn(line, "catalogue/tarnbeck.isthmus"), ...parts));
});

describe("what a document says", () => {
  test("never becomes a link, an image or HTML", () => {
    const hostile = "![a](https://example.org/x.png) <img src=x> `code`";
    checkHover(
      sampleWith(
        plan,
        ["  status for-review\n", `  waive screw-overlength, because "${hostile}", signed "*A*"\n`],
        ["drilled 32 mm, screw 34 mm", "drilled 32 mm, screw 4$00 mm"],
      ),
      "!\\[a\\](https://example.org/x.png) \\<img src=x\\> \\`code\\` (\\*A\\*)",
    );
  });

  test("shows what cannot be seen by its code", () => {
    checkHover(
      sampleWith(
        plan,
        ["  status for-review\n", '  waive screw-overlength, because "a\u202eb", signed "A"\n'],
        ["drilled 32 mm, screw 34 mm", "drilled 32 mm, screw 4$00 mm"],
      ),
      "a\\\\u{202e}b",
    );
  });
});

describe("nothing to say", () => {
  test.each([["isthmus 1\n$0"], ["# a com$0ment"], ["$0"], ['plan "a" {\n$0\n}']])("%j", (text) => checkHover(text));
});

test("a hover stretches over what it is about", () => {
  checkHover(
    `isthmus 1

plan "a" {
  sta$0tus draft
  ^^^^^^
}
`,
    "**status**",
  );
});
