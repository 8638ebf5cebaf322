/**
 * The grades in force: each rule's own, unless a followed protocol sets another or turns the rule off. A finding that was made
 * milder because it is not certain stays as many grades milder.
 */
import type { Plan } from "../meaning/plan.ts";
import type { Grade } from "./finding.ts";

export type GradeSetting = Grade | "off";

const byRank: readonly [Grade, Grade, Grade] = ["error", "warning", "information"];

/** The grades that the plan's protocols set, by slug; a later protocol overrides an earlier one. */
export function gradeSettings(plan: Plan): ReadonlyMap<string, GradeSetting> {
  const settings = new Map<string, GradeSetting>();
  for (const { document } of plan.follows) {
    for (const { finding, grade } of document?.grades ?? []) {
      if (isSetting(grade.text)) settings.set(finding.text, grade.text);
    }
  }
  return settings;
}

/** `given` is the grade the finding came with, `own` the rule's own, `set` the protocol's. */
export function gradeUnder(set: GradeSetting | undefined, own: Grade, given: Grade | undefined): Grade {
  if (set === undefined || set === "off") return given ?? own;
  const step = byRank.indexOf(given ?? own) - byRank.indexOf(own);
  return byRank[rankNear(byRank.indexOf(set) + step)];
}

/** The nearest rank there is. */
function rankNear(rank: number): 0 | 1 | 2 {
  return rank <= 0 ? 0 : rank === 1 ? 1 : 2;
}

function isSetting(word: string): word is GradeSetting {
  return word === "off" || byRank.some((grade) => grade === word);
}
