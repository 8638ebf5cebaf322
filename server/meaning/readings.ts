/**
 * The reading behind a value that is, as a whole, one number read on one view: what stands on the image, for those who show how the
 * true length was come by. The true length itself is evaluated in `evaluate.ts`.
 */
import type { Item } from "../../grammar/tree.ts";
import { exact, multiply } from "../quantity/arithmetic.ts";
import type { Quantity } from "../quantity/quantity.ts";
import { type Evaluation, isTrueSize, magnificationOf } from "./evaluate.ts";
import type { Typed } from "./plan.ts";

/** Undefined for anything but one reading on a view with a scale, and where the value is not known. */
export function readingBehind(evaluation: Evaluation, item: Item | undefined, value: Quantity): Typed["reading"] {
  if (item?.kind === "group") {
    return readingBehind(evaluation, item.inner, value);
  }
  const view = item?.kind === "reading" ? evaluation.names.views.get(item.view.name) : undefined;
  if (item?.kind !== "reading" || view === undefined || isTrueSize(view) || value.kind === "unknown") {
    return undefined;
  }
  const magnification = magnificationOf(evaluation, view);
  return { view: item.view.name, raw: onImage(item.value, value, magnification), magnification };
}

/** As typed, without its ±; what is no plain number on the image is taken back from the true length. */
function onImage(item: Item, value: Quantity, magnification: Quantity): Quantity {
  return item.kind === "quantity" && item.unit !== undefined
    ? exact(item.number.value, item.unit.unit, item.number.text)
    : multiply(value, magnification);
}
