/**
 * Text that looks like it identifies the patient: in texts, labels, comments and notes, and an age above 89 years. It looks at
 * the plan only; where a person signs, names and dates are expected.
 */
import type { Span, Statement, Tree } from "../../grammar/tree.ts";
import type { Plan } from "../meaning/plan.ts";
import { constant } from "../quantity/arithmetic.ts";
import type { Fix, Found, TextRule } from "./finding.ts";
import { type Identifier, identifiersIn, labelFault } from "./identifier-patterns.ts";
import { clear, found, judgeAtMost } from "./judging.ts";
import { itemsOf, statementsIn } from "./tree-walk.ts";

/** A stretch of the document that a person wrote freely. */
interface Written {
  readonly span: Span;
  readonly signed: boolean;
}

export const rule: TextRule = {
  kind: "text",
  slug: "identifier",
  title: "Text that looks like it identifies the patient",
  why:
    "A plan is shared, printed and taught from, and it needs no name, date, telephone number or record number to be reckoned. " +
    "Ages above 89 years and serial numbers of devices count among the identifiers as well.",
  grade: "warning",
  basis: {
    mark: "printed",
    text: "45 CFR 164.514(b)(2)(i), the list of identifiers (A) to (R); only what a pattern can see is looked for",
  },
  wrong: {
    change: [
      [
        "    ## Chatter starts at the isthmus",
        "    ## Mrs Examplewoman asks for a small scar.\n    ## Chatter starts at the isthmus",
      ],
    ],
  },
  right: { change: [] },
  check: (document, text, tree) => {
    if (document.kind !== "plan") return clear;
    const inTexts = writtenIn(tree).flatMap((written) => identifiersAt(document, text, written));
    return found(...inTexts, ...inLabel(document), ...inAge(document), ...inFileName(document));
  },
};

function writtenIn(tree: Tree): readonly Written[] {
  const comments = [...tree.comments, ...tree.adrift].map(({ span }) => ({ span, signed: false }));
  const statements = tree.statements.flatMap((statement) => [...statementsIn(statement)]);
  return [...comments, ...statements.flatMap((statement) => writtenAt(statement))].sort(
    (a, b) => a.span.start - b.span.start,
  );
}

function writtenAt(statement: Statement): readonly Written[] {
  const notes = [...statement.notes, ...(statement.block?.adrift ?? [])].map(({ span }) => ({ span, signed: false }));
  const texts = statement.phrases.flatMap((phrase, index) => {
    const [first] = phrase.items;
    const signed =
      (statement.word.name === "reviewed" && index === 0) || (first?.kind === "word" && first.name === "signed");
    return phrase.items.filter((item) => item.kind === "text").map(({ span }) => ({ span, signed }));
  });
  return [...notes, ...texts];
}

function identifiersAt(document: Plan, text: string, written: Written): readonly Found[] {
  const stretch = text.slice(written.span.start, written.span.end);
  return identifiersIn(stretch, written.signed).map((identifier) => {
    const span = { start: written.span.start + identifier.start, end: written.span.start + identifier.end };
    return {
      place: { file: document.file, span },
      message: `This looks like ${identifier.what}; a plan needs none.`,
      fixes: [fixFor(identifier, span)],
    };
  });
}

function fixFor(identifier: Identifier, span: Span): Fix {
  const { what, instead } = identifier;
  const title = instead === undefined ? `take ${what} out` : `write ${instead} only`;
  // A pattern may be wrong about a word, and what is taken out is gone: never without being asked.
  return { title, class: "needs a choice", edits: [{ span, text: instead ?? "…" }] };
}

function inLabel(plan: Plan): readonly Found[] {
  const label = plan.case?.label;
  if (label === undefined || label.text === "") return [];
  const [typed] = [...statementsIn(plan.statement)]
    .filter((each) => each.word.name === "case")
    .flatMap((each) => [...itemsOf(each)]);
  const what = typed?.kind === "text" && identifiersIn(label.text).length > 0 ? undefined : labelFault(label.text);
  if (what === undefined) return [];
  return [{ place: label.place, message: `The case's label looks like ${what}; a pseudonym is enough.`, at: "case" }];
}

function inAge(plan: Plan): readonly Found[] {
  const age = plan.case?.age;
  if (age === undefined) return [];
  const judged = judgeAtMost(age.quantity, constant(90, "years"), "warning");
  if (judged?.kind !== "beyond") return [];
  return [
    {
      place: age.place,
      message: "An age above 89 years identifies; write 90 years for all of them.",
      at: "age",
      fixes: [
        { title: "write 90 years", class: "keeps every decision", edits: [{ span: age.place.span, text: "90 years" }] },
      ],
    },
  ];
}

function inFileName(plan: Plan): readonly Found[] {
  const name = plan.file.slice(Math.max(plan.file.lastIndexOf("/"), plan.file.lastIndexOf("\\")) + 1);
  const stem = name.replace(/\.isthmus$/, "");
  const [first] = identifiersIn(stem);
  if (first === undefined) return [];
  return [
    {
      place: plan.title.place,
      message: `The file's name looks like it holds ${first.what}; a plan needs none.`,
      at: "file",
    },
  ];
}
