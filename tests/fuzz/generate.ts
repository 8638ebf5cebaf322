/**
 * Texts for the fuzz: plans written from the vocabulary's own tables, right in form and wild in content, and mutations of texts
 * that are right.
 */
import { blockRules } from "../../grammar/vocabulary/blocks.ts";
import type { ClauseRule, Part, Slot, StatementRule } from "../../grammar/vocabulary/rule.ts";
import { unitWords } from "../../grammar/vocabulary/units.ts";
import type { Chance } from "./chance.ts";

const names = [
  "scar",
  "plafond",
  "ap",
  "lateral",
  "D1",
  "D2",
  "P1",
  "P2",
  "tarnbeck",
  "dowel",
  "x",
  "__proto__",
  "constructor",
];
const codes = ["42A2", "42-B1", "42A3(b)", "42A2(b)[9]", "4F2A", "43C1.1", "99Z9"];

/** One document of the given kind, as deep as the tables go. */
export function document(chance: Chance): string {
  const kind = chance.pick(["plan", "plan", "plan", "catalogue", "protocol"]);
  return `isthmus 1\n\n${kind} ${text(chance)} {\n${blockBody(chance, kind, 1)}}\n`;
}

function blockBody(chance: Chance, block: string, depth: number): string {
  const rules = blockRules.get(block)?.statements ?? [];
  return rules
    .flatMap((rule) => {
      const often = rule.times === "many" ? chance.whole(3) : chance.yes(rule.times === "one" ? 0.95 : 0.5) ? 1 : 0;
      return Array.from({ length: depth > 4 ? 0 : often }, () => statement(chance, rule, depth));
    })
    .join("");
}

function statement(chance: Chance, rule: StatementRule, depth: number): string {
  const indent = "  ".repeat(depth);
  const note = chance.yes(0.05) ? `${indent}## ${chance.pick(["a note", "**bold** _and_ more", "# odd"])}\n` : "";
  const comment = chance.yes(0.05) ? " # a comment" : "";
  const heads = rule.slots.map((slot) => slotText(chance, slot)).join("");
  const clauses = rule.clauses
    .filter(({ required }) => required === true || chance.yes(0.5))
    .map((clause) => clauseText(chance, clause));
  const separator = rule.slots.length === 0 ? " " : ", ";
  const tail = clauses.length === 0 ? "" : `${separator}${clauses.join(", ")}`;
  if (rule.block === undefined) return `${note}${indent}${rule.word}${heads}${tail}${comment}\n`;
  return `${note}${indent}${rule.word}${heads}${tail} {${comment}\n${blockBody(chance, rule.block, depth + 1)}${indent}}\n`;
}

function clauseText(chance: Chance, clause: ClauseRule): string {
  return `${clause.word}${clause.slots.map((slot) => slotText(chance, slot)).join("")}`;
}

function slotText(chance: Chance, slot: Slot): string {
  if ((slot.times === "optional" || slot.times === "any") && chance.yes(0.5)) return "";
  const lead = slot.lead === undefined ? "" : ` ${slot.lead}`;
  const count = slot.times === "many" || slot.times === "any" ? 1 + chance.whole(3) : 1;
  const parts = Array.from({ length: count }, () => partText(chance, slot.part));
  return `${lead} ${parts.join(", ")}`;
}

function partText(chance: Chance, part: Part): string {
  switch (part.kind) {
    case "quantity":
      return expression(chance, chance.pick(part.of), 0);
    case "level":
      return chance.yes(0.2) ? chance.pick(names) : expression(chance, "length", 0);
    case "number":
      return number(chance);
    case "choice":
      return chance.pick(Object.keys(part.words));
    case "declares":
    case "names":
      return chance.pick(names);
    case "text":
    case "path":
      return text(chance);
    case "code":
      return chance.pick(codes);
    case "date":
      return "2026-03-02";
    case "range": {
      const dimension = chance.pick(part.of);
      const by = part.stepped === true || chance.yes(0.3) ? ` by ${quantity(chance, dimension)}` : "";
      return `${quantity(chance, dimension)} to ${quantity(chance, dimension)}${by}`;
    }
    case "expression":
      return expression(chance, chance.pick(["length", "angle", "mass", "time"]), 0);
    case "either":
      return partText(chance, chance.pick(part.parts));
  }
}

