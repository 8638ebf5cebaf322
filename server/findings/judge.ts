/**
 * The door of the findings: runs every rule over the text, the plan and the plan under each fallback, then applies the protocol's
 * grades and the waivers, and says for every rule how it came out. The rules stand one to a file beside this one.
 */
import type { Parsed } from "../../grammar/parse.ts";
import type { Plan, Waiver } from "../meaning/plan.ts";
import type { Meaning } from "../meaning/understand.ts";
import type { Reckonings } from "../reckoning/reckoning.ts";
import { rules } from "./all.ts";
import type { Finding, Judgement, Outcome, RecordRule, Rule } from "./finding.ts";
import { type GradeSetting, gradeSettings, gradeUnder } from "./grading.ts";
import { broughtHome, inTextOrder, onceEach } from "./ordering.ts";
import { attempt, type Context, type Run, runRule, subjectsOf } from "./running.ts";
import { settingProblems } from "./setting-problems.ts";
import { isWaivable, neverWaived, withWaiver } from "./waivers.ts";
import { errorsOfImports, errorsOfText, problemsOf } from "./worded-problems.ts";

const slugs: ReadonlySet<string> = new Set(rules.map((rule) => rule.slug));

/** Everything found in one document, in the order of its text, and one outcome for every rule. Never throws. */
export function judge(input: {
  readonly parsed: Parsed;
  readonly meaning: Meaning;
  /** Of the plan; undefined when the document is none. */
  readonly reckonings: Reckonings | undefined;
}): Judgement {
  const { parsed, meaning } = input;
  const { document } = meaning;
  const plan = document?.kind === "plan" ? document : undefined;
  const problems = problemsOf(parsed, meaning, document === undefined ? [] : settingProblems(document, slugs));
  const context: Context = {
    parsed,
    document,
    problems,
    subjects:
      plan === undefined || input.reckonings === undefined
        ? undefined
        : subjectsOf(plan, parsed.text, input.reckonings),
    doubts: [...errorsOfText(problems, rules), ...(plan === undefined ? [] : errorsOfImports(plan, slugs, rules))],
  };
  const settings = plan === undefined ? new Map<string, GradeSetting>() : gradeSettings(plan);
  const refused: ReadonlyMap<string, unknown> = plan === undefined ? new Map() : neverWaived(plan);
  const waivers = plan?.waivers.filter(({ finding }) => !refused.has(finding.text)) ?? [];
  const runs = rules.flatMap((rule) => (rule.kind === "record" ? [] : [runUnder(settings, rule, context)]));
  const first = onceEach(runs.flatMap((run) => findingsOf(run, settings, waivers)));
  const records = rules
    .filter((rule) => rule.kind === "record")
    .map((rule) => recordUnder(settings, rule, runs, first, plan, parsed.text));
  const all = onceEach([...first, ...records.flatMap((run) => findingsOf(run, settings, waivers))]);
  const findings = document === undefined ? all : all.map((finding) => broughtHome(finding, document));
  return {
    findings: inTextOrder(findings),
    outcomes: new Map([...runs, ...records].map((run) => [run.rule.slug, outcomeOf(run)])),
  };
}

function runUnder(settings: ReadonlyMap<string, GradeSetting>, rule: Exclude<Rule, RecordRule>, context: Context): Run {
  return settings.get(rule.slug) === "off" ? turnedOff(rule) : runRule(rule, context);
}

function turnedOff(rule: Rule): Run {
  return { rule, found: [], untold: [], notRun: "turned off by the protocol" };
}

function findingsOf(
  run: Run,
  settings: ReadonlyMap<string, GradeSetting>,
  waivers: readonly Waiver[],
): readonly Finding[] {
  const set = settings.get(run.rule.slug);
  return run.found.map((found) => {
    const grade = gradeUnder(set, run.rule.grade, found.grade);
    const finding: Finding = { ...found, slug: run.rule.slug, grade };
    return isWaivable(run.rule) ? withWaiver(finding, waivers) : finding;
  });
}

function recordUnder(
  settings: ReadonlyMap<string, GradeSetting>,
  rule: RecordRule,
  runs: readonly Run[],
  findings: readonly Finding[],
  plan: Plan | undefined,
  text: string,
): Run {
  if (settings.get(rule.slug) === "off") return turnedOff(rule);
  if (plan === undefined) return { rule, found: [], untold: [], notRun: "there is no plan" };
  const bySlug = new Map(runs.map((run) => [run.rule.slug, run]));
  const covered = findings.filter((finding) => waivableSlug(bySlug, finding.slug));
  const settled = (slug: string): boolean => {
    const run = bySlug.get(slug);
    return run !== undefined && run.notRun === undefined && run.untold.length === 0;
  };
  const verdict = attempt(() => rule.check(plan, covered, settled, text));
  return { rule, found: verdict.found, untold: verdict.untold ?? [] };
}

function waivableSlug(runs: ReadonlyMap<string, Run>, slug: string): boolean {
  const run = runs.get(slug);
  return run !== undefined && isWaivable(run.rule);
}

function outcomeOf(run: Run): { readonly outcome: Outcome; readonly because: readonly string[] } {
  if (run.notRun !== undefined) return { outcome: "not run", because: [run.notRun] };
  if (run.found.length > 0) return { outcome: "found", because: run.untold };
  if (run.untold.length > 0) return { outcome: "cannot tell", because: run.untold };
  return { outcome: "clear", because: [] };
}
