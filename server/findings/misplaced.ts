/**
 * A statement or clause that the language has, in a block where it does not belong.
 */
import type { Parsed } from "../../grammar/parse.ts";
import type { Problem } from "../../grammar/problems.ts";
import type { Block, Statement } from "../../grammar/tree.ts";
import { blockRules, placeInWords, rulesOf } from "../../grammar/vocabulary/blocks.ts";
import type { DocumentRule, Fix } from "./finding.ts";
import { moveAfter } from "./line-edits.ts";
import { expectation, foundWords, languageBasis, repairsOf, standing } from "./problem-words.ts";
import { statementsAt, statementsIn } from "./tree-walk.ts";
import { listed, quoted } from "./words.ts";

export const rule: DocumentRule = {
  kind: "document",
  slug: "misplaced",
  title: "Statement in a block where it does not belong",
  why:
    "A word means what it means only in its own block: a screw among the measures is not a step of the operation. " +
    "What stands in the wrong place is not reckoned with.",
  grade: "error",
  basis: languageBasis,
  wrong: {
    change: [
      ["    weight 78 kg\n", ""],
      ["  status for-review\n", "  status for-review\n  weight 78 kg\n"],
    ],
  },
  right: { change: [] },
  wording: (problem) => ({
    message: message(problem),
    fixes: repairsOf(problem, "needs a choice"),
    relatedMessage: "This is where it is.",
  }),
  fixesIn: movedHome,
};

/**
 * Puts the statement, with its notes, at the end of the first block of the text where it may stand and is still wanted. Which line it
 * belongs behind is not known.
 */
function movedHome({ span, expected = [] }: Problem, { text, tree }: Parsed): readonly Fix[] {
  const moved = statementsAt(tree, span).find(({ word }) => word.span.start === span.start);
  const blocks = tree.statements
    .flatMap((statement) => [...statementsIn(statement)])
    .flatMap(({ word, block }) => (block === undefined ? [] : [{ word, block }]));
  const [home] = expected.flatMap((name) => blocks.find(({ word }) => word.name === name) ?? []);
  const last = home?.block.statements.at(-1);
  if (moved === undefined || home === undefined || last === undefined) return [];
  if (isThere(home.word.name, home.block, moved)) return [];
  const title = `put it at the end of ${quoted(text.slice(home.word.span.start, home.block.open.start).trim())}`;
  return [{ title, class: "needs a choice", edits: moveAfter(text, [moved.span], last.span) }];
}

/** Whether a block holds already what it may hold once. */
function isThere(name: string, { statements }: Block, moved: Statement): boolean {
  const often = rulesOf(name).get(moved.word.name)?.times === "many";
  return !often && statements.some((each) => each.word.name === moved.word.name);
}

/** Where statements stand, in the words the grammar uses for it. */
const homes: ReadonlySet<string> = new Set([...blockRules.keys()].map(placeInWords));

function message(problem: Problem): string {
  const expected = problem.expected ?? [];
  const home = expected.length > 0 && expected.every((each) => homes.has(each));
  const instead = home ? `; it belongs in ${listed(expected, "or")}` : expectation(problem);
  return `${foundWords(problem)} does not belong${standing(problem) || " here"}${instead}.`;
}
