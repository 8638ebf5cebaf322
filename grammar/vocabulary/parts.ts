/**
 * Short ways to write the tables: the parts that occur everywhere and one function for each way a slot may be filled. No word
 * of the language stands here.
 */
import type { ClauseRule, DimensionName, NameKind, Part, Slot } from "./rule.ts";

export const text: Part = { kind: "text" };
export const path: Part = { kind: "path" };
export const level: Part = { kind: "level" };
export const date: Part = { kind: "date" };

export const length: Part = quantity("length");
export const angle: Part = quantity("angle");
export const time: Part = quantity("time");
export const pressure: Part = quantity("pressure");

/** Sizes one by one, or from one to another in steps. */
export const lengths: Part = either({ kind: "range", of: ["length"], stepped: true }, length);

export function quantity(...of: readonly DimensionName[]): Part {
  return { kind: "quantity", of };
}

export function choice(words: Readonly<Record<string, string>>): Part & { readonly kind: "choice" } {
  return { kind: "choice", words };
}

export function declares(name: NameKind): Part {
  return { kind: "declares", name };
}

export function names(name: NameKind): Part {
  return { kind: "names", name };
}

export function either(...parts: readonly Part[]): Part {
  return { kind: "either", parts };
}

/** A slot that must be filled once. */
export function one(name: string, part: Part, doc: string): Slot {
  return { name, part, doc };
}

/** A slot that may be left empty. */
export function optional(name: string, part: Part, doc: string): Slot {
  return { name, part, doc, times: "optional" };
}

/** A slot that takes one thing or a list. */
export function many(name: string, part: Part, doc: string): Slot {
  return { name, part, doc, times: "many" };
}

/** The same slot behind a fixed word. */
export function led(lead: string, slot: Slot): Slot {
  return { ...slot, lead };
}

/** The same slot, only after one of these words of the choice before it. */
export function after(words: readonly string[], slot: Slot): Slot {
  return { ...slot, after: words };
}

/** A clause that may stand. */
export function clause(word: string, doc: string, ...slots: readonly Slot[]): ClauseRule {
  return { word, doc, slots };
}

/** A clause that must stand. */
export function needed(word: string, doc: string, ...slots: readonly Slot[]): ClauseRule {
  return { word, doc, slots, required: true };
}
