/**
 * What a document means: readonly values with their places, names resolved, unknown where the text leaves them unknown. Nothing
 * is computed here beyond the expressions typed in the text, and nothing is judged.
 */
import type { Problem } from "../../grammar/problems.ts";
import type { Span, Statement } from "../../grammar/tree.ts";
import type { Quantity } from "../quantity/quantity.ts";
import type { Bibliography } from "./bibliography.ts";
import type { Question, Review } from "./record.ts";

/** Where something stands: `file` is the key of a source in the library (a path or a URI). */
export interface Place {
  readonly file: string;
  readonly span: Span;
}

/** A quantity as typed: its value and the place of its expression. */
export interface Typed {
  readonly quantity: Quantity;
  readonly place: Place;
  /** Set when the whole expression is one reading on a view with a scale; `raw` is the number on the image without its ±. */
  readonly reading?: { readonly view: string; readonly raw: Quantity; readonly magnification: Quantity };
}

/** A word or a text as typed. */
export interface Said {
  readonly text: string;
  readonly place: Place;
}

/** A list of sizes, ranges with a step written out up to their `last`. Unknown members stand for what could not be read. */
export interface SizeList {
  readonly sizes: readonly Typed[];
  readonly place: Place;
  readonly ranges?: readonly { readonly to: Typed; readonly last: Typed }[];
}

export interface Named {
  readonly name: string;
  readonly kind: "value" | "landmark";
  readonly typed: Typed;
  readonly declared: Place;
  readonly uses: readonly Place[];
}

export type Document = Plan | Catalogue | Protocol;

/** What every kind of document has. */
interface Common {
  readonly file: string;
  readonly title: Said;
  /** The statement that opens the document. */
  readonly statement: Statement;
  /** Problems of meaning in this file alone (shape, names, units, imports). */
  readonly problems: readonly Problem[];
}

export interface Plan extends Common {
  readonly kind: "plan";
  readonly uses: readonly Import<Catalogue>[];
  readonly follows: readonly Import<Protocol>[];
  readonly sources: readonly Said[];
  /** One for each of `sources`, in their order. */
  readonly bibliographies: readonly Bibliography[];
  readonly status: Said | undefined;
  readonly summary: Said | undefined;
  readonly names: readonly Named[];
  readonly waivers: readonly Waiver[];
  readonly reviews: readonly Review[];
  readonly case: Case | undefined;
  readonly views: readonly View[];
  readonly measures: Measures;
  readonly steps: readonly Step[];
  /** Place of the `operation` block, else of the plan's word. */
  readonly operation: Place;
  readonly fallbacks: readonly Fallback[];
  readonly achieved: Achieved | undefined;
  readonly aftercare: Aftercare | undefined;
  readonly removal: Removal | undefined;
  readonly questions: readonly Question[];
  /** The nail of the plan's nail step in the catalogues read, when it is there. */
  readonly nail: CatalogueNail | undefined;
  readonly screwFamilies: readonly ScrewFamily[];
  readonly reamers: readonly Reamers[];
}

export interface Import<T> {
  readonly path: Said;
  /** Undefined when the file could not be read or is of another kind. */
  readonly document: T | undefined;
}

export interface Waiver {
  readonly finding: Said;
  readonly at: Said | undefined;
  readonly because: Said | undefined;
  readonly signed: Said | undefined;
  readonly place: Place;
}

export type Bone = "tibia" | "femur" | "humerus";

export interface Case {
  readonly label: Said;
  readonly place: Place;
  readonly side: Said | undefined;
  readonly bone: (Said & { readonly text: Bone | string }) | undefined;
  readonly age: Typed | undefined;
  readonly weight: Typed | undefined;
  readonly kneeFlexion: Typed | undefined;
  readonly growthPlates: Said | undefined;
  readonly boneQuality: Said | undefined;
  readonly softTissue: { readonly kind: Said; readonly grade: Said | undefined; readonly place: Place } | undefined;
  readonly fracture: Fracture | undefined;
  readonly alignment: Alignment | undefined;
  readonly concerns: readonly Said[];
}

