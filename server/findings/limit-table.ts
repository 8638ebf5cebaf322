/**
 * Every limit a finding may use: its name, its default, its unit, what it is based on and whom the figure was measured on. A
 * protocol may override any of them by name; how that is done stands in `limits.ts`. No limit stands anywhere else.
 */
import type { Basis } from "../reckoning/reckoning.ts";
import { commonPractice, noFigure, practiceAnd } from "./common-practice.ts";

/** One limit by default. Both ends are inclusive: a value equal to an end keeps the limit. */
export interface LimitEntry {
  readonly name: string;
  /** Plain words, no full stop: "last reamer head over the nail". */
  readonly title: string;
  readonly least?: number;
  readonly most?: number;
  /** Unit of the numbers above, a word of `server/quantity/units.ts`; "1" for a bare ratio or a count. */
  readonly unit: string;
  readonly basis: Basis;
  readonly population?: string;
  /** What else a reader should know: where the limit comes from when it has no number here, its bounds of use. */
  readonly remark?: string;
}

/** Of the limit `top-below-joint` and of the rule that uses it. */
export const nearJointSource: Basis = {
  mark: "printed",
  text: "Coll Antropol 2011: no pain in front of the knee more than 6.0 mm below the plateau",
};

function choice(text: string): Basis {
  return { mark: "department's choice", text };
}

function printed(text: string): Basis {
  return { mark: "printed", text };
}

