/**
 * Every reckoning a second time, in plain numbers and closed forms, from the same numbers a plan is built from. Written without a
 * look at `server/`: it shares no code with it, and a `null` says that the answer must be unknown.
 */
import { motion } from "./mechanics-by-hand.ts";
import { type Answers, chord, curve, type Ground, holeLevel, sizeAt } from "./shape-by-hand.ts";
import type { HoleNumbers, Numbers, SizeNumbers } from "./worked-numbers.ts";

export type ByHand = ReadonlyMap<string, number | string | null>;

/** Lengths in mm, pressures in mmHg, stiffness in N·m². */
export function byHand(n: Numbers): ByHand {
  const out: Answers = new Map();
  const ap = n.ap.seen.value / n.ap.marker.value;
  const lateral = n.lateral.seen.value / n.lateral.marker.value;
  const ground: Ground = {
    ap,
    lateral,
    edges: n.fracture && { from: n.fracture.from.value / ap, to: n.fracture.to.value / ap },
    isthmus: narrowest(n, ap, lateral),
    plafond: n.plafond && n.plafond.value / ap,
    scar: n.scar && n.scar.value / ap,
    knee: n.kneeJoint === undefined ? 0 : n.kneeJoint.value / ap,
  };
  levels(n, ground, out);
  ends(n, ground, out);
  reaming(n, out, ground.isthmus?.size);
  // Where two circles touch, their centres are both radii apart.
  if (n.blocks === true) out.set("block.1.offset", (n.heads?.at(-1) ?? n.diameter) / 2 + n.thread / 2);
  filling(n, ground, out);
  holes(n, ground, out);
  screws(n, out);
  fragments(n, ground, out);
  nail(n, out);
  alignment(n, out);
  motion(n, ground, out);
  bone(n, ground, out);
  return out;
}

function levels(n: Numbers, { ap, lateral, scar, plafond, knee, edges, isthmus }: Ground, out: Answers): void {
  out.set("magnification.ap", ap);
  out.set("magnification.lateral", lateral);
  if (scar !== undefined) out.set("level.scar", scar);
  if (plafond !== undefined) out.set(n.bone === "tibia" ? "level.plafond" : "level.joint", plafond);
  if (n.kneeJoint !== undefined) out.set("level.knee-joint", knee);
  if (n.lesserTrochanter !== undefined) out.set("level.lesser-trochanter", n.lesserTrochanter.value / ap);
  if (edges !== undefined) {
    out.set("level.fracture.from", edges.from);
    out.set("level.fracture.to", edges.to);
    out.set("level.fracture.centre", edges.from + (edges.to - edges.from) / 2);
    out.set("segment", segment(n, (edges.from + edges.to) / 2, plafond, knee, ap));
  }
  out.set("canal.isthmus", isthmus?.size ?? null);
  out.set("canal.isthmusLevel", isthmus?.level ?? null);
}

function ends(n: Numbers, { scar, plafond, knee }: Ground, out: Answers): void {
  const top = n.sunk.value;
  const tip = n.sunk.value + n.length;
  // How far a nail stays off the joint where no scar is given is a figure of the tibia alone.
  const short = n.bone === "tibia" ? plafond && plafond - 15 - top : undefined;
  lengths(n, out, scar === undefined ? short : scar - top);
  out.set("nail.top", top);
  out.set("nail.tip", tip);
  if (scar !== undefined || plafond === undefined) out.set("tip.toScar", scar === undefined ? null : scar - tip);
  out.set("tip.toPlafond", plafond === undefined ? null : plafond - tip);
  const compression = compress(n, out);
  const drawn = compression + (n.backslap?.value ?? 0);
  const freed = dynamised(n, compression);
  if (n.dynamise !== undefined) out.set("dynamisation.left", freed.left);
  const atTop = freed.end === "top" ? freed.left : 0;
  out.set("nail.topAfter", top - drawn);
  if (n.bone === "tibia" && n.kneeJoint !== undefined) out.set("nail.toKneeJoint", top - drawn - knee);
  if (freed.end === "top") out.set("nail.topDynamised", atTop < 0 ? null : top - drawn - atTop);
  if (freed.end === "tip") out.set("nail.tipDynamised", tip + freed.left);
  out.set("overinsertion.needed", atTop < 0 ? null : drawn + atTop);
  if (typeof n.cap === "number") out.set("cap.top", top - drawn - n.cap);
}

