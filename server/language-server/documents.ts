/**
 * The texts the editor has open, kept by the protocol's rules and checked by them: a change for a text that is not open, or with a
 * version that is not newer, marks the text as out of step, because numbers from a wrong text must not be shown. A text is marked
 * from outside too, when the editor says what it holds.
 */
import type { TextDocumentContentChangeEvent } from "vscode-languageserver";
import { type Lines, linesOf } from "../answers/lines.ts";
import { type Encoding, toSpan } from "./positions.ts";

export interface OpenDocument {
  readonly uri: string;
  readonly version: number;
  readonly text: string;
  readonly lines: Lines;
  /** False once a change was lost or came in the wrong order; closing and opening again heals it. */
  readonly inStep: boolean;
}

export interface Documents {
  get(uri: string): OpenDocument | undefined;
  all(): readonly OpenDocument[];
  open(uri: string, version: number, text: string): void;
  change(uri: string, version: number, changes: readonly TextDocumentContentChangeEvent[], encoding: Encoding): void;
  close(uri: string): void;
  /** Until it is opened again no number is shown of it. */
  outOfStep(uri: string): void;
}

export function openDocuments(): Documents {
  const known = new Map<string, OpenDocument>();
  return {
    get: (uri) => known.get(uri),
    all: () => [...known.values()],
    open: (uri, version, text) => void known.set(uri, { uri, version, text, lines: linesOf(text), inStep: true }),
    change: (uri, version, changes, encoding) => {
      const old = known.get(uri);
      if (old === undefined) return void known.set(uri, neverOpened(uri, version));
      const inStep = old.inStep && version > old.version;
      const text = inStep ? changes.reduce((now, change) => applied(now, change, encoding), old.text) : old.text;
      known.set(uri, { uri, version: Math.max(version, old.version), text, lines: linesOf(text), inStep });
    },
    close: (uri) => void known.delete(uri),
    outOfStep: (uri) => {
      const old = known.get(uri);
      if (old !== undefined) known.set(uri, { ...old, inStep: false });
    },
  };
}

/** The opening of a text was lost: what stands in it is not known. */
function neverOpened(uri: string, version: number): OpenDocument {
  return { uri, version, text: "", lines: linesOf(""), inStep: false };
}

function applied(text: string, change: TextDocumentContentChangeEvent, encoding: Encoding): string {
  if (!("range" in change)) return change.text;
  const lines = linesOf(text);
  const { start, end } = toSpan(lines, change.range, encoding);
  return text.slice(0, start) + change.text + text.slice(end);
}