export const limitTable = [
  {
    name: "achieved-alignment",
    title: "angle achieved against a straight bone",
    unit: "deg",
    basis: choice("department's choice"),
    remark: "Information only. By default the limits of the alignment alone; a protocol can set a smaller one.",
  },
  {
    name: "achieved-compression",
    title: "compression or backslap achieved against planned",
    most: 1,
    unit: "mm",
    basis: choice("department's choice"),
    remark: "Information only.",
  },
  {
    name: "achieved-diameter",
    title: "nail or last reamer head used against planned",
    most: 0,
    unit: "mm",
    basis: choice("department's choice: any other size is told"),
    remark: "Information only.",
  },
  {
    name: "achieved-length",
    title: "nail or end cap used against planned",
    most: 0,
    unit: "mm",
    basis: choice("department's choice: any other size is told"),
    remark: "Information only.",
  },
  {
    name: "achieved-level",
    title: "depth of the nail, entry or blocking screw against planned",
    most: 5,
    unit: "mm",
    basis: choice("department's choice"),
    remark: "Information only.",
  },
  {
    name: "achieved-screw",
    title: "locking screw used against planned",
    most: 2,
    unit: "mm",
    basis: choice("department's choice: one step of a common set of lengths"),
    remark: "Information only.",
  },
  {
    name: "coronal",
    title: "varus or valgus",
    most: 5,
    unit: "deg",
    basis: printed("Freedman & Johnson, Clin Orthop 1995;315:25: malaligned from 5 deg in any plane"),
    population: "133 tibial shaft fractures after nailing",
  },
  {
    name: "compartment-gradient",
    title: "diastolic pressure less compartment pressure",
    least: 30,
    unit: "mmHg",
    basis: printed("McQueen & Court-Brown, J Bone Joint Surg Br 1996;78-B:99-104: decompress strictly below 30 mmHg"),
    population: "116 patients with tibial shaft fractures",
  },
  {
    name: "compression",
    title: "compression through the nail",
    unit: "mm",
    basis: { mark: "catalogue", text: "the travel that the catalogue gives for the nail" },
    remark: "By default the catalogue's travel; a protocol can set a smaller one.",
  },
  {
    name: "cortex-left",
    title: "cortex left after reaming",
    least: 3,
    unit: "mm",
    basis: noFigure,
    remark: "Information only.",
  },
  {
    name: "drilled-versus-predicted",
    title: "drilled depth against the bone's predicted chord",
    most: 6,
    unit: "mm",
    basis: choice("geometry of the bone's ellipse; the tolerance is the department's choice"),
  },
  {
    name: "dynamise-from",
    title: "earliest dynamisation",
    least: 6,
    unit: "weeks",
    basis: choice(
      "department's choice, for comparison Pesciallo et al. 2021, doi 10.1007/s43465-021-00523-1: 18.4 ± 7.2 weeks",
    ),
    population: "39 tibial nailings in the series named",
    remark: "Information only.",
  },
  {
    name: "entry-from-midline",
    title: "entry point lateral to the midline",
    least: 4.1,
    most: 14.1,
    unit: "mm",
    basis: {
      mark: "computed",
      text: "Tornetta et al., J Orthop Trauma 1999;13:247-251: 9.1 ± 5 mm lateral to the midline of the plateau",
    },
    remark: "Lateral counts positive, medial negative.",
  },
  {
    name: "fatigue-distance",
    title: "fracture to the nearer of the far holes",
    least: 50,
    unit: "mm",
    basis: printed("Bucholz, Ross & Lawrence, J Bone Joint Surg Am 1987;69-A:1391-1399: nail at risk within 5 cm"),
    population: "femoral nails; for other bones a caution only",
    remark: "Information only; a distance of exactly 50 mm is found.",
  },
  {
    name: "fit-ratio",
    title: "nail diameter over canal diameter",
    least: 0.8,
    most: 0.99,
    unit: "1",
    basis: printed('"Size matters" series of the nail to canal ratio, J Orthop Trauma 2016: 0.80 to 0.99'),
    population: "78 tibial shaft fractures",
    remark: "Of a femur or a humerus only when a protocol sets it.",
  },
  {
    name: "fit-ratio-femur",
    title: "nail diameter over canal diameter of a femur",
    least: 0.7,
    unit: "1",
    basis: printed(
      "J Orthop Trauma 2018: below 70 % of the canal exchange nailing, 90 % or more ideal; BMC 2022 found no effect",
    ),
    population: "femoral shaft fractures; how many was not seen",
    remark: "Information only: the evidence conflicts.",
  },
  {
    name: "gap-strain",
    title: "strain in the fracture gap",
    most: 10,
    unit: "%",
    basis: {
      mark: "from memory",
      text: "Perren, J Bone Joint Surg Br 2002;84-B:1093, from memory, check against the source: (fibro)cartilage up to 10 %",
    },
    remark: "Information only; compared with the bounds of a teaching estimate.",
  },
  {
    name: "hole-to-fracture",
    title: "locking hole to the fracture's edge",
    least: 10,
    unit: "mm",
    basis: commonPractice,
  },
  {
    name: "knee-flexion",
    title: "knee flexion for an entry below the patella",
    least: 90,
    unit: "deg",
    basis: commonPractice,
  },
  {
    name: "magnification",
    title: "magnification of a view",
    least: 1,
    most: 1.4,
    unit: "1",
    basis: commonPractice,
  },
  {
    name: "narrow-canal",
    title: "isthmus of the canal",
    least: 8,
    unit: "mm",
    basis: practiceAnd("for the heat caution Leunig & Hertel, J Bone Joint Surg Br 1996;78-B:584"),
    population: "three patients with thermal necrosis, each with a narrow canal and a tourniquet",
  },
  {
    name: "reaming-over-isthmus",
    title: "last reamer head over the isthmus",
    most: 2,
    unit: "mm",
    basis: noFigure,
    remark: "Information only; what is proposed keeps it.",
  },
  {
    name: "reaming-over-nail",
    title: "last reamer head over the nail",
    least: 0.5,
    most: 1.5,
    unit: "mm",
    basis: commonPractice,
  },
  {
    name: "reaming-start-over-isthmus",
    title: "first reamer head over the isthmus",
    most: 0.5,
    unit: "mm",
    basis: commonPractice,
  },
  {
    name: "reaming-step",
    title: "step from one reamer head to the next",
    most: 0.5,
    unit: "mm",
    basis: printed(
      "Baumgart, Kohler & Ochsner, Injury 1998;29 Suppl 2:B11-25, doi 10.1016/s0020-1383(98)80058-2: at most 0.5 mm",
    ),
  },
  {
    name: "rotation",
    title: "rotation against the other side",
    most: 10,
    unit: "deg",
    basis: printed("Puloski et al., J Orthop Trauma 2004: malrotation above 10 deg"),
  },
  {
    name: "sagittal",
    title: "procurvatum or recurvatum",
    most: 5,
    unit: "deg",
    basis: printed("Freedman & Johnson, Clin Orthop 1995;315:25: malaligned from 5 deg in any plane"),
    population: "133 tibial shaft fractures after nailing",
    remark: "Anneberg & Brink, Injury 2018;49 Suppl 1:S66 use 10 deg; a protocol can set it.",
  },
  {
    name: "screws-per-fragment",
    title: "locking screws in a main fragment",
    least: 2,
    unit: "1",
    basis: practiceAnd(
      "for one distal screw Kneifel & Buckley, Injury 1996;27:271: 13 of 22 single screws failed, 1 of 20 pairs",
    ),
    population: "42 tibial nailings in the series named",
  },
  {
    name: "screws-short-fragment",
    title: "locking screws in a short fragment",
    least: 3,
    unit: "1",
    basis: commonPractice,
    remark: "When the fracture lies in an end segment.",
  },
  {
    name: "shortening",
    title: "shortening of the bone",
    most: 10,
    unit: "mm",
    basis: printed("Anneberg & Brink, Injury 2018;49 Suppl 1:S66: shortening less than 10 mm"),
  },
  {
    name: "tip-beyond-cortex",
    title: "screw tip past the far cortex",
    least: 0,
    most: 2,
    unit: "mm",
    basis: commonPractice,
  },
  {
    name: "tip-past-fracture",
    title: "nail tip past the fracture",
    least: 40,
    unit: "mm",
    basis: choice("department's choice"),
  },
  {
    name: "tip-to-plafond",
    title: "nail tip to the far joint surface",
    least: 5,
    unit: "mm",
    basis: commonPractice,
  },
  {
    name: "top-below-bone",
    title: "driving end below the bone's surface",
    least: 0,
    most: 15,
    unit: "mm",
    basis: practiceAnd("never proud"),
  },
  {
    name: "top-below-joint",
    title: "driving end of a tibial nail below the knee joint",
    least: 6,
    unit: "mm",
    basis: nearJointSource,
    population: "tibiae; a single series",
    remark: "A distance equal to the limit is found too.",
  },
] as const satisfies readonly LimitEntry[];

export type LimitName = (typeof limitTable)[number]["name"];
