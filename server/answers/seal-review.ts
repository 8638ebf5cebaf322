/**
 * Seals a `reviewed` line with the plan as it stands now. Offered at such a line alone and never among the fixes: only the person
 * who has looked the plan over can say so.
 */
import type { Edit } from "../../grammar/problems.ts";
import { sealOf } from "../../grammar/seal.ts";
import type { Span } from "../../grammar/tree.ts";
import type { Analysis } from "./analyse.ts";
import { touches } from "./statements.ts";

export interface OfferedSeal {
  readonly title: string;
  readonly edits: readonly Edit[];
}

/** None where the seal fits already, or the text is broken. */
export function sealsIn({ meaning, file, text }: Analysis, span: Span): readonly OfferedSeal[] {
  const { document } = meaning;
  if (document?.kind !== "plan" || document.file !== file) return [];
  const reviews = document.reviews.filter(({ place }) => touches(place.span, span));
  const now = reviews.length === 0 ? undefined : sealOf(text);
  if (now === undefined) return [];
  return reviews
    .filter(({ seal }) => seal?.text !== now)
    .map(({ by, seal, place }): OfferedSeal => {
      const quoted = `"${now}"`;
      const edit: Edit =
        seal === undefined
          ? { span: { start: place.span.end, end: place.span.end }, text: `, seal ${quoted}` }
          : { span: seal.place.span, text: quoted };
      return { title: `Seal this review by ${by.text}: the plan as it stands is ${now}`, edits: [edit] };
    });
}
