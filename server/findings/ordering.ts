/**
 * Findings in the order of the text, each once, and each at a place in the document that is judged: what lies in a file it reads
 * is shown at the line that reads it.
 */
import type { Document, Place } from "../meaning/plan.ts";
import type { Finding } from "./finding.ts";

/** By place; at one place the graver first, then by slug, so that the order never depends on how the rules were run. */
export function inTextOrder(findings: readonly Finding[]): readonly Finding[] {
  return [...findings].sort(
    (a, b) =>
      a.place.span.start - b.place.span.start ||
      a.place.span.end - b.place.span.end ||
      gravity(a) - gravity(b) ||
      (a.slug < b.slug ? -1 : a.slug > b.slug ? 1 : 0),
  );
}

/** The same slug with the same words at the same place is one finding. */
export function onceEach(findings: readonly Finding[]): readonly Finding[] {
  const once = new Map<string, Finding>();
  for (const finding of findings) {
    const { file, span } = finding.place;
    const key = JSON.stringify([finding.slug, file, span.start, span.end, finding.message]);
    if (!once.has(key)) once.set(key, finding);
  }
  return [...once.values()];
}

/** The finding at a place in `document`; its own place in another file becomes a related one. */
export function broughtHome(finding: Finding, document: Document): Finding {
  if (finding.place.file === document.file) return finding;
  const { fixes: _, ...rest } = finding;
  return {
    ...rest,
    place: lineThatReads(finding.place.file, document),
    related: [...(finding.related ?? []), { place: finding.place, message: "It lies here." }],
  };
}

function lineThatReads(file: string, document: Document): Place {
  if (document.kind !== "plan") return document.title.place;
  const reading = [...document.uses, ...document.follows].find((each) => each.document?.file === file);
  return reading?.path.place ?? document.title.place;
}

function gravity(finding: Finding): number {
  return finding.grade === "error" ? 0 : finding.grade === "warning" ? 1 : 2;
}
