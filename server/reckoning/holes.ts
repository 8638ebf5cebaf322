/**
 * Where each hole of the nail lies when the nail is in, how far that is from the fracture, and how much bone a screw through it should
 * meet. Every hole the catalogue lists is reckoned, and every hole that is locked.
 */
import type { CatalogueHole, Plan } from "../meaning/plan.ts";
import { add, subtract, unknown } from "../quantity/arithmetic.ts";
import { maximum } from "../quantity/elementary.ts";
import { type Edges, edgesOf, holeNamed, listedOf, locksOf, nailLengthOf, nailUnlisted, sunkOf } from "./given.ts";
import type { Subject } from "./ledger.ts";
import { chord, reachAt, sidesOf } from "./profile.ts";
import type { Basis, Reckoning } from "./reckoning.ts";
import { fixedOperand, type Operand, operandOf, reckoned, typedOperand, type Written, written } from "./writing.ts";

const catalogue: Basis = { mark: "catalogue", text: "the hole's place on the nail as the catalogue lists it" };
const geometry: Basis = { mark: "computed", text: "geometry along the canal's axis" };
const ellipse: Basis = { mark: "computed", text: "chord of the ellipse with the bone's width and depth at that level" };

/** `hole.H.level`, `hole.H.toFracture`, `hole.H.path`, in mm, hole by hole in the catalogue's order. */
export const reckonHoles: Subject = ({ plan }) => {
  const listed = plan.nail?.holes.map((hole) => hole.name.text) ?? [];
  const locked = locksOf(plan).map((lock) => lock.hole.text);
  const edges = edgesOf(plan);
  return [...new Set([...listed, ...locked])].flatMap((name) => ofHole(plan, name, edges, locked.includes(name)));
};

function ofHole(plan: Plan, name: string, edges: Edges, locked: boolean): readonly Reckoning[] {
  const hole = holeNamed(plan, name);
  const level = levelOf(plan, name, hole);
  const at = operandOf(level, `level of ${name}`);
  const reckonings = [level, ...(plan.case?.fracture === undefined ? [] : [toFracture(name, at, edges)])];
  const predictable = hole !== undefined && plan.measures.bones.length > 0;
  return predictable || locked ? [...reckonings, path(plan, name, hole, at)] : reckonings;
}

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

function placed(
  plan: Plan,
  name: string,
  hole: CatalogueHole | undefined,
): Pick<Reckoning, "answer"> & { by: Written } {
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
  const nowhere = fixedOperand(name, unknown(because), "mm");
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

function path(plan: Plan, name: string, hole: CatalogueHole | undefined, level: Operand): Reckoning {
  const id = `hole.${name}.path`;
  const label = `bone in the path of a screw through hole ${name}`;
  if (hole === undefined) {
    return reckoned({ id, label, answer: level.quantity, unit: "mm", by: written`${level}`, basis: ellipse });
  }
  const { bones } = plan.measures;
  const reaches = sidesOf(hole).map((side) => reachAt(bones, side, level.quantity, "bone"));
  const [width, depth] = (["width", "depth"] as const).map((side) => reachAt(bones, side, level.quantity, "bone"));
  const blank = fixedOperand("", unknown(""), "mm");
  return reckoned({
    id,
    label,
    answer: chord(hole, (width ?? blank).quantity, (depth ?? blank).quantity),
    unit: "mm",
    by: pathFormula(hole, width ?? blank, depth ?? blank),
    basis: ellipse,
    remark: [...new Set(reaches.map(({ how }) => how))].filter((how) => how !== "").join("; "),
  });
}

function pathFormula(hole: CatalogueHole, width: Operand, depth: Operand): Written {
  const across = acrossFormula(hole, width, depth);
  if (hole.tilt === undefined) {
    return across;
  }
  const along = written` / cos(${typedOperand("tilt", "deg", hole.tilt, "")})`;
  return {
    formula: across.formula + along.formula,
    filled: () => across.filled() + along.filled(),
    from: [...across.from, ...along.from],
  };
}

function acrossFormula(hole: CatalogueHole, width: Operand, depth: Operand): Written {
  switch (hole.runs) {
    case "medial-lateral":
      return written`${width}`;
    case "anterior-posterior":
      return written`${depth}`;
    default: {
      const angle = typedOperand("angle", "deg", hole.oblique, "the direction is not given");
      return written`2 / √((cos(${angle}) / (${width} / 2))² + (sin(${angle}) / (${depth} / 2))²)`;
    }
  }
}
