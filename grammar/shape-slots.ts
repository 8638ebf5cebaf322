/**
 * Fills the slots of one section of a statement (its head or one clause) with the things written there. It says what is missing
 * and what is left over; which problem that makes is for the statement to decide, since it knows what comes next.
 */
import { nearest } from "./nearest.ts";
import type { Problem } from "./problems.ts";
import { faultOf, fits, strangeUnit, takesValues, unfit } from "./shape-values.ts";
import { changeWord, choicesOf, expectedIn, expectedOf, insert, isNamed, meant } from "./shape-words.ts";
import type { Item } from "./tree.ts";
import type { Slot } from "./vocabulary/rule.ts";

/** A slot that was left empty, and what should stand there. */
export interface Lack {
  readonly slot: Slot;
  readonly expected: readonly string[];
}

export interface Filling {
  /** What each slot holds; what is wrong with its unit or kind is left out. */
  readonly filled: ReadonlyMap<string, readonly Item[]>;
  /** Names of the slots for which something was written, right or wrong. */
  readonly tried: readonly string[];
  /** The slots that what is written next could fill; the last of them must be filled unless it is optional. */
  readonly open: readonly Slot[];
  /** The slot that a list goes on in after a comma. */
  readonly goesOn: Slot | undefined;
  /** The first slot that should have been filled and was not, when nothing wrong stands in its place. */
  readonly missing: Lack | undefined;
  readonly left: readonly Item[];
  readonly problems: readonly Problem[];
}

/** Reads the items, in order, into the slots. `closing` are the words that would open a clause. */
export function fillSlots(slots: readonly Slot[], items: readonly Item[], closing: ReadonlySet<string>): Filling {
  return new Filler(slots, items, closing).fill();
}

/** True when nothing needs to be written for the slot. */
function mayBeAbsent(slot: Slot): boolean {
  return slot.times === "optional" || slot.times === "any";
}

function takesList(slot: Slot): boolean {
  return slot.times === "many" || slot.times === "any";
}

const none: readonly never[] = [];

class Filler {
  readonly slots: readonly Slot[];
  readonly items: readonly Item[];
  readonly closing: ReadonlySet<string>;
  readonly filled = new Map<string, readonly Item[]>();
  readonly tried: string[] = [];
  readonly problems: Problem[] = [];
  /** Index of the next item. */
  at = 0;
  missing: Lack | undefined;

  constructor(slots: readonly Slot[], items: readonly Item[], closing: ReadonlySet<string>) {
    this.slots = slots;
    this.items = items;
    this.closing = closing;
  }

  fill(): Filling {
    for (const [index, slot] of this.slots.entries()) {
      if (this.applies(slot)) this.fillOne(slot, index);
    }
    const last = this.lastTried();
    return {
      filled: this.filled,
      tried: this.tried,
      open: this.openSlots(last),
      goesOn: last !== undefined && takesList(last) && this.at === this.items.length ? last : undefined,
      missing: this.missing,
      left: this.at < this.items.length ? this.items.slice(this.at) : none,
      problems: this.problems,
    };
  }

  fillOne(slot: Slot, index: number): void {
    const led = this.readLead(slot);
    if (led === "absent") return;
    const absentAllowed = mayBeAbsent(slot) && led !== "read";
    const taken = this.takeInto(slot, index, absentAllowed);
    if (taken || absentAllowed) return;
    const item = this.items[this.at];
    if (item === undefined || this.belongsLater(item, index)) {
      this.lack(slot, expectedOf(slot.part));
      return;
    }
    this.at += 1;
    this.try(slot);
    this.problems.push(unfit(item, slot.part));
  }

  /** Takes what fits: one thing, or as many as a list holds. False when nothing could be taken. */
  takeInto(slot: Slot, index: number, absentAllowed: boolean): boolean {
    const from = this.at;
    const taken: Item[] = [];
    while (this.at === from || takesList(slot)) {
      const item = this.items[this.at];
      if (item === undefined || (this.at > from && this.closes(item))) break;
      const fault = this.faultIn(item, slot, index, absentAllowed, this.at > from);
      if (fault === "elsewhere") break;
      this.at += 1;
      if (fault === undefined) taken.push(item);
      else this.problems.push(this.withWordBehind(fault, slot, index));
    }
    if (this.at === from) return false;
    this.try(slot);
    if (taken.length > 0) this.filled.set(slot.name, taken);
    return true;
  }

  /** What is wrong with an item as part of a slot. Further down the last slot, what fits nowhere is a fault of its list. */
  faultIn(
    item: Item,
    slot: Slot,
    index: number,
    absentAllowed: boolean,
    inList: boolean,
  ): Problem | "elsewhere" | undefined {
    if (this.goesInto(item, slot, index, absentAllowed)) return faultOf(item, slot.part);
    return inList && index === this.slots.length - 1 ? unfit(item, slot.part) : "elsewhere";
  }

