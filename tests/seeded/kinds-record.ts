/**
 * Faults in what is kept with a plan: its reviews and their seals, what its notes cite, the questions it asks, and what was achieved
 * instead of what was planned.
 */
import { sealOf } from "../../grammar/seal.ts";
import type { LockStep } from "../../server/meaning/plan.ts";
import {
  type Attempt,
  isSlot,
  type Kind,
  kind,
  known,
  lineBefore,
  locksOf,
  matches,
  mm,
  nailOf,
  planted,
  put,
  type Sample,
  some,
  stepsOf,
  textOf,
} from "./planting.ts";

const sealOfNothing = "00000000000000000000000000000000";

/** The `reviewed` lines after the plan's status. */
function reviewed({ text }: Sample, ...lines: readonly string[]): string {
  return text.replace(/\n {2}status .*\n/, (status) => `${status}${lines.map((line) => `  ${line}\n`).join("")}`);
}

function review(by: string, dated: string, seal: string): string {
  return `reviewed "${by}", dated ${dated}, seal "${seal}"`;
}

/** A text as it was sealed, then changed; the seal's line is the one that opens with `reviewed "the newest"`. */
function atNewest(text: string): Attempt {
  const line = text.split("\n").findIndex((each) => each.startsWith('  reviewed "the newest"'));
  return line < 0 ? undefined : { text, line };
}

function sealed(sample: Sample): string {
  return reviewed(sample, review("the newest", "2026-03-09", sealOf(sample.text) ?? ""));
}

function changedAfter(sample: Sample, from: RegExp, to: string): Attempt {
  const text = sealed(sample);
  const after = text.replace(from, to);
  return after === text ? undefined : atNewest(after);
}

