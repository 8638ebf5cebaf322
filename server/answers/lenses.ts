/** What stands over the head of a document: how many findings there are, and which one to look at first. */
import type { Span } from "../../grammar/tree.ts";
import type { Finding, Grade } from "../findings/finding.ts";
import type { Analysis } from "./analyse.ts";

export interface Lens {
  readonly span: Span;
  /** "2 errors, 1 warning, 1 waived" */
  readonly title: string;
  /** The first of the gravest findings, where the lens leads. */
  readonly finding: Finding;
}

const grades: readonly Grade[] = ["error", "warning", "information"];

/** Empty when there is no finding: nothing would be there to lead to. */
export function lensesOf({ meaning, judgement, file }: Analysis): readonly Lens[] {
  const head = meaning.document?.statement.word.span;
  const here = judgement.findings.filter(({ place }) => place.file === file);
  const open = here.filter(({ waived }) => waived === undefined);
  const gravest = grades.map((grade) => open.find((finding) => finding.grade === grade)).find((found) => found);
  const finding = gravest ?? here[0];
  if (head === undefined || finding === undefined) return [];
  const counts = grades.map((grade) => counted(open.filter((each) => each.grade === grade).length, grade));
  const waived = here.length - open.length;
  const title = [...counts.filter((text) => text !== ""), ...(waived === 0 ? [] : [`${waived} waived`])].join(", ");
  return [{ span: head, title, finding }];
}

function counted(count: number, grade: Grade): string {
  if (count === 0) return "";
  const word = grade === "information" ? "remark" : grade;
  return `${count} ${word}${count === 1 ? "" : "s"}`;
}
