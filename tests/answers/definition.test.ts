/** Where a name leads: each row puts the cursor on a name and says the line that gives it, with the name between brackets. */
import { describe, test } from "vitest";
import { checkDefinition, cursorIn, sampleWith } from "../check.ts";

const plan = "plans/simple-shaft.isthmus";
const catalogue = "catalogue/tarnbeck.isthmus";
const protocol = "protocol/ellerby.isthmus";

describe("from a plan", () => {
  const hole = `${catalogue}: hole [D2], tip 24 mm, runs medial-lateral, takes dowel`;
  test.each([
    ["lock D$02, drilled 32 mm", hole],
    ["take D1, D$02, P1", hole],
    ["nail tarn$0beck, diameter", `${catalogue}: nail [tarnbeck] {`],
    ["view ap$0, marker", "nothing"],
    ["landmark scar 395 mm ± 2 mm on a$0p", "plans/checked.isthmus: view [ap], marker 25 mm, seen 28 mm ± 0.15 mm"],
    ['use "../catalogue/tarn$0beck.isthmus"', `${catalogue}: catalogue ["Tarnbeck, an invented set"] {`],
    ['follow "../protocol/eller$0by.isthmus"', `${protocol}: protocol ["Ellerby, an invented teaching department"] {`],
    ["status for-re$0view", "nothing"],
    ["cap 5 m$0m\n", "nothing"],
  ])("%s", (line, expected) => checkDefinition(cursorIn(line), expected));

  test.each([
    ["canal at 320 mm,", "canal at sc$0ar,", "landmark [scar] 395 mm ± 2 mm on ap"],
    ["canal at 320 mm,", "canal at plafond - sc$0ar / 2,", "landmark [scar] 395 mm ± 2 mm on ap"],
    // The tibia's far joint surface has two words.
    ["canal at 320 mm,", "canal at jo$0int - 40 mm,", "landmark [plafond] 410 mm ± 2 mm on ap"],
    ["sunk 9 mm", "sunk dee$0p", "let [deep] = 9 mm"],
    ["screw 34 mm", "screw dow$0el 34 mm", "screws [dowel] {"],
    ["reduce closed, using traction\n", 'reduce closed, using traction\n    step "D$02"\n', "nothing"],
  ])("%s → %s", (line, typed, expected) => {
    const file = expected.startsWith("screws") ? catalogue : "plans/checked.isthmus";
    checkDefinition(
      sampleWith(plan, ["  status for-review\n", "  status for-review\n  let deep = 9 mm\n"], [line, typed]),
      expected === "nothing" ? expected : `${file}: ${expected}`,
    );
  });

  test("a waiver's hole leads to the catalogue, its finding nowhere", () => {
    const waived = (line: string): string => sampleWith(plan, ["  status for-review\n", `  ${line}\n`]);
    checkDefinition(waived('waive screw-short at D$02, because "a", signed "b"'), hole);
    checkDefinition(waived('waive screw-sh$0ort at D2, because "a", signed "b"'), "nothing");
  });

  test("a name that nothing gives leads nowhere, and so does a path to nothing", () => {
    checkDefinition(sampleWith(plan, ["lock D2, drilled 32 mm", "lock Q$07, drilled 32 mm"]), "nothing");
    checkDefinition(
      sampleWith(plan, ['use "../catalogue/tarnbeck.isthmus"', 'use "../catalogue/no$0ne.isthmus"']),
      "nothing",
    );
  });
});

describe("in a catalogue and a protocol", () => {
  test("a hole's screws are in the same file", () => {
    checkDefinition(
      cursorIn("hole D2, tip 24 mm, runs medial-lateral, takes dow$0el", catalogue),
      "catalogue/other.isthmus: screws [dowel] {",
      "../catalogue/other.isthmus",
    );
  });

  test.each([["limit sagi$0ttal up-to 10 deg"], ["grade cap-mis$0sing warning"], ["demand time-out, anti$0biotic"]])(
    "%s leads nowhere: the tool itself gives it",
    (line) => checkDefinition(cursorIn(line, protocol), "nothing", "../protocol/other.isthmus"),
  );
});
