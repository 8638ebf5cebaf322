/**
 * Faults in the case, the images, the readings and the preparation, and in what follows the operation: aftercare, removal and the
 * record of what was achieved.
 */
import { takeOut } from "../../server/findings/line-edits.ts";
import {
  type Attempt,
  type Kind,
  kind,
  known,
  lineBefore,
  locksOf,
  matches,
  mm,
  moved,
  planted,
  put,
  type Sample,
  stepsOf,
  textOf,
  without,
} from "./planting.ts";

function codeWith(sample: Sample, change: (code: string) => string): Attempt {
  const code = sample.plan.case?.fracture?.code;
  return code === undefined ? undefined : put(sample, code.place, change(code.text));
}

function isClosedShaft({ plan }: Sample): boolean {
  return plan.case?.softTissue?.kind.text === "closed" && plan.case.fracture?.code?.text[1] === "2";
}

function isBone({ plan }: Sample, bone: string): boolean {
  return plan.case?.bone?.text === bone;
}

export const caseKinds: readonly Kind[] = [
  kind("the fracture's edges swapped", "fracture-reversed", (sample) => {
    const { from, to } = sample.plan.case?.fracture ?? {};
    if (from === undefined || to === undefined) return [];
    const edits = [
      { span: from.place.span, text: textOf(sample, to.place) },
      { span: to.place.span, text: textOf(sample, from.place) },
    ];
    return [planted(sample, edits, from.place.span.start)];
  }),
  kind("a fracture outside the bone", "fracture-reversed", (sample) => {
    const { from, to } = sample.plan.case?.fracture ?? {};
    if (from === undefined || to === undefined) return [];
    return [600, 700].map((level) =>
      planted(
        sample,
        [
          { span: from.place.span, text: mm(level) },
          { span: to.place.span, text: mm(level + 20) },
        ],
        from.place.span.start,
      ),
    );
  }),
  kind("a fracture code that does not exist", "code-unknown", (sample) =>
    ["A9", "B0"].map((type) => codeWith(sample, (code) => `${code.slice(0, 2)}${type}`)),
  ),
  kind("a fracture code of no bone", "code-unknown", (sample) =>
    ["99A2", "47A2"].map((code) => codeWith(sample, () => code)),
  ),
  kind("the fracture code in the old spelling", "code-old-spelling", (sample) => [
    codeWith(sample, (code) => `${code.slice(0, 2)}-${code.slice(2, 4)}`),
  ]),
  kind("a fracture code with a letter no code has", "unreadable", (sample) =>
    ["D1", "D2"].map((type) => codeWith(sample, (code) => `${code.slice(0, 2)}${type}`)),
  ),
  kind("a fracture code of another segment", "segment-disagrees", (sample) =>
    ["1", "3"].map((segment) =>
      segment === "1" && isBone(sample, "humerus")
        ? { soundBecause: "where the proximal end of a humerus ends is not known" }
        : sample.plan.case?.fracture?.code?.text[1] === segment
          ? { soundBecause: "the fracture lies in that segment" }
          : codeWith(sample, (code) => `${code.slice(0, 1)}${segment}A2`),
    ),
  ),
  kind("a fracture code of another bone", ["segment-disagrees", "code-unknown"], (sample) =>
    ["1", "3", "4"]
      .map((bone) => codeWith(sample, (code) => (code.startsWith(bone) ? code : `${bone}2A2`)))
      .filter((each) => each !== undefined && "text" in each && each.text !== sample.text),
  ),
  kind("a fracture code the nail is not meant for", "nail-unfit", (sample) => {
    const fits = new Set(sample.plan.nail?.fits.map(({ text }) => text));
    const code = sample.plan.case?.fracture?.code;
    const others = ["1A1", "1A2", "1A3", "3A1", "3A2", "3A3"].map((rest) => `${code?.text.slice(0, 1)}${rest}`);
    return others
      .filter((each) => code !== undefined && !fits.has(each))
      .map((each) => planted(sample, code === undefined ? [] : [{ span: code.place.span, text: each }], "nail"));
  }),
  kind("an open fracture without antibiotic", "antibiotic-missing", (sample) => {
    const { softTissue } = sample.plan.case ?? {};
    const prepare = stepsOf(sample, "prepare")[0];
    if (softTissue === undefined || prepare === undefined) return [];
    return ["open I", "open II", "open IIIA", "open IIIB"].map((injury) =>
      planted(
        sample,
        [
          { span: softTissue.place.span, text: `soft-tissue ${injury}` },
          { span: prepare.place.span, text: "prepare time-out" },
          // A department that demands it has a finding of its own.
          ...sample.plan.follows.map(({ path }) => takeOut(sample.text, path.place.span)),
        ],
        "prepare",
      ),
    );
  }),
  kind("a soft-tissue injury graded in the wrong scale", "soft-tissue-contradiction", (sample) =>
    ["open C1", "closed II", "closed IIIA", "open C3"].map((injury) =>
      put(sample, sample.plan.case?.softTissue?.place, `soft-tissue ${injury}`),
    ),
  ),
  kind("a knee that does not bend for the entry", "knee-stiff", (sample) => {
    const below = stepsOf(sample, "enter").some(({ approach }) => approach?.text === "infrapatellar");
    return below
      ? [40, 60, 80, 89].map((flexion) => put(sample, sample.plan.case?.kneeFlexion?.place, `${flexion} deg`))
      : [];
  }),
  kind("a knee bent too little on the table", "knee-stiff", (sample) => {
    const below = stepsOf(sample, "enter").some(({ approach }) => approach?.text === "infrapatellar");
    return below
      ? [30, 60, 80].map((flexion) => put(sample, stepsOf(sample, "position")[0]?.knee?.place, `${flexion} deg`))
      : [];
  }),
  kind("open growth plates", "growth-plates-open", (sample) => [
    put(sample, sample.plan.case?.growthPlates?.place, "open"),
  ]),
  kind("concern about infection", "infection", (sample) => [
    lineBefore(sample, sample.plan.case?.softTissue?.place, "concern infection"),
  ]),
  kind("the support under the knee", "support-under-knee", (sample) =>
    stepsOf(sample, "position").map(({ support }) => put(sample, support?.place, "knee")),
  ),
  kind("the entry off the midline's range", "entry-off", (sample) =>
    stepsOf(sample, "enter").flatMap(({ fromMidline }) =>
      [1, 16, 20, 30].map((amount) => put(sample, fromMidline?.amount.place, mm(amount))),
    ),
  ),
  kind("the entry on the wrong side of the midline", "entry-off", (sample) =>
    stepsOf(sample, "enter").map(({ fromMidline }) =>
      fromMidline?.direction.text === "lateral" ? put(sample, fromMidline.direction.place, "medial") : undefined,
    ),
  ),
  kind("a tourniquet with a canal that is narrow", "tourniquet-reaming", (sample) => {
    const prepare = stepsOf(sample, "prepare")[0];
    return sample.plan.measures.canals.map(({ width }) =>
      prepare === undefined || width === undefined || !isBone(sample, "tibia")
        ? undefined
        : planted(
            sample,
            [
              { span: prepare.place.span, text: `${textOf(sample, prepare.place)}, tourniquet` },
              { span: width.place.span, text: "7 mm" },
            ],
            "prepare",
          ),
    );
  }),
  kind("a demand of the protocol left out", "demanded", (sample) =>
    stepsOf(sample, "prepare").flatMap(({ place, things }) =>
      things.map((left) =>
        planted(
          sample,
          [
            {
              span: place.span,
              text: `prepare ${things
                .filter((each) => each !== left)
                .map(({ text }) => text)
                .join(", ")}`,
            },
          ],
          "operation",
        ),
      ),
    ),
  ),
];

