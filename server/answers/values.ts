/**
 * The values a plan's place may take: names in scope, sizes from the catalogue, fracture codes. Each carries a detail; for a size
 * that is how the plan would reckon with it.
 */
import type { ShapedStatement } from "../../grammar/shape.ts";
import type { NameKind } from "../../grammar/vocabulary/rule.ts";
import { rules } from "../findings/all.ts";
import { codeGroups } from "../findings/fracture-codes.ts";
import { limitTable } from "../findings/limit-table.ts";
import { overlay } from "../meaning/overlay.ts";
import type { LockStep, NailStep, Plan, SizeList, Step, Typed } from "../meaning/plan.ts";
import { print } from "../quantity/print.ts";
import { reckon } from "../reckoning/reckon.ts";
import type { Analysis } from "./analyse.ts";

export interface Value {
  readonly text: string;
  readonly detail: string;
}

/** Names of a kind that may be used here; holes already locked are left out. */
export function nameValues(analysis: Analysis, shaped: ShapedStatement, kind: NameKind): Value[] {
  if (kind === "finding") return rules.map(({ slug, title }) => ({ text: slug, detail: title }));
  if (kind === "limit") return limitTable.map(({ name, title }) => ({ text: name, detail: title }));
  const { document, references } = analysis.meaning;
  const wanted: readonly NameKind[] = kind === "value" ? ["value", "landmark"] : kind === "word" ? ["hole"] : [kind];
  const locked = new Set(
    document?.kind === "plan" && shaped.statement.word.name === "lock" ? lockedHoles(document) : [],
  );
  return references.declarations
    .filter(({ name, kind: declared }) => wanted.includes(declared) && !locked.has(name))
    .map(({ name, detail }) => ({ text: name, detail }));
}

/** Listed sizes for a slot of the operation, each with what it would lead to. */
export function sizeValues(
  analysis: Analysis,
  shaped: ShapedStatement,
  clause: string | undefined,
  slot: string,
): Value[] {
  const { document } = analysis.meaning;
  if (document?.kind !== "plan") return [];
  switch (`${shaped.statement.word.name} ${clause ?? ""} ${slot}`) {
    case "nail diameter diameter":
      return listed(document.nail?.diameters).map((typed) =>
        nailTrial(document, { diameter: typed }, typed, "ream.over", "last head over the nail"),
      );
    case "nail length length":
      return listed(document.nail?.lengths).map((typed) =>
        nailTrial(document, { length: typed }, typed, "tip.toScar", "tip to scar"),
      );
    case "lock screw length":
      return screwTrials(document, shaped);
    case "cap  extension":
      return listed(document.nail?.caps).map((typed) => ({ text: sizeText(typed), detail: "listed end cap" }));
    case "ream  heads":
      return listedHeads(document);
    default:
      return [];
  }
}

/** Group codes of the plan's bone, or of the fibula. */
export function codeValues(analysis: Analysis, bones: "main" | "fibula" | "any"): Value[] {
  const { document } = analysis.meaning;
  const bone = document?.kind === "plan" ? document.case?.bone?.text : undefined;
  return codeGroups
    .filter((group) =>
      bones === "fibula"
        ? group.bone === "fibula"
        : group.bone !== "fibula" && (bone === undefined || group.bone === bone),
    )
    .map(({ code, meaning }) => ({ text: code, detail: meaning }));
}

function lockedHoles({ steps }: Plan): string[] {
  return steps.flatMap((step) => (step.kind === "lock" ? [step.hole.text] : []));
}

function listed(sizes: SizeList | undefined): readonly Typed[] {
  return sizes?.sizes ?? [];
}

function sizeText({ quantity }: Typed): string {
  return print(quantity, "mm");
}

function nailTrial(plan: Plan, change: Partial<NailStep>, typed: Typed, id: string, words: string): Value {
  const step = plan.steps.find((each): each is NailStep => each.kind === "nail");
  return {
    text: sizeText(typed),
    detail: step === undefined ? "listed" : trial(plan, step, { ...step, ...change }, id, words),
  };
}

function screwTrials(plan: Plan, shaped: ShapedStatement): Value[] {
  const hole = shaped.statement.phrases[0]?.items[0];
  const name = hole?.kind === "word" ? hole.name : "";
  const step = plan.steps.find((each): each is LockStep => each.kind === "lock" && each.hole.text === name);
  const takes = plan.nail?.holes.find((each) => each.name.text === name)?.takes.map(({ text }) => text) ?? [];
  return plan.screwFamilies
    .filter((family) => takes.includes(family.name.text))
    .flatMap((family) => listed(family.lengths))
    .map((screw) => {
      const detail =
        step === undefined
          ? "listed"
          : trial(plan, step, { ...step, screw }, `screw.${name}.beyond`, "past the far cortex");
      return { text: sizeText(screw), detail };
    });
}

// The plan reckoned with one step changed: the same engine says how a size would fit.
function trial(plan: Plan, step: Step, tried: Step, id: string, words: string): string {
  const changed = overlay(plan, { when: { text: "", place: step.place }, steps: [tried], place: step.place });
  const reckoning = reckon(changed).byId.get(id);
  if (reckoning?.answer.kind !== "known") return "listed";
  return `${words} ${print(reckoning.answer, reckoning.unit)}`;
}

function listedHeads({ reamers }: Plan): Value[] {
  return reamers
    .flatMap(({ heads }) => listed(heads))
    .map((head) => ({ text: sizeText(head), detail: "listed reamer head" }));
}
