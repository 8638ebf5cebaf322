/**
 * Plans built from plain numbers, without any text. Every value gets a place of its own, as a text would give it, and every ± a
 * reading of its own.
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
import type { LockNumbers, Numbers, Reading, SizeNumbers } from "./worked-numbers.ts";
import { of } from "./worked-numbers.ts";

const file = "by-hand.isthmus";

/** What a reading with a ± becomes; `id` is its own. */
export type Reads = (reading: Reading, unit: string, id: string, label: string) => Quantity;

const readOnce: Reads = ({ value, half }, unit, id, label) => measured(value, half, unit, { id, label });

/** Gives every value a place of its own, as a text would. */
class Typist {
  #offset = 0;
  readonly #reads: Reads;

  constructor(reads: Reads) {
    this.#reads = reads;
  }

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

  read(reading: Reading, unit: string, label: string): Typed {
    const place = this.place();
    const { value, half } = reading;
    const quantity =
      half === 0 ? exact(value, unit, `${value}`) : this.#reads(reading, unit, `${file}:${place.span.start}`, label);
    return { quantity, place };
  }

  sizes(list: readonly number[]): SizeList {
    return { sizes: list.map((value) => this.read(of(value), "mm", "size")), place: this.place() };
  }
}

/** The plan these numbers stand for. Landmarks and fracture are read on ap, widths on ap, depths on lateral. */
export function planFrom(numbers: Numbers, reads: Reads = readOnce): Plan {
  const typist = new Typist(reads);
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
    const magnification = views[name === "ap" ? 0 : 1]?.magnification ?? unknown("no view");
    const raw = exact(reading.value, "mm", `${reading.value}`);
    return {
      ...typed,
      quantity: divide(typed.quantity, magnification),
      reading: { view: name, raw, magnification },
    };
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
    [numbers.bone === "tibia" ? "plafond" : "joint", numbers.plafond],
    ["knee-joint", numbers.kneeJoint],
    ["lesser-trochanter", numbers.lesserTrochanter],
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
    bibliographies: [],
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
        thread: typist.read(of(numbers.thread), "mm", "thread"),
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
  const block = { level: typist.read(of(250), "mm", "level"), side: typist.say("medial"), family: undefined };
  return [
    ...(numbers.blocks === true ? [{ kind: "block" as const, ...block, screw: undefined, ...step() }] : []),
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
