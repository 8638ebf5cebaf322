/**
 * A second path to proposals: every combination written out as a whole plan, each text analysed by itself, then filtered and sorted by
 * plain arithmetic. Slow, without any pruning, and without a line of the search it is held against.
 */
import fc from "fast-check";
import { type Analysis, analyse, libraryOver } from "../../server/answers/analyse.ts";
import { valueIn } from "../../server/quantity/arithmetic.ts";
import { normalCdf } from "../../server/quantity/probability.ts";

/** An invented catalogue nail; lengths in mm. */
export interface SmallNail {
  readonly name: string;
  readonly bone: "tibia" | "femur";
  readonly diameters: readonly number[];
  readonly lengths: readonly number[];
  readonly caps: readonly number[];
  readonly fits: readonly string[];
}

/** A small world to search: what is listed, what was measured, what the writer decided. */
export interface SmallWorld {
  readonly nails: readonly SmallNail[];
  readonly heads: readonly number[];
  readonly frontCutting: readonly number[];
  readonly scar: number;
  readonly scarHalfWidth: number;
  readonly canal: number;
  readonly canalHalfWidth: number;
  /** Turns of the compression screw; its pitch is 1.25 mm. */
  readonly turns: number;
  /** Undefined when the plan has no nail step. */
  readonly sunk: number | undefined;
  readonly unreamed: boolean;
  readonly ownCap: number | "none" | undefined;
  /** Findings that the department's protocol calls errors. */
  readonly errors: readonly string[];
}

export interface Combination {
  readonly nail: string;
  readonly diameter: number;
  readonly heads: readonly number[];
  readonly length: number;
  readonly sunk: number;
  readonly cap: number | "none" | undefined;
}

const ascending = (sizes: readonly number[]): number[] => [...new Set(sizes)].sort((a, b) => a - b);
const some = (sizes: readonly number[], most: number): fc.Arbitrary<number[]> =>
  fc.subarray([...sizes], { minLength: 1, maxLength: most }).map(ascending);

const nails = (name: string): fc.Arbitrary<SmallNail> =>
  fc.record({
    name: fc.constant(name),
    bone: fc.constantFrom(...Array<"tibia">(7).fill("tibia"), "femur"),
    diameters: some([8, 9, 10, 11], 3),
    lengths: some([225, 240, 285, 300, 315, 330], 3),
    caps: fc.constantFrom([], [0, 5], [0, 5, 10], [5]),
    fits: fc.constantFrom(["42A2"], ["42A2", "42A3"], [], [], ["42A2"], ["42B2"]),
  });

/** Heads by half a millimetre, some missing. */
function headsFrom(first: number, count: number, gaps: readonly number[]): number[] {
  return Array.from({ length: count }, (_, at) => first + at / 2).filter((_, at) => !gaps.includes(at));
}

/** Worlds small enough to try everything in, with and without something to propose. */
export const worlds: fc.Arbitrary<SmallWorld> = fc
  .record({
    nails: fc.oneof(
      nails("alder").map((nail) => [nail]),
      fc.tuple(nails("alder"), nails("birch")),
    ),
    heads: fc
      .tuple(fc.constantFrom(8, 8.5, 9), fc.integer({ min: 2, max: 7 }), fc.subarray([1, 2, 3, 4], { maxLength: 1 }))
      .map(([first, count, gaps]) => headsFrom(first, count, gaps)),
    frontCutting: fc.constantFrom([], [8], [8, 8.5]),
    scar: fc.integer({ min: 300, max: 350 }),
    scarHalfWidth: fc.constantFrom(0, 2, 6, 12),
    canal: fc.integer({ min: 16, max: 23 }).map((half) => half / 2),
    canalHalfWidth: fc.constantFrom(0, 0.2, 0.6),
    turns: fc.constantFrom(0, 2, 4),
    sunk: fc.constantFrom(undefined, undefined, 3, 8, 12),
    unreamed: fc.constantFrom(false, false, false, true),
    ownCap: fc.constantFrom(undefined, undefined, "none" as const, 5),
    errors: fc.constantFrom([], [], [], [], ["fit-ratio"], ["nail-long"], ["nail-short"], ["screw-near-fracture"]),
  })
  // A front-cutting head that is not among the heads is a fault of the catalogue.
  .map((world) => ({ ...world, frontCutting: world.frontCutting.filter((head) => world.heads.includes(head)) }));

const pitch = 1.25;

function libraryFor(world: SmallWorld) {
  const texts = new Map([
    ["catalogue.isthmus", catalogueText(world)],
    ["protocol.isthmus", protocolText(world)],
  ]);
  return libraryOver((_from, path) => {
    const text = texts.get(path);
    return text === undefined
      ? { kind: "missing", because: "there is no such file" }
      : { kind: "read", file: path, text };
  });
}

/** The plan as the writer left it. */
export function openPlan(world: SmallWorld): string {
  const [nail] = world.nails;
  const own: Combination | undefined =
    nail === undefined || world.sunk === undefined
      ? undefined
      : {
          nail: nail.name,
          diameter: nail.diameters[0] ?? 0,
          heads: [],
          length: nail.lengths[0] ?? 0,
          sunk: world.sunk,
          cap: world.ownCap,
        };
  return planText(world, own);
}

