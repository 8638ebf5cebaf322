/**
 * Where a finding's rule is told: the page of findings as it lies beside the server, opened at the rule's heading, so that the link
 * works without a network. Where there is no such page, there is no link.
 */

/** The link of a rule by its slug; undefined where nothing tells of it. */
export type RuleLink = (slug: string) => string | undefined;

export const noRuleLink: RuleLink = () => undefined;

/** Links into the page of findings with this text and URI; editors open a file at the line that follows `#L`. */
export function ruleLinks(uri: string, page: string): RuleLink {
  const lines = page.split("\n");
  const headings = lines.flatMap((line, at) => {
    const slug = /^`([a-z-]+)` · /.exec(line)?.[1];
    // The heading stands two lines above its slug; lines are counted from 1.
    return slug === undefined || lines[at - 2]?.startsWith("### ") !== true ? [] : [[slug, at - 1] as const];
  });
  const byRule = new Map(headings);
  return (slug) => {
    const line = byRule.get(slug);
    return line === undefined ? undefined : `${uri}#L${line}`;
  };
}
