/**
 * The content of a plan as the peers read it: one list entry a statement in YAML and JSON, and a JSON Schema of types, enumerations
 * and ranges for it. No surgery is in the schema: the peers do less than an analysis does.
 */
import { parse } from "../../grammar/parse.ts";
import type { Item, Phrase, Statement } from "../../grammar/tree.ts";

export type Data = string | number | readonly Data[] | { readonly [key: string]: Data };

export interface Content {
  readonly data: Data;
  /** One line a statement, as a person would write it who has many of them. */
  readonly yaml: string;
  readonly json: string;
  readonly schema: object;
}

export function contentOf(plan: string): Content {
  const data = parse(plan).tree.statements.map(dataOf);
  const root: Data = { document: data };
  const schema = { $schema: "http://json-schema.org/draft-07/schema#", ...schemaOf([root]) };
  const yaml = `document:\n${data.map((each) => yamlLines(each, "  ")).join("")}`;
  return { data: root, yaml, json: JSON.stringify(root, null, 1), schema };
}

/** `{ canal: { values: [...], width: [...] } }`: what stands before the first comma, then each clause by its first word. */
function dataOf({ word, phrases, notes, block }: Statement): Data {
  const held: Record<string, Data> = {};
  if (notes.length > 0) held.notes = notes.map(({ text }) => text).join("\n");
  for (const [index, phrase] of phrases.entries()) addPhrase(held, phrase, index === 0);
  if (block !== undefined) held.block = block.statements.map(dataOf);
  return { [word.name]: held };
}

function addPhrase(held: Record<string, Data>, { items }: Phrase, first: boolean): void {
  if (items.length === 0) return;
  const [head, ...rest] = items;
  const clause = !first && head?.kind === "word" ? head.name : "values";
  const values = (clause === "values" ? items : rest).flatMap(valuesOf);
  const before = held[clause];
  held[clause] = Array.isArray(before) ? [...before, ...values] : values;
}

/** Numbers as numbers; a unit, a view and an operator as words of their own, so that the content is the same. */
function valuesOf(item: Item): Data[] {
  switch (item.kind) {
    case "quantity": {
      const spread = item.plusMinus === undefined ? [] : [item.plusMinus.value];
      return [item.number.value, ...spread, ...(item.unit === undefined ? [] : [item.unit.unit])];
    }
    case "word":
      return [item.name];
    case "text":
      return [item.value];
    case "reading":
      return [...valuesOf(item.value), item.view.name];
    case "range":
      return [item.from, item.to, ...(item.by === undefined ? [] : [item.by])].flatMap(valuesOf);
    case "binary":
      return [...valuesOf(item.left), item.operator, ...valuesOf(item.right)];
    case "code":
    case "date":
      return [item.text];
    case "equals":
      return ["="];
    default:
      throw new Error(`the generated plans hold no ${item.kind}`);
  }
}

function yamlLines(statement: Data, indent: string): string {
  const [word = "", held] = Object.entries(statement as object)[0] ?? [];
  const { block, ...own } = held as Record<string, Data>;
  if (block === undefined) return `${indent}- ${word}: ${JSON.stringify(own)}\n`;
  const fields = Object.entries(own).map(([key, value]) => `${indent}    ${key}: ${JSON.stringify(value)}\n`);
  const inner = (block as readonly Data[]).map((each) => yamlLines(each, `${indent}      `));
  return `${indent}- ${word}:\n${fields.join("")}${indent}    block:\n${inner.join("")}`;
}

/** The narrowest schema of a few kinds that all examples fit: that is what a person would write for them. */
function schemaOf(examples: readonly Data[]): object {
  if (examples.every((each) => typeof each === "number")) {
    return { type: "number", minimum: 0, maximum: 2 * largest(examples) };
  }
  if (examples.every((each) => typeof each === "string")) return wordSchema(examples);
  if (examples.every((each) => Array.isArray(each))) {
    return { type: "array", items: schemaOf(examples.flatMap((each) => [...(each as readonly Data[])])) };
  }
  const numbers = examples.filter((each) => typeof each === "number");
  const words = examples.filter((each) => typeof each === "string");
  if (numbers.length + words.length === examples.length) {
    const { minimum, maximum } = schemaOf(numbers) as { minimum: number; maximum: number };
    // One schema for both, without a choice among several: choices are what the peers are slowest at.
    return { type: ["number", "string"], minimum, maximum, maxLength: 200 };
  }
  return objectSchema(examples as readonly { readonly [key: string]: Data }[]);
}

const mostWords = 30;

function largest(numbers: readonly Data[]): number {
  return numbers.reduce<number>((most, each) => Math.max(most, Math.abs(each as number)), 1);
}

function wordSchema(words: readonly Data[]): object {
  const different = [...new Set(words)];
  const isText = different.length > mostWords || different.some((each) => String(each).includes(" "));
  return isText ? { type: "string", minLength: 1, maxLength: 1000 } : { type: "string", enum: different };
}

function objectSchema(examples: readonly { readonly [key: string]: Data }[]): object {
  const byKey = new Map<string, Data[]>();
  for (const example of examples) {
    for (const [key, value] of Object.entries(example)) {
      const values = byKey.get(key) ?? [];
      values.push(value);
      byKey.set(key, values);
    }
  }
  const properties = Object.fromEntries([...byKey].map(([key, values]) => [key, schemaOf(values)]));
  const required = [...byKey].filter(([, values]) => values.length === examples.length).map(([key]) => key);
  return { type: "object", properties, required, additionalProperties: false };
}