export function analysed(world: SmallWorld, text: string): Analysis {
  return analyse("plan.isthmus", text, libraryFor(world));
}

/** The three best, by trying everything. */
export function threeBest(world: SmallWorld): readonly Combination[] {
  const tried = world.nails.flatMap((nail) =>
    nail.diameters.flatMap((diameter) =>
      listsFor(world, diameter).flatMap((heads) =>
        nail.lengths.flatMap((length) => tryOut(world, nail, diameter, heads, length)),
      ),
    ),
  );
  const kept = tried.filter((each) => !tried.some((other) => isLongerAndSure(other, each)));
  return kept
    .toSorted(order)
    .slice(0, 3)
    .map(({ combination }) => combination);
}

interface Tried {
  readonly combination: Combination;
  readonly fits: number;
  readonly astray: number;
  readonly removed: number;
}

function tryOut(
  world: SmallWorld,
  nail: SmallNail,
  diameter: number,
  heads: readonly number[],
  length: number,
): readonly Tried[] {
  const combination: Combination = { nail: nail.name, diameter, heads, length, ...depthOf(world, nail) };
  const { judgement, reckonings } = analysed(world, planText(world, combination));
  if (judgement.findings.some(({ grade, waived }) => grade === "error" && waived === undefined)) return [];
  // A nail that is not listed for the fracture is never searched, whatever grade that has.
  if (judgement.findings.some(({ slug }) => slug === "nail-unfit")) return [];
  const number = (id: string, unit: string): number => {
    const answer = reckonings?.byId.get(id)?.answer;
    return answer?.kind === "known" ? valueIn(answer, unit) : Number.NaN;
  };
  const room = number("length.available", "mm");
  // The scar is the only uncertain reading in it; ± is two standard uncertainties.
  const spread = world.scarHalfWidth / 2;
  const fits = spread === 0 ? (length <= room + 1e-9 ? 1 : 0) : normalCdf((room - length) / spread);
  if (fits <= 0.05) return [];
  const removed = heads.length === 0 ? 0 : number("ream.removed", "mm³");
  return [{ combination, fits, astray: Math.abs(number("fit.ratio", "1") - 0.9), removed }];
}

function isLongerAndSure({ combination: a, fits }: Tried, { combination: b, fits: others }: Tried): boolean {
  const same = a.nail === b.nail && a.diameter === b.diameter && a.heads.join() === b.heads.join();
  return same && a.length > b.length && fits > 0.95 && others > 0.95;
}

function order(a: Tried, b: Tried): number {
  const last = ({ combination: { heads } }: Tried): number => heads.at(-1) ?? 0;
  return (
    Math.round(b.fits * 100) - Math.round(a.fits * 100) ||
    unlessNoise(a.astray - b.astray) ||
    unlessNoise(a.removed - b.removed) ||
    b.combination.length - a.combination.length ||
    a.combination.diameter - b.combination.diameter ||
    last(a) - last(b) ||
    (a.combination.nail < b.combination.nail ? -1 : 1)
  );
}

function unlessNoise(difference: number): number {
  return Math.abs(difference) < 1e-7 ? 0 : difference;
}

/** Every list of listed heads that keeps the limits (over 0.5 to 1.5, first at most 0.5 over the isthmus, steps at most 0.5). */
function listsFor(world: SmallWorld, diameter: number): readonly (readonly number[])[] {
  if (world.unreamed) return [[]];
  const all = subsets(world.heads).filter((list) => isWithinLimits(world, list, diameter));
  const lasts = [...new Set(all.map((list) => list.at(-1) ?? 0))];
  return lasts.map(
    (end) => all.filter((list) => list.at(-1) === end).toSorted((a, b) => preference(world, a, b))[0] ?? [],
  );
}

function subsets(heads: readonly number[]): readonly (readonly number[])[] {
  const [first, ...rest] = heads;
  if (first === undefined) return [[]];
  return subsets(rest).flatMap((list) => [list, [first, ...list]]);
}

function isWithinLimits(world: SmallWorld, list: readonly number[], diameter: number): boolean {
  const [first, last] = [list[0], list.at(-1)];
  if (first === undefined || last === undefined) return false;
  const over = last - diameter;
  if (over < 0.5 - 1e-9 || over > 1.5 + 1e-9) return false;
  if (list.some((head, at) => at > 0 && head - (list[at - 1] ?? 0) > 0.5 + 1e-9)) return false;
  return chanceOfWide(world, first) < 0.05 || isLastResort(world, list);
}

/** The smallest head of all may begin where it cannot be said to be too wide and no other one is clear of it. */
function isLastResort(world: SmallWorld, list: readonly number[]): boolean {
  const [first = 0] = list;
  return first === Math.min(...world.heads) && chanceOfWide(world, first) < 0.95;
}

function chanceOfWide({ canal, canalHalfWidth }: SmallWorld, first: number): number {
  const beyond = first - canal - 0.5;
  if (canalHalfWidth === 0) return beyond > 1e-9 ? 1 : 0;
  return normalCdf(beyond / (canalHalfWidth / 2));
}

