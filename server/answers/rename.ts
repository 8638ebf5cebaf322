/**
 * Renaming: what may be renamed at an offset, and the edits that do it over one text or a library. A name that the tool itself knows
 * keeps its meaning only under that name, so it is not renamed; a new name that is taken is refused with the reason.
 */
import { lex } from "../../grammar/tokens.ts";
import type { Span } from "../../grammar/tree.ts";
import { functionWords } from "../../grammar/vocabulary/functions.ts";
import type { NameKind } from "../../grammar/vocabulary/rule.ts";
import type { Place } from "../meaning/plan.ts";
import { analysedWith } from "./again.ts";
import type { Analysis } from "./analyse.ts";
import type { Facts } from "./facts.ts";
import { isShared, mentionsHere, mentionsOf, type NamedHere, nameAt } from "./names.ts";
import { holds, pathTo } from "./statements.ts";

export interface Renamable {
  readonly name: string;
  readonly span: Span;
  /** True when other files may say the name too: every one of them has to be looked at. */
  readonly shared: boolean;
}

export type Refusal = { readonly refused: string };

export interface Renaming {
  readonly edits: readonly { readonly place: Place; readonly text: string }[];
}

/** Undefined where no name stands; a refusal where a name stands that has to stay. */
export function renamableAt(analysis: Analysis, offset: number): Renamable | Refusal | undefined {
  const label = caseLabel(analysis, offset);
  if (label !== undefined) return { name: label.text, span: label.place.span, shared: false };
  const name = nameAt(analysis, offset);
  if (name === undefined || name.kind === "file") return undefined;
  if (name.kind === "citation") {
    return {
      refused: `\`${name.name}\` is a key of a bibliography, which other texts may cite too: it is renamed there`,
    };
  }
  if (name.declared === undefined) {
    return { refused: `\`${name.name}\` is given by no file that is read, so it cannot be renamed` };
  }
  if (isReckonedWith(analysis, name)) {
    return { refused: `\`${name.name}\` is reckoned with under that name; another name would lose its meaning` };
  }
  return { name: name.name, span: name.span, shared: isShared(name) };
}

/** `files` are the facts of every file that may say the name, this one among them; for a name that is not shared this one is enough. */
export function renamed(
  analysis: Analysis,
  offset: number,
  to: string,
  files: readonly Facts[],
): Renaming | Refusal | undefined {
  const renamable = renamableAt(analysis, offset);
  if (renamable === undefined || "refused" in renamable) return renamable;
  if (to === renamable.name) return { edits: [] };
  if (!isPlainWord(to)) return { refused: `\`${to}\` is no name: ${nameForm}` };
  const name = nameAt(analysis, offset);
  if (name === undefined) return { edits: [{ place: { file: analysis.file, span: renamable.span }, text: to }] };
  const taken = takenIn(files, name, to);
  if (taken !== undefined) return { refused: taken };
  const mentions = mentionsOf(name, files, analysis.file);
  const edits = mentions.map(({ place }) => ({ place, text: to }));
  if (!isShared(name) && !keepsReferences(analysis, name, edits)) {
    return { refused: `\`${to}\` already means something where this name is used` };
  }
  return { edits };
}

const nameForm = "a letter, then letters, digits and single hyphens, and neither a unit nor a word between values";

/** A landmark with a meaning of its own, or one of the words for the far joint. */
export function isReckonedWith(analysis: Analysis, { kind, declared }: NamedHere): boolean {
  if (kind !== "landmark" || declared?.file !== analysis.file) return false;
  const shaped = pathTo(analysis, declared.span.start).at(-1);
  const part = shaped?.rule?.slots[0]?.part;
  const written = analysis.text.slice(declared.span.start, declared.span.end);
  return part?.kind === "declares" && Object.hasOwn(part.known ?? {}, written);
}

function caseLabel({ meaning: { document }, file }: Analysis, offset: number) {
  const label = document?.kind === "plan" ? document.case?.label : undefined;
  if (label === undefined || label.text === "" || label.place.file !== file || !holds(label.place.span, offset)) {
    return undefined;
  }
  return isPlainWord(label.text) && label.place.span.end - label.place.span.start === label.text.length
    ? label
    : undefined;
}

/** One word to the lexer behind a word, where units and operators are told apart from names. */
function isPlainWord(text: string): boolean {
  const [, second, ...more] = lex(`let ${text}`);
  return second?.kind === "word" && second.text === text && more.length === 0 && !functionWords.has(text);
}

/** Names of one kind, and values and landmarks together, must differ wherever this name can be said. */
function takenIn(files: readonly Facts[], name: NamedHere, to: string): string | undefined {
  const kinds: readonly NamedHere["kind"][] = isShared(name) ? [name.kind] : valueKinds(name.kind);
  for (const { references, file } of files) {
    const { declarations, uses } = references;
    const concerned = file === name.declared?.file || uses.some((use) => use.declared?.file === name.declared?.file);
    const clash = declarations.find((each) => each.name === to && kinds.includes(each.kind) && isNear(each, name));
    if (concerned && clash !== undefined) return `\`${to}\` is taken: ${clash.detail}`;
  }
  return undefined;
}

function valueKinds(kind: NamedHere["kind"]): readonly NamedHere["kind"][] {
  return kind === "view" ? ["view"] : ["value", "landmark"];
}

// A hole of another catalogue's nail is another hole.
function isNear(clash: { readonly kind: NameKind; readonly place: Place }, name: NamedHere): boolean {
  return clash.kind !== "hole" || clash.place.file === name.declared?.file;
}

/** Tried: with the edits in, the name is said where it was said before, and nothing that was known is unknown. */
function keepsReferences(analysis: Analysis, name: NamedHere, edits: Renaming["edits"]): boolean {
  const own = edits.map(({ place, text }) => ({ span: place.span, text }));
  const after = analysedWith(analysis, own);
  if (slugsOf(after) !== slugsOf(analysis)) return false;
  const first = mentionsHere(analysis, name)[0]?.place.span.start;
  const again = first === undefined ? undefined : nameAt(after, first);
  return again !== undefined && mentionsHere(after, again).length === own.length;
}

function slugsOf({ judgement }: Analysis): string {
  return judgement.findings
    .map(({ slug }) => slug)
    .sort()
    .join(" ");
}
