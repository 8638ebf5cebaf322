/**
 * What is kept of a file that is not looked at: its names, the files it reads, its findings. Answers over a whole library of plans
 * are made from these, so that no tree and no plan has to stay in memory for them.
 */
import type { Finding } from "../findings/finding.ts";
import { type Citation, citationsIn } from "../meaning/citations.ts";
import type { Document, Place, Plan, Said } from "../meaning/plan.ts";
import type { References } from "../meaning/references.ts";
import type { Analysis } from "./analyse.ts";

export interface Facts {
  readonly file: string;
  readonly text: string;
  readonly kind: Document["kind"] | undefined;
  readonly title: Said | undefined;
  readonly references: References;
  readonly paths: readonly PathUse[];
  readonly citations: readonly CitedHere[];
  readonly findings: readonly Finding[];
  /** As `Analysis.texts`: what these facts were made from. */
  readonly texts: ReadonlyMap<string, string>;
}

/** A citation with the entry it leads to; undefined when no bibliography of the plan has its key. */
export interface CitedHere extends Citation {
  readonly leads: Place | undefined;
}

/** A path written in a plan. */
export interface PathUse {
  readonly line: "use" | "follow" | "sources";
  readonly path: string;
  /** The text with its quotes. */
  readonly place: Place;
  /**
   * Where the title of the file stands that was read for it, the start of a bibliography; undefined when none was read, or it is no
   * document.
   */
  readonly leads: Place | undefined;
}

export function factsOf({ file, text, texts, meaning, judgement }: Analysis): Facts {
  const { document, references } = meaning;
  return {
    file,
    text,
    texts,
    references,
    kind: document?.kind,
    title: document?.title,
    paths: pathsIn(document),
    citations: citedIn(text, document),
    findings: judgement.findings.filter(({ place }) => place.file === file),
  };
}

/** In the order of the text, each with the first entry of its key; a catalogue and a protocol have no bibliography to cite from. */
export function citedIn(text: string, document: Document | undefined): readonly CitedHere[] {
  if (document?.kind !== "plan") return [];
  return citationsIn(text).map((citation) => ({ ...citation, leads: entriesNamed(document, citation.key)[0] }));
}

/** Where the bibliographies of a plan hold a key. */
export function entriesNamed({ bibliographies }: Plan, cited: string): readonly Place[] {
  return bibliographies.flatMap(({ read }) =>
    (read?.entries ?? [])
      .filter(({ key }) => key === cited)
      .map(({ keySpan }) => ({ file: read?.file ?? "", span: keySpan })),
  );
}

/** The paths of a plan in the order of its lists; a catalogue and a protocol have none. */
export function pathsIn(document: Document | undefined): readonly PathUse[] {
  if (document?.kind !== "plan") return [];
  const { uses, follows, bibliographies } = document;
  const written = (line: PathUse["line"], { text, place }: Said, leads: Place | undefined): PathUse => {
    return { line, path: text, place, leads };
  };
  return [
    ...uses.map(({ path, document: read }) => written("use", path, read?.title.place)),
    ...follows.map(({ path, document: read }) => written("follow", path, read?.title.place)),
    ...bibliographies.map(({ path, read }) =>
      written("sources", path, read === undefined ? undefined : { file: read.file, span: { start: 0, end: 0 } }),
    ),
  ];
}
