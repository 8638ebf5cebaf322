/**
 * Faults in the steps of an operation: reaming, nail, order, blocking and end cap. Each is a fault by its own figures: heads, lengths
 * and caps are looked up in the catalogue and reckoned with here, apart from the rules.
 */
import type { Step } from "../../server/meaning/plan.ts";
import {
  type Attempt,
  type Kind,
  kind,
  known,
  lineBefore,
  locksOf,
  mm,
  moved,
  nailOf,
  planted,
  put,
  type Sample,
  stepsOf,
  textOf,
  valuesOf,
  without,
} from "./planting.ts";

function headsOf(sample: Sample): readonly number[] {
  return stepsOf(sample, "ream")[0]?.heads.sizes.flatMap((size) => known(size) ?? []) ?? [];
}

function reamWith(sample: Sample, heads: readonly number[]): Attempt {
  return put(sample, stepsOf(sample, "ream")[0]?.place, `ream ${heads.map(mm).join(", ")}`);
}

function reamTo(sample: Sample, over: number): Attempt {
  const [first] = headsOf(sample);
  const diameter = known(nailOf(sample)?.diameter);
  if (first === undefined || diameter === undefined || diameter + over <= first) return undefined;
  return put(sample, stepsOf(sample, "ream")[0]?.place, `ream ${mm(first)} to ${mm(diameter + over)} by 0.5 mm`);
}

/** The narrowest reading of the canal, as measured (magnification divided out). */
function isthmusOf({ plan }: Sample): number {
  return Math.min(
    ...plan.measures.canals.flatMap(({ width, depth }) => [known(width), known(depth)]).flatMap((v) => v ?? []),
  );
}

export const reamingKinds: readonly Kind[] = [
  kind("a reamer head the set does not have", "head-unlisted", (sample) =>
    headsOf(sample).map((_, at) =>
      reamWith(
        sample,
        headsOf(sample).map((head, other) => (other === at ? head + 0.2 : head)),
      ),
    ),
  ),
  kind("a reamer head left out", "reaming-step", (sample) =>
    headsOf(sample)
      .slice(1, -1)
      .map((left) =>
        reamWith(
          sample,
          headsOf(sample).filter((head) => head !== left),
        ),
      ),
  ),
  kind("two reamer heads in the wrong order", "reaming-order", (sample) => {
    const heads = headsOf(sample);
    return heads.slice(1).map((head, at) => {
      const before = heads[at];
      return before === undefined
        ? undefined
        : reamWith(sample, [...heads.slice(0, at), head, before, ...heads.slice(at + 2)]);
    });
  }),
  kind("reaming in steps too large", "reaming-step", (sample) =>
    [1, 1.5].map((by) => {
      const heads = headsOf(sample);
      const [first, last] = [heads[0], heads.at(-1)];
      if (first === undefined || last === undefined) return undefined;
      if (last - first < by) return { soundBecause: "the whole reaming is shorter than one such step" };
      return put(sample, stepsOf(sample, "ream")[0]?.place, `ream ${mm(first)} to ${mm(last)} by ${mm(by)}`);
    }),
  ),
  kind("reaming too far over the nail", "reaming-overshoot", (sample) =>
    [2, 2.5, 3].map((over) => reamTo(sample, over)),
  ),
  kind("reaming not far enough over the nail", "reaming-undershoot", (sample) =>
    [0, -0.5].map((over) => reamTo(sample, over)),
  ),
  kind("a first reamer head too large for the canal", "reaming-start", (sample) => {
    const start = Math.ceil((isthmusOf(sample) + 1) * 2) / 2;
    return [0, 0.5].map((more) =>
      put(sample, stepsOf(sample, "ream")[0]?.place, `ream ${mm(start + more)} to ${mm(start + more + 1)} by 0.5 mm`),
    );
  }),
  kind("a range of heads whose step does not land on its end", "range-unreached", (sample) => {
    const heads = headsOf(sample);
    const [first, last] = [heads[0], heads.at(-1)];
    if (first === undefined || last === undefined) return [];
    return [0.2, 0.3].map((more) =>
      put(sample, stepsOf(sample, "ream")[0]?.place, `ream ${mm(first)} to ${mm(last + more)} by 0.5 mm`),
    );
  }),
  kind("no guide wire", "wire-missing", (sample) =>
    stepsOf(sample, "wire").map((wire) => without(sample, [wire.place], "ream")),
  ),
  kind("a canal too narrow to ream", "narrow-canal", (sample) => {
    const bone = sample.plan.case?.bone?.text;
    if (bone === "humerus") return [{ soundBecause: "how narrow a canal of the humerus may be is not known" }];
    return sample.plan.measures.canals.flatMap(({ width }) => {
      if (width === undefined) return [];
      // A tibia of 8 mm or less that is reamed beyond 10 mm is told at the reaming.
      const last = headsOf(sample).at(-1) ?? 0;
      const at = bone === "tibia" && last > 10 ? "ream" : width.place.span.start;
      return [6, 7].map((narrow) => planted(sample, [{ span: width.place.span, text: mm(narrow) }], at));
    });
  }),
];

