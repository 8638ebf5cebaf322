/**
 * Which part of a statement a place belongs to, its head or one of its clauses, and which slots of that part could be filled
 * there. It reads the vocabulary's form and none of its words.
 */
import { type Filling, fillSlots } from "../../grammar/shape-slots.ts";
import type { Item, Phrase } from "../../grammar/tree.ts";
import type { ClauseRule, Slot, StatementRule } from "../../grammar/vocabulary/rule.ts";

export interface Section {
  /** Undefined in the head. */
  readonly clause: ClauseRule | undefined;
  /** The slots that could be filled next, in order. */
  readonly open: readonly Slot[];
  /** True when the first open slot's fixed word stands there already. */
  readonly ledIn: boolean;
  /** What is written in the part before the place. */
  readonly written: readonly Item[];
  /** True when nothing stands between the last comma, or the statement's word, and the place. */
  readonly alone: boolean;
}

interface Begun {
  readonly clause: ClauseRule | undefined;
  readonly phrase: number;
  /** Index in the phrase of the first item behind the clause's word. */
  readonly from: number;
}

/** The part of a statement at `cut`, an offset in the phrase `index`; what stands behind it is not looked at. */
export function sectionAt(rule: StatementRule, phrases: readonly Phrase[], index: number, cut: number): Section {
  const earlier = phrases.slice(0, index + 1).map(({ items }) => items.filter(({ span }) => span.end <= cut));
  const begun = begunBefore(rule, earlier);
  const slots = begun.clause?.slots ?? rule.slots;
  const closing = new Set(rule.clauses.map(({ word }) => word));
  const own = earlier.slice(begun.phrase).map((items, at) => (at === 0 ? items.slice(begun.from) : items));
  const current = earlier[index] ?? [];
  const shared = { clause: begun.clause, written: own.flat(), alone: current.length === 0 };
  const [first = [], ...more] = own;
  const filling = fillSlots(slots, first, closing);
  if (more.length === 0) {
    const open = filling.left.length > 0 ? [] : openSlots(slots, first, closing, filling);
    return { ...shared, open, ledIn: isLed(first.at(-1), open[0]) };
  }
  const { goesOn } = filling;
  if (goesOn === undefined) return { ...shared, open: [], ledIn: false };
  const { lead: _, ...list } = goesOn;
  return { ...shared, open: [list], ledIn: false };
}

/** Those that the filling tells, those that may be left out before them, and the one that would take a further word. */
function openSlots(
  slots: readonly Slot[],
  items: readonly Item[],
  closing: ReadonlySet<string>,
  { open, tried }: Filling,
): readonly Slot[] {
  const last = slots.findLastIndex(({ name }) => tried.includes(name));
  const next = slots.findIndex((slot) => open.includes(slot));
  const passed = slots.slice(last + 1, Math.max(next, 0)).filter(({ after }) => after === undefined);
  const behind = items.at(-1)?.span.end ?? 0;
  const further: Item = { kind: "word", name: "", span: { start: behind, end: behind } };
  const { filled } = fillSlots(slots, [...items, further], closing);
  const taking = slots.filter(({ name }) => filled.get(name)?.includes(further) === true);
  const all = new Set([...passed, ...open, ...taking]);
  return slots.filter((slot) => all.has(slot));
}

function begunBefore(rule: StatementRule, phrases: readonly (readonly Item[])[]): Begun {
  for (let phrase = phrases.length - 1; phrase >= 0; phrase -= 1) {
    const items = phrases[phrase] ?? [];
    for (let at = items.length - 1; at >= 0; at -= 1) {
      if (phrase === 0 && at === 0 && rule.slots.length > 0) continue;
      const clause = clauseNamed(rule, items[at]);
      if (clause !== undefined) return { clause, phrase, from: at + 1 };
    }
  }
  return { clause: undefined, phrase: 0, from: 0 };
}

function clauseNamed(rule: StatementRule, item: Item | undefined): ClauseRule | undefined {
  return item?.kind === "word" ? rule.clauses.find(({ word }) => word === item.name) : undefined;
}

function isLed(item: Item | undefined, slot: Slot | undefined): boolean {
  if (item === undefined || slot?.lead === undefined) return false;
  return item.kind === "equals" ? slot.lead === "=" : item.kind === "word" && item.name === slot.lead;
}
