/**
 * How other files of a plan are reached: an interface that whoever reads the disk, an editor's open texts or a test fulfils. It
 * decides itself what lies outside; nothing here opens anything.
 */
import type { Parsed } from "../../grammar/parse.ts";

export interface Library {
  /** Opens `path` as written in the file `from`, relative to that file. Never throws. */
  open(from: string, path: string): Opened;
}

/** `file` is the key under which the source is known; the same file always has the same key. */
export type Opened =
  | { readonly kind: "read"; readonly file: string; readonly parsed: Parsed }
  | { readonly kind: "missing" | "outside" | "not-a-file"; readonly because: string };
