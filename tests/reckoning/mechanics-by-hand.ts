/**
 * The mechanics a second time, in plain numbers: springs in series for the gap, a beam's moment for each screw. It shares no code with
 * `server/`.
 */
import { type Answers, chord, type Ground, holeLevel, sizeAt } from "./shape-by-hand.ts";
import type { HoleNumbers, Numbers } from "./worked-numbers.ts";

/** Springs in series: the nail between the nearest screws, and the screws of either end, in N and mm. */
export function motion(n: Numbers, ground: Ground, out: Answers): void {
  const { edges } = ground;
  if (edges === undefined) return;
  // An arm does not carry the body.
  const mass = n.load?.value ?? (n.bone === "humerus" ? undefined : n.weight?.value);
  const force = mass === undefined ? null : mass * 9.80665;
  const locked = n.holes.filter(({ name }) => n.locks.some((lock) => lock.hole === name));
  const groups = [
    locked.filter((hole) => holeLevel(n, hole) <= edges.from),
    locked.filter((hole) => holeLevel(n, hole) >= edges.to),
  ];
  const lengths = groups.map((group) => group.map((hole) => freeLength(n, ground, hole)));
  const gap = n.fracture?.gap?.value;
  for (const factor of [48, 192]) {
    const bound = factor === 48 ? "most" : "least";
    const moved = force === null ? null : movedBy(n, force, factor, groups, lengths);
    out.set(`gap.motion.${bound}`, moved);
    out.set(`gap.strain.${bound}`, moved === null || gap === undefined ? null : (100 * moved) / gap);
    for (const [end, group] of groups.entries()) {
      stresses(n, force === null ? null : force / group.length, factor, group, lengths[end] ?? [], out);
    }
  }
}

function stresses(
  n: Numbers,
  share: number | null,
  factor: number,
  group: readonly HoleNumbers[],
  lengths: readonly (number | null)[],
  out: Answers,
): void {
  for (const [index, hole] of group.entries()) {
    const length = lengths[index] ?? null;
    const moment = (share ?? 0) * (length ?? 0) * (factor === 48 ? 1 / 4 : 1 / 8);
    const stress = length === null || share === null ? null : (moment * (n.core / 2)) / inertiaOf(n);
    out.set(`screw.${hole.name}.stress.${factor === 48 ? "most" : "least"}`, stress);
  }
}

function inertiaOf(n: Numbers): number {
  return (Math.PI / 4) * (n.core / 2) ** 4;
}

function movedBy(
  n: Numbers,
  force: number,
  factor: number,
  groups: readonly (readonly HoleNumbers[])[],
  lengths: readonly (readonly (number | null)[])[],
): number | null {
  const [near = [], far = []] = groups.map((group) => group.map((hole) => holeLevel(n, hole)));
  if (near.length === 0 || far.length === 0 || lengths.flat().includes(null)) return null;
  const young = n.modulus * 1000;
  const area = Math.PI * ((n.diameter / 2) ** 2 - (n.bore / 2) ** 2);
  const bar = (young * area) / (Math.min(...far) - Math.max(...near));
  const springs = lengths.map((group) =>
    group.reduce<number>((sum, length) => sum + (factor * young * inertiaOf(n)) / (length ?? 1) ** 3, 0),
  );
  return force / bar + springs.reduce((sum, spring) => sum + force / spring, 0);
}

/** Of a screw across the canal, which is nowhere narrower than the last head. */
function freeLength(n: Numbers, { ap, lateral }: Ground, hole: HoleNumbers): number | null {
  if (n.locks.find((lock) => lock.hole === hole.name)?.near === true) return null;
  const reamed = (size: number | undefined) => size && Math.max(size, n.heads?.at(-1) ?? 0);
  const level = holeLevel(n, hole);
  return chord(hole, reamed(sizeAt(n.canals, "width", level, ap)), reamed(sizeAt(n.canals, "depth", level, lateral)));
}
