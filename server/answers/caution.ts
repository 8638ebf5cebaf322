/** The standing words of caution, and what the catalogues say of themselves wherever their data are used. */
import type { Analysis } from "./analyse.ts";

/** The standing words of caution, shown on every face; no option removes them. */
export const caution =
  "Planning and teaching aid. Not a medical device, not validated for clinical use. " +
  "Numbers depend on the readings typed in. The operating surgeon, the implant maker's current instructions and local rules decide.";

/** The notices of the catalogues a plan's numbers come from. */
export function catalogueNotices({ meaning }: Analysis): readonly string[] {
  const { document } = meaning;
  if (document?.kind !== "plan") return [];
  return document.uses.flatMap((use) => (use.document?.notice === undefined ? [] : [use.document.notice.text]));
}
