/**
 * Findings and reckonings as plain records for the machine-readable faces: lines and columns from 1, lengths in mm, angles in
 * deg, unrounded numbers, `plusMinus` at k = 2. The shape is versioned by `recordEdition` and described by `records.schema.json`.
 */
import type { Finding } from "../findings/finding.ts";
import type { Place } from "../meaning/plan.ts";
import { halfWidthIn, isExact, valueIn } from "../quantity/arithmetic.ts";
import type { Quantity } from "../quantity/quantity.ts";
import type { Answer, Reckoning } from "../reckoning/reckoning.ts";
import type { Analysis } from "./analyse.ts";
import { type Lines, linesOf } from "./lines.ts";

/** Raised when a field changes its meaning or goes; a new field alone does not raise it. */
export const recordEdition = 1;

export interface PlaceRecord {
  readonly line: number;
  readonly column: number;
  /** Only when it stands in another file than the record's own. */
  readonly file?: string;
}

export interface ReckoningRecord {
  readonly id: string;
  readonly label: string;
  readonly value: number | string | null;
  readonly unit: string;
  readonly plusMinus: number;
  readonly formula: string;
  readonly from: readonly PlaceRecord[];
  readonly basis: string;
  readonly remark?: string;
  readonly because?: string;
}

export interface FindingRecord {
  readonly slug: string;
  readonly grade: string;
  readonly message: string;
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
  readonly at: string | null;
  readonly value: number | null;
  readonly limit: number | null;
  readonly margin: number | null;
  readonly unit: string | null;
  readonly probability: number | null;
  readonly waived: { readonly because: string; readonly signed: string } | null;
  readonly fallback: string | null;
}

export interface AnalysisRecord {
  readonly edition: number;
  readonly file: string;
  readonly digest: string;
  readonly caution: string;
  readonly reckonings: readonly ReckoningRecord[];
  readonly findings: readonly FindingRecord[];
}

/** `name` is the file as the reader knows it, `digest` of the text it was made from, `caution` the tool's standing words. */
export function analysisRecord(analysis: Analysis, name: string, digest: string, caution: string): AnalysisRecord {
  const placed = placer(analysis);
  return {
    edition: recordEdition,
    file: name,
    digest,
    caution,
    reckonings: (analysis.reckonings?.list ?? []).map((reckoning) => reckoningRecord(reckoning, placed)),
    findings: analysis.judgement.findings.map((finding) => findingRecord(finding, analysis)),
  };
}

function findingRecord(finding: Finding, analysis: Analysis): FindingRecord {
  const lines = linesOf(analysis.text);
  const start = lines.position(finding.place.span.start);
  const end = lines.position(finding.place.span.end);
  const number = (quantity: Quantity | undefined): number | null =>
    quantity?.kind === "known" && finding.unit !== undefined ? valueIn(quantity, finding.unit) : null;
  return {
    slug: finding.slug,
    grade: finding.grade,
    message: finding.message,
    line: start.line + 1,
    column: start.character + 1,
    endLine: end.line + 1,
    endColumn: end.character + 1,
    at: finding.at ?? null,
    value: number(finding.value),
    limit: number(finding.limit),
    margin: number(finding.margin),
    unit: finding.unit ?? null,
    probability: finding.probability ?? null,
    waived: finding.waived ?? null,
    fallback: finding.fallback ?? null,
  };
}

function reckoningRecord(reckoning: Reckoning, placed: (place: Place) => PlaceRecord): ReckoningRecord {
  return {
    id: reckoning.id,
    label: reckoning.label,
    ...answerRecord(reckoning.answer, reckoning.unit),
    unit: reckoning.unit,
    formula: reckoning.formula,
    from: reckoning.from.map(placed),
    basis: reckoning.basis.text,
    ...(reckoning.remark === undefined ? {} : { remark: reckoning.remark }),
  };
}

function answerRecord(answer: Answer, unit: string): Pick<ReckoningRecord, "value" | "plusMinus" | "because"> {
  switch (answer.kind) {
    case "word":
      return { value: answer.word, plusMinus: 0 };
    case "unknown":
      return { value: null, plusMinus: 0, because: answer.because };
    case "known":
      return { value: valueIn(answer, unit), plusMinus: isExact(answer) ? 0 : halfWidthIn(answer, unit) };
  }
}

function placer(analysis: Analysis): (place: Place) => PlaceRecord {
  const known = new Map<string, Lines>();
  return (place) => {
    let lines = known.get(place.file);
    if (lines === undefined) {
      lines = linesOf(analysis.texts.get(place.file) ?? "");
      known.set(place.file, lines);
    }
    const { line, character } = lines.position(place.span.start);
    const here = { line: line + 1, column: character + 1 };
    return place.file === analysis.file ? here : { ...here, file: pathFrom(analysis.file, place.file) };
  };
}

/** The path of one file from the folder of another, so that a record reads the same on every machine; works on URIs too. */
function pathFrom(own: string, other: string): string {
  const [from, to] = [own.split(/[\\/]/), other.split(/[\\/]/)];
  let common = 0;
  while (common < Math.min(from.length, to.length) - 1 && from[common] === to[common]) common += 1;
  return [...from.slice(common + 1).map(() => ".."), ...to.slice(common)].join("/");
}
