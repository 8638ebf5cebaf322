/**
 * The door of the grammar: text in, tree and problems out, for any text whatever. Limits on length and depth are kept here and in
 * the steps called, so that the time is in proportion to the text and nothing overflows.
 */
import { buildTree, type Places, placesOf } from "./build-tree.ts";
import { codePoints, hiddenRuns } from "./characters.ts";
import type { Neighbours } from "./line-state.ts";
import { arrange } from "./lines.ts";
import { readLines } from "./parser.ts";
import type { Problem } from "./problems.ts";
import { scan, spanOf, T } from "./tokens.ts";
import type { Comment, Span, Tree } from "./tree.ts";
import { blockRules } from "./vocabulary/blocks.ts";

export interface Parsed {
  readonly text: string;
  readonly tree: Tree;
  /** In the order of the text; at most 200. */
  readonly problems: readonly Problem[];
}

/** In UTF-16 units. */
const longestText = 1_000_000;
const mostTokens = 200_000;
const mostProblems = 200;

const places = placesOf(blockRules);

/** Never throws. A text beyond the limits gives an empty tree and the problem that says so. */
export function parse(text: string): Parsed {
  if (text.length > longestText) return tooLong(text, `${text.length} characters`);
  const raw = scan(text);
  if (raw.length > mostTokens) return tooLong(text, `${raw.length} tokens`);
  const arranged = arrange(text, raw, neighboursIn(places));
  const concealed = hiddenProblems(text, () => [...raw.filter(isQuiet).map(spanOf), ...arranged.quiet]);
  const known = [...arranged.problems, ...concealed.filter(({ mild }) => mild !== true)];
  const { lines, problems, whole } = readLines(text, arranged.tokens, covers(known));
  const built = buildTree(text, lines, arranged.notes, places);
  const all = [...arranged.problems, ...concealed, ...problems, ...built.problems];
  if (!whole) all.push({ slug: "unreadable", span: { start: 0, end: text.length } });
  return { text, tree: treeOf(text, built, arranged.comments), problems: capped(all) };
}

function tooLong(text: string, found: string): Parsed {
  const span = { start: 0, end: text.length };
  const expected = [`at most ${longestText} characters and ${mostTokens} tokens`];
  const tree: Tree = { kind: "tree", statements: [], comments: [], adrift: [], span };
  return { text, tree, problems: [{ slug: "too-long", span, found, expected }] };
}

function treeOf(text: string, built: Pick<Tree, "statements" | "adrift">, comments: readonly Comment[]): Tree {
  const { statements, adrift } = built;
  return { kind: "tree", statements, comments, adrift, span: { start: 0, end: text.length } };
}

/** Words that begin statements of one block are neighbours; beside a word that is not known every statement is one. */
function neighboursIn(all: Places): Neighbours {
  return (word, next) => {
    let known = false;
    let begins = false;
    for (const words of all.values()) {
      const has = words.has(word);
      if (has && words.has(next)) return true;
      known ||= has;
      begins ||= words.has(next);
    }
    return begins && !known;
  };
}

function isQuiet({ tokenType }: { tokenType: unknown }): boolean {
  return tokenType === T.Text || tokenType === T.Comment || tokenType === T.Note;
}

/** Hidden characters: an error in the language itself, milder within the quiet stretches: texts, comments and notes. */
function hiddenProblems(text: string, quietIn: () => readonly Span[]): Problem[] {
  const runs = hiddenRuns(text);
  if (runs.length === 0) return [];
  const quiet = quietIn().toSorted((a, b) => a.start - b.start);
  let at = 0;
  return runs.map((span): Problem => {
    while ((quiet[at]?.end ?? Number.MAX_SAFE_INTEGER) <= span.start) at += 1;
    const within = (quiet[at]?.start ?? Number.MAX_SAFE_INTEGER) <= span.start;
    const found = codePoints(text.slice(span.start, span.end));
    const repairs = [{ title: "Take it away", edits: [{ span, text: "" }] }];
    return { slug: "hidden-character", span, found, repairs, ...(within && { mild: true }) };
  });
}

/** Whether a problem stands in a span; asked with spans in the order of the text. */
function covers(problems: readonly Problem[]): (span: Span) => boolean {
  const starts = problems.map(({ span }) => span.start).sort((a, b) => a - b);
  let at = 0;
  return (span) => {
    while ((starts[at] ?? Number.MAX_SAFE_INTEGER) < span.start) at += 1;
    return (starts[at] ?? Number.MAX_SAFE_INTEGER) < span.end;
  };
}

/** In order; past the limit the last one tells how many more there are. */
function capped(problems: readonly Problem[]): readonly Problem[] {
  const sorted = [...problems].sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
  if (sorted.length <= mostProblems) return sorted;
  const kept = sorted.slice(0, mostProblems - 1);
  const span = sorted[mostProblems - 1]?.span ?? { start: 0, end: 0 };
  return [...kept, { slug: "unreadable", span, found: `${sorted.length - kept.length} more places` }];
}
