/**
 * Faults in locking, compression and dynamisation. Screw lengths are chosen from the catalogue's list so that the tip lies too far or
 * not far enough by the drilled depth alone.
 */
import type { LockStep } from "../../server/meaning/plan.ts";
import {
  type Attempt,
  doubled,
  endOf,
  isSlot,
  type Kind,
  kind,
  known,
  lineBefore,
  locksOf,
  mm,
  moved,
  planted,
  put,
  type Sample,
  stepsOf,
  valuesOf,
  without,
} from "./planting.ts";

function listedScrews(sample: Sample, { hole, family }: LockStep): readonly number[] {
  const taken =
    sample.plan.nail?.holes.find(({ name }) => name.text === hole.text)?.takes.map(({ text }) => text) ?? [];
  const name = family?.text ?? taken[0];
  return valuesOf(sample.plan.screwFamilies.find((each) => each.name.text === name)?.lengths);
}

/** Screws whose tip lies `from` to `to` past the far cortex. */
function screwsPast(sample: Sample, from: number, to: number): readonly Attempt[] {
  return locksOf(sample).flatMap((lock) => {
    const drilled = known(lock.drilled);
    if (drilled === undefined || lock.grip === "near") return [];
    const lengths = listedScrews(sample, lock).filter((length) => length - drilled >= from && length - drilled <= to);
    return lengths.map((length) => put(sample, lock.screw?.place, mm(length)));
  });
}

/** Taken out of the operation and out of the removal, so that the one fault is the missing screw. */
function withoutLocks(sample: Sample, locks: readonly LockStep[], at: number | string | undefined): Attempt {
  if (at === undefined || locks.length === 0) return undefined;
  const names = locks.map(({ hole }) => hole.text);
  const drops = without(
    sample,
    locks.map(({ place }) => place),
    at,
  );
  if (drops === undefined || "soundBecause" in drops) return drops;
  const taken = names.reduce(
    (text, name) =>
      text
        .replace(new RegExp(`^(\\s+take .*?)\\b${name}, `, "m"), "$1")
        .replace(new RegExp(`^(\\s+take .*), ${name}$`, "m"), "$1"),
    drops.text,
  );
  const text = names.reduce((so, name) => so.replace(new RegExp(`^\\s+take ${name}\\n`, "m"), ""), taken);
  return { text, line: drops.line };
}

export const screwKinds: readonly Kind[] = [
  kind("a screw too long", "screw-overlength", (sample) => screwsPast(sample, 4, 10)),
  kind("a screw too short", "screw-short", (sample) => screwsPast(sample, -8, -1)),
  kind("a screw length the catalogue does not list", "screw-unlisted", (sample) =>
    locksOf(sample).map((lock) => put(sample, lock.screw?.place, mm((known(lock.screw) ?? 0) + 0.5))),
  ),
  kind("a hole the nail does not have", "hole-unknown", (sample) =>
    locksOf(sample).flatMap((lock) => ["D7", "P9"].map((name) => put(sample, lock.hole.place, name))),
  ),
  kind("a hole locked twice", "hole-repeated", (sample) => locksOf(sample).map(({ place }) => doubled(sample, place))),
  kind("the hole of another line", "hole-repeated", (sample) => {
    const locks = locksOf(sample);
    return locks.slice(1).map((lock) => put(sample, lock.hole.place, locks[0]?.hole.text ?? ""));
  }),
  kind("a screw family the hole does not take", ["screw-wrong", "screw-unlisted"], (sample) =>
    locksOf(sample).flatMap((lock) => {
      const taken = sample.plan.nail?.holes.find(({ name }) => name.text === lock.hole.text)?.takes ?? [];
      const other = sample.plan.screwFamilies.find(({ name }) => !taken.some(({ text }) => text === name.text));
      return [other?.name.text ?? "no-such-screw"].map((name) =>
        put(sample, lock.screw?.place, `${name} ${mm(known(lock.screw) ?? 0)}`),
      );
    }),
  ),
  kind("a drilled depth far from the bone's width", ["drill-odd"], (sample) =>
    locksOf(sample).flatMap((lock) => {
      const path = known(sample.analysis.reckonings?.byId.get(`hole.${lock.hole.text}.path`)?.answer as never);
      if (path === undefined) return [];
      return [path - 12, path + 12].map((depth) => put(sample, lock.drilled?.place, mm(Math.round(depth))));
    }),
  ),
  kind("one screw alone in the far fragment", ["screws-few", "screws-few-short-fragment"], (sample) => {
    const far = locksOf(sample, "tip");
    return far.map((kept) =>
      withoutLocks(
        sample,
        far.filter((lock) => lock !== kept),
        `lock ${kept.hole.text}`,
      ),
    );
  }),
  kind("the fracture at a screw", "screw-in-fracture", (sample) =>
    locksOf(sample).flatMap((lock) => {
      const { from, to } = sample.plan.case?.fracture ?? {};
      const level = known(sample.analysis.reckonings?.byId.get(`hole.${lock.hole.text}.level`)?.answer as never);
      if (from === undefined || to === undefined || level === undefined) return [];
      const edits = [
        { span: from.place.span, text: mm(level - 6) },
        { span: to.place.span, text: mm(level + 6) },
      ];
      return [planted(sample, edits, lock.place.span.start)];
    }),
  ),
];

