/**
 * Plans built from plain numbers, without any text: the invented plan of the worked example, and whatever a test makes of it. The
 * same plain numbers feed the second computations the tests compare with.
 */
import type {
  Aftercare,
  CatalogueHole,
  CatalogueNail,
  LockStep,
  Place,
  Plan,
  Said,
  SizeList,
  Step,
  Typed,
  View,
  Width,
} from "../../server/meaning/plan.ts";
import { divide, exact, measured, unknown } from "../../server/quantity/arithmetic.ts";
import type { Quantity } from "../../server/quantity/quantity.ts";

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
  readonly plafond?: Reading;
  readonly kneeJoint?: Reading;
  readonly proximalSquare?: Reading;
  readonly distalSquare?: Reading;
  readonly fracture?: { readonly from: Reading; readonly to: Reading; readonly gap?: Reading };
  readonly canals: readonly SizeNumbers[];
  readonly bones: readonly SizeNumbers[];
  readonly heads?: readonly number[];
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

const of = (value: number, half = 0): Reading => ({ value, half });

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
  material: "titanium-alloy",
  weight: of(78),
  load: of(20),
  diastolic: of(72),
  pressure: of(28),
};

const file = "by-hand.isthmus";

/** Gives every value a place of its own, as a text would. */
class Typist {
  #offset = 0;

