/**
 * Where each hole of the nail lies when the nail is in, how far that is from the fracture, and how much bone a screw through it should
 * meet. Every hole the catalogue lists is reckoned, and every hole that is locked.
 */
import type { CatalogueHole, Plan } from "../meaning/plan.ts";
import { add, subtract, unknown } from "../quantity/arithmetic.ts";
import { maximum } from "../quantity/elementary.ts";
import type { Quantity } from "../quantity/quantity.ts";
import { type Edges, edgesOf, holeNamed, listedOf, locksOf, nailLengthOf, nailUnlisted, sunkOf } from "./given.ts";
import type { Subject } from "./ledger.ts";
import { chordOf, type Shape, shapeOf } from "./profile.ts";
import type { Basis, Reckoning } from "./reckoning.ts";
import { type Operand, operandOf, reckoned, unknownOperand, type Written, written } from "./writing.ts";

const catalogue: Basis = { mark: "catalogue", text: "the hole's place on the nail as the catalogue lists it" };
const geometry: Basis = { mark: "computed", text: "geometry along the canal's axis" };
const ellipse: Basis = { mark: "computed", text: "chord of the ellipse with the bone's width and depth at that level" };

/** `hole.H.level`, `hole.H.toFracture`, `hole.H.path`, in mm, hole by hole in the catalogue's order. */
export const reckonHoles: Subject = ({ plan }) => {
  const listed = plan.nail?.holes.map((hole) => hole.name.text) ?? [];
  const locked = locksOf(plan).map((lock) => lock.hole.text);
  const edges = plan.case?.fracture === undefined ? undefined : edgesOf(plan);
  const bone = plan.measures.bones.length === 0 ? undefined : shapeOf(plan.measures.bones, "bone");
  return [...new Set([...listed, ...locked])].flatMap((name) => {
    const hole = holeNamed(plan, name);
    const level = levelOf(plan, name, hole);
    const at = operandOf(level, `level of ${name}`);
    return [
      level,
      ...(edges === undefined ? [] : [toFracture(name, at, edges)]),
      // A path is missed where a screw is planned; elsewhere it is given when there is one.
      ...(bone !== undefined || locked.includes(name) ? [path(name, hole, at, bone)] : []),
    ];
  });
};

function levelOf(plan: Plan, name: string, hole: CatalogueHole | undefined): Reckoning {
  const { by, answer } = placed(plan, name, hole);
  return reckoned({
    id: `hole.${name}.level`,
    label: `level of hole ${name}`,
    answer,
    unit: "mm",
    by,
    basis: catalogue,
  });
}

function placed(plan: Plan, name: string, hole: CatalogueHole | undefined): { answer: Quantity; by: Written } {
  const sunk = sunkOf(plan);
  if (hole?.end === "top") {
    const top = listedOf(plan, "top", "mm", hole.distance, `distance for hole ${name}`);
    return { answer: add(sunk.quantity, top.quantity), by: written`${sunk} + ${top}` };
  }
  if (hole?.end === "tip") {
    const length = nailLengthOf(plan);
    const tip = listedOf(plan, "tip", "mm", hole.distance, `distance for hole ${name}`);
    const answer = subtract(add(sunk.quantity, length.quantity), tip.quantity);
    return { answer, by: written`${sunk} + ${length} - ${tip}` };
  }
  const because =
    plan.nail === undefined ? nailUnlisted(plan) : `nail ${plan.nail.name.text} lists no place for hole ${name}`;
  const lock = locksOf(plan).find((each) => each.hole.text === name);
  const nowhere = unknownOperand(name, unknown(because), lock === undefined ? [] : [lock.hole.place]);
  return { answer: nowhere.quantity, by: written`${nowhere}` };
}

function toFracture(name: string, level: Operand, { from, to }: Edges): Reckoning {
  const toEdges = [subtract(from.quantity, level.quantity), subtract(level.quantity, to.quantity)];
  return reckoned({
    id: `hole.${name}.toFracture`,
    label: `hole ${name} to the nearer edge of the fracture`,
    answer: maximum(toEdges),
    unit: "mm",
    by: written`max(${from} - ${level}, ${level} - ${to})`,
    basis: geometry,
    remark: "below 0 the hole lies in the fracture",
  });
}

function path(name: string, hole: CatalogueHole | undefined, level: Operand, bone: Shape | undefined): Reckoning {
  const record = (answer: Quantity, by: Written, remark?: () => string): Reckoning =>
    reckoned({
      id: `hole.${name}.path`,
      label: `bone in the path of a screw through hole ${name}`,
      answer,
      unit: "mm",
      by,
      basis: ellipse,
      remark,
    });
  if (hole === undefined || bone === undefined) {
    const because = hole === undefined ? level.quantity : unknown("no width of the bone is given");
    return record(because, written`bone at ${level}`);
  }
  const { answer, by, remark } = chordOf(hole, bone, level.quantity);
  return record(answer, by, remark);
}
