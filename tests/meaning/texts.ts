/**
 * The texts the tests of this folder understand: a whole invented plan with its invented catalogue and protocol, a library that
 * holds them in memory, and short ways to ask. It asserts nothing.
 */
import { parse } from "../../grammar/parse.ts";
import type { Problem } from "../../grammar/problems.ts";
import {
  exampleCatalogue as catalogueText,
  examplePlan as planText,
  exampleProtocol as protocolText,
} from "../../server/findings/example.ts";
import { type Library, libraryOfTexts, type OpenedText } from "../../server/meaning/library.ts";
import type { Catalogue, Plan, Protocol, Typed } from "../../server/meaning/plan.ts";
import { type Meaning, understand } from "../../server/meaning/understand.ts";
import { print } from "../../server/quantity/print.ts";

export const planFile = "plans/plan.isthmus";

/** A library over texts by path; a path that climbs lies outside, one that ends in a slash is no file. */
export function libraryOf(texts: ReadonlyMap<string, string>): Library {
  const openText = (_from: string, path: string): OpenedText => {
    if (path.startsWith("..")) {
      return { kind: "outside", because: "it lies outside the library" };
    }
    if (path.endsWith("/")) {
      return { kind: "not-a-file", because: "it is a folder" };
    }
    const text = texts.get(path);
    return text === undefined
      ? { kind: "missing", because: "there is no such file" }
      : { kind: "read", file: path, text };
  };
  return libraryOfTexts(openText);
}

export const library = libraryOf(
  new Map([
    ["catalogue/fenwick.isthmus", catalogueText],
    ["protocol/teaching.isthmus", protocolText],
    ["references.bib", "@article{one1996, title = {One}}\n"],
    [planFile, planText],
  ]),
);

export function meaningOf(text: string, from: Library = library): Meaning {
  return understand(parse(text), planFile, from);
}

export function understoodPlan(text: string, from: Library = library): Plan {
  const { document } = meaningOf(text, from);
  if (document?.kind !== "plan") {
    throw new Error(`no plan but ${document?.kind ?? "nothing"} was understood`);
  }
  return document;
}

export function understoodCatalogue(text: string): Catalogue {
  const { document } = meaningOf(text);
  if (document?.kind !== "catalogue") {
    throw new Error(`no catalogue but ${document?.kind ?? "nothing"} was understood`);
  }
  return document;
}

export function understoodProtocol(text: string): Protocol {
  const { document } = meaningOf(text);
  if (document?.kind !== "protocol") {
    throw new Error(`no protocol but ${document?.kind ?? "nothing"} was understood`);
  }
  return document;
}

/** The plan's text with one passage replaced; the passage must stand there. */
export function planWith(passage: string, replacement: string): string {
  if (!planText.includes(passage)) {
    throw new Error(`the plan has no passage ${passage}`);
  }
  return planText.replace(passage, () => replacement);
}

/** "361.74 mm ± 3.06 mm", or why it is not known. */
export function shown(typed: Typed | undefined, unit = "mm"): string {
  if (typed === undefined) {
    return "not given";
  }
  return typed.quantity.kind === "known" ? print(typed.quantity, unit) : `unknown: ${typed.quantity.because}`;
}

/** All problems of a text, of the text itself too, as "slug what-stands-there". */
export function problemsOf(text: string, from: Library = library): readonly string[] {
  const parsed = parse(text);
  const { problems } = understand(parsed, planFile, from);
  return [...parsed.problems, ...problems].map((problem) => problemText(text, problem));
}

export function problemText(text: string, problem: Problem): string {
  return `${problem.slug} ${text.slice(problem.span.start, problem.span.end)}`.trim();
}