export const readingKinds: readonly Kind[] = [
  kind("a view never described", "scale-missing", (sample) =>
    matches(sample, /(?<= on )(ap|lateral)\b/g).map((place) => put(sample, place, "oblique")),
  ),
  kind("a view with an odd magnification", "scale-odd", (sample) =>
    sample.plan.views.flatMap(({ seen }) => [20, 24, 40].map((size) => put(sample, seen?.place, mm(size)))),
  ),
  kind("the canal read in one plane only", "one-plane", (sample) =>
    sample.plan.measures.canals.map(({ width, depth }) =>
      width === undefined || depth === undefined
        ? undefined
        : planted(
            sample,
            [{ span: { start: width.place.span.end, end: depth.place.span.end }, text: "" }],
            width.place.span.start,
          ),
    ),
  ),
  kind("a landmark in centimetres that were millimetres", ["implausible", "fracture-reversed"], (sample) =>
    matches(sample, /(?<=landmark (?:plafond|joint) [\d.]+ )mm(?= ±)/g).map((place) => put(sample, place, "cm")),
  ),
  kind("a canal in centimetres that were millimetres", "implausible", (sample) =>
    sample.plan.measures.canals.map(({ width }) => {
      // A third of the shortest tibia: a bone's end may be nearly as wide.
      if (width === undefined || (known(width) ?? 0) * 10 < 108)
        return { soundBecause: "an end of a bone may be as wide" };
      return put(sample, width.place, textOf(sample, width.place).replace(/^([\d.]+) mm/, "$1 cm"));
    }),
  ),
  kind("a fracture level in metres that were millimetres", ["fracture-reversed", "implausible"], (sample) =>
    matches(sample, /(?<=fracture .* from \d+ )mm/g).map((place) => put(sample, place, "m")),
  ),
];

function achieved(sample: Sample, line: string): Attempt {
  const { aftercare } = sample.plan;
  if (aftercare === undefined || sample.plan.achieved !== undefined) return undefined;
  const start = sample.text.lastIndexOf("\n", aftercare.place.span.start) + 1;
  return planted(
    sample,
    [{ span: { start, end: start }, text: `  achieved {\n    alignment ${line}\n  }\n\n` }],
    `alignment ${line}`,
  );
}

const unstable = ["B3", "C2", "C3"];

/** Screws that dynamisation takes out before the removal. */
function outAlready({ plan }: Sample): readonly string[] {
  return (plan.aftercare?.dynamise?.remove ?? []).map(({ text }) => text);
}

