/** Inlay hints: the number a line decides, at its end. */
import { expect, test } from "vitest";
import { hintsIn } from "../../server/answers/hints.ts";
import { analyseText, checkHints, sampleText, sampleWith } from "../check.ts";

const plan = "plans/simple-shaft.isthmus";

test("every line that decides a number shows it", () => {
  checkHints(sampleText(plan), [
    "fracture 42A3(b), from 190 mm on ap to 198 mm on ap, gap 4 mm ± 1 mm, fibula 4F2A » at 173.21 mm ± 0.93 mm, shaft",
    "view ap, marker 25 mm, seen 28 mm ± 0.15 mm » × 1.1200 ± 0.0060",
    "view lateral, marker 25 mm, seen 29 mm ± 0.15 mm » × 1.1600 ± 0.0060",
    "landmark scar 395 mm ± 2 mm on ap » at 352.7 mm ± 2.6 mm",
    "landmark plafond 410 mm ± 2 mm on ap » at 366.1 mm ± 2.7 mm",
    "ream 8.5 mm to 11 mm by 0.5 mm » 1 mm over the nail",
    "nail tarnbeck, diameter 10 mm, length 330 mm, sunk 9 mm » tip at 339 mm, 13.7 mm ± 2.6 mm in hand",
    "lock D2, drilled 32 mm, screw 34 mm » at 315 mm, 2 mm past the far cortex",
    "lock D1, drilled 36 mm, screw 38 mm » at 329 mm, 2 mm past the far cortex",
    "lock P2, drilled 50 mm, screw 52 mm » at 39 mm, 2 mm past the far cortex",
    "compress 2 turns » 2.5 mm, 4.5 mm travel left, gap left 1.5 mm ± 1.0 mm",
    "lock P1, drilled 46 mm, screw 48 mm » at 51 mm, 2 mm past the far cortex",
    "cap 5 mm » 1.5 mm below the bone",
    "watch compartment, diastolic 76 mmHg, pressure 24 mmHg » gradient 52 mmHg",
  ]);
});

test.each([
  ["ream 8.5 mm to 11 mm by 0.5 mm", "ream 8.5 mm to 9 mm by 0.5 mm", "1 mm under the nail"],
  ["drilled 32 mm, screw 34 mm", "drilled 32 mm, screw 30 mm", "at 315 mm, 2 mm short of the far cortex"],
  ["drilled 32 mm, screw 34 mm", "drilled 32 mm ± 1 mm, screw 34 mm", "at 315 mm, 2.0 mm ± 1.0 mm past the far cortex"],
  ["cap 5 mm\n", "cap 10 mm\n", "3.5 mm proud of the bone"],
])("%s: %s", (line, typed, label) => {
  const text = sampleWith(plan, [line, typed]);
  const start = text.indexOf(typed.trim());
  const hints = hintsIn(analyseText(text), { start, end: start });
  expect(hints.map((hint) => hint.label)).toEqual([label]);
  expect(hints.map(({ offset }) => offset)).toEqual([start + typed.trim().length]);
});

test("a number that is withheld has no hint, and its tooltip beside another says why", () => {
  const text = sampleWith(plan, ["drilled 32 mm, screw 34 mm", "drilled 32 mm, screw 34"]);
  const at = text.indexOf("lock D2");
  const [hint] = hintsIn(analyseText(text), { start: at, end: at });
  expect(hint?.label).toBe("at 315 mm");
});

test("only lines that touch the stretch asked for", () => {
  const text = sampleText(plan);
  const start = text.indexOf("ream 8.5");
  const labels = hintsIn(analyseText(text), { start, end: text.indexOf("check ap, lateral\n    ##") }).map(
    ({ label }) => label,
  );
  expect(labels).toEqual(["1 mm over the nail", "tip at 339 mm, 13.7 mm ± 2.6 mm in hand"]);
});

test("tooltips tell each number by its label", () => {
  const text = sampleText(plan);
  const start = text.indexOf("compress 2 turns");
  expect(hintsIn(analyseText(text), { start, end: start })[0]?.tooltip.split("\n")).toHaveLength(3);
  expect(hintsIn(analyseText(text), { start, end: start })[0]?.tooltip).toMatch(
    /: 2\.5 mm\n.*: 4\.5 mm\n.*: 1\.5 mm ± 1\.0 mm/,
  );
});

test("a fallback and what was achieved have none of their own", () => {
  const text = sampleWith(plan, [
    "  aftercare {",
    '  fallback "a" {\n    ream 8.5 mm to 12 mm by 0.5 mm\n  }\n\n  aftercare {',
  ]);
  const start = text.indexOf("ream 8.5 mm to 12 mm");
  expect(hintsIn(analyseText(text), { start, end: start })).toEqual([]);
});