const reviewKinds: readonly Kind[] = [
  kind("a size changed after the review", "changed-since-review", (sample) => [
    changedAfter(sample, /(?<=\n {4}nail .*, sunk )[\d.]+/, "8.75"),
    changedAfter(sample, /(?<=\n {4}lock .*, screw )[\d.]+/, "44"),
    changedAfter(sample, /(?<=\n {4}weight )\d+/, "81"),
  ]),
  kind("a step left out after the review", "changed-since-review", (sample) => [
    changedAfter(sample, /\n {4}lock .*/, ""),
    changedAfter(sample, /\n {4}check .*/, ""),
  ]),
  kind("a word of a note changed after the review", "changed-since-review", (sample) => [
    changedAfter(sample, /(?<=\n *## )\w+/, "Otherwise"),
  ]),
  kind("a seal of another plan", "changed-since-review", (sample) => [
    atNewest(reviewed(sample, review("the newest", "2026-03-09", sealOfNothing))),
    atNewest(reviewed(sample, review("the newest", "2026-03-09", "as discussed"))),
  ]),
  kind("an older review that fits, and a newer one that does not", "changed-since-review", (sample) => {
    const older = review("the first reader", "2026-03-02", sealOf(sample.text) ?? "");
    const newest = review("the newest", "2026-03-09", sealOfNothing);
    return [atNewest(reviewed(sample, older, newest)), atNewest(reviewed(sample, newest, older))];
  }),
];

const citationKinds: readonly Kind[] = [
  kind("a source cited that no bibliography has", "citation-unknown", (sample) =>
    ["## So it is said elsewhere [@nobody1901].", "## Compare [@nobody1901, p. 3] before the next step."].map((note) =>
      lineBefore(sample, stepsOf(sample, "nail")[0]?.place, note),
    ),
  ),
  kind("a key that is misspelt", "citation-unknown", (sample) =>
    [...sample.text.matchAll(/(?<=\[@)[a-z]+\d{4}/g)].map(({ 0: key, index }) =>
      planted(sample, [{ span: { start: index, end: index + key.length }, text: key.slice(1) }], index),
    ),
  ),
  kind("a source that is no longer cited", "citation-unused", (sample) =>
    sample.plan.bibliographies.map(({ path }) => {
      const keys = [...sample.text.matchAll(/@[a-z]+\d{4}/g)];
      const edits = keys.map(({ 0: key, index }) => ({
        span: { start: index, end: index + key.length },
        text: "there",
      }));
      return keys.length === 0 ? undefined : planted(sample, edits, path.place.span.start);
    }),
  ),
  kind("a bibliography that is not there", "file-missing", (sample) =>
    sample.plan.bibliographies.map(({ path }) => put(sample, path.place, '"no-such-sources.bib"')),
  ),
];

/** A question of its own before the aftercare, with these answers. */
function asked(sample: Sample, at: string, ...answers: readonly string[]): Attempt {
  const [aftercare] = matches(sample, /(?<=\n {2})aftercare \{/g);
  if (aftercare === undefined) return undefined;
  const { start } = aftercare.span;
  const lines = answers.map((answer) => `    ${answer}\n`).join("");
  return planted(sample, [{ span: { start, end: start }, text: `ask "What first, here?" {\n${lines}  }\n\n  ` }], at);
}

const questionKinds: readonly Kind[] = [
  kind("a question none of whose answers is right", "question-unanswered", (sample) => [
    asked(sample, 'ask "What first', 'answer "The near end", because "It turns."', 'answer "Neither", because "No."'),
    ...[...sample.text.matchAll(/, right(?=[,\n])/g)].map(({ 0: words, index }) =>
      planted(
        sample,
        [{ span: { start: index, end: index + words.length }, text: "" }],
        sample.text.lastIndexOf('ask "', index),
      ),
    ),
  ]),
  kind("a question without an answer", "question-unanswered", (sample) => [asked(sample, 'ask "What first')]),
  kind("an answer without its reason", "question-without-reason", (sample) => [
    asked(sample, 'answer "The far end"', 'answer "The far end", right'),
    asked(sample, 'answer "Neither"', 'answer "The far end", right, because "It turns."', 'answer "Neither"'),
  ]),
];

/** What was done, in a block of its own before the aftercare; the fault lies in the line that opens with `at`. */
function achieved(sample: Sample, line: string | undefined, at = "achieved", ...others: readonly string[]): Attempt {
  const [aftercare] = matches(sample, /(?<=\n {2})aftercare \{/g);
  if (aftercare === undefined || line === undefined || sample.plan.achieved !== undefined) return undefined;
  const start = aftercare.span.start;
  const head = sample.text.slice(0, start);
  const lines = [line, ...others].map((each) => `    ${each}\n`).join("");
  const text = `${head}achieved {\n${lines}  }\n\n  ${sample.text.slice(start)}`;
  const opening = head.split("\n").length - 1;
  return { text, line: at === "achieved" ? opening : opening + 1 };
}

/** The step's own line with one stretch of it written otherwise. */
function line(sample: Sample, step: { readonly place: LockStep["place"] } | undefined, from: RegExp, to: string) {
  const words = step === undefined ? "" : textOf(sample, step.place);
  const other = words.replace(from, to);
  return other === words ? undefined : other;
}

const achievedKinds: readonly Kind[] = [
  kind("a nail of another length put in", "achieved-differs", (sample) => {
    const nail = nailOf(sample);
    const length = known(nail?.length) ?? 0;
    return [-15, 15, 30].map((by) =>
      achieved(sample, line(sample, nail, /(?<=length )[^,]+/, mm(length + by)), "first"),
    );
  }),
  kind("a nail of another diameter put in", "achieved-differs", (sample) => [
    achieved(sample, line(sample, nailOf(sample), /(?<=diameter )[^,]+/, "8.5 mm"), "first"),
  ]),
  kind("a nail sunk otherwise than planned", "achieved-differs", (sample) => [
    achieved(sample, line(sample, nailOf(sample), /(?<=sunk )[^,]+/, "21 mm"), "first"),
  ]),
  kind("reamed further than planned", "achieved-differs", (sample) =>
    stepsOf(sample, "ream")
      .slice(-1)
      .map(({ heads }) =>
        achieved(sample, `ream ${mm(Math.max(...heads.sizes.map((size) => known(size) ?? 0)) + 1.5)}`, "first"),
      ),
  ),
  kind("another screw put in", "achieved-differs", (sample) =>
    locksOf(sample).map((lock) => {
      const others = locksOf(sample).filter((each) => each !== lock);
      return achieved(
        sample,
        line(sample, lock, /(?<=screw )[\d.]+ mm/, mm((known(lock.screw) ?? 0) + 6)),
        "first",
        ...others.map(({ place }) => textOf(sample, place)),
      );
    }),
  ),
  kind("a screw left out, of which the record is silent", "achieved-differs", (sample) =>
    locksOf(sample).map((lock) => {
      const [first, ...others] = locksOf(sample).filter((each) => each !== lock);
      return first === undefined
        ? undefined
        : achieved(
            sample,
            textOf(sample, first.place),
            "achieved",
            ...others.map(({ place }) => textOf(sample, place)),
          );
    }),
  ),
  kind("compressed otherwise than planned", "achieved-differs", (sample) => [
    ...(stepsOf(sample, "compress").length > 0 ? [achieved(sample, "compress 4.5 mm", "first")] : []),
    ...(stepsOf(sample, "compress").length === 0 && locksOf(sample).some(({ hole }) => isSlot(sample, hole.text))
      ? [achieved(sample, "compress 1 mm", "first")]
      : []),
  ]),
  kind("left crooked", ["alignment-off", "rotation-off"], (sample) =>
    some(["coronal 9 deg varus", "coronal 8 deg valgus", "rotation 24 deg internal"], 3).map((angle) =>
      achieved(sample, `alignment ${angle}`, "first"),
    ),
  ),
];

export const keptKinds: readonly Kind[] = [...reviewKinds, ...citationKinds, ...questionKinds, ...achievedKinds];
