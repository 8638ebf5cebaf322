/**
 * Every reckoning a second time, in plain numbers and closed forms, from the same numbers a plan is built from. Written without a
 * look at `server/`: it shares no code with it, and a `null` says that the answer must be unknown.
 */
import type { HoleNumbers, Numbers, SizeNumbers } from "./plan-by-hand.ts";

export type ByHand = ReadonlyMap<string, number | string | null>;

type Answers = Map<string, number | string | null>;

/** What several of the answers stand on. `level` is in mm from the entry point. */
interface Ground {
  readonly ap: number;
  readonly lateral: number;
  readonly edges: { readonly from: number; readonly to: number } | undefined;
  readonly isthmus: { readonly size: number; readonly level: number } | undefined;
  readonly plafond: number | undefined;
  readonly scar: number | undefined;
  readonly knee: number;
}

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
  filling(n, ground, out);
  holes(n, ground, out);
  screws(n, out);
  fragments(n, ground, out);
  nail(n, out);
  return out;
}

function levels(n: Numbers, { ap, lateral, scar, plafond, knee, edges, isthmus }: Ground, out: Answers): void {
  out.set("magnification.ap", ap);
  out.set("magnification.lateral", lateral);
  if (scar !== undefined) out.set("level.scar", scar);
  if (plafond !== undefined) out.set("level.plafond", plafond);
  if (n.kneeJoint !== undefined) out.set("level.knee-joint", knee);
  if (edges !== undefined) {
    out.set("level.fracture.from", edges.from);
    out.set("level.fracture.to", edges.to);
    out.set("level.fracture.centre", edges.from + (edges.to - edges.from) / 2);
    out.set("segment", segment(n, (edges.from + edges.to) / 2, plafond, knee, ap));
  }
  out.set("canal.isthmus", isthmus?.size ?? null);
  out.set("canal.isthmusLevel", isthmus?.level ?? null);
}

function ends(n: Numbers, { scar, plafond }: Ground, out: Answers): void {
  const top = n.sunk.value;
  const tip = n.sunk.value + n.length;
  lengths(n, out, scar === undefined ? plafond && plafond - 15 - top : scar - top);
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
  out.set("nail.bending", n.bore >= n.diameter ? null : (n.modulus * area) / 1000);
  if (n.diastolic === undefined && n.pressure === undefined) return;
  const both = n.diastolic !== undefined && n.pressure !== undefined;
  out.set("compartment.gradient", both ? n.diastolic.value - n.pressure.value : null);
}

function narrowest(n: Numbers, ap: number, lateral: number): { size: number; level: number } | undefined {
  const all = n.canals.flatMap(({ level, width, depth }) => [
    ...(width ? [{ size: width.value / ap, level: level.value }] : []),
    ...(depth ? [{ size: depth.value / lateral, level: level.value }] : []),
  ]);
  return all.sort((a, b) => a.size - b.size)[0];
}

function segment(n: Numbers, centre: number, plafond: number | undefined, knee: number, ap: number): string | null {
  if (n.bone !== "tibia") return null;
  const proximal = n.proximalSquare && knee + n.proximalSquare.value / ap;
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
  if (n.heads.length < 2) return;
  let widest = Number.NEGATIVE_INFINITY;
  for (let i = 1; i < n.heads.length; i++) widest = Math.max(widest, (n.heads[i] ?? 0) - (n.heads[i - 1] ?? 0));
  out.set("ream.step", widest);
}

function holeLevel(n: Numbers, { end, distance }: HoleNumbers): number {
  return end === "top" ? n.sunk.value + distance : n.sunk.value + n.length - distance;
}

function toFracture(level: number, { from, to }: { from: number; to: number }): number | null {
  if (from > to) return null;
  if (level < from) return from - level;
  if (level > to) return level - to;
  return -Math.min(level - from, to - level);
}

/** Twice the polar radius of the ellipse. */
function path(n: Numbers, hole: HoleNumbers, level: number, ap: number, lateral: number): number | null {
  const width = sizeAt(n.bones, "width", level, ap);
  const depth = sizeAt(n.bones, "depth", level, lateral);
  const along = Math.cos(((hole.tilt ?? 0) * Math.PI) / 180);
  if (hole.runs === "medial-lateral") return width === undefined ? null : width / along;
  if (hole.runs === "anterior-posterior") return depth === undefined ? null : depth / along;
  if (width === undefined || depth === undefined) return null;
  const angle = ((hole.angle ?? 0) * Math.PI) / 180;
  return (width * depth) / Math.sqrt((depth * Math.cos(angle)) ** 2 + (width * Math.sin(angle)) ** 2) / along;
}

/** Weighted mean of the two neighbours; the nearest one outside. */
function sizeAt(list: readonly SizeNumbers[], side: "width" | "depth", at: number, scale: number): number | undefined {
  const given = list
    .flatMap((each) => (each[side] === undefined ? [] : [{ x: each.level.value, y: each[side].value / scale }]))
    .sort((a, b) => a.x - b.x);
  const right = given.findIndex(({ x }) => x >= at);
  const [before, after] = [given[right - 1], given[right]];
  if (right === -1) return given.at(-1)?.y;
  if (before === undefined || after === undefined) return after?.y;
  return (before.y * (after.x - at) + after.y * (at - before.x)) / (after.x - before.x);
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
