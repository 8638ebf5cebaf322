/** Findings as diagnostics: pulled by `textDocument/diagnostic`, or pushed to a client that cannot pull. */
import {
  type Diagnostic,
  DiagnosticSeverity,
  DiagnosticTag,
  DocumentDiagnosticReportKind,
} from "vscode-languageserver";
import type { Analysis } from "../../answers/analyse.ts";
import { linesOf } from "../../answers/lines.ts";
import { findingText, waivedText } from "../../answers/wording.ts";
import type { Finding, Grade } from "../../findings/finding.ts";
import { type Context, requireRunning } from "../context.ts";
import type { OpenDocument } from "../documents.ts";
import { toRange } from "../positions.ts";

const severities: Readonly<Record<Grade, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
};

/** Findings that an editor shows by how it writes the text itself: faint for what nothing uses, struck through for what is old. */
const tags: ReadonlyMap<string, DiagnosticTag> = new Map([
  ["name-unused", DiagnosticTag.Unnecessary],
  ["waiver-unused", DiagnosticTag.Unnecessary],
  ["code-old-spelling", DiagnosticTag.Deprecated],
]);

export function diagnosticRequest(context: Context): void {
  context.connection.languages.diagnostics.on(({ textDocument }) => {
    requireRunning(context);
    return { kind: DocumentDiagnosticReportKind.Full, items: diagnosticsOf(context, textDocument.uri) };
  });
}

/** Sends the findings of every open text; for clients that cannot pull. */
export function pushDiagnostics(context: Context): void {
  for (const { uri, version } of context.documents.all()) {
    // Pushed once its imports are there: their coming pushes everything.
    if (context.workspace.imports(uri) !== undefined) continue;
    void context.connection.sendDiagnostics({ uri, version, diagnostics: diagnosticsOf(context, uri) });
  }
}

function diagnosticsOf(context: Context, uri: string): Diagnostic[] {
  const document = context.documents.get(uri);
  if (document === undefined) return [];
  const analysis = context.workspace.analysis(uri);
  if (analysis === undefined) return [outOfStep()];
  return analysis.judgement.findings
    .filter(({ place }) => place.file === uri)
    .map((finding) => protocolDiagnostic(context, document, analysis, finding));
}

export function protocolDiagnostic(
  context: Context,
  document: Pick<OpenDocument, "lines">,
  analysis: Pick<Analysis, "texts">,
  finding: Finding,
): Diagnostic {
  const { encoding } = context.client;
  const related = (finding.related ?? []).map(({ place, message }) => ({
    message,
    location: {
      uri: place.file,
      range: toRange(linesOf(analysis.texts.get(place.file) ?? ""), place.span, encoding),
    },
  }));
  const href = context.client.opensCodes ? context.ruleLink(finding.slug) : undefined;
  const tag = context.client.tags ? tags.get(finding.slug) : undefined;
  return {
    range: toRange(document.lines, finding.place.span, encoding),
    severity: finding.waived === undefined ? severities[finding.grade] : DiagnosticSeverity.Hint,
    source: "isthmus",
    code: finding.slug,
    ...(href === undefined ? {} : { codeDescription: { href } }),
    message: messageOf(finding),
    ...(tag === undefined ? {} : { tags: [tag] }),
    ...(related.length > 0 ? { relatedInformation: related } : {}),
  };
}

function messageOf(finding: Finding): string {
  const waived = waivedText(finding);
  return waived === undefined ? findingText(finding) : `${findingText(finding)} ${waived}`;
}

function outOfStep(): Diagnostic {
  const start = { line: 0, character: 0 };
  return {
    range: { start, end: start },
    severity: DiagnosticSeverity.Error,
    source: "isthmus",
    code: "out-of-step",
    message: "The editor and the server hold different texts; numbers are withheld. Close this text and open it again.",
  };
}
