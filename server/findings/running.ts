/**
 * Runs one rule over what it looks at: problems of the text, an understood document, or the plan and the plan under each of its
 * fallbacks. A rule that found nothing in a text with errors in it cannot tell; it is never called clear.
 */
import type { Parsed } from "../../grammar/parse.ts";
import type { Problem } from "../../grammar/problems.ts";
import { overlay } from "../meaning/overlay.ts";
import type { Document, Fallback, Place, Plan } from "../meaning/plan.ts";
import { reckon } from "../reckoning/reckon.ts";
import type { Reckonings } from "../reckoning/reckoning.ts";
import type { DocumentRule, Found, PlanRule, RecordRule, Rule, Subject, TextRule, Verdict } from "./finding.ts";
import { cannotTell } from "./judging.ts";
import { limitsOf } from "./limits.ts";
import { quoted } from "./words.ts";

/** The parser tells no more problems than this of one text. */
const mostProblems = 200;

/** The plan, and the plan with each of its fallbacks laid over it. */
export interface Subjects {
  readonly main: Subject;
  readonly laid: readonly { readonly subject: Subject; readonly fallback: Fallback }[];
}

export interface Context {
  readonly parsed: Parsed;
  readonly document: Document | undefined;
  readonly problems: readonly Problem[];
  /** Undefined when there is no plan. */
  readonly subjects: Subjects | undefined;
  /** Why nothing may be called clear: the errors of the text and of what it reads. */
  readonly doubts: readonly string[];
}

/** How one rule came out, before grades and waivers. */
export interface Run {
  readonly rule: Rule;
  readonly found: readonly (Found & { readonly fallback?: string })[];
  readonly untold: readonly string[];
  /** Why it was not run at all. */
  readonly notRun?: string;
}

/** What the plan rules look at. */
export function subjectsOf(plan: Plan, text: string, reckonings: Reckonings): Subjects {
  const limits = limitsOf(plan.follows.flatMap(({ document }) => (document === undefined ? [] : [document])));
  const laid = plan.fallbacks.map((fallback) => {
    const over = overlay(plan, fallback);
    return { subject: { plan: over, text, reckonings: reckon(over), limits }, fallback };
  });
  return { main: { plan, text, reckonings, limits }, laid };
}

export function runRule(rule: Exclude<Rule, RecordRule>, context: Context): Run {
  switch (rule.kind) {
    case "document":
      return runDocumentRule(rule, context);
    case "text":
      return runTextRule(rule, context);
    case "plan":
      return runPlanRule(rule, context);
  }
}

function runDocumentRule(rule: DocumentRule, context: Context): Run {
  const file = context.document?.file ?? "";
  const own = context.problems.filter((problem) => problem.slug === rule.slug);
  const untold = own.length === 0 ? unreadReasons(context) : [];
  return { rule, found: own.map((problem) => worded(rule, problem, file, context.parsed)), untold };
}

function unreadReasons(context: Context): readonly string[] {
  if (context.problems.some(({ slug }) => slug === "too-deep" || slug === "too-long")) {
    return ["the text was not read to its end"];
  }
  return context.parsed.problems.length < mostProblems ? [] : ["the text has more problems than are told"];
}

function worded(rule: DocumentRule, problem: Problem, file: string, parsed: Parsed): Found {
  const { message, grade, fixes: worded = [], relatedMessage } = rule.wording(problem);
  const fixes = [...worded, ...(rule.fixesIn?.(problem, parsed) ?? [])];
  const also = problem.also === undefined || relatedMessage === undefined ? undefined : { file, span: problem.also };
  return {
    place: { file, span: problem.span },
    message,
    ...(problem.found === undefined ? {} : { at: problem.found }),
    ...(grade === undefined ? {} : { grade }),
    ...(fixes.length === 0 ? {} : { fixes }),
    ...(also === undefined || relatedMessage === undefined
      ? {}
      : { related: [{ place: also, message: relatedMessage }] }),
  };
}

function runTextRule(rule: TextRule, context: Context): Run {
  const { document, parsed } = context;
  if (document === undefined) return notRun(rule, "the text is no plan, catalogue or protocol that can be understood");
  const verdict = attempt(() => rule.check(document, parsed.text, parsed.tree));
  return withDoubts({ rule, found: verdict.found, untold: verdict.untold ?? [] }, context);
}

function runPlanRule(rule: PlanRule, context: Context): Run {
  if (context.subjects === undefined) return notRun(rule, "there is no plan");
  const { main, laid: others } = context.subjects;
  const verdict = attempt(() => rule.check(main));
  const seen = new Set(verdict.found.map(keyOf));
  const found: Run["found"][number][] = [...verdict.found];
  const untold = new Set(verdict.untold);
  for (const { subject, fallback } of others) {
    const laid = attempt(() => rule.check(subject));
    found.push(...laid.found.filter((each) => !seen.has(keyOf(each))).map((each) => atFallback(each, fallback)));
    for (const reason of newReasons(laid, untold))
      untold.add(`under the fallback ${quoted(fallback.when.text)}: ${reason}`);
  }
  return withDoubts({ rule, found, untold: [...untold] }, context);
}

/**
 * A rule that fails must not take the other findings with it, nor count as clear: it cannot tell, and says why. The tests hold
 * every rule to never coming here.
 */
export function attempt(check: () => Verdict): Verdict {
  try {
    return check();
  } catch (failure) {
    return cannotTell(`the check failed: ${failure instanceof Error ? failure.message : String(failure)}`);
  }
}

function newReasons(verdict: Verdict, known: ReadonlySet<string>): readonly string[] {
  return (verdict.untold ?? []).filter((reason) => !known.has(reason));
}

/** A finding that only a fallback brings stands at the fallback's own lines; fixes that would change the plan itself go. */
function atFallback(found: Found, fallback: Fallback): Run["found"][number] {
  const region = regionOf(fallback);
  const inside = within(found.place, region);
  const { fixes, related, ...rest } = found;
  const kept = (fixes ?? []).filter((fix) =>
    fix.edits.every((edit) => within({ file: found.place.file, span: edit.span }, region)),
  );
  const origin = inside ? [] : [{ place: found.place, message: "With the fallback it is found here." }];
  const all = [...(related ?? []), ...origin];
  return {
    ...rest,
    place: inside ? found.place : fallback.when.place,
    ...(kept.length === 0 ? {} : { fixes: kept }),
    ...(all.length === 0 ? {} : { related: all }),
    fallback: fallback.when.text,
  };
}

/** From the fallback's own line to the end of its last step. */
function regionOf({ place, steps }: Fallback): Place {
  const end = Math.max(place.span.end, ...steps.map((step) => step.place.span.end));
  return { file: place.file, span: { start: place.span.start, end } };
}

function within(inner: Place, outer: Place): boolean {
  return inner.file === outer.file && inner.span.start >= outer.span.start && inner.span.end <= outer.span.end;
}

function keyOf(found: Found): string {
  const { file, span } = found.place;
  return JSON.stringify([file, span.start, span.end, found.at ?? "", found.message]);
}

function withDoubts(run: Run, context: Context): Run {
  if (run.found.length > 0 || context.doubts.length === 0) return run;
  return { ...run, untold: [...run.untold, ...context.doubts] };
}

function notRun(rule: Rule, because: string): Run {
  return { rule, found: [], untold: [], notRun: because };
}