function listedLengths({ plan }: Sample): readonly number[] {
  return valuesOf(plan.nail?.lengths);
}

/** The level no tip may pass: the scar of the growth plate, else the far joint. */
function farLimit({ plan }: Sample): number | undefined {
  return known(plan.measures.landmarks.find(({ name }) => name.text === "scar")?.level);
}

const otherNails = new Map([
  ["garrow-thigh", "garrow-arm"],
  ["garrow-arm", "garrow-thigh"],
]);

export const nailKinds: readonly Kind[] = [
  kind("a nail length the catalogue does not list", "nail-unlisted", (sample) =>
    [1, 4, 7].map((more) =>
      put(sample, nailOf(sample)?.length?.place, mm((known(nailOf(sample)?.length) ?? 0) + more)),
    ),
  ),
  kind("a nail diameter the catalogue does not list", "nail-unlisted", (sample) =>
    [0.5, 0.3].map((more) =>
      put(sample, nailOf(sample)?.diameter?.place, mm((known(nailOf(sample)?.diameter) ?? 0) + more)),
    ),
  ),
  kind("a nail no catalogue lists", "nail-unlisted", (sample) =>
    ["hazel", "no-such-nail"].map((name) => put(sample, nailOf(sample)?.name?.place, name)),
  ),
  kind("a nail for another bone", ["nail-unfit", "nail-unlisted"], (sample) => {
    const other = otherNails.get(nailOf(sample)?.name?.text ?? "");
    return other === undefined ? [] : [put(sample, nailOf(sample)?.name?.place, other)];
  }),
  kind("a nail too long", "nail-long", (sample) => {
    const [sunk, limit] = [known(nailOf(sample)?.sunk), farLimit(sample)];
    if (sunk === undefined || limit === undefined) return [];
    return listedLengths(sample)
      .filter((length) => sunk + length > limit + 5)
      .map((length) => put(sample, nailOf(sample)?.length?.place, mm(length)));
  }),
  kind("a nail too short", "nail-short", (sample) => {
    const length = known(nailOf(sample)?.length) ?? 0;
    const shorter = listedLengths(sample).filter((each) => each < length - 1);
    const moves = stepsOf(sample, "compress").length > 0 || sample.plan.aftercare?.dynamise !== undefined;
    return shorter.map((each, at) =>
      moves && at === shorter.length - 1
        ? { soundBecause: "one length shorter leaves way for compression or dynamisation" }
        : put(sample, nailOf(sample)?.length?.place, mm(each)),
    );
  }),
  kind("a nail that stands proud", "nail-proud", (sample) =>
    [-1, -3, -8].map((sunk) => put(sample, nailOf(sample)?.sunk?.place, mm(sunk))),
  ),
  kind("a nail sunk too deep", "nail-deep", (sample) =>
    [20, 30, 45].map((sunk) => put(sample, nailOf(sample)?.sunk?.place, mm(sunk))),
  ),
];

function first<K extends Step["kind"]>(sample: Sample, word: K) {
  return stepsOf(sample, word)[0]?.place;
}

function before(earlier: Step["kind"], later: Step["kind"], at: "earlier" | "later"): Kind["plant"] {
  return (sample) => {
    const [a, b] = [first(sample, earlier), first(sample, later)];
    if (a === undefined || b === undefined) return [];
    return [moved(sample, b, a, at === "later" ? later : earlier)];
  };
}

/** The last step that a check has to follow. */
function lastDone({ plan }: Sample): Step | undefined {
  return plan.steps.findLast((step) => step.kind !== "check" && step.kind !== "step");
}

