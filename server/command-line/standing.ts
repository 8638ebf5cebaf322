/** What stands below every output that shows numbers: the notices of the catalogues they come from, and the words of caution. */
import type { Analysis } from "../answers/analyse.ts";
import { catalogueNotices, caution } from "../answers/caution.ts";
import { printable, styled, type Terminal } from "./terminal.ts";

export function standing(terminal: Terminal, analysis: Analysis): string {
  const notices = catalogueNotices(analysis).map((notice) => `Catalogue: ${printable(notice)}\n`);
  return `${notices.join("")}${styled(terminal, "quiet", caution)}\n`;
}