function compress(n: Numbers, out: Answers): number {
  const compression = n.turns === undefined ? n.compress?.value : n.turns * n.pitch;
  if (compression === undefined) return 0;
  const gap = n.fracture?.gap?.value;
  out.set("compression.amount", compression);
  out.set("compression.left", n.travel - compression);
  out.set("compression.gapLeft", gap === undefined ? null : gap - compression);
  return compression;
}

function filling(n: Numbers, { isthmus, edges, ap, lateral }: Ground, out: Answers): void {
  const final = n.heads?.at(-1) ?? 0;
  const wide = isthmus && Math.max(isthmus.size, final);
  out.set("fit.ratio", wide === undefined ? null : n.diameter / wide);
  out.set("fit.play", wide === undefined ? null : wide / 2 - n.diameter / 2);
  if (edges === undefined) return;
  for (const [end, edge] of [["proximal", edges.from] as const, ["distal", edges.to] as const]) {
    const width = sizeAt(n.canals, "width", edge, ap);
    const depth = sizeAt(n.canals, "depth", edge, lateral);
    const unknown = width === undefined || depth === undefined || edges.from > edges.to;
    out.set(`fit.play.${end}`, unknown ? null : (Math.max(width, depth, final) - n.diameter) / 2);
  }
}

function holes(n: Numbers, { edges, ap, lateral }: Ground, out: Answers): void {
  for (const hole of n.holes) {
    const level = holeLevel(n, hole);
    out.set(`hole.${hole.name}.level`, level);
    if (edges !== undefined) out.set(`hole.${hole.name}.toFracture`, toFracture(level, edges));
    const locked = n.locks.some((lock) => lock.hole === hole.name);
    if (n.bones.length > 0 || locked) out.set(`hole.${hole.name}.path`, path(n, hole, level, ap, lateral));
  }
}

function fragments(n: Numbers, { edges }: Ground, out: Answers): void {
  if (edges === undefined) return;
  const locked = n.holes.filter(({ name }) => n.locks.some((lock) => lock.hole === name));
  const near = locked.map((hole) => holeLevel(n, hole)).filter((level) => level <= edges.from);
  const far = locked.map((hole) => holeLevel(n, hole)).filter((level) => level >= edges.to);
  const both = near.length > 0 && far.length > 0;
  out.set("fragment.proximal.screws", near.length);
  out.set("fragment.distal.screws", far.length);
  out.set("span.working", both ? Math.min(...far) - Math.max(...near) : null);
}

function nail(n: Numbers, out: Answers): void {
  const area = (Math.PI / 64) * (n.diameter ** 2 - n.bore ** 2) * (n.diameter ** 2 + n.bore ** 2);
  const stiffness = (n.modulus * area) / 1000;
  const torsion = n.material === "titanium-alloy" ? (stiffness * 2) / (2 * 1.31) : null;
  out.set("nail.bending", n.bore >= n.diameter ? null : stiffness);
  out.set("nail.torsion", n.bore >= n.diameter ? null : torsion);
  if (n.diastolic === undefined && n.pressure === undefined) return;
  const both = n.diastolic !== undefined && n.pressure !== undefined;
  out.set("compartment.gradient", both ? n.diastolic.value - n.pressure.value : null);
}

