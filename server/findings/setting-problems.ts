/**
 * What only the list of findings and limits can tell about a document: a waiver, a grade or a limit with a name that does not
 * exist, and a limit set to something it cannot be. Told as problems, so that the rules over the text word them.
 */
import { nearest } from "../../grammar/nearest.ts";
import type { Problem } from "../../grammar/problems.ts";
import type { Document, LimitSetting, Said } from "../meaning/plan.ts";
import { limitTable } from "./limit-table.ts";
import { defaultLimit, settingFault } from "./limits.ts";

const limitNames = limitTable.map((entry) => entry.name);

/** `slugs` are the names of all findings. */
export function settingProblems(document: Document, slugs: ReadonlySet<string>): readonly Problem[] {
  switch (document.kind) {
    case "plan":
      return document.waivers.flatMap((waiver) => unknownFinding(waiver.finding, slugs));
    case "protocol":
      return [
        ...document.limits.flatMap(limitProblem),
        ...document.grades.flatMap((setting) => unknownFinding(setting.finding, slugs)),
        ...document.neverWaived.flatMap((said) => unknownFinding(said, slugs)),
      ];
    case "catalogue":
      return [];
  }
}

function limitProblem(setting: LimitSetting): readonly Problem[] {
  if (defaultLimit(setting.name.text) === undefined) return [unknownName(setting.name, "limit", limitNames)];
  // An end that is unknown has its problem where it is written.
  const unread = [setting.least, setting.most].some((end) => end?.quantity.kind === "unknown");
  const fault = unread ? undefined : settingFault(setting);
  return fault === undefined ? [] : [{ slug: "unit-mismatch", span: setting.place.span, found: fault }];
}

function unknownFinding(said: Said, slugs: ReadonlySet<string>): readonly Problem[] {
  if (said.text === "" || slugs.has(said.text)) return [];
  return [unknownName(said, "finding", slugs)];
}

function unknownName(said: Said, kind: string, known: Iterable<string>): Problem {
  const near = nearest(said.text, known);
  return {
    slug: "name-unknown",
    span: said.place.span,
    found: said.text,
    expected: [kind],
    ...(near === undefined
      ? {}
      : { near, repairs: [{ title: `write ${near}`, edits: [{ span: said.place.span, text: near }] }] }),
  };
}