export const orderKinds: readonly Kind[] = [
  kind("reaming before the wire is in", "step-order", before("wire", "ream", "earlier")),
  // Against the wire, which comes between: one finding where the reaming stands too early.
  kind("reaming before the bone is entered", "step-order", (sample) => [
    moved(sample, first(sample, "ream"), first(sample, "enter"), "wire"),
  ]),
  kind("the bone entered after the wire", "step-order", before("enter", "wire", "earlier")),
  kind("the nail before reaming", "step-order", before("ream", "nail", "later")),
  kind("a screw before the nail is in", "step-order", (sample) =>
    locksOf(sample).map((lock) => moved(sample, lock.place, nailOf(sample)?.place, `lock ${lock.hole.text}`)),
  ),
  kind("no check between nail and screws", "step-order", (sample) => {
    const nail = nailOf(sample)?.place.span.end ?? 0;
    const check = stepsOf(sample, "check").find(({ place }) => place.span.start > nail);
    return check === undefined ? [] : [without(sample, [check.place], "lock")];
  }),
  kind("a check in one plane only", ["check-one-plane", "step-order"], (sample) => {
    const nail = nailOf(sample)?.place.span.end ?? 0;
    const check = stepsOf(sample, "check").find(({ place }) => place.span.start > nail);
    return ["check ap", "check lateral"].map((one) => put(sample, check?.place, one));
  }),
  kind("no final check", "step-order", (sample) => {
    const check = stepsOf(sample, "check").at(-1);
    const last = lastDone(sample);
    return check === undefined || last === undefined ? [] : [without(sample, [check.place], last.place.span.start)];
  }),
  kind("a final check before the last step", "step-order", (sample) => {
    const check = stepsOf(sample, "check").at(-1);
    const last = lastDone(sample);
    if (check === undefined || last === undefined) return [];
    return [moved(sample, check.place, last.place, textOf(sample, last.place))];
  }),
  kind("the end cap before the screws of the driving end", "step-order", (sample) => {
    const lock = locksOf(sample, "top")[0];
    return lock === undefined ? [] : [moved(sample, first(sample, "cap"), lock.place, "cap")];
  }),
  kind("backslap before the far end is locked", ["locking-order", "step-order"], (sample) =>
    [2, 3, 4].map((amount) => lineBefore(sample, locksOf(sample)[0]?.place, `backslap ${mm(amount)}`)),
  ),
];

export const capKinds: readonly Kind[] = [
  kind("an end cap the catalogue does not list", "cap-unlisted", (sample) =>
    [3, 4, 7].map((cap) => put(sample, first(sample, "cap"), `cap ${mm(cap)}`)),
  ),
  kind("an end cap that stands proud", "cap-proud", (sample) => {
    const sunk = known(nailOf(sample)?.sunk) ?? 0;
    return valuesOf(sample.plan.nail?.caps)
      .filter((cap) => cap > sunk)
      .map((cap) => put(sample, first(sample, "cap"), `cap ${mm(cap)}`));
  }),
  kind("no end cap", "cap-missing", (sample) => {
    const cap = first(sample, "cap");
    const taken = (sample.plan.removal?.steps ?? []).filter(({ things }) => things.some(({ text }) => text === "cap"));
    return cap === undefined ? [] : [without(sample, [cap, ...taken.map(({ place }) => place)], "nail")];
  }),
];

/** The concave side in the coronal plane: medial in varus, lateral in valgus. */
const convex = new Map([
  ["varus", "lateral"],
  ["valgus", "medial"],
]);

function blockAt(sample: Sample, side: string, after: "wire" | "nail"): readonly Attempt[] {
  const fracture = sample.plan.case?.fracture;
  const [from, to] = [known(fracture?.from), known(fracture?.to)];
  if (from === undefined || to === undefined) return [];
  return [from - 30, to + 30].map((level) =>
    lineBefore(sample, first(sample, after), `block at ${mm(level)}, side ${side}, screw 40 mm`),
  );
}

export const blockKinds: readonly Kind[] = [
  kind("a blocking screw on the convex side", "block-side", (sample) => {
    const side = convex.get(sample.plan.case?.alignment?.coronal?.direction.text ?? "");
    if (side === undefined) return [];
    const placed = stepsOf(sample, "block").flatMap((block) => (block.side === undefined ? [] : [block.side.place]));
    return [...blockAt(sample, side, "wire"), ...placed.map((place) => put(sample, place, side))].filter(
      (attempt) => attempt !== undefined && "text" in attempt && attempt.text !== sample.text,
    );
  }),
  kind("a blocking screw after reaming", "block-side", (sample) => {
    const side = convex.get(sample.plan.case?.alignment?.coronal?.direction.text ?? "");
    return side === undefined ? [] : blockAt(sample, side === "medial" ? "lateral" : "medial", "nail");
  }),
];
