/**
 * Holds a message of the server to the protocol's own description of its shapes (`protocol-shapes.json`): a property that is missing,
 * one too many, or a value of another kind is told with its path.
 */
import { readFileSync } from "node:fs";

type Type =
  | { readonly kind: "base" | "reference"; readonly name: string }
  | { readonly kind: "array"; readonly element: Type }
  | { readonly kind: "map"; readonly key: Type; readonly value: Type }
  | { readonly kind: "or" | "and" | "tuple"; readonly items: readonly Type[] }
  | { readonly kind: "literal"; readonly value: { readonly properties: readonly Property[] } }
  | { readonly kind: "stringLiteral" | "integerLiteral" | "booleanLiteral"; readonly value: unknown };

interface Property {
  readonly name: string;
  readonly type: Type;
  readonly optional?: boolean;
}

interface Shapes {
  readonly results: Readonly<Record<string, Type>>;
  readonly params: Readonly<Record<string, Type>>;
  readonly structures: Readonly<Record<string, { readonly properties: readonly Property[]; readonly bases: string[] }>>;
  readonly enumerations: Readonly<Record<string, { readonly values: readonly unknown[]; readonly open: boolean }>>;
  readonly aliases: Readonly<Record<string, Type>>;
}

const shapes = JSON.parse(readFileSync(new URL("protocol-shapes.json", import.meta.url), "utf8")) as Shapes;

/** What is wrong with the answer to a request; empty for one that fits, and for a method of this tool's own. */
export function wrongInResult(method: string, result: unknown): readonly string[] {
  const type = shapes.results[method];
  if (type === undefined) return isOwn(method) ? [] : [`${method} is not described`];
  return wrong(type, result, method);
}

/** The same for what the server asks or tells of itself. */
export function wrongInParams(method: string, params: unknown): readonly string[] {
  const type = shapes.params[method];
  if (type === undefined) return isOwn(method) ? [] : [`${method} is not described`];
  return wrong(type, params ?? null, method);
}

function isOwn(method: string): boolean {
  return method.startsWith("isthmus/");
}

function wrong(type: Type, value: unknown, path: string): readonly string[] {
  switch (type.kind) {
    case "base":
      return isBase(type.name, value) ? [] : [`${path} is no ${type.name}: ${shown(value)}`];
    case "reference":
      return wrongNamed(type.name, value, path);
    case "array":
      if (!Array.isArray(value)) return [`${path} is no list: ${shown(value)}`];
      return value.flatMap((each, index) => wrong(type.element, each, `${path}[${index}]`));
    case "map":
      if (!isObject(value)) return [`${path} is no map: ${shown(value)}`];
      return Object.entries(value).flatMap(([key, each]) => wrong(type.value, each, `${path}.${key}`));
    case "tuple":
      if (!Array.isArray(value) || value.length !== type.items.length) return [`${path} is no tuple: ${shown(value)}`];
      return type.items.flatMap((item, index) => wrong(item, value[index], `${path}[${index}]`));
    case "or":
      return leastWrong(type.items.map((item) => wrong(item, value, path)));
    case "and":
      return wrongStructure(type.items.flatMap(propertiesOf), value, path);
    case "literal":
      return wrongStructure(type.value.properties, value, path);
    default:
      return value === type.value ? [] : [`${path} is not ${shown(type.value)}: ${shown(value)}`];
  }
}

function wrongNamed(name: string, value: unknown, path: string): readonly string[] {
  if (name === "LSPAny" || name === "LSPObject" || name === "LSPArray") return [];
  const alias = shapes.aliases[name];
  if (alias !== undefined) return wrong(alias, value, path);
  const enumeration = shapes.enumerations[name];
  if (enumeration !== undefined) {
    const fits =
      enumeration.values.includes(value) || (enumeration.open && typeof value === typeof enumeration.values[0]);
    return fits ? [] : [`${path} is no ${name}: ${shown(value)}`];
  }
  return wrongStructure(propertiesOf({ kind: "reference", name }), value, path);
}

function wrongStructure(properties: readonly Property[], value: unknown, path: string): readonly string[] {
  if (!isObject(value)) return [`${path} is no object: ${shown(value)}`];
  const known = new Set(properties.map(({ name }) => name));
  const more = Object.keys(value).filter((name) => !known.has(name));
  return [
    ...more.map((name) => `${path} has no property ${name}`),
    ...properties.flatMap(({ name, type, optional }) => {
      const each = value[name];
      if (each === undefined) return optional === true ? [] : [`${path}.${name} is missing`];
      return wrong(type, each, `${path}.${name}`);
    }),
  ];
}

function propertiesOf(type: Type): readonly Property[] {
  if (type.kind === "literal") return type.value.properties;
  if (type.kind !== "reference") return [];
  const structure = shapes.structures[type.name];
  if (structure === undefined) throw new Error(`the shape of ${type.name} is not kept`);
  const inherited = structure.bases.flatMap((name) => propertiesOf({ kind: "reference", name }));
  const own = new Set(structure.properties.map(({ name }) => name));
  return [...structure.properties, ...inherited.filter(({ name }) => !own.has(name))];
}

function leastWrong(found: readonly (readonly string[])[]): readonly string[] {
  return [...found].sort((a, b) => a.length - b.length)[0] ?? [];
}

function isBase(name: string, value: unknown): boolean {
  const isWhole = Number.isInteger(value);
  switch (name) {
    case "integer":
      return isWhole && Math.abs(value as number) < 2 ** 31;
    case "uinteger":
      return isWhole && (value as number) >= 0 && (value as number) < 2 ** 31;
    case "decimal":
      return typeof value === "number";
    case "boolean":
      return typeof value === "boolean";
    case "null":
      return value === null;
    default:
      return typeof value === "string";
  }
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function shown(value: unknown): string {
  return (JSON.stringify(value) ?? "undefined").slice(0, 80);
}
