/**
 * The problems of a document put together from the stages that found them, and the errors among them: with one of those in the
 * text, or in a file it reads, nothing may be called clear.
 */
import type { Parsed } from "../../grammar/parse.ts";
import type { Problem } from "../../grammar/problems.ts";
import type { Document, Plan } from "../meaning/plan.ts";
import type { Meaning } from "../meaning/understand.ts";
import { faultsOf } from "./catalogue-faults.ts";
import type { Rule } from "./finding.ts";
import { settingProblems } from "./setting-problems.ts";
import { counted, quoted } from "./words.ts";

/** Every problem once, in the order of the text. `stated` are those only the list of findings can tell. */
export function problemsOf(parsed: Parsed, meaning: Meaning, stated: readonly Problem[]): readonly Problem[] {
  const all = [...parsed.problems, ...meaning.problems, ...stated].filter((problem) => !spokenFor(problem));
  const once = new Map(all.map((problem) => [keyOf(problem), problem]));
  return [...once.values()].sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
}

/** One sentence when the text has errors; else none. */
export function errorsOfText(problems: readonly Problem[], rules: readonly Rule[]): readonly string[] {
  const errors = problems.filter((problem) => isError(problem, rules)).length;
  return errors === 0 ? [] : [`the text has ${counted(errors, "error", "errors")} in it`];
}

/** One sentence for each file the plan reads that has errors. */
export function errorsOfImports(plan: Plan, slugs: ReadonlySet<string>, rules: readonly Rule[]): readonly string[] {
  return [...plan.uses, ...plan.follows].flatMap(({ path, document }) =>
    document !== undefined && (hasErrors(document, slugs, rules) || contradictsItself(document))
      ? [`${quoted(path.text)} has errors in it`]
      : [],
  );
}

function contradictsItself(document: Document): boolean {
  if (document.kind !== "catalogue") return false;
  return faultsOf(document).some(({ grade }) => grade === "error");
}

function hasErrors(document: Document, slugs: ReadonlySet<string>, rules: readonly Rule[]): boolean {
  const problems = [...document.problems, ...settingProblems(document, slugs)].filter((each) => !spokenFor(each));
  return problems.some((problem) => isError(problem, rules));
}

/** Parts whose absence has a finding of its own, with more to say than that something is missing. */
function spokenFor({ slug, inside, expected = [] }: Problem): boolean {
  if (slug !== "missing") return false;
  if (inside === "catalogue") return expected.includes("notice");
  return inside === "waive" && (expected.includes("because") || expected.includes("signed"));
}

function isError(problem: Problem, rules: readonly Rule[]): boolean {
  const rule = rules.find((each) => each.slug === problem.slug);
  if (rule?.kind !== "document") return true;
  return (rule.wording(problem).grade ?? rule.grade) === "error";
}

function keyOf(problem: Problem): string {
  return JSON.stringify([
    problem.slug,
    problem.span.start,
    problem.span.end,
    problem.found ?? "",
    problem.expected ?? [],
  ]);
}