export const afterKinds: readonly Kind[] = [
  kind("achieved alignment beyond its limit", "alignment-off", (sample) =>
    ["coronal 8 deg varus", "coronal 9 deg valgus", "sagittal 13 deg procurvatum", "sagittal 14 deg recurvatum"].map(
      (line) => achieved(sample, line),
    ),
  ),
  kind("achieved rotation beyond its limit", "rotation-off", (sample) =>
    ["rotation 14 deg internal", "rotation 18 deg external"].map((line) => achieved(sample, line)),
  ),
  kind("achieved length beyond its limit", "shortening-off", (sample) =>
    ["short 12 mm", "short 20 mm"].map((line) => achieved(sample, line)),
  ),
  kind("compartment pressure too near the diastolic", "compartment-low", (sample) =>
    (sample.plan.aftercare?.watches ?? []).flatMap(({ diastolic, pressure }) => {
      if (diastolic === undefined) return [];
      const typed = textOf(sample, diastolic.place).split(" ")[0] ?? "";
      return [`${typed} mmHg - 29 mmHg`, `${typed} mmHg - 20 mmHg`, `${typed} mmHg - 5 mmHg`].map((amount) =>
        put(sample, pressure?.place, amount),
      );
    }),
  ),
  kind("compartments nobody watches", "compartment-watch", (sample) => {
    const { aftercare } = sample.plan;
    if (aftercare === undefined || !isBone(sample, "tibia") || !isClosedShaft(sample)) return [];
    return [
      without(
        sample,
        aftercare.watches.map(({ place }) => place),
        "aftercare",
      ),
    ];
  }),
  kind("no review", "review-missing", (sample) => {
    const review = matches(sample, /(?<=\n {4})review at .*/g)[0];
    return review === undefined ? [] : [without(sample, [review], "aftercare")];
  }),
  kind("weight as tolerated on a pattern that does not hold its length", "bearing-unstable", (sample) => {
    const code = sample.plan.case?.fracture?.code;
    const bearing = sample.plan.aftercare?.bearing.find(({ how }) => how.text === "tolerated");
    if (code === undefined || bearing === undefined) return [];
    return unstable.map((type) =>
      planted(sample, [{ span: code.place.span, text: `${code.text.slice(0, 2)}${type}` }], "weight-bearing tolerated"),
    );
  }),
  kind("the extractor before the cap is out", "removal-order", (sample) => {
    const steps = sample.plan.removal?.steps ?? [];
    const cap = steps.find(({ things }) => things.some(({ text }) => text === "cap"))?.place;
    return [moved(sample, steps.find((step) => step.kind === "attach")?.place, cap, "take cap")];
  }),
  kind("the nail withdrawn before its screws are out", "removal-order", (sample) => {
    const steps = sample.plan.removal?.steps ?? [];
    const withdraw = steps.find((step) => step.kind === "withdraw")?.place;
    return steps
      .filter(({ kind: word, things }) => word === "take" && things.every(({ text }) => text !== "cap"))
      .map(({ place }) => moved(sample, withdraw, place, "withdraw"));
  }),
  kind("the nail withdrawn without an extractor", "removal-order", (sample) => {
    const attach = sample.plan.removal?.steps.find((step) => step.kind === "attach")?.place;
    return attach === undefined ? [] : [without(sample, [attach], "withdraw")];
  }),
  kind("a screw the removal forgets", "removal-incomplete", (sample) =>
    (sample.plan.removal?.steps ?? []).flatMap(({ kind: word, things, place }) =>
      word !== "take" || things.some(({ text }) => text === "cap")
        ? []
        : things
            .filter(({ text }) => !outAlready(sample).includes(text))
            .map((left) => {
              const kept = things.filter((each) => each !== left).map(({ text }) => text);
              return kept.length === 0
                ? without(sample, [place], "withdraw")
                : planted(sample, [{ span: place.span, text: `take ${kept.join(", ")}` }], "withdraw");
            }),
    ),
  ),
  kind("a removal of a hole that has no screw", ["hole-unknown", "removal-incomplete", "removal-order"], (sample) =>
    (sample.plan.removal?.steps ?? []).flatMap(({ kind: word, things }) =>
      word !== "take" ? [] : things.filter(({ text }) => text !== "cap").map((thing) => put(sample, thing.place, "P8")),
    ),
  ),
  kind("a screw put in and never in the plan's removal", "removal-incomplete", (sample) => {
    const hole = (sample.plan.nail?.holes ?? []).find(
      ({ name }) => !locksOf(sample).some((lock) => lock.hole.text === name.text),
    );
    const last = locksOf(sample).at(-1);
    if (hole === undefined || last === undefined || sample.plan.removal === undefined) return [];
    const drilled = known(last.drilled) ?? 0;
    const added = lineBefore(
      sample,
      last.place,
      `lock ${hole.name.text}, drilled ${mm(drilled)}, screw ${mm(drilled + 2)}`,
    );
    if (added === undefined || "soundBecause" in added) return [];
    const line = added.text.split("\n").findIndex((each) => each.trimStart().startsWith("withdraw"));
    return [{ text: added.text, line }];
  }),
];
