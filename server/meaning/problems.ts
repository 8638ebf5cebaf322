/**
 * The growing list of problems of one file. It keeps silent where the text itself already has a problem, so that one mistake is
 * told once; the words a reader sees are made elsewhere.
 */
import type { Problem, ProblemSlug, Repair } from "../../grammar/problems.ts";
import type { Span } from "../../grammar/tree.ts";
import { spanFinder } from "./spans.ts";

export interface ProblemList {
  /** Adds a problem unless what stands there already has one. */
  add(problem: Problem): void;
  /** The problem of the text or of its shape that spoils what stands at `span`, if there is one. */
  spoiling(span: Span): Problem | undefined;
  /** Those of them that stand at `span`, in the order of the text. */
  allSpoiling(span: Span): readonly Problem[];
  /** Those added, in the order they were added. */
  readonly added: readonly Problem[];
}

/** Slugs after which the value written there is not to be trusted. */
const spoilers: ReadonlySet<ProblemSlug> = new Set([
  "unreadable",
  "unknown-word",
  "unit-missing",
  "unit-mismatch",
  "decimal-comma",
  "thousands-separator",
  "too-deep",
  "too-long",
  "hidden-character",
]);

/** `earlier` are the problems that parsing and shaping found; `quiet` are the lines that have had their one mistake told. */
export function problemList(earlier: readonly Problem[], quiet: readonly Span[]): ProblemList {
  const spoilt = spanFinder(
    earlier.filter((problem) => spoilers.has(problem.slug) && problem.mild !== true),
    (problem) => problem.span,
  );
  const told = spanFinder(quiet, (span) => span);
  const added: Problem[] = [];
  const add = (problem: Problem) => {
    if (spoilt.first(problem.span) === undefined && told.first(problem.span) === undefined) {
      added.push(problem);
    }
  };
  return { add, spoiling: spoilt.first, allSpoiling: spoilt.all, added };
}

/** Problems in the order of the text; those at one place keep their order. */
export function inTextOrder(problems: readonly Problem[]): readonly Problem[] {
  return [...problems].sort((a, b) => a.span.start - b.span.start);
}

/** The repair that writes the word that was probably meant. */
export function changeTo(span: Span, found: string, near: string): Repair {
  return { title: `Change \`${found}\` to \`${near}\``, edits: [{ span, text: near }] };
}
