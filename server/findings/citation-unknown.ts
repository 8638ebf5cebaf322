/**
 * A citation whose key stands in none of the plan's bibliographies. With a bibliography that cannot be read nothing is told but that.
 */
import { nearest } from "../../grammar/nearest.ts";
import { type Citation, citationsIn } from "../meaning/citations.ts";
import type { Plan } from "../meaning/plan.ts";
import { commonPractice } from "./common-practice.ts";
import type { Found, TextRule } from "./finding.ts";
import { cannotTell, clear } from "./judging.ts";
import { quoted } from "./words.ts";

export const rule: TextRule = {
  kind: "text",
  slug: "citation-unknown",
  title: "Citation of a source that no bibliography has",
  why:
    "A note that cites lets a reader look the source up. " +
    "A key that stands in no bibliography of the plan leads nowhere, in the lesson and on the sheet as well.",
  grade: "warning",
  basis: commonPractice,
  wrong: {
    change: [
      ["  status for-review\n", '  sources "references.bib"\n  status for-review\n'],
      [
        "    ## Chatter starts at the isthmus",
        "    ## Heat [@leunig1996; @nobody1901].\n    ## Chatter starts at the isthmus",
      ],
    ],
  },
  right: {
    change: [
      ["  status for-review\n", '  sources "references.bib"\n  status for-review\n'],
      ["    ## Chatter starts at the isthmus", "    ## Heat [@leunig1996].\n    ## Chatter starts at the isthmus"],
    ],
  },
  check: (document, text) => {
    if (document.kind !== "plan") return clear;
    const cited = citationsIn(text);
    if (cited.length === 0) return clear;
    const keys = new Set(document.bibliographies.flatMap(({ read }) => read?.entries.map(({ key }) => key) ?? []));
    const unknown = cited.filter(({ key }) => !keys.has(key));
    const [unread] = document.bibliographies.filter(({ read }) => read === undefined);
    if (unread !== undefined && unknown.length > 0) return cannotTell(`${quoted(unread.path.text)} cannot be read`);
    return { found: unknown.map((citation) => unknownIn(document, keys, citation)) };
  },
};

function unknownIn(plan: Plan, keys: ReadonlySet<string>, { key, span }: Citation): Found {
  const place = { file: plan.file, span };
  if (plan.bibliographies.length === 0) {
    return { place, message: `${quoted(key)} is cited, and the plan names no sources.`, at: key };
  }
  const near = nearest(key, keys);
  const related = plan.bibliographies.map(({ path }) => ({ place: path.place, message: "Looked for here." }));
  const message = `No bibliography of the plan has ${quoted(key)}.`;
  if (near === undefined) return { place, message, at: key, related };
  const edits = [{ span, text: `@${near}` }];
  return { place, message, at: key, related, fixes: [{ title: `cite ${near}`, class: "keeps every decision", edits }] };
}