/** A front-cutting head first, the largest; else the largest; then the widest steps. */
function preference({ frontCutting }: SmallWorld, a: readonly number[], b: readonly number[]): number {
  const isFront = (list: readonly number[]): number => (frontCutting.includes(list[0] ?? 0) ? 1 : 0);
  const fronts = isFront(b) - isFront(a);
  if (fronts !== 0) return fronts;
  const at = a.findIndex((head, index) => head !== b[index]);
  return (b[at] ?? 0) - (a[at] ?? 0);
}

function depthOf({ sunk, turns, ownCap }: SmallWorld, { caps }: SmallNail): Pick<Combination, "sunk" | "cap"> {
  const drawn = turns * pitch;
  if (sunk !== undefined) {
    if (ownCap === "none" || caps.length === 0) return { sunk, cap: ownCap };
    const longest = Math.max(...caps.filter((cap) => cap <= sunk - drawn + 1e-9));
    return { sunk, cap: Number.isFinite(longest) ? longest : ownCap === undefined ? undefined : "none" };
  }
  if (ownCap === "none" || caps.length === 0) {
    return { sunk: Math.ceil(drawn + (typeof ownCap === "number" ? ownCap : 0)), cap: ownCap };
  }
  const cap = typeof ownCap === "number" && caps.includes(ownCap) ? ownCap : Math.min(...caps);
  return { sunk: Math.ceil(drawn + cap), cap };
}

function planText(world: SmallWorld, combination: Combination | undefined): string {
  const { scar, scarHalfWidth, canal, canalHalfWidth, turns, unreamed } = world;
  const plusMinus = (half: number): string => (half === 0 ? "" : ` ± ${half} mm`);
  const ream = unreamed
    ? ["unreamed"]
    : combination === undefined || combination.heads.length === 0
      ? []
      : [`ream ${inMm(combination.heads)}`];
  const cap = combination === undefined ? world.ownCap : combination.cap;
  const nail =
    combination === undefined
      ? []
      : [
          `nail ${combination.nail}, diameter ${combination.diameter} mm, length ${combination.length} mm, sunk ${combination.sunk} mm`,
        ];
  const steps = [
    "wire ball-tip",
    ...ream,
    ...nail,
    "check ap, lateral",
    "lock D2, drilled 31 mm, screw 32 mm",
    "lock D1, drilled 33 mm, screw 34 mm",
    "lock P2, drilled 53 mm, screw 54 mm",
    ...(turns === 0 ? [] : [`compress ${turns} turns`]),
    "lock P1, drilled 51 mm, screw 52 mm",
    ...(cap === undefined ? [] : [cap === "none" ? "cap none" : `cap ${cap} mm`]),
    "check ap, lateral, rotation",
  ];
  return `isthmus 1

plan "Invented" {
  use "catalogue.isthmus"
  follow "protocol.isthmus"

  case SW-1 {
    side left
    bone tibia
    fracture 42A2, from 180 mm to 200 mm, gap 8 mm
  }

  measures {
    landmark scar ${scar} mm${plusMinus(scarHalfWidth)}
    landmark plafond ${scar + 15} mm
    canal at 60 mm, width ${canal + 12} mm, depth ${canal + 10} mm
    canal at 190 mm, width ${canal} mm${plusMinus(canalHalfWidth)}, depth ${canal + 1} mm
    canal at 300 mm, width ${canal + 10} mm, depth ${canal + 9} mm
  }

  operation {
${steps.map((step) => `    ${step}\n`).join("")}  }
}
`;
}

function inMm(sizes: readonly number[]): string {
  return sizes.map((size) => `${size} mm`).join(", ");
}

function catalogueText({ nails, heads, frontCutting }: SmallWorld): string {
  const each = nails.map(
    ({ name, bone, diameters, lengths, caps, fits }) => `  nail ${name} {
    for ${bone}
    diameters ${inMm(diameters)}
    lengths ${inMm(lengths)}
    hole P2, top 28 mm, runs medial-lateral, slot 6 mm, takes peg
    hole P1, top 40 mm, runs medial-lateral, takes peg
    hole D2, tip 26 mm, runs medial-lateral, takes peg
    hole D1, tip 12 mm, runs medial-lateral, takes peg
    compression travel 6 mm, pitch ${pitch} mm
${caps.length === 0 ? "" : `    caps ${inMm(caps)}\n`}${fits.length === 0 ? "" : `    fits ${fits.join(", ")}\n`}  }

`,
  );
  const front = frontCutting.length === 0 ? "" : `    front-cutting ${inMm(frontCutting)}\n`;
  return `isthmus 1

catalogue "Invented" {
  notice "Invented for a test."

${each.join("")}  screws peg {
    thread 4.6 mm
    lengths 24 mm to 60 mm by 2 mm
  }

  reamers {
    heads ${inMm(heads)}
${front}  }
}
`;
}

function protocolText({ errors }: SmallWorld): string {
  return `isthmus 1\n\nprotocol "Invented" {\n${errors.map((slug) => `  grade ${slug} error\n`).join("")}}\n`;
}
