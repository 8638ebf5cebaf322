/** The fixes of the findings in a stretch of text, as edits ready to apply. */
import type { Edit } from "../../grammar/problems.ts";
import type { Span } from "../../grammar/tree.ts";
import type { Finding, Fix } from "../findings/finding.ts";
import type { Analysis } from "./analyse.ts";
import { touches } from "./statements.ts";

export interface OfferedFix {
  readonly title: string;
  readonly class: Fix["class"];
  readonly edits: readonly Edit[];
  readonly finding: Finding;
  /** True for the one fix a finding has, or the first of those that keep every decision. */
  readonly preferred: boolean;
}

/** Fixes of every finding that touches `span`; an empty span at a finding's edge touches it. */
export function fixesIn(analysis: Analysis, span: Span): OfferedFix[] {
  return analysis.judgement.findings
    .filter(({ place }) => place.file === analysis.file && touches(place.span, span))
    .flatMap((finding) => {
      const fixes = finding.fixes ?? [];
      return fixes.map((fix, index) => ({
        ...fix,
        finding,
        preferred:
          index === 0 && fix.class !== "needs a choice" && (fixes.length === 1 || fix.class === "keeps every decision"),
      }));
    });
}
