/**
 * How much larger than life each view shows the bone: a ball of known size against its size on the image. Whether the figure is
 * plausible is judged elsewhere; the ratio itself was taken with the view, since every reading on it is divided by it.
 */
import type { Plan, View } from "../meaning/plan.ts";
import { unknown } from "../quantity/arithmetic.ts";
import type { Quantity } from "../quantity/quantity.ts";
import type { Subject } from "./ledger.ts";
import type { Basis, Reckoning } from "./reckoning.ts";
import { inWords, reckoned, typedOperand, written } from "./writing.ts";

const basis: Basis = { mark: "computed", text: "size of the marker on the image over its true size" };

function planeOfBone(plan: Plan): string {
  const limb = plan.case?.bone?.text === "humerus" ? "arm" : "leg";
  return (
    "holds for the plane of the marker; a marker 1 cm off the plane of the bone errs by about 1 % " +
    `(Klever 2022, doi 10.1055/s-0041-1735316, measured at the hip; none found for the ${limb})`
  );
}

/** `magnification.VIEW`, a plain ratio; exactly 1 for a view in true size. */
export const reckonMagnification: Subject = ({ plan }) => plan.views.map((view) => magnificationOf(plan, view));

function magnificationOf(plan: Plan, view: View): Reckoning {
  const name = view.name.text;
  const id = `magnification.${name}`;
  const label = `magnification of view ${name}`;
  if (view.trueSize) {
    const by = inWords("true size", [view.place]);
    return reckoned({ id, label, answer: view.magnification, unit: "1", by, basis });
  }
  const seen = typedOperand("seen", "mm", view.seen, `the marker's size on view ${name} is not given`);
  const marker = typedOperand("marker", "mm", view.marker, `the marker of view ${name} is not given`);
  return reckoned({
    id,
    label,
    answer: positive(view.magnification, name),
    unit: "1",
    by: written`${seen} / ${marker}`,
    basis,
    remark: () => planeOfBone(plan),
  });
}

function positive(ratio: Quantity, view: string): Quantity {
  return ratio.kind === "known" && ratio.value <= 0 ? unknown(`the magnification of ${view} is not above 0`) : ratio;
}
