/** A profile of limits as Markdown: what it sets, what each figure rests on, and how a protocol names it. It judges nothing. */
import { type Profile, profileNamed, profiles } from "../findings/profiles.ts";
import { constant } from "../quantity/arithmetic.ts";
import { print } from "../quantity/print.ts";
import { basisText } from "./limit-text.ts";
import { code, plain } from "./markdown.ts";

/** Undefined when no profile has the name. */
export function profileMarkdown(name: string): string | undefined {
  const profile = profileNamed(name);
  if (profile === undefined) return undefined;
  const lines = profile.sets.map(({ limit, basis }, at) => {
    return `- \`${limit}\` ${setTo(profile, at)}. Basis: ${plain(basisText(basis))}.`;
  });
  return [
    `# Profile \`${name}\``,
    "A protocol that names it sets these limits together; a `limit` further down in the protocol overrides its own.",
    lines.join("\n"),
    code(`profile ${name}`),
  ].join("\n\n");
}

/** Every profile and what it sets, a row each: `name`, `limits`. */
export function profileRows(): readonly { readonly name: string; readonly limits: string }[] {
  return profiles.map((profile) => ({
    name: profile.name,
    limits: profile.sets.map(({ limit }, at) => `\`${limit}\` ${setTo(profile, at)}`).join("; "),
  }));
}

function setTo({ sets }: Profile, at: number): string {
  const set = sets[at];
  return set === undefined ? "" : `up to ${print(constant(set.most, set.unit), set.unit)}`;
}
