/**
 * Faults of writing: units, numbers, words, places, names, files, hidden characters, notes and waivers. Every identifying word in them
 * is invented.
 */
import {
  type Attempt,
  doubled,
  type Kind,
  kind,
  lineBefore,
  locksOf,
  matches,
  planted,
  put,
  type Sample,
  some,
  stepsOf,
  without,
} from "./planting.ts";

const each = 8;

function statements(sample: Sample): ReturnType<typeof matches> {
  return matches(sample, /(?<=\n {4})[a-z][a-z-]{3,}(?= [^\n{]*\n)/g);
}

function intoCase(sample: Sample, line: string): Attempt {
  return lineBefore(sample, sample.plan.case?.softTissue?.place, line);
}

function intoPlan(sample: Sample, line: string): Attempt {
  return lineBefore(
    sample,
    sample.plan.status === undefined ? undefined : matches(sample, /(?<=\n {2})status .*/g)[0],
    line,
  );
}

export const numberKinds: readonly Kind[] = [
  kind("a unit left out", "unit-missing", (sample) =>
    some(
      matches(
        sample,
        /(?<=(?:drilled|screw|diameter|length|sunk|marker|width|depth|age|weight) [\d.]+) (?:mm|years|kg)\b(?! ±)/g,
      ),
      each,
    ).map((place) => put(sample, place, "")),
  ),
  kind("a decimal comma", "decimal-comma", (sample) =>
    some(matches(sample, /\d+(?:\.\d+)? mm/g), each).map((place) => {
      const typed = sample.text.slice(place.span.start, place.span.end - 3);
      return put(sample, place, `${typed.includes(".") ? typed.replace(".", ",") : `${typed},5`} mm`);
    }),
  ),
  kind("a thousands separator", "thousands-separator", (sample) =>
    some(matches(sample, /(?<=[ ])\d{3} mm/g), each).map((place) =>
      put(sample, place, `1'${sample.text.slice(place.span.start, place.span.end)}`),
    ),
  ),
  kind("a value of another kind", "unit-mismatch", (sample) =>
    some(matches(sample, /(?<=(?:drilled|screw|diameter|length|sunk|marker|width|depth) [\d.]+ )mm/g), each).map(
      (place) => put(sample, place, "deg"),
    ),
  ),
  kind("a length in degrees added to a length", "unit-mismatch", (sample) =>
    some(matches(sample, /(?<=(?:drilled|screw|sunk) [\d.]+ mm)/g), each).map((place) =>
      put(sample, place, " + 2 deg"),
    ),
  ),
];

export const wordKinds: readonly Kind[] = [
  kind("a statement's word misspelt", "unknown-word", (sample) =>
    some(statements(sample), 12).map((place) => {
      const word = sample.text.slice(place.span.start, place.span.end);
      return put(sample, place, `${word.slice(0, 2)}${word.slice(1)}`);
    }),
  ),
  kind("a clause's word misspelt", ["unknown-word", "unreadable", "misplaced", "missing"], (sample) =>
    some(matches(sample, /(?<=, )(?:drilled|screw|diameter|sunk|support|knee|seen|from-midline)(?= )/g), each).map(
      (place) => {
        const word = sample.text.slice(place.span.start, place.span.end);
        return put(sample, place, `${word.slice(0, 2)}${word.slice(1)}`);
      },
    ),
  ),
  kind("a choice misspelt", ["unknown-word", "unreadable"], (sample) =>
    some(matches(sample, /(?<=(?:side|bone|growth-plates|bone-quality|table|support) )[a-z-]{4,}/g), each).map(
      (place) => {
        const word = sample.text.slice(place.span.start, place.span.end);
        return put(sample, place, word.slice(1));
      },
    ),
  ),
  kind("a step in the case", "misplaced", (sample) =>
    ["wire ball-tip", "cap 5 mm", "check ap, lateral", "unreamed", "compress 1 turn"].map((line) =>
      intoCase(sample, line),
    ),
  ),
  kind("a part of the case in the operation", "misplaced", (sample) =>
    ["side left", "age 40 years", "weight 70 kg", "concern narrow-canal", "knee-flexion 120 deg"].map((line) =>
      lineBefore(sample, stepsOf(sample, "wire")[0]?.place, line),
    ),
  ),
  kind("a statement given twice", "repeated", (sample) =>
    some(
      matches(
        sample,
        /(?<=\n {4})(?:side|bone|age|weight|growth-plates|bone-quality|soft-tissue|fracture|enter|wire|ream|nail|cap) [a-z\d][^\n{]*(?=\n)/g,
      ).filter(({ span }) => !/^bone at/.test(sample.text.slice(span.start, span.end))),
      12,
    ).map((place) => doubled(sample, place)),
  ),
  kind("a required statement left out", "missing", (sample) =>
    [/(?<=\n {4})side .*/g, /(?<=\n {4})bone [a-z]+$/gm, /(?<=\n {4})fracture .*/g].flatMap((pattern) =>
      matches(sample, pattern)
        .slice(0, 1)
        .map((place) => without(sample, [place], "case")),
    ),
  ),
  kind("no nail in the operation", "missing", (sample) =>
    stepsOf(sample, "nail").map(({ place }) => without(sample, [place], "operation")),
  ),
  kind("a required clause left out", "missing", (sample) =>
    some(
      matches(
        sample,
        /(?<=\n {4}(?:lock|nail) .*), (?:drilled|screw|sunk|diameter|length) [\d.]+ mm(?: ± [\d.]+ mm)?/g,
      ),
      12,
    ).map((place) => put(sample, place, "")),
  ),
  kind("a closing brace left out", "unreadable", (sample) =>
    matches(sample, /(?<=\n) {2}\}\n\n? {2}(?=images|measures|operation|aftercare)/g).map((place) =>
      planted(
        sample,
        [{ span: { start: place.span.start, end: place.span.end - 2 }, text: "\n" }],
        place.span.start - 1,
      ),
    ),
  ),
  kind("a stray sign", "unreadable", (sample) =>
    some(statements(sample), each).map((place) =>
      put(sample, place, `${sample.text.slice(place.span.start, place.span.end)} ?`),
    ),
  ),
];

export const nameKinds: readonly Kind[] = [
  kind("a name nobody gave", "name-unknown", (sample) =>
    some(matches(sample, /(?<=(?:drilled|screw|sunk|from) )[\d.]+ mm/g), each).map((place) =>
      put(sample, place, "no-such-name - 4 mm"),
    ),
  ),
  kind("a name nobody uses", "name-unused", (sample) =>
    ["let play = 2 mm", "let spare = 40 mm + 2 mm", "let turn-off = 3 deg"].map((line) => intoPlan(sample, line)),
  ),
  kind("a name given twice", "name-repeated", (sample) =>
    sample.plan.measures.landmarks.map(({ place }) => doubled(sample, place)),
  ),
  kind("a view described twice", "name-repeated", (sample) =>
    sample.plan.views.map(({ place }) => doubled(sample, place)),
  ),
  kind("a file that is not there", "file-missing", (sample) =>
    [...sample.plan.uses, ...sample.plan.follows].map(({ path }) =>
      put(sample, path.place, '"../catalogue/no-such-set.isthmus"'),
    ),
  ),
  kind("a file of another kind", "file-missing", (sample) => [
    ...sample.plan.uses.map(({ path }) => put(sample, path.place, '"../protocol/ellerby.isthmus"')),
    ...sample.plan.follows.map(({ path }) => put(sample, path.place, '"../catalogue/tarnbeck.isthmus"')),
  ]),
  kind("a path that leaves the library", "file-outside", (sample) =>
    [...sample.plan.uses, ...sample.plan.follows].flatMap(({ path }) =>
      ['"../../outside.isthmus"', '"/etc/outside.isthmus"'].map((outside) => put(sample, path.place, outside)),
    ),
  ),
  kind("a character nobody sees", "hidden-character", (sample) =>
    ["\u200b", "\u202e", "\u2066", "\u00ad"].flatMap((hidden) =>
      some(statements(sample), 3).map((place) => {
        const word = sample.text.slice(place.span.start, place.span.end);
        return put(sample, place, `${word}${hidden}`);
      }),
    ),
  ),
];

export const recordKinds: readonly Kind[] = [
  kind("words that look like a person's", "identifier", (sample) =>
    [
      "## Mrs Examplewoman asks for a small scar.",
      "## Born on 4 March 1971, walks with a stick.",
      "## Call +44 20 7946 0018 after the operation.",
      "## Letters to a.person@example.org.",
    ].map((note) => lineBefore(sample, stepsOf(sample, "nail")[0]?.place, note)),
  ),
  kind("a note over nothing", "note-adrift", (sample) => {
    const last = sample.plan.steps.at(-1)?.place.span.end;
    if (last === undefined) return [];
    const note = "## Record the rotation before the drapes come off.";
    return [planted(sample, [{ span: { start: last, end: last }, text: `\n    ${note}` }], note)];
  }),
  kind("a waiver that meets nothing", "waiver-unused", (sample) =>
    ["reaming-overshoot", "nail-proud", "screw-short", "cap-proud"].map((finding) =>
      intoPlan(sample, `waive ${finding}, because "an invented reason", signed "the operating surgeon"`),
    ),
  ),
  kind("a waiver without a reason", "waiver-unexplained", (sample) =>
    ["drill-odd", "cap-missing", "nail-deep"].flatMap((finding) => [
      intoPlan(sample, `waive ${finding}, because "", signed "the operating surgeon"`),
      intoPlan(sample, `waive ${finding}, signed "the operating surgeon"`),
    ]),
  ),
  kind("a waiver of a finding that does not exist", "name-unknown", (sample) =>
    ["drill-off", "no-such-finding"].map((finding) =>
      intoPlan(sample, `waive ${finding}, because "an invented reason", signed "the operating surgeon"`),
    ),
  ),
  kind("a lock named by what is no hole", ["hole-unknown", "unknown-word", "unreadable"], (sample) =>
    locksOf(sample).map((lock) => put(sample, lock.hole.place, "proximal")),
  ),
];
