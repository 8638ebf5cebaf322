/**
 * What a rule is and what it says: the data the editor, the command line and the rule pages share. The rules themselves stand one
 * to a file beside this one; the judging with uncertainty is in `judging.ts`, the limits in `limits.ts`.
 */
import type { Parsed } from "../../grammar/parse.ts";
import type { Edit, Problem } from "../../grammar/problems.ts";
import type { Tree } from "../../grammar/tree.ts";
import type { Document, Place, Plan } from "../meaning/plan.ts";
import type { Quantity } from "../quantity/quantity.ts";
import type { Basis, Reckonings } from "../reckoning/reckoning.ts";
import type { Limits } from "./limits.ts";

export type Grade = "error" | "warning" | "information";

/** How much a fix touches: layout only, a value with its decision, or one of several choices the writer must make. */
export type FixClass = "keeps every decision" | "changes a decision" | "needs a choice";

export interface Fix {
  /** Says what changes, with numbers: "screw 40 mm → 38 mm: tip 1.0 mm past the cortex". */
  readonly title: string;
  readonly class: FixClass;
  readonly edits: readonly Edit[];
}

export interface Related {
  readonly place: Place;
  readonly message: string;
}

/** One finding as a rule's check returns it; `judge` adds slug, grade after protocol and waivers. */
export interface Found {
  readonly place: Place;
  /** Short and plain, in the trade's words, no slug in it; full stop at the end. */
  readonly message: string;
  /** The rule's own grade unless given: one milder when the probability lies between 5 % and 95 %. */
  readonly grade?: Grade;
  /** The hole or word it is about, for waivers: `P1`, `scar`. */
  readonly at?: string;
  readonly value?: Quantity;
  readonly limit?: Quantity;
  /** value minus limit, signed so that positive is beyond the limit. */
  readonly margin?: Quantity;
  /** Unit in which value, limit and margin are shown. */
  readonly unit?: string;
  /** Probability of being beyond the limit: 1 when exact. */
  readonly probability?: number;
  readonly related?: readonly Related[];
  readonly fixes?: readonly Fix[];
}

/** What a check brings back. Each reason of `untold` is an input that is unknown; nothing that was not run may look clear. */
export interface Verdict {
  readonly found: readonly Found[];
  readonly untold?: readonly string[];
}

/** All a rule may look at. `plan` is the main plan, or the plan with one fallback laid over it. */
export interface Subject {
  readonly plan: Plan;
  /** Text of the plan's own file, for fixes that move or swap what was typed; every edit of a fix is an edit of it. */
  readonly text: string;
  readonly reckonings: Reckonings;
  readonly limits: Limits;
}

/** A short change of the sample of `example.ts`, judged as its plan or as its catalogue, or a whole text of its own. */
export type Example =
  | { readonly text: string }
  | { readonly change: readonly (readonly [from: string, to: string])[]; readonly of?: "catalogue" };

interface RuleWords {
  /** File name and key: `reaming-overshoot`. */
  readonly slug: string;
  /** "Reamed further over the nail than the limit": a heading without a full stop. */
  readonly title: string;
  /** Why it matters, two or three sentences. */
  readonly why: string;
  readonly grade: Grade;
  readonly basis: Basis;
  readonly population?: string;
  readonly wrong: Example;
  readonly right: Example;
}

/** A rule over a plan and its reckonings. */
export interface PlanRule extends RuleWords {
  readonly kind: "plan";
  readonly limits: readonly string[];
  readonly check: (subject: Subject) => Verdict;
}

/** A rule that words a problem of the text or of its meaning; `wording` is asked once for each problem of its slug. */
export interface DocumentRule extends RuleWords {
  readonly kind: "document";
  readonly wording: (problem: Problem) => {
    readonly message: string;
    readonly grade?: Grade;
    readonly fixes?: readonly Fix[];
    readonly relatedMessage?: string;
  };
  /** Fixes that want the text round the problem; they stand behind those of the wording. */
  readonly fixesIn?: (problem: Problem, parsed: Parsed) => readonly Fix[];
}

/** A rule over any understood document, its words and texts included (identifiers, notices). */
export interface TextRule extends RuleWords {
  readonly kind: "text";
  readonly check: (document: Document, text: string, tree: Tree) => Verdict;
}

/** A rule over what the other rules found in the plan: waivers that meet nothing. It runs last. */
export interface RecordRule extends RuleWords {
  readonly kind: "record";
  /** `settled` tells whether a rule could look at all it needed; `text` is the plan's own, for fixes. */
  readonly check: (
    plan: Plan,
    findings: readonly Finding[],
    settled: (slug: string) => boolean,
    text: string,
  ) => Verdict;
}

export type Rule = PlanRule | DocumentRule | TextRule | RecordRule;

export interface Finding extends Omit<Found, "grade"> {
  readonly slug: string;
  readonly grade: Grade;
  /** The waiver that covers it; it stays visible as waived. */
  readonly waived?: { readonly because: string; readonly signed: string };
  /** Set when it was found in the plan with this fallback laid over. */
  readonly fallback?: string;
}

export type Outcome = "clear" | "found" | "cannot tell" | "not run";

export interface Judgement {
  /** In the order of the text. */
  readonly findings: readonly Finding[];
  /** One entry for every rule. */
  readonly outcomes: ReadonlyMap<string, { readonly outcome: Outcome; readonly because: readonly string[] }>;
}