function expression(chance: Chance, dimension: string, depth: number): string {
  if (depth > 2 || chance.yes(0.7)) {
    const plain = quantity(chance, dimension);
    return dimension === "length" && chance.yes(0.3) ? `${plain} on ${chance.pick(["ap", "lateral"])}` : plain;
  }
  const inner = (): string => expression(chance, dimension, depth + 1);
  switch (chance.whole(5)) {
    case 0:
      return `(${inner()} + ${inner()})`;
    case 1:
      return `${inner()} - ${inner()}`;
    case 2:
      return `${inner()} / ${number(chance)}`;
    case 3:
      return `${chance.pick(["min", "max", "mean", "hypot"])}(${inner()}, ${inner()})`;
    default:
      return `-${quantity(chance, dimension)}`;
  }
}

function quantity(chance: Chance, dimension: string): string {
  const units = [...unitWords].filter(([, entry]) => entry.dimension === dimension).map(([word]) => word);
  const unit = chance.pick(units);
  const spread = chance.yes(0.3) ? ` ± ${number(chance)} ${unit}` : "";
  return `${number(chance)} ${unit}${spread}`;
}

function number(chance: Chance): string {
  return chance.pick(["0", "1", "8.5", "11", "28.75", "0.2", "345", "416", "1e-3", "1e6", "99999999", "0.000001"]);
}

function text(chance: Chance): string {
  return chance.pick([
    '"a text"',
    '"catalogue/x.isthmus"',
    '"../../outside"',
    '"é 🦴"',
    '""',
    '"""\n  a block\n    of text\n  """',
  ]);
}

const insertions = [
  ..."{}()\"#,.±+-*/%°@=\\\u0000\u200b\u202e\u00a0\u2028µ—'’",
  ..."\r\n\t 8",
  ...[
    "8,5 mm",
    "1 000 mm",
    "1e400 mm",
    " mm",
    " on ap",
    " to ",
    "## ",
    '"""',
    "\r\n",
    "🦴",
    "plan",
    "reem 8 mm",
    "lock",
    "\ud800",
  ],
];

/** A right text with some of it deleted, doubled, swapped, cut off or written over. */
export function mutated(chance: Chance, source: string): string {
  let result = source;
  for (let rounds = 1 + chance.whole(3); rounds > 0; rounds -= 1) result = mutatedOnce(chance, result);
  return result;
}

function mutatedOnce(chance: Chance, source: string): string {
  const at = chance.whole(source.length + 1);
  const length = 1 + chance.whole(chance.yes(0.2) ? 60 : 4);
  const lines = source.split("\n");
  switch (chance.whole(8)) {
    case 0:
      return source.slice(0, at) + source.slice(at + length);
    case 1:
      return source.slice(0, at) + chance.pick(insertions) + source.slice(at);
    case 2:
      return source.slice(0, at) + source.slice(at, at + length).repeat(2) + source.slice(at + length);
    case 3:
      return source.slice(0, at);
    case 4:
      return lines.filter((_, index) => index !== at % lines.length).join("\n");
    case 5: {
      const line = lines[at % lines.length] ?? "";
      return [...lines.slice(0, length), line, ...lines.slice(length)].join("\n");
    }
    case 6:
      return source.slice(0, at) + source.slice(at).replace(/[A-Za-z-]+/, chance.pick(["nail", "lock", "case", "qqq"]));
    default:
      return (
        source.slice(0, at) +
        source.slice(at).replace(/\d+(\.\d+)?/, chance.pick(["0", "-5", "1e9", "8,5", "999999", "x"]))
      );
  }
}

/** Characters with no rhyme or reason. */
export function noise(chance: Chance): string {
  return Array.from({ length: chance.whole(120) }, () =>
    chance.yes(0.4) ? chance.pick(insertions) : String.fromCharCode(chance.whole(chance.yes(0.1) ? 65536 : 128)),
  ).join("");
}
