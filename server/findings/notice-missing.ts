/**
 * A catalogue that does not say what it is: invented, or typed from which document and by whom.
 */
import { commonPractice } from "./common-practice.ts";
import type { Fix, TextRule } from "./finding.ts";
import { clear, found } from "./judging.ts";

export const rule: TextRule = {
  kind: "text",
  slug: "notice-missing",
  title: "Catalogue that does not say where it comes from",
  why:
    "Every length and every screw of a plan comes from a catalogue that a person typed. " +
    "Its notice says whether it is invented or which document it was typed from and by whom, and it is shown wherever its data are used.",
  grade: "error",
  basis: commonPractice,
  wrong: {
    text: 'isthmus 1\n\ncatalogue "An invented set" {\n  reamers {\n    heads 8 mm to 14 mm by 0.5 mm\n  }\n}\n',
  },
  right: {
    text:
      'isthmus 1\n\ncatalogue "An invented set" {\n  notice "Invented for examples. Not an implant on any market."\n' +
      "  reamers {\n    heads 8 mm to 14 mm by 0.5 mm\n  }\n}\n",
  },
  check: (document) => {
    if (document.kind !== "catalogue") return clear;
    if (document.notice !== undefined && document.notice.text.trim() !== "") return clear;
    return found({
      place: { file: document.file, span: document.statement.word.span },
      message: "The catalogue does not say where it comes from: it has no notice.",
      fixes: noticeFix(document.statement.block?.open.end, document.notice !== undefined),
    });
  },
};

function noticeFix(after: number | undefined, given: boolean): readonly Fix[] {
  if (after === undefined || given) return [];
  return [
    {
      title: "add an empty notice to fill in",
      class: "needs a choice",
      edits: [{ span: { start: after, end: after }, text: '\n  notice ""' }],
    },
  ];
}
