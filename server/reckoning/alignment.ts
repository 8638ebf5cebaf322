/**
 * The true angulation behind what two views show, the plane it lies in, and the shortening. The exact tangent formula is used, not
 * the root of the squared angles, which some texts print and which differs by 0.02 deg at 5 and 5 deg and by 3.2 deg at 30 and 30 deg.
 */
import type { Alignment, Directed, Plan } from "../meaning/plan.ts";
import { add, constant, negate, plain, subtract, unknown } from "../quantity/arithmetic.ts";
import { arcTangent2, hypotenuse, maximum, tangent } from "../quantity/elementary.ts";
import type { Quantity } from "../quantity/quantity.ts";
import { gapOf } from "./given.ts";
import { earlier, type Ledger, type Subject } from "./ledger.ts";
import type { Basis, Reckoning } from "./reckoning.ts";
import {
  givenOperand,
  isKnown,
  type Operand,
  reckoned,
  typedOperand,
  type Written,
  written,
  writtenAfter,
} from "./writing.ts";

const oblique: Basis = {
  mark: "printed",
  text: "exact tangent formula of the oblique plane (Paley; Orthop Rev 120302), not the root of the squared angles",
};
const lengths: Basis = { mark: "computed", text: "sum of lengths" };

/**
 * `alignment.true` and `.plane` in deg and `alignment.shortening` in mm of the alignment as injured; the same with
 * `alignment.achieved` of what was achieved. Absent where no alignment is given.
 */
export const reckonAlignment: Subject = (ledger) => {
  const { plan } = ledger;
  const injured = plan.case?.alignment;
  const achieved = plan.achieved?.alignment;
  return [
    ...(injured === undefined ? [] : angulation("alignment", "as injured", injured)),
    ...shortening(ledger, injured),
    ...(achieved === undefined ? [] : angulation("alignment.achieved", "as achieved", achieved)),
    ...(achieved?.length === undefined
      ? []
      : [shortened("alignment.achieved", "as achieved", givenShort(achieved.length))]),
  ];
};

function angulation(id: string, when: string, { coronal, sagittal, place }: Alignment): readonly Reckoning[] {
  if (coronal === undefined && sagittal === undefined) {
    return [];
  }
  const frontal = angle("coronal", coronal);
  const side = angle("sagittal", sagittal);
  const inFront = tangent(frontal.quantity);
  const fromSide = tangent(side.quantity);
  const straight = isKnown(frontal) && isKnown(side) && frontal.quantity.value === 0 && side.quantity.value === 0;
  const plane = straight ? unknown("there is no angulation") : arcTangent2(fromSide, inFront);
  const words = [coronal, sagittal].flatMap((directed) => directed?.direction.text ?? []).join(" and ");
  const also = [place];
  return [
    reckoned({
      id: `${id}.true`,
      label: `true angulation ${when}`,
      answer: arcTangent2(hypotenuse(inFront, fromSide), plain(1)),
      unit: "deg",
      by: { ...written`atan(√(tan²(${frontal}) + tan²(${side})))`, also },
      basis: oblique,
      remark: words,
    }),
    reckoned({
      id: `${id}.plane`,
      label: `plane of the angulation ${when}, from the frontal plane`,
      answer: plane,
      unit: "deg",
      by: { ...written`atan2(tan(${side}), tan(${frontal}))`, also },
      basis: oblique,
      remark: `from the frontal plane, towards ${words}`,
    }),
  ];
}

function angle(name: "coronal" | "sagittal", directed: Directed | undefined): Operand {
  return typedOperand(name, "deg", directed?.amount, `no ${name} angle is given`);
}

/** What is given, and what compression adds once the gap is closed. */
function shortening(ledger: Ledger, injured: Alignment | undefined): readonly Reckoning[] {
  const parts = [
    ...(injured?.length === undefined ? [] : [givenShort(injured.length)]),
    ...(ledger.byId.has("compression.amount") ? [beyondGap(ledger, ledger.plan)] : []),
  ];
  const [first, ...rest] = parts;
  if (first === undefined) {
    return [];
  }
  const sum = rest.reduce(
    (so, part) => ({
      quantity: add(so.quantity, part.quantity),
      by: writtenAfter(writtenAfter(so.by, written` + `), part.by),
    }),
    first,
  );
  return [shortened("alignment", "as injured, and by compression beyond the gap", sum)];
}

interface Part {
  readonly quantity: Quantity;
  readonly by: Written;
}

function givenShort({ amount, direction }: Directed): Part {
  const long = direction.text === "long";
  const given = givenOperand(long ? "lengthening" : "shortening", "mm", amount);
  return {
    quantity: long ? negate(given.quantity) : given.quantity,
    by: long ? written`-${given}` : written`${given}`,
  };
}

function beyondGap(ledger: Ledger, plan: Plan): Part {
  const compression = earlier(ledger, "compression.amount", "compression");
  const gap = gapOf(plan);
  const beyond = maximum([subtract(compression.quantity, gap.quantity), constant(0, "mm")]);
  return { quantity: beyond, by: written`max(${compression} - ${gap}, 0 mm)` };
}

function shortened(id: string, when: string, { quantity, by }: Part): Reckoning {
  return reckoned({
    id: `${id}.shortening`,
    label: `shortening ${when}`,
    answer: quantity,
    unit: "mm",
    by,
    basis: lengths,
    remark: "below 0 the bone is longer",
  });
}