/** By the normal of the bent plane: the angle of the vector (tan coronal, tan sagittal, 1) to the axis, as a cosine. */
function alignment(n: Numbers, out: Answers): void {
  const { coronal, sagittal, length } = n.alignment ?? {};
  if (coronal !== undefined || sagittal !== undefined) {
    const tan = (degrees = 0): number => Math.tan((degrees * Math.PI) / 180);
    const [x, y] = [tan(coronal?.[0].value), tan(sagittal?.[0].value)];
    const both = coronal !== undefined && sagittal !== undefined;
    const tilt = Math.acos(1 / Math.sqrt(x * x + y * y + 1));
    out.set("alignment.true", both ? (tilt * 180) / Math.PI : null);
    out.set("alignment.plane", both ? 90 - (Math.atan(x / y) * 180) / Math.PI : null);
  }
  const compression = n.turns === undefined ? n.compress?.value : n.turns * n.pitch;
  if (length === undefined && compression === undefined) return;
  const sign = length?.[1] === "short" ? 1 : -1;
  const short = sign * (length?.[0].value ?? 0);
  const gap = n.fracture?.gap?.value;
  if (compression === undefined) out.set("alignment.shortening", short);
  else out.set("alignment.shortening", gap === undefined ? null : short + Math.max(0, compression - gap));
}

/** Cortex and bone removed; the volume by adding thin rings of the circle that lie outside the ellipse. */
function bone(n: Numbers, { ap, lateral }: Ground, out: Answers): void {
  const head = n.heads?.at(-1);
  if (head === undefined) return;
  const scales = { width: ap, depth: lateral };
  let least: number | null = null;
  for (const side of ["width", "depth"] as const) {
    const levelsOf = (list: readonly SizeNumbers[]) =>
      list.filter((each) => each[side]).map((each) => each.level.value);
    const [bones, canals] = [levelsOf(n.bones), levelsOf(n.canals)];
    for (const level of [...bones, ...canals]) {
      const inside = (list: number[]) => level >= Math.min(...list) && level <= Math.max(...list);
      if (!inside(bones) || !inside(canals)) continue;
      const outer = sizeAt(n.bones, side, level, scales[side]) ?? 0;
      const inner = sizeAt(n.canals, side, level, scales[side]) ?? 0;
      const left: number = outer / 2 - Math.max(inner, head) / 2;
      least = least === null ? left : Math.min(least, left);
    }
  }
  out.set("ream.cortexLeft", least);
  out.set("ream.removed", volume(n, head, ap, lateral));
}

function volume(n: Numbers, head: number, ap: number, lateral: number): number | null {
  const tip = n.sunk.value + n.length;
  const [across, back] = [curve(n.canals, "width", ap), curve(n.canals, "depth", lateral)];
  const area = (level: number): number => outside(head / 2, (across(level) ?? 0) / 2, (back(level) ?? 0) / 2);
  if (across(0) === undefined || back(0) === undefined) return null;
  let sum = 0;
  for (let level = 0; level < tip; level++) {
    const next = Math.min(level + 1, tip);
    sum += ((area(level) + area(next)) / 2) * (next - level);
  }
  return sum / 1000;
}

/** Area of the circle less what it shares with the ellipse, from the antiderivative of both upper arcs. */
function outside(radius: number, a: number, b: number): number {
  const arc = (half: number, height: number, x: number): number => {
    const t = Math.min(1, x / half);
    return (height / half) * (half ** 2 / 2) * (t * Math.sqrt(1 - t * t) + Math.asin(t));
  };
  const shared = (from: number, to: number, half: number, height: number) =>
    arc(half, height, to) - arc(half, height, from);
  if (radius <= Math.min(a, b)) return 0;
  if (radius >= Math.max(a, b)) return Math.PI * (radius ** 2 - a * b);
  const crossing = a * Math.sqrt((radius ** 2 - b ** 2) / (a ** 2 - b ** 2));
  const common =
    a > b
      ? shared(0, crossing, a, b) + shared(crossing, radius, radius, radius)
      : shared(0, crossing, radius, radius) + shared(crossing, a, a, b);
  return Math.PI * radius ** 2 - 4 * common;
}

function narrowest(n: Numbers, ap: number, lateral: number): { size: number; level: number } | undefined {
  const all = n.canals.flatMap(({ level, width, depth }) => [
    ...(width ? [{ size: width.value / ap, level: level.value }] : []),
    ...(depth ? [{ size: depth.value / lateral, level: level.value }] : []),
  ]);
  return all.sort((a, b) => a.size - b.size)[0];
}

