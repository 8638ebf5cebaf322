/** What a plan keeps beside the case and the operation: who has looked it over, and what it asks of learners. Types alone. */
import type { Place, Said } from "./plan.ts";

export interface Review {
  readonly by: Said;
  readonly dated: Said | undefined;
  readonly seal: Said | undefined;
  readonly place: Place;
}

export interface Question {
  readonly text: Said;
  readonly answers: readonly { readonly text: Said; readonly right: boolean; readonly because: Said | undefined }[];
  readonly place: Place;
}
