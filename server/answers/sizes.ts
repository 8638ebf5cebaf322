/**
 * Listed sizes for a step of the operation, each with what it would lead to: the plan reckoned with that size in its place, by the
 * same engine that reckons the plan. Nothing is computed here.
 */
import type { Item, Span } from "../../grammar/tree.ts";
import { overlay } from "../meaning/overlay.ts";
import type { Place, Plan, SizeList, Step, Typed } from "../meaning/plan.ts";
import { print } from "../quantity/print.ts";
import { reckon } from "../reckoning/reckon.ts";
import type { Analysis } from "./analyse.ts";
import type { Inside } from "./cursor.ts";
import { headName } from "./statements.ts";
import type { Value } from "./values.ts";
import { answerInWords } from "./wording.ts";

/** The plan that a step belongs to: itself, or with the fallback or the achieved steps laid over. */
interface Setting {
  readonly plan: Plan;
  /** Undefined when the line cannot be read as a step yet. */
  readonly step: Step | undefined;
  readonly place: Place;
}

/** The step with a size in it; undefined when the line says too little for that. */
type Change = (size: Typed) => Step | undefined;

/** Those that are not written there yet; empty for a slot that no list of a catalogue is for. */
export function sizeValues(analysis: Analysis, cursor: Inside, slot: string): Value[] {
  const written = new Set(cursor.section.written.map(sizeAsTyped));
  return listedFor(analysis, cursor, slot).filter(({ text }) => !written.has(text));
}

function sizeAsTyped(item: Item): string {
  return item.kind === "quantity" ? `${item.number.text} ${item.unit?.unit ?? ""}` : "";
}

function listedFor(analysis: Analysis, cursor: Inside, slot: string): Value[] {
  const { document } = analysis.meaning;
  if (document?.kind !== "plan") return [];
  const { shaped, section } = cursor;
  const setting = settingOf(document, cursor.block, shaped.statement.word.span);
  const { step, plan, place } = setting;
  const nail = step?.kind === "nail" ? step : undefined;
  const bare = { place, wordPlace: place };
  switch (`${shaped.statement.word.name} ${section.clause?.word ?? ""} ${slot}`) {
    case "nail diameter diameter":
      return tried(plan.nail?.diameters, setting, "ream.over", (diameter) => nail && { ...nail, diameter });
    case "nail length length":
      return tried(plan.nail?.lengths, setting, "tip.toScar", (length) => nail && { ...nail, length });
    case "lock screw length":
      return screwValues(setting, headName(shaped) ?? "", section.written);
    case "cap  extension":
      return tried(plan.nail?.caps, setting, "cap.top", (extension) => {
        return { ...bare, kind: "cap", extension, none: false };
      });
    case "ream  heads":
      return plan.reamers.flatMap(({ heads }) =>
        tried(heads, setting, "ream.over", (head) => ({ ...bare, kind: "ream", heads: only(head) })),
      );
    default:
      return [];
  }
}

function settingOf(plan: Plan, block: string, span: Span): Setting {
  const place = { file: plan.file, span };
  const at = (steps: readonly Step[]): Step | undefined => steps.find((step) => isAt(step.place, place));
  if (block === "operation") return { plan, step: at(plan.steps), place };
  const others = [...plan.fallbacks, ...(plan.achieved === undefined ? [] : [plan.achieved])];
  const other = others.find(({ steps }) => at(steps) !== undefined);
  if (other === undefined) return { plan, step: undefined, place };
  return { plan: laidOver(plan, other.steps, place), step: at(other.steps), place };
}

function laidOver(plan: Plan, steps: readonly Step[], place: Place): Plan {
  return overlay(plan, { when: { text: "", place }, steps, place });
}

function isAt(place: Place, { file, span }: Place): boolean {
  return place.file === file && place.span.start === span.start;
}

function only(size: Typed): SizeList {
  return { sizes: [size], place: size.place };
}

function screwValues(setting: Setting, hole: string, written: readonly Item[]): Value[] {
  const { plan, step } = setting;
  const takes = plan.nail?.holes.find((each) => each.name.text === hole)?.takes.map(({ text }) => text) ?? [];
  const [first] = written;
  const named = first?.kind === "word" ? first.name : undefined;
  // A screw's tip hangs on its own line alone; reckoning the whole plan for each of many lengths would be felt while typing.
  const alone = {
    ...setting,
    plan: { ...plan, steps: plan.steps.filter((each) => each === step || each.kind === "nail") },
  };
  return plan.screwFamilies
    .filter(({ name }) => takes.includes(name.text) && (named === undefined || name.text === named))
    .flatMap((family) =>
      tried(family.lengths, alone, `screw.${hole}.beyond`, (screw) => {
        return step?.kind === "lock" ? { ...step, family: family.name, screw } : undefined;
      }),
    );
}

function tried(list: SizeList | undefined, setting: Setting, id: string, change: Change): Value[] {
  return (list?.sizes ?? [])
    .filter(({ quantity }) => quantity.kind === "known")
    .map((size) => ({ text: print(size.quantity, "mm"), detail: outcome(setting, change(size), id) ?? "listed" }));
}

/** What the plan would say with the step changed; undefined when it says nothing of it. */
function outcome({ plan, step, place }: Setting, changed: Step | undefined, id: string): string | undefined {
  if (changed === undefined) return undefined;
  const tried: Plan =
    step === undefined
      ? laidOver(plan, [changed], place)
      : { ...plan, steps: plan.steps.map((each) => (each === step ? changed : each)) };
  const reckoning = reckon(tried).byId.get(id);
  return reckoning?.answer.kind === "known" ? answerInWords(reckoning) : undefined;
}
