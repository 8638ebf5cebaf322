/** Statements and clauses with places to fill in, in the syntax of editor snippets. What may stand where is not known here. */
import type { Alternatives, ClauseRule, Part, Slot, StatementRule } from "../../grammar/vocabulary/rule.ts";

/** The statement with all that must stand in it. */
export function statementSnippet(rule: StatementRule): string {
  const places = numbered();
  const meant = firstWay(rule.alternatives);
  const head = slotsSnippet(rule.slots, places, meant);
  const clauses = rule.clauses.filter(({ word, required }) => required === true || meant.includes(word));
  const tail = clauses.map((clause, index) => {
    const separator = index === 0 && head === "" ? " " : ", ";
    return `${separator}${clauseSnippet(clause, places)}`;
  });
  const braces = rule.block === undefined || rule.blockOptional === true ? "" : " {\n  $0\n}";
  return `${rule.word}${head}${tail.join("")}${braces}`;
}

/** The clause with all that must stand in it. */
export function clauseSnippet({ word, slots }: ClauseRule, places: () => number = numbered()): string {
  return `${word}${slotsSnippet(slots, places, [])}`;
}

function numbered(): () => number {
  let last = 0;
  return () => {
    last += 1;
    return last;
  };
}

/** Where one of several ways must be taken the first one is. */
function firstWay(alternatives: Alternatives | undefined): readonly string[] {
  if (alternatives?.needed !== true) return [];
  return alternatives.together === true ? alternatives.ways.flat() : (alternatives.ways[0] ?? []);
}

function slotsSnippet(slots: readonly Slot[], places: () => number, meant: readonly string[]): string {
  return slots
    .filter(({ name, times, after }) => meant.includes(name) || (times !== "optional" && times !== "any" && !after))
    .map(({ name, lead, part }) => `${lead === undefined ? "" : ` ${lead}`} ${placeholder(part, places, name)}`)
    .join("");
}

function placeholder(part: Part, places: () => number, name: string): string {
  switch (part.kind) {
    case "choice":
      return `\${${places()}|${Object.keys(part.words).join(",")}|}`;
    case "text":
    case "path":
      return `"\${${places()}:${name}}"`;
    case "range": {
      const ends = `\${${places()}:from} to \${${places()}:to}`;
      return part.stepped === true ? `${ends} by \${${places()}:step}` : ends;
    }
    case "number":
      return part.known?.[0] ?? `\${${places()}:${name}}`;
    case "either": {
      const [first] = part.parts;
      return first === undefined || first.kind === "choice" || first.kind === "names"
        ? `\${${places()}:${name}}`
        : placeholder(first, places, name);
    }
    default:
      return `\${${places()}:${name}}`;
  }
}
