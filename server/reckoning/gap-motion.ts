/**
 * Teaching estimates of what happens in the fracture gap and in the screws under load: the nail as a bar, each screw as a beam across
 * the canal with a load in its middle, between simple and between fixed ends. The truth lies between bounds that are far apart.
 */
import type { LockStep, Plan } from "../meaning/plan.ts";
import { add, compare, constant, divide, multiply, plain, scale, unknown } from "../quantity/arithmetic.ts";
import { power } from "../quantity/elementary.ts";
import type { Quantity, Unknown } from "../quantity/quantity.ts";
import { type Fragment, lockedIn } from "./fragments.ts";
import { gapOf, holeNamed, locksOf, nailDiameterOf } from "./given.ts";
import { earlier, type Ledger, quantityOf, type Subject } from "./ledger.ts";
import { boreOf, modulusOf, wallArea } from "./mechanics.ts";
import { chordOf, shapeOf } from "./profile.ts";
import type { Basis, Reckoning } from "./reckoning.ts";
import { familyFor } from "./screws.ts";
import {
  called,
  fixedOperand,
  givenOperand,
  isKnown,
  type Operand,
  operandOf,
  reckoned,
  typedOperand,
  unknownOperand,
  type Written,
  written,
  writtenAfter,
  writtenList,
} from "./writing.ts";

const beam: Basis = {
  mark: "computed",
  text: "beam with a central load (Roark, Young), simple and fixed ends as bounds",
};
const perren: Basis = {
  mark: "printed",
  text: "strain = motion over gap (Perren); nominal, it is not uniform in a gap",
};
const assumed =
  "teaching estimate: screws of the nail's material across the empty canal, each end's screws sharing the load, no bone contact";

const fragments: readonly Fragment[] = ["proximal", "distal"];

/** Both bounds, in parts of a beam between simple ends: one between fixed ends gives a quarter as far under half the moment. */
const bounds = [
  { bound: "least", ends: "fixed ends", sag: 1 / 4, moment: 1 / 2, under: "8" },
  { bound: "most", ends: "simple ends", sag: 1, moment: 1, under: "4" },
] as const;

type Bound = (typeof bounds)[number];

/** Standard gravity, exact: newtons of a kilogram at rest. */
const weightOfKilogram = divide(constant(9.80665, "N"), constant(1, "kg"));

/**
 * `gap.motion.least` and `.most` in mm, `gap.strain.least` and `.most` in %, `screw.H.stress.least` and `.most` in MPa for each screw
 * in a main fragment. Absent when no fracture is given.
 */
export const reckonGapMotion: Subject = (ledger) => {
  const { plan } = ledger;
  if (plan.case?.fracture === undefined) {
    return [];
  }
  const load = loadOf(plan);
  const held = fragments.map((fragment) => ({ fragment, screws: heldIn(ledger, fragment) }));
  const give = giving(ledger, load, held);
  const gap = gapOf(plan);
  return [
    ...bounds.flatMap((bound) => {
      const moved = motion(bound, give);
      return [moved, strain(bound, operandOf(moved, "motion"), gap)];
    }),
    ...held.flatMap(({ screws }) =>
      "kind" in screws ? [] : screws.flatMap((screw) => stresses(screw, screws.length, load)),
    ),
  ];
};

interface Held {
  readonly hole: string;
  /** Length of the screw inside the canal. */
  readonly across: Operand;
  readonly core: Operand;
}

interface HeldIn {
  readonly fragment: Fragment;
  readonly screws: readonly Held[] | Unknown;
}

/** The screws of a fragment as beams; unknown when one of the holes' places is. */
function heldIn(ledger: Ledger, fragment: Fragment): readonly Held[] | Unknown {
  const { plan } = ledger;
  const holes = lockedIn(ledger, fragment);
  if ("kind" in holes) {
    return holes;
  }
  if (holes.length === 0) {
    return unknown(`no screw is planned in the ${fragment} fragment`);
  }
  const canal = shapeOf(plan.measures.canals, "canal");
  const head = ledger.byId.has("ream.final") ? quantityOf(ledger.byId, "ream.final") : undefined;
  return locksOf(plan).flatMap((lock) => {
    const level = holes.find(({ name }) => name === lock.hole.text);
    const hole = holeNamed(plan, lock.hole.text);
    return level === undefined || hole === undefined
      ? []
      : [heldBy(plan, lock, chordOf(hole, canal, level.quantity, head))];
  });
}