function slotLock(sample: Sample): LockStep | undefined {
  return locksOf(sample, "top").find(({ hole }) => isSlot(sample, hole.text));
}

function fixedAfter(sample: Sample): readonly LockStep[] {
  return locksOf(sample, "top").filter(({ hole }) => !isSlot(sample, hole.text));
}

export const compressionKinds: readonly Kind[] = [
  kind("compression beyond the travel", "compression-beyond-travel", (sample) => {
    const travel = known(sample.plan.nail?.compression?.travel) ?? 0;
    return stepsOf(sample, "compress").flatMap(({ place }) =>
      [1, 2, 5].map((more) => put(sample, place, `compress ${mm(travel + more)}`)),
    );
  }),
  kind("compression past the closed gap", ["compression-past-gap", "compression-beyond-travel"], (sample) => {
    const gap = known(sample.plan.case?.fracture?.gap) ?? 0;
    return stepsOf(sample, "compress").flatMap(({ place }) =>
      [2, 3].map((more) => put(sample, place, `compress ${mm(gap + more)}`)),
    );
  }),
  kind(
    "compression before the far end is locked",
    ["compression-unprepared", "locking-order", "step-order"],
    (sample) =>
      stepsOf(sample, "compress").map(({ place }) => moved(sample, place, locksOf(sample)[0]?.place, "compress")),
  ),
  kind(
    "the far end locked after the compression",
    ["compression-unprepared", "locking-order", "step-order"],
    (sample) => {
      const compress = stepsOf(sample, "compress")[0]?.place;
      const end = compress === undefined ? undefined : sample.plan.steps.at(-1)?.place;
      if (compress === undefined || end === undefined) return [];
      const far = locksOf(sample, "tip");
      const { text } = sample;
      const lines = far.map(({ place }) => ({
        start: text.lastIndexOf("\n", place.span.start) + 1,
        end: text.indexOf("\n", place.span.end) + 1,
      }));
      const at = text.lastIndexOf("\n", end.span.start) + 1;
      const edits = [
        ...lines.map((span) => ({ span, text: "" })),
        { span: { start: at, end: at }, text: lines.map((span) => text.slice(span.start, span.end)).join("") },
      ];
      return [planted(sample, edits, "compress")];
    },
  ),
  kind("compression with no screw in the slot", "compression-unprepared", (sample) => {
    const slot = slotLock(sample);
    return stepsOf(sample, "compress").map(() =>
      slot === undefined ? undefined : withoutLocks(sample, [slot], "compress"),
    );
  }),
  kind("a fixed screw before the compression", "compression-unprepared", (sample) =>
    stepsOf(sample, "compress").flatMap(({ place }) =>
      fixedAfter(sample).map((lock) => moved(sample, lock.place, place, `lock ${lock.hole.text}`)),
    ),
  ),
  kind("no fixed screw after the compression", "compression-unheld", (sample) =>
    stepsOf(sample, "compress").map(() => withoutLocks(sample, fixedAfter(sample), "compress")),
  ),
  kind(
    "compression through a nail without a compression screw",
    ["compression-unprepared", "compression-beyond-travel"],
    (sample) =>
      sample.plan.nail === undefined || sample.plan.nail.compression !== undefined
        ? []
        : [lineBefore(sample, stepsOf(sample, "cap")[0]?.place, "compress 2 mm")],
  ),
];

function dynamised(
  sample: Sample,
  at: string,
  hole: string,
  more: readonly { start: number; end: number; text: string }[] = [],
): Attempt {
  const { aftercare } = sample.plan;
  const review = sample.text.indexOf("    review at", aftercare?.place.span.start ?? 0);
  if (aftercare === undefined || aftercare.dynamise !== undefined || review < 0) return undefined;
  const edits = [
    { span: { start: review, end: review }, text: `    dynamise at ${at}, remove ${hole}\n` },
    ...more.map(({ start, end, text }) => ({ span: { start, end }, text })),
  ];
  return planted(sample, edits, "dynamise");
}

/** Where a screw in a slot stays when the fixed ones of that end are out. */
function dynamisable(sample: Sample): readonly string[] {
  const slot = slotLock(sample);
  const fixed = fixedAfter(sample);
  return slot === undefined || fixed.length !== 1 ? [] : fixed.map(({ hole }) => hole.text);
}

export const dynamiseKinds: readonly Kind[] = [
  kind("dynamisation too early", "dynamise-early", (sample) =>
    dynamisable(sample).flatMap((hole) =>
      ["2 weeks", "3 weeks", "4 weeks", "20 days"].map((at) => dynamised(sample, at, hole)),
    ),
  ),
  kind("dynamisation that sets no slot free", "dynamise-impossible", (sample) =>
    locksOf(sample)
      .filter(({ hole }) => endOf(sample, hole.text) === "tip" || isSlot(sample, hole.text))
      .map(({ hole }) => dynamised(sample, "12 weeks", hole.text)),
  ),
  kind("dynamisation of a pattern that does not hold its length", "dynamise-unstable", (sample) => {
    const code = sample.plan.case?.fracture?.code;
    if (code?.text[1] !== "2") return [];
    return dynamisable(sample).flatMap((hole) =>
      ["B3", "C2", "C3"].map((type) =>
        dynamised(sample, "12 weeks", hole, [{ ...code.place.span, text: `${code.text.slice(0, 2)}${type}` }]),
      ),
    );
  }),
];