  place(): Place {
    this.#offset += 10;
    return { file, span: { start: this.#offset, end: this.#offset + 5 } };
  }

  say(text: string): Said {
    return { text, place: this.place() };
  }

  typed(quantity: Quantity): Typed {
    return { quantity, place: this.place() };
  }

  read({ value, half }: Reading, unit: string, label: string): Typed {
    const place = this.place();
    const quantity =
      half === 0
        ? exact(value, unit, `${value}`)
        : measured(value, half, unit, { id: `${file}:${place.span.start}`, label });
    return { quantity, place };
  }

  sizes(list: readonly number[]): SizeList {
    return { sizes: list.map((value) => this.read(of(value), "mm", "size")), place: this.place() };
  }
}

/** The plan these numbers stand for. Landmarks and fracture are read on ap, widths on ap, depths on lateral. */
export function planFrom(numbers: Numbers): Plan {
  const typist = new Typist();
  const views = (["ap", "lateral"] as const).map((name): View => {
    const { marker, seen } = numbers[name];
    const known = typist.read(marker, "mm", `marker on ${name}`);
    const shown = typist.read(seen, "mm", `marker seen on ${name}`);
    return {
      name: typist.say(name),
      marker: known,
      seen: shown,
      trueSize: false,
      magnification: divide(shown.quantity, known.quantity),
      place: typist.place(),
    };
  });
  const on = (name: "ap" | "lateral", reading: Reading, label: string): Typed => {
    const typed = typist.read(reading, "mm", label);
    const view = views[name === "ap" ? 0 : 1];
    return { ...typed, quantity: divide(typed.quantity, view?.magnification ?? unknown("no view")) };
  };
  const widths = (sizes: readonly SizeNumbers[], what: string): readonly Width[] =>
    sizes.map(({ level, width, depth }) => ({
      level: typist.read(level, "mm", `level of ${what}`),
      width: width && on("ap", width, `${what} width at ${level.value}`),
      depth: depth && on("lateral", depth, `${what} depth at ${level.value}`),
      widthViews: width === undefined ? [] : ["ap"],
      depthViews: depth === undefined ? [] : ["lateral"],
      place: typist.place(),
    }));
  const landmarks = [
    ["scar", numbers.scar],
    ["plafond", numbers.plafond],
    ["knee-joint", numbers.kneeJoint],
  ] as const;
  const epiphyses = [
    ["proximal", numbers.proximalSquare],
    ["distal", numbers.distalSquare],
  ] as const;
  const nail = nailFrom(typist, numbers);
  return {
    kind: "plan",
    file,
    title: typist.say("Invented"),
    statement: {
      kind: "statement",
      notes: [],
      word: { kind: "word", name: "plan", span: { start: 0, end: 4 } },
      phrases: [],
      block: undefined,
      span: { start: 0, end: 4 },
      broken: false,
    },
    problems: [],
    uses: [],
    follows: [],
    sources: [],
    status: undefined,
    summary: undefined,
    names: [],
    waivers: [],
    reviews: [],
    case: {
      label: typist.say("TN-0417"),
      place: typist.place(),
      side: typist.say(numbers.side),
      bone: typist.say(numbers.bone),
      age: undefined,
      weight: numbers.weight && typist.read(numbers.weight, "kg", "weight"),
      kneeFlexion: undefined,
      growthPlates: undefined,
      boneQuality: undefined,
      softTissue: undefined,
      fracture: numbers.fracture && {
        code: typist.say("42A2"),
        from: on("ap", numbers.fracture.from, "near edge"),
        to: on("ap", numbers.fracture.to, "far edge"),
        gap: numbers.fracture.gap && typist.read(numbers.fracture.gap, "mm", "gap"),
        contact: undefined,
        fibula: undefined,
        place: typist.place(),
      },
      alignment: numbers.alignment && alignmentFrom(typist, numbers.alignment),
      concerns: [],
    },
    views,
    measures: {
      place: typist.place(),
      landmarks: landmarks.flatMap(([name, reading]) =>
        reading === undefined
          ? []
          : [{ name: typist.say(name), level: on("ap", reading, name), place: typist.place() }],
      ),
      canals: widths(numbers.canals, "canal"),
      bones: widths(numbers.bones, "bone"),
      epiphyses: epiphyses.flatMap(([end, reading]) =>
        reading === undefined
          ? []
          : [{ end: typist.say(end), size: on("ap", reading, `${end} epiphysis`), place: typist.place() }],
      ),
      nailLength: undefined,
    },
    steps: stepsFrom(typist, numbers),
    operation: typist.place(),
    fallbacks: [],
    achieved: undefined,
    aftercare: aftercareFrom(typist, numbers),
    removal: undefined,
    questions: [],
    nail,
    screwFamilies: [
      {
        name: typist.say("peg"),
        thread: typist.read(of(4.6), "mm", "thread"),
        core: typist.read(of(numbers.core), "mm", "core"),
        drill: typist.read(of(3.8), "mm", "drill"),
        lengths: typist.sizes(numbers.screwLengths),
        withDiameters: undefined,
        place: typist.place(),
      },
    ],
    reamers: [],
  };
}

function nailFrom(typist: Typist, numbers: Numbers): CatalogueNail {
  return {
    name: typist.say("fenwick"),
    place: typist.place(),
    bone: typist.say("tibia"),
    material: typist.say(numbers.material),
    modulus: typist.read(of(numbers.modulus), "GPa", "modulus"),
    diameters: typist.sizes([9, 10, 11, 12]),
    lengths: typist.sizes(numbers.lengths),
    bore: typist.read(of(numbers.bore), "mm", "bore"),
    drivingEnd: undefined,
    bend: undefined,
    holes: numbers.holes.map(
      (hole): CatalogueHole => ({
        name: typist.say(hole.name),
        end: hole.end,
        distance: typist.read(of(hole.distance), "mm", hole.end),
        runs: hole.runs,
        oblique: hole.angle === undefined ? undefined : typist.read(of(hole.angle), "deg", "oblique"),
        tilt: hole.tilt === undefined ? undefined : typist.read(of(hole.tilt), "deg", "tilt"),
        slot: hole.slot === undefined ? undefined : typist.read(of(hole.slot), "mm", "slot"),
        takes: (hole.takes ?? ["peg"]).map((family) => typist.say(family)),
        place: typist.place(),
      }),
    ),
    compression: {
      travel: typist.read(of(numbers.travel), "mm", "travel"),
      pitch: typist.read(of(numbers.pitch), "mm", "pitch"),
      place: typist.place(),
    },
    caps: typist.sizes([0, 5, 10, 15]),
    fits: [typist.say("42A2")],
  };
}

function stepsFrom(typist: Typist, numbers: Numbers): readonly Step[] {
  const step = () => ({ place: typist.place(), wordPlace: typist.place() });
  const { heads, turns, compress, backslap, cap } = numbers;
  const lock = ({ hole, drilled, screw, near, family }: LockNumbers): LockStep => ({
    kind: "lock",
    hole: typist.say(hole),
    drilled: drilled && typist.read(drilled, "mm", `drilled ${hole}`),
    family: family === undefined ? undefined : typist.say(family),
    screw: screw === undefined ? undefined : typist.read(of(screw), "mm", "screw"),
    grip: near === true ? "near" : "both",
    ...step(),
  });
  const compression = turns === undefined ? compress && typist.read(compress, "mm", "compression") : undefined;
  return [
    heads === undefined ? { kind: "unreamed", ...step() } : { kind: "ream", heads: typist.sizes(heads), ...step() },
    {
      kind: "nail",
      name: typist.say("fenwick"),
      diameter: typist.read(of(numbers.diameter), "mm", "diameter"),
      length: typist.read(of(numbers.length), "mm", "length"),
      sunk: typist.read(numbers.sunk, "mm", "sunk"),
      ...step(),
    },
    ...numbers.locks.map(lock),
    ...(backslap === undefined
      ? []
      : [{ kind: "backslap" as const, amount: typist.read(backslap, "mm", "backslap"), ...step() }]),
    ...(turns === undefined
      ? []
      : [{ kind: "compress" as const, amount: typist.read(of(turns), "turns", "turns"), ...step() }]),
    ...(compression === undefined ? [] : [{ kind: "compress" as const, amount: compression, ...step() }]),
    ...(cap === undefined
      ? []
      : [
          {
            kind: "cap" as const,
            extension: cap === "none" ? undefined : typist.read(of(cap), "mm", "cap"),
            none: cap === "none",
            ...step(),
          },
        ]),
  ];
}

function aftercareFrom(typist: Typist, { load, diastolic, pressure, dynamise }: Numbers): Aftercare {
  return {
    place: typist.place(),
    bearing:
      load === undefined
        ? []
        : [
            {
              how: typist.say("partial"),
              load: typist.read(load, "kg", "load"),
              until: undefined,
              place: typist.place(),
            },
          ],
    watches: [
      {
        what: typist.say("compartment"),
        diastolic: diastolic && typist.read(diastolic, "mmHg", "diastolic"),
        pressure: pressure && typist.read(pressure, "mmHg", "pressure"),
        place: typist.place(),
      },
    ],
    reviews: [],
    dynamise: dynamise && {
      at: undefined,
      remove: dynamise.map((hole) => typist.say(hole)),
      place: typist.place(),
    },
    advice: [],
  };
}

function alignmentFrom(typist: Typist, { coronal, sagittal, length }: NonNullable<Numbers["alignment"]>) {
  const directed = (given: readonly [Reading, string] | undefined, unit: string) =>
    given && { amount: typist.read(given[0], unit, given[1]), direction: typist.say(given[1]) };
  return {
    coronal: directed(coronal, "deg"),
    sagittal: directed(sagittal, "deg"),
    rotation: undefined,
    length: directed(length, "mm"),
    place: typist.place(),
  };
}
