/**
 * A plan as plain numbers, and the invented plan of the worked example written so. Plans are built from them in `plan-by-hand.ts`,
 * second computations take them as they are.
 */

/** A number as typed, with the half-width of its ± (0 when exact). */
export interface Reading {
  readonly value: number;
  readonly half: number;
}

export interface SizeNumbers {
  readonly level: Reading;
  readonly width?: Reading;
  readonly depth?: Reading;
}

export interface HoleNumbers {
  readonly name: string;
  readonly end: "top" | "tip";
  readonly distance: number;
  readonly runs: "medial-lateral" | "anterior-posterior" | "oblique";
  readonly angle?: number;
  readonly tilt?: number;
  readonly slot?: number;
  readonly takes?: readonly string[];
}

export interface LockNumbers {
  readonly hole: string;
  readonly drilled?: Reading;
  readonly screw?: number;
  readonly near?: boolean;
  readonly family?: string;
}

/** Lengths in mm, angles in deg, pressures in mmHg, modulus in GPa, loads in kg. Readings `on ap` are sizes on the image. */
export interface Numbers {
  readonly bone: string;
  readonly side: string;
  readonly ap: { readonly marker: Reading; readonly seen: Reading };
  readonly lateral: { readonly marker: Reading; readonly seen: Reading };
  readonly scar?: Reading;
  /** The far joint line, which other bones than the tibia call `joint`. */
  readonly plafond?: Reading;
  readonly kneeJoint?: Reading;
  readonly lesserTrochanter?: Reading;
  readonly proximalSquare?: Reading;
  readonly distalSquare?: Reading;
  readonly fracture?: { readonly from: Reading; readonly to: Reading; readonly gap?: Reading };
  readonly canals: readonly SizeNumbers[];
  readonly bones: readonly SizeNumbers[];
  readonly heads?: readonly number[];
  /** A blocking screw of the one listed family. */
  readonly blocks?: boolean;
  readonly diameter: number;
  readonly length: number;
  readonly sunk: Reading;
  readonly holes: readonly HoleNumbers[];
  readonly locks: readonly LockNumbers[];
  readonly turns?: number;
  readonly compress?: Reading;
  readonly pitch: number;
  readonly travel: number;
  readonly backslap?: Reading;
  readonly cap?: number | "none";
  readonly lengths: readonly number[];
  readonly screwLengths: readonly number[];
  readonly modulus: number;
  readonly bore: number;
  readonly core: number;
  readonly thread: number;
  readonly material: string;
  readonly weight?: Reading;
  readonly load?: Reading;
  readonly diastolic?: Reading;
  readonly pressure?: Reading;
  readonly dynamise?: readonly string[];
  readonly alignment?: {
    readonly coronal?: readonly [Reading, "varus" | "valgus"];
    readonly sagittal?: readonly [Reading, "procurvatum" | "recurvatum"];
    readonly length?: readonly [Reading, "short" | "long"];
  };
}

export const of = (value: number, half = 0): Reading => ({ value, half });

/** Numbers from `first` to `last` by `step`. */
export function range(first: number, last: number, step: number): readonly number[] {
  return Array.from({ length: Math.round((last - first) / step) + 1 }, (_, index) => first + index * step);
}

/** The invented plan of the worked example and its invented catalogue. */
export const worked: Numbers = {
  bone: "tibia",
  side: "left",
  ap: { marker: of(25), seen: of(28.75, 0.2) },
  lateral: { marker: of(25), seen: of(29, 0.2) },
  scar: of(416, 2),
  plafond: of(432, 2),
  proximalSquare: of(88),
  distalSquare: of(58),
  fracture: { from: of(208), to: of(232), gap: of(3, 1) },
  canals: [
    { level: of(60), width: of(27), depth: of(24) },
    { level: of(205), width: of(12.4, 0.3), depth: of(12.2, 0.3) },
    { level: of(330), width: of(24), depth: of(21) },
  ],
  bones: [
    { level: of(30), width: of(62), depth: of(50) },
    { level: of(205), width: of(26), depth: of(29) },
    { level: of(340), width: of(36), depth: of(37) },
  ],
  heads: range(8.5, 11, 0.5),
  diameter: 10,
  length: 345,
  sunk: of(8),
  holes: [
    { name: "P2", end: "top", distance: 28, runs: "medial-lateral", slot: 6 },
    { name: "P1", end: "top", distance: 40, runs: "medial-lateral" },
    { name: "D2", end: "tip", distance: 26, runs: "medial-lateral" },
    { name: "D1", end: "tip", distance: 12, runs: "medial-lateral" },
  ],
  locks: [
    { hole: "D2", drilled: of(31), screw: 32 },
    { hole: "D1", drilled: of(33), screw: 34 },
    { hole: "P2", drilled: of(53), screw: 54 },
    { hole: "P1", drilled: of(51), screw: 52 },
  ],
  turns: 2,
  pitch: 1.25,
  travel: 6,
  cap: 5,
  lengths: range(240, 420, 15),
  screwLengths: [...range(24, 60, 2), ...range(65, 90, 5)],
  modulus: 110,
  bore: 5,
  core: 3.9,
  thread: 4.6,
  material: "titanium-alloy",
  weight: of(78),
  load: of(20),
  diastolic: of(72),
  pressure: of(28),
};