export interface Fracture {
  readonly code: Said | undefined;
  readonly from: Typed | undefined;
  readonly to: Typed | undefined;
  readonly gap: Typed | undefined;
  readonly contact: Typed | undefined;
  readonly fibula: Said | undefined;
  readonly place: Place;
}

/** Magnitudes as typed with their direction words. */
export interface Alignment {
  readonly coronal: Directed | undefined;
  readonly sagittal: Directed | undefined;
  readonly rotation: Directed | undefined;
  /** `direction` is "short" or "long". */
  readonly length: Directed | undefined;
  readonly place: Place;
}

export interface Directed {
  readonly amount: Typed;
  readonly direction: Said;
}

export interface View {
  readonly name: Said;
  /** Undefined for `true-size`. */
  readonly marker: Typed | undefined;
  readonly seen: Typed | undefined;
  readonly trueSize: boolean;
  /** Seen size over true size; exactly 1 for `true-size`. Every reading on the view was divided by it. */
  readonly magnification: Quantity;
  readonly place: Place;
}

export interface Measures {
  readonly place: Place | undefined;
  readonly landmarks: readonly Landmark[];
  readonly canals: readonly Width[];
  readonly bones: readonly Width[];
  readonly epiphyses: readonly { readonly end: Said; readonly size: Typed; readonly place: Place }[];
  readonly nailLength: Typed | undefined;
}

export interface Landmark {
  readonly name: Said;
  readonly level: Typed;
  readonly place: Place;
}

/** A level with the width side to side and the depth front to back; true sizes, views divided out. */
export interface Width {
  readonly level: Typed;
  readonly width: Typed | undefined;
  readonly depth: Typed | undefined;
  /** Names of the views each was read on, also through the names in its expression. */
  readonly widthViews: readonly string[];
  readonly depthViews: readonly string[];
  readonly place: Place;
}

export type Step =
  | PrepareStep
  | PositionStep
  | ReduceStep
  | EnterStep
  | WireStep
  | ReamStep
  | UnreamedStep
  | NailStep
  | BlockStep
  | LockStep
  | CompressStep
  | BackslapStep
  | CapStep
  | CheckStep
  | OtherStep;

interface StepBase {
  readonly place: Place;
  /** The step's own word, for pointing at it. */
  readonly wordPlace: Place;
}
export interface PrepareStep extends StepBase {
  readonly kind: "prepare";
  readonly things: readonly Said[];
}
export interface PositionStep extends StepBase {
  readonly kind: "position";
  readonly posture: Said | undefined;
  readonly table: Said | undefined;
  readonly support: Said | undefined;
  readonly knee: Typed | undefined;
}
export interface ReduceStep extends StepBase {
  readonly kind: "reduce";
  readonly how: Said | undefined;
  readonly using: readonly Said[];
  readonly hold: readonly Said[];
}
export interface EnterStep extends StepBase {
  readonly kind: "enter";
  readonly approach: Said | undefined;
  readonly fromMidline: Directed | undefined;
}
export interface WireStep extends StepBase {
  readonly kind: "wire";
  readonly tip: Said | undefined;
}
export interface ReamStep extends StepBase {
  readonly kind: "ream";
  readonly heads: SizeList;
}
export interface UnreamedStep extends StepBase {
  readonly kind: "unreamed";
}
export interface NailStep extends StepBase {
  readonly kind: "nail";
  readonly name: Said | undefined;
  readonly diameter: Typed | undefined;
  readonly length: Typed | undefined;
  readonly sunk: Typed | undefined;
}
export interface BlockStep extends StepBase {
  readonly kind: "block";
  readonly level: Typed | undefined;
  readonly side: Said | undefined;
  readonly family: Said | undefined;
  readonly screw: Typed | undefined;
}
export interface LockStep extends StepBase {
  readonly kind: "lock";
  readonly hole: Said;
  readonly drilled: Typed | undefined;
  readonly family: Said | undefined;
  readonly screw: Typed | undefined;
  /** "both" when not said. */
  readonly grip: "both" | "near";
}
export interface CompressStep extends StepBase {
  readonly kind: "compress";
  /** In turns or in length, as typed. */
  readonly amount: Typed | undefined;
}
export interface BackslapStep extends StepBase {
  readonly kind: "backslap";
  readonly amount: Typed | undefined;
}
export interface CapStep extends StepBase {
  readonly kind: "cap";
  readonly extension: Typed | undefined;
  readonly none: boolean;
}
export interface CheckStep extends StepBase {
  readonly kind: "check";
  readonly things: readonly Said[];
}
export interface OtherStep extends StepBase {
  readonly kind: "step";
  readonly text: Said | undefined;
}