function heldBy(plan: Plan, lock: LockStep, chord: ReturnType<typeof chordOf>): Held {
  const family = familyFor(plan, lock);
  // A screw in the near cortex alone is no beam between two supports.
  const bridged =
    lock.grip === "near" ? unknown(`the screw in ${lock.hole.text} grips one cortex alone`) : chord.answer;
  const from = chord.by.operands.flatMap((operand) => operand.from);
  return {
    hole: lock.hole.text,
    across: fixedOperand(`ℓ of ${lock.hole.text}`, bridged, "mm", from),
    core:
      "because" in family
        ? unknownOperand("core", family)
        : typedOperand("core", "mm", family.core, `screw family ${family.name.text} lists no core`),
  };
}

/** What gives under the load: the nail between the nearest screws, and the screws of either end between simple ends. */
interface Give {
  readonly bar: Quantity;
  readonly formula: Written;
  readonly sags: readonly Operand[];
}

function giving(ledger: Ledger, load: Operand, held: readonly HeldIn[]): Give {
  const { plan } = ledger;
  const span = earlier(ledger, "span.working", "span");
  const modulus = modulusOf(plan);
  const area = fixedOperand("A", wallArea(nailDiameterOf(plan), boreOf(plan)), "mm²");
  return {
    bar: divide(multiply(load.quantity, span.quantity), multiply(modulus.quantity, area.quantity)),
    formula: written`${load} × ${span} / (${modulus} × ${area})`,
    sags: held.map(({ fragment, screws }) => fixedOperand(`sag ${fragment}`, sag(screws, load, modulus), "mm")),
  };
}

function motion(bound: Bound, { bar, formula, sags }: Give): Reckoning {
  const shares = sags.map((each) => fixedOperand(each.name, scale(each.quantity, bound.sag), "mm"));
  return reckoned({
    id: `gap.motion.${bound.bound}`,
    label: `motion in the gap under load, ${bound.ends} of the screws`,
    answer: shares.reduce((sum, { quantity }) => add(sum, quantity), bar),
    unit: "mm",
    by: writtenAfter(formula, writtenList(" + ", shares, " + ", "")),
    basis: beam,
    remark: assumed,
  });
}

/** How far the screws of one end give: the load over the sum of their stiffnesses, 48 E I / ℓ³ each between simple ends. */
function sag(held: readonly Held[] | Unknown, load: Operand, modulus: Operand): Quantity {
  if ("kind" in held) {
    return held;
  }
  const stiffnesses = held.map(({ across, core }) =>
    divide(scale(power(core.quantity, 4), (48 * Math.PI) / 64), power(across.quantity, 3)),
  );
  return divide(load.quantity, multiply(modulus.quantity, stiffnesses.reduce(add, constant(0, "mm"))));
}

function strain(bound: Bound, moved: Operand, gap: Operand): Reckoning {
  const none = isKnown(gap) && compare(gap.quantity, constant(0, "mm")) <= 0;
  return reckoned({
    id: `gap.strain.${bound.bound}`,
    label: `nominal strain in the gap under load, ${bound.ends} of the screws`,
    answer: none ? unknown("there is no gap: its strain is undefined") : divide(moved.quantity, gap.quantity),
    unit: "%",
    by: written`${moved} / ${gap}`,
    basis: perren,
    remark: `${assumed}; the gap as given, before any compression`,
  });
}

/** 32 M / (π core³), with M a quarter (or an eighth) of this screw's share of the load times its free length. */
function stresses({ hole, across, core }: Held, count: number, load: Operand): readonly Reckoning[] {
  const moment = scale(multiply(load.quantity, across.quantity), 1 / (4 * count));
  const most = divide(scale(moment, 32 / Math.PI), power(core.quantity, 3));
  const screws = fixedOperand("n", plain(count), "1");
  const cubed = called(core, "core", "³");
  return bounds.map(({ bound, ends, moment: part, under }) =>
    reckoned({
      id: `screw.${hole}.stress.${bound}`,
      label: `bending stress in the screw in ${hole} under load, ${ends}`,
      answer: scale(most, part),
      unit: "MPa",
      by: writtenAfter(written`32 × ${load} × ${across}`, {
        texts: [` / (${under} × `, " × π × ", ")"],
        operands: [screws, cubed],
      }),
      basis: beam,
      remark: assumed,
    }),
  );
}

/** The partial load a plan allows, else the whole body weight, as a force. No arm carries the body. */
function loadOf(plan: Plan): Operand {
  const carries = plan.case?.bone?.text !== "humerus";
  const partial = plan.aftercare?.bearing.find(({ load }) => load !== undefined)?.load;
  const mass =
    partial === undefined
      ? carries
        ? typedOperand("body weight", "kg", plan.case?.weight, "neither a partial load nor a body weight is given")
        : unknownOperand("load", unknown("an arm does not carry the body, and no partial load is given"))
      : givenOperand("partial load", "kg", partial);
  return fixedOperand("F", multiply(mass.quantity, weightOfKilogram), "N", mass.from);
}
