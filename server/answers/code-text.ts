/**
 * A fracture code in our own short words: what its group, qualifications and modifiers mean and how far each can be trusted. The
 * classification itself is in `server/findings/fracture-codes.ts`.
 */
import { codeParts, type FractureCode, isGroupOf2007, readCode } from "../findings/fracture-code.ts";
import { source2018, translated } from "../findings/fracture-codes.ts";

/** Undefined for what no classification has. */
export function codeMarkdown(text: string): string | undefined {
  const code = readCode(text);
  if (code === undefined) return undefined;
  if (code.edition === 2007) return isGroupOf2007(code) ? oldCodeMarkdown(text, code) : undefined;
  const parts = codeParts(code);
  const [group] = parts;
  if (group === undefined) return undefined;
  return `**${group.text}**: ${meaningOf(code)}\n\nBasis: ${source2018} (${trustOf(code)}).`;
}

/** What the group has become, the nearest first. */
function oldCodeMarkdown(text: string, code: FractureCode): string {
  const { to, sure } = translated(code.segment, code.group);
  const lines = to.flatMap((group) => {
    const now = readCode(code.segment + group);
    return now === undefined ? [] : `- \`${code.segment}${group}\`: ${meaningOf(now)}`;
  });
  const how = sure ? "since 2018 written" : "what it is since 2018 is for the surgeon to say, perhaps";
  const start = `**${text}**: spelling of 2007; `;
  return lines.length === 0
    ? `${start}no group of 2018 is known to mean the same.`
    : `${start}${how}\n\n${lines.join("\n")}\n\nBasis: ${source2018} (the translation from memory).`;
}

function meaningOf(code: FractureCode): string {
  return codeParts(code)
    .map(({ meaning }) => meaning)
    .join(", ");
}

/** "printed", "from memory, check against the source", or which parts are which. */
function trustOf(code: FractureCode): string {
  const parts = codeParts(code);
  const of = (mark: string): string =>
    parts
      .filter((part) => part.mark === mark)
      .map((part) => part.text)
      .join(", ");
  const [read, remembered] = [of("printed"), of("from memory")];
  const check = "from memory, check against the source";
  if (remembered === "") return "printed";
  return read === "" ? check : `${read} printed; ${remembered} ${check}`;
}