export interface Fallback {
  readonly when: Said;
  readonly steps: readonly Step[];
  readonly place: Place;
}

export interface Achieved {
  readonly steps: readonly Step[];
  readonly alignment: Alignment | undefined;
  readonly place: Place;
}

export interface Aftercare {
  readonly place: Place;
  readonly bearing: readonly {
    readonly how: Said;
    readonly load: Typed | undefined;
    readonly until: Typed | undefined;
    readonly place: Place;
  }[];
  readonly watches: readonly {
    readonly what: Said;
    readonly diastolic: Typed | undefined;
    readonly pressure: Typed | undefined;
    readonly place: Place;
  }[];
  readonly reviews: readonly Typed[];
  readonly dynamise:
    | { readonly at: Typed | undefined; readonly remove: readonly Said[]; readonly place: Place }
    | undefined;
  readonly advice: readonly Said[];
}

export interface Removal {
  readonly place: Place;
  readonly steps: readonly {
    readonly kind: "take" | "attach" | "withdraw" | "step";
    readonly things: readonly Said[];
    readonly place: Place;
  }[];
}

export interface Catalogue extends Common {
  readonly kind: "catalogue";
  readonly notice: Said | undefined;
  readonly nails: readonly CatalogueNail[];
  readonly screws: readonly ScrewFamily[];
  readonly reamers: readonly Reamers[];
}

export interface CatalogueNail {
  readonly name: Said;
  readonly place: Place;
  readonly bone: Said | undefined;
  readonly material: Said | undefined;
  readonly modulus: Typed | undefined;
  readonly diameters: SizeList | undefined;
  readonly lengths: SizeList | undefined;
  readonly bore: Typed | undefined;
  readonly drivingEnd: { readonly diameter: Typed; readonly along: Typed | undefined } | undefined;
  readonly bend: { readonly angle: Typed; readonly at: Typed | undefined } | undefined;
  readonly holes: readonly CatalogueHole[];
  readonly compression:
    | { readonly travel: Typed | undefined; readonly pitch: Typed | undefined; readonly place: Place }
    | undefined;
  readonly caps: SizeList | undefined;
  readonly fits: readonly Said[];
}

export interface CatalogueHole {
  readonly name: Said;
  readonly end: "top" | "tip" | undefined;
  readonly distance: Typed | undefined;
  readonly runs: "medial-lateral" | "anterior-posterior" | "oblique" | undefined;
  readonly oblique: Typed | undefined;
  readonly tilt: Typed | undefined;
  readonly slot: Typed | undefined;
  readonly takes: readonly Said[];
  readonly place: Place;
}

export interface ScrewFamily {
  readonly name: Said;
  readonly thread: Typed | undefined;
  readonly core: Typed | undefined;
  readonly drill: Typed | undefined;
  readonly lengths: SizeList | undefined;
  readonly withDiameters: SizeList | undefined;
  readonly place: Place;
}

export interface Reamers {
  readonly heads: SizeList | undefined;
  readonly frontCutting: SizeList | undefined;
  readonly place: Place;
}

export interface Protocol extends Common {
  readonly kind: "protocol";
  readonly limits: readonly LimitSetting[];
  readonly grades: readonly { readonly finding: Said; readonly grade: Said; readonly place: Place }[];
  readonly demands: readonly Said[];
  /** Findings that no waiver covers. */
  readonly neverWaived: readonly Said[];
  /** A named set of limits; the limits of the lines before it give way to it. */
  readonly profiles: readonly { readonly name: Said; readonly place: Place }[];
}

export interface LimitSetting {
  readonly name: Said;
  readonly least: Typed | undefined;
  readonly most: Typed | undefined;
  readonly because: Said | undefined;
  readonly source: Said | undefined;
  readonly place: Place;
}