function segment(n: Numbers, centre: number, plafond: number | undefined, knee: number, ap: number): string | null {
  const trochanter = n.lesserTrochanter && n.lesserTrochanter.value / ap;
  const square = n.proximalSquare && knee + n.proximalSquare.value / ap;
  const proximal = n.bone === "tibia" ? square : n.bone === "femur" ? trochanter : undefined;
  const distal = plafond !== undefined && n.distalSquare ? plafond - n.distalSquare.value / ap : undefined;
  if (proximal !== undefined && centre <= proximal) return "proximal";
  if (distal !== undefined && centre >= distal) return "distal";
  return proximal === undefined || distal === undefined ? null : "shaft";
}

function lengths(n: Numbers, out: Answers, room: number | undefined): void {
  out.set("length.available", room ?? null);
  if (room === undefined) {
    for (const id of ["longest", "margin", "next", "nextMargin"]) out.set(`length.${id}`, null);
    return;
  }
  let longest: number | undefined;
  let next: number | undefined;
  for (const length of n.lengths) {
    if (length <= room) longest = Math.max(length, longest ?? 0);
    else next = Math.min(length, next ?? Number.POSITIVE_INFINITY);
  }
  out.set("length.longest", longest ?? null);
  out.set("length.margin", longest === undefined ? null : room - longest);
  if (next !== undefined) {
    out.set("length.next", next);
    out.set("length.nextMargin", next - room);
  }
}

function dynamised(n: Numbers, compression: number): { end: "top" | "tip" | undefined; left: number } {
  if (n.dynamise === undefined) return { end: undefined, left: 0 };
  const removed = n.dynamise;
  const stand = n.holes.filter(({ name }) => n.locks.some((l) => l.hole === name) && !removed.includes(name));
  const free = (["top", "tip"] as const).filter((end) => {
    const here = stand.filter((hole) => hole.end === end);
    return here.length > 0 && here.every((hole) => hole.slot !== undefined);
  });
  const touched = n.holes.filter(({ name }) => removed.includes(name)).map(({ end }) => end);
  const end = free.find((each) => touched.includes(each)) ?? free[0];
  if (end === undefined) return { end, left: 0 };
  const slot = Math.min(...stand.filter((hole) => hole.end === end).map((hole) => hole.slot ?? 0));
  return { end, left: end === "top" ? slot - compression : slot };
}

function reaming(n: Numbers, out: Answers, isthmus: number | undefined): void {
  if (n.heads === undefined) return;
  const [first = 0] = n.heads;
  const last = n.heads.at(-1) ?? 0;
  out.set("ream.heads", `${n.heads.join(", ")} mm`);
  out.set("ream.final", last);
  out.set("ream.over", last - n.diameter);
  out.set("ream.start", isthmus === undefined ? null : first - isthmus);
  out.set("ream.overIsthmus", isthmus === undefined ? null : last - isthmus);
  if (n.heads.length < 2) return;
  let widest = Number.NEGATIVE_INFINITY;
  for (let i = 1; i < n.heads.length; i++) widest = Math.max(widest, (n.heads[i] ?? 0) - (n.heads[i - 1] ?? 0));
  out.set("ream.step", widest);
}

function toFracture(level: number, { from, to }: { from: number; to: number }): number | null {
  if (from > to) return null;
  if (level < from) return from - level;
  if (level > to) return level - to;
  return -Math.min(level - from, to - level);
}

function path(n: Numbers, hole: HoleNumbers, level: number, ap: number, lateral: number): number | null {
  return chord(hole, sizeAt(n.bones, "width", level, ap), sizeAt(n.bones, "depth", level, lateral));
}

function screws(n: Numbers, out: Answers): void {
  for (const { hole, drilled, screw, near } of n.locks) {
    const known = drilled !== undefined && screw !== undefined;
    out.set(`screw.${hole}.beyond`, known ? screw - drilled.value : null);
    const fits = n.screwLengths.filter((length) =>
      near === true
        ? length <= (drilled?.value ?? 0)
        : length >= (drilled?.value ?? 0) && length <= (drilled?.value ?? 0) + 2,
    );
    const best = near === true ? Math.max(...fits) : Math.min(...fits);
    out.set(`screw.${hole}.best`, drilled === undefined || fits.length === 0 ? null : best);
  }
}
