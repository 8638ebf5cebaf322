/**
 * `textDocument/codeAction`: the fixes of the findings in a range and a waiver for each, refactorings, proposals from the measures, and
 * all fixes at once. A proposal is searched for only where a client asks for refactorings, or the range touches a line that a proposal
 * writes anew.
 */
import {
  type CodeAction,
  type CodeActionContext,
  CodeActionKind,
  CodeActionTriggerKind,
  type WorkspaceEdit,
} from "vscode-languageserver";
import type { Edit } from "../../../grammar/problems.ts";
import type { Span } from "../../../grammar/tree.ts";
import { completedSteps } from "../../answers/complete-steps.ts";
import { fixAllEdits } from "../../answers/fix-all.ts";
import { fixesIn } from "../../answers/fixes.ts";
import { proposedChanges, touchesProposed } from "../../answers/propose-edits.ts";
import { type Refactoring, refactoringsIn } from "../../answers/refactorings.ts";
import { sealsIn } from "../../answers/seal-review.ts";
import { waiversIn } from "../../answers/waive.ts";
import { analysed, type Context } from "../context.ts";
import type { OpenDocument } from "../documents.ts";
import { toRange, toSpan } from "../positions.ts";
import { protocolDiagnostic } from "./diagnostic.ts";

/** A kind of its own, so that an editor can be told to run these fixes alone when it saves. */
const fixAllKind = `${CodeActionKind.SourceFixAll}.isthmus`;

type Here = NonNullable<ReturnType<typeof analysed>>;

export function codeActionRequest(context: Context): void {
  context.connection.onCodeAction(({ textDocument, range, context: asked }): CodeAction[] | null => {
    const here = analysed(context, textDocument.uri);
    if (here === undefined) return null;
    const span = toSpan(here.document.lines, range, context.client.encoding);
    // What has to be tried takes as long as reading the whole text; a cursor that only passes by does not wait for that.
    const isByTheWay = asked.triggerKind === CodeActionTriggerKind.Automatic && here.analysis.text.length > longText;
    return [
      ...(wants(asked, CodeActionKind.QuickFix) ? quickFixes(context, here, span) : []),
      ...(isByTheWay ? [] : tried(context, here, span, asked)),
      ...(asked.only !== undefined && wants(asked, fixAllKind) ? allFixes(context, here) : []),
    ];
  });
}

function quickFixes(context: Context, { document, analysis }: Here, span: Span): CodeAction[] {
  return fixesIn(analysis, span).map(({ title, class: fixClass, edits, finding, preferred }) => ({
    title,
    kind: CodeActionKind.QuickFix,
    diagnostics: [protocolDiagnostic(context, document, analysis, finding)],
    isPreferred: preferred,
    data: { class: fixClass },
    edit: workspaceEdit(context, document, edits),
  }));
}

/** In UTF-16 units: some 1,200 lines. */
const longText = 50_000;

function tried(context: Context, here: Here, span: Span, asked: CodeActionContext): CodeAction[] {
  const { document, analysis } = here;
  const waivers = wants(asked, CodeActionKind.QuickFix) ? waiversIn(analysis, span) : [];
  return [
    ...waivers.map(({ title, edits, finding }) => ({
      title,
      kind: CodeActionKind.QuickFix,
      diagnostics: [protocolDiagnostic(context, document, analysis, finding)],
      edit: workspaceEdit(context, document, edits),
    })),
    ...refactored(context, here, span, asked),
  ];
}

const kinds: Readonly<Record<Refactoring["kind"], CodeActionKind>> = {
  extract: CodeActionKind.RefactorExtract,
  inline: CodeActionKind.RefactorInline,
  rewrite: CodeActionKind.RefactorRewrite,
};

function refactored(context: Context, { document, analysis }: Here, span: Span, asked: CodeActionContext) {
  const rewrites = wants(asked, CodeActionKind.RefactorRewrite);
  const proposes = rewrites && (asked.only !== undefined || touchesProposed(analysis, span));
  const rewritten = [
    ...(proposes ? proposedChanges(analysis) : []),
    ...(rewrites ? [...completedSteps(analysis, span), ...sealsIn(analysis, span)] : []),
  ].map((change) => ({ ...change, kind: "rewrite" as const }));
  const found = [...rewritten, ...refactoringsIn(analysis, span, (kind) => wants(asked, kinds[kind]))];
  return found.map(({ title, kind, edits }) => ({
    title,
    kind: kinds[kind],
    edit: workspaceEdit(context, document, edits),
  }));
}

/** Only when asked for by kind: what mends a whole text is no answer to a place in it. */
function allFixes(context: Context, { document, analysis }: Here): CodeAction[] {
  const edits = fixAllEdits(analysis);
  if (edits.length === 0) return [];
  const title = "Fix all that changes no number and no decision";
  return [{ title, kind: fixAllKind, edit: workspaceEdit(context, document, edits) }];
}

/** A kind asked for stands for the kinds below it too; the empty one for all. */
function wants({ only }: CodeActionContext, kind: CodeActionKind): boolean {
  return only === undefined || only.some((asked) => asked === "" || kind === asked || kind.startsWith(`${asked}.`));
}

function workspaceEdit(context: Context, document: OpenDocument, edits: readonly Edit[]): WorkspaceEdit {
  const changes = edits.map(({ span, text }) => ({
    range: toRange(document.lines, span, context.client.encoding),
    newText: text,
  }));
  return { documentChanges: [{ textDocument: { uri: document.uri, version: document.version }, edits: changes }] };
}
