/**
 * The isthmus: the narrowest of all canal widths and depths given, and where it was read. Between the given levels the canal is
 * interpolated in `profile.ts`, which can only be wider than its narrowest reading.
 */
import { unknown } from "../quantity/arithmetic.ts";
import { minimum } from "../quantity/elementary.ts";
import { printValue } from "../quantity/print.ts";
import { readOperand } from "./as-read.ts";
import { sizesIn } from "./given.ts";
import type { Subject } from "./ledger.ts";
import type { Basis } from "./reckoning.ts";
import { reckoned, typedOperand, written, writtenList } from "./writing.ts";

const basis: Basis = { mark: "computed", text: "smallest of the canal's widths and depths given" };

/** `canal.isthmus` and `canal.isthmusLevel`, in mm. */
export const reckonCanal: Subject = ({ plan }) => {
  const sizes = sizesIn(plan.measures.canals);
  const widths = sizes.map(({ side, size }) => readOperand(side, size));
  const missing = unknown("no width of the canal is given");
  const isthmus = sizes.length === 0 ? missing : minimum(widths.map(({ quantity }) => quantity));
  const at = isthmus.kind === "known" ? sizes[widths.findIndex(({ quantity }) => quantity === isthmus)] : undefined;
  const level = typedOperand("level of the isthmus", "mm", at?.level, "the isthmus is not known");
  const levelQuantity = isthmus.kind === "unknown" ? isthmus : level.quantity;
  return [
    reckoned({
      id: "canal.isthmus",
      label: "isthmus",
      answer: isthmus,
      unit: "mm",
      by: { ...writtenList("min(", widths, ", ", ")"), symbols: "min(all widths and depths)" },
      basis,
      remark: at && (() => `${at.side} of the canal at ${printValue(at.level.quantity, "mm")}`),
    }),
    reckoned({
      id: "canal.isthmusLevel",
      label: "level of the isthmus",
      answer: levelQuantity,
      unit: "mm",
      by: written`${{ ...level, quantity: levelQuantity }}`,
      basis,
    }),
  ];
};