  /** A number without a unit and a word that fits nowhere behind it are one mistake: the word was meant for the unit. */
  withWordBehind(fault: Problem, slot: Slot, index: number): Problem {
    const next = this.items[this.at];
    if (fault.slug !== "unit-missing" || next?.kind !== "word" || this.closes(next)) return fault;
    if (this.leads(next.name, index) || this.choiceLater(next.name, index)) return fault;
    const strange = this.nearChoiceLater(next.name, index) ? undefined : strangeUnit(next, slot.part);
    if (strange !== undefined) this.at += 1;
    return strange ?? fault;
  }

  goesInto(item: Item, slot: Slot, index: number, absentAllowed: boolean): boolean {
    if (!fits(item, slot.part)) return false;
    if (item.kind !== "word") return true;
    if (absentAllowed && slot.lead === undefined && this.items.length - this.at <= this.neededAfter(index))
      return false;
    if (this.leads(item.name, index)) return false;
    return !(takesValues(slot.part) && this.choiceLater(item.name, index));
  }

  /** Reads the fixed word before a slot. "absent": nothing is meant to stand here. */
  readLead(slot: Slot): "none" | "read" | "absent" {
    if (slot.lead === undefined) return "none";
    const item = this.items[this.at];
    if (isLead(item, slot.lead)) {
      this.at += 1;
      this.try(slot);
      return "read";
    }
    if (mayBeAbsent(slot)) return "absent";
    if (item?.kind === "word" && meant(item.name, [slot.lead]) !== undefined && this.items.length > this.at + 1) {
      const repairs = [changeWord(item, slot.lead)];
      const near = slot.lead;
      this.problems.push({ slug: "unknown-word", span: item.span, found: item.name, expected: [near], near, repairs });
      this.at += 1;
      return "read";
    }
    if (item === undefined || !fits(item, slot.part)) {
      this.lack(slot, expectedIn(slot));
      return "absent";
    }
    const repairs = [insert(`Write \`${slot.lead}\` before it`, item.span.start, `${slot.lead} `)];
    this.problems.push({ slug: "missing", span: item.span, expected: [slot.lead], repairs });
    return "read";
  }

  /** Only the first thing that is missing is told, and nothing once something wrong stands in the section. */
  lack(slot: Slot, expected: readonly string[]): void {
    if (this.missing === undefined && this.problems.length === 0) this.missing = { slot, expected };
  }

  applies(slot: Slot): boolean {
    return slot.after === undefined || slot.after.some((word) => this.isChosen(word));
  }

  isChosen(word: string): boolean {
    return [...this.filled.values()].some((items) => items.some((item) => isNamed(item, word)));
  }

  try({ name }: Slot): void {
    if (!this.tried.includes(name)) this.tried.push(name);
  }

  belongsLater(item: Item, index: number): boolean {
    if (this.closes(item)) return true;
    return this.later(index).some((slot) => isLead(item, slot.lead) || fits(item, slot.part));
  }

  closes(item: Item): boolean {
    return item.kind === "word" && this.closing.has(item.name);
  }

  /** How many things must still be written after this slot, at the least. */
  neededAfter(index: number): number {
    return this.later(index).filter((slot) => !mayBeAbsent(slot) && slot.after === undefined).length;
  }

  leads(word: string, index: number): boolean {
    return this.later(index).some((slot) => slot.lead === word);
  }

  choiceLater(word: string, index: number): boolean {
    return this.later(index).some((slot) => choicesOf(slot.part).includes(word));
  }

  nearChoiceLater(word: string, index: number): boolean {
    return this.later(index).some((slot) => nearest(word, choicesOf(slot.part)) !== undefined);
  }

  later(index: number): readonly Slot[] {
    return index + 1 < this.slots.length ? this.slots.slice(index + 1) : none;
  }

  lastTried(): Slot | undefined {
    return this.slots.findLast((slot) => this.tried.includes(slot.name));
  }

  openSlots(last: Slot | undefined): readonly Slot[] {
    if (this.missing !== undefined) return this.upToNeeded(this.slots.indexOf(this.missing.slot));
    const next = last === undefined ? 0 : this.slots.indexOf(last) + 1;
    const following = this.upToNeeded(next);
    return last !== undefined && takesList(last) ? [last, ...following] : following;
  }

  /** The slots from an index on, as far as the first that must be filled. */
  upToNeeded(from: number): readonly Slot[] {
    const open: Slot[] = [];
    for (const slot of this.slots.slice(from)) {
      if (!this.applies(slot)) continue;
      open.push(slot);
      if (!mayBeAbsent(slot)) break;
    }
    return open;
  }
}

function isLead(item: Item | undefined, lead: string | undefined): boolean {
  if (item === undefined || lead === undefined) return false;
  return item.kind === "equals" ? lead === "=" : isNamed(item, lead);
}
