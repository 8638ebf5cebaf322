/**
 * Entries of a bibliography that the plan never cites. They are told together, at the line that reads it.
 */
import type { Bibliography } from "../meaning/bibliography.ts";
import { citationsIn } from "../meaning/citations.ts";
import { commonPractice } from "./common-practice.ts";
import type { Found, TextRule } from "./finding.ts";
import { clear } from "./judging.ts";
import { counted, listed, quoted } from "./words.ts";

/** So many keys are named; of more the number is told. */
const mostNamed = 3;

export const rule: TextRule = {
  kind: "text",
  slug: "citation-unused",
  title: "Sources that the plan never cites",
  why:
    "A source that is listed and never cited supports nothing in the plan. " +
    "A bibliography kept for many plans has such entries by intent; a protocol can turn this off.",
  grade: "information",
  basis: commonPractice,
  wrong: { change: [["  status for-review\n", '  sources "references.bib"\n  status for-review\n']] },
  right: {
    change: [
      ["  status for-review\n", '  sources "references.bib"\n  status for-review\n'],
      ["    ## Chatter starts at the isthmus", "    ## Heat [@leunig1996].\n    ## Chatter starts at the isthmus"],
    ],
  },
  check: (document, text) => {
    if (document.kind !== "plan" || document.bibliographies.length === 0) return clear;
    const cited = new Set(citationsIn(text).map(({ key }) => key));
    return { found: document.bibliographies.flatMap((bibliography) => unusedIn(bibliography, cited)) };
  },
};

function unusedIn({ path, read }: Bibliography, cited: ReadonlySet<string>): readonly Found[] {
  const unused = [...new Set(read?.entries.map(({ key }) => key))].filter((key) => !cited.has(key));
  if (unused.length === 0) return [];
  const named = unused.slice(0, mostNamed).map(quoted);
  const more = unused.length - named.length;
  const keys = listed(more === 0 ? named : [...named, counted(more, "other", "others")], "and");
  return [{ place: path.place, message: `Never cited of ${quoted(path.text)}: ${keys}.`, at: path.text }];
}
