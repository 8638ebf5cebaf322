/**
 * A statement or step that a followed protocol demands of every plan and that stands nowhere in this one. `none` does not count
 * as giving it.
 */
import type { Statement } from "../../grammar/tree.ts";
import type { Plan, Said } from "../meaning/plan.ts";
import type { Fix, Found, PlanRule } from "./finding.ts";
import { itemsOf } from "./tree-walk.ts";

/** Parts that say what might be, what was or what comes much later; their own word counts, what stands in them does not. */
const elsewhere = new Set(["fallback", "achieved", "ask", "removal"]);
/** Words that stand after `prepare`. */
const preparations = new Set(["antibiotic", "time-out", "tourniquet"]);

export const rule: PlanRule = {
  kind: "plan",
  slug: "demanded",
  title: "Part that the department's protocol demands",
  why:
    "A department writes down what no plan may leave out. " +
    "A part it demands is missing here; it is for the department's protocol to change that, not for one plan.",
  grade: "error",
  basis: { mark: "department's choice", text: "the protocol that the plan follows" },
  limits: [],
  wrong: { change: [["    prepare antibiotic, time-out\n", "    prepare antibiotic\n"]] },
  right: { change: [] },
  check: ({ plan }) => {
    const given = wordsOf(plan.statement);
    const demands = plan.follows.flatMap(({ document }) => document?.demands ?? []);
    const open = new Map(demands.filter((demand) => !given.has(demand.text)).map((demand) => [demand.text, demand]));
    return { found: [...open.values()].map((demand) => missing(plan, demand)) };
  },
};

function missing(plan: Plan, demand: Said): Found {
  return {
    place: plan.operation,
    message: `The protocol demands ${demand.text}, and the plan does not have it.`,
    at: demand.text,
    related: [{ place: demand.place, message: "It is demanded here." }],
    fixes: preparationFix(plan, demand.text),
  };
}

function preparationFix(plan: Plan, word: string): readonly Fix[] {
  if (!preparations.has(word)) return [];
  const last = plan.steps.findLast((step) => step.kind === "prepare")?.things.at(-1);
  if (last === undefined || last.place.file !== plan.file) return [];
  const end = last.place.span.end;
  return [
    {
      title: `prepare ${word} as well`,
      class: "changes a decision",
      edits: [{ span: { start: end, end }, text: `, ${word}` }],
    },
  ];
}

function wordsOf(plan: Statement): ReadonlySet<string> {
  const words = new Set<string>();
  for (const inner of plannedIn(plan)) {
    const items = [...itemsOf(inner)];
    const [only] = items;
    if (items.length === 1 && only?.kind === "word" && only.name === "none") continue;
    words.add(inner.word.name);
    if (elsewhere.has(inner.word.name)) continue;
    for (const item of items) {
      if (item.kind === "word") words.add(item.name);
    }
  }
  return words;
}

function plannedIn(statement: Statement): readonly Statement[] {
  if (statement.word.name === "waive") return [];
  if (elsewhere.has(statement.word.name)) return [statement];
  return [statement, ...(statement.block?.statements ?? []).flatMap(plannedIn)];
}
