/**
 * The names a document gives: values (`let`), landmarks and views, each with the block it is visible in. Names are gathered over the
 * whole document before any value is read, so their order in the text does not matter.
 */
import type { ShapedStatement } from "../../grammar/shaped.ts";
import type { Item, Span, Word } from "../../grammar/tree.ts";
import type { Quantity } from "../quantity/quantity.ts";
import type { ProblemList } from "./problems.ts";
import { declaredWords } from "./slots.ts";

/** A block's own names; what is not found here is looked for in the block around it. */
export interface Scope {
  readonly outer: Scope | undefined;
  readonly names: Map<string, NamedEntry>;
}

/** `value` is undefined until asked for and "asked" while it is being reckoned, which is how a circle shows. */
export interface NamedEntry {
  readonly kind: "value" | "landmark";
  readonly word: Word;
  readonly item: Item | undefined;
  readonly statement: ShapedStatement;
  readonly scope: Scope;
  readonly uses: Span[];
  value: Quantity | "asked" | undefined;
}

export interface ViewEntry {
  readonly word: Word;
  readonly statement: ShapedStatement;
  readonly scope: Scope;
  readonly uses: Span[];
  magnification: Quantity | "asked" | undefined;
  /** The marker's true and seen size, once the magnification was asked for. */
  marker: Quantity | undefined;
  seen: Quantity | undefined;
}

export interface Names {
  readonly root: Scope;
  /** The scope inside each statement that opens a block. */
  readonly scopes: ReadonlyMap<ShapedStatement, Scope>;
  readonly entries: readonly NamedEntry[];
  readonly views: ReadonlyMap<string, ViewEntry>;
}

interface Declaration {
  readonly kind: "value" | "landmark" | "view";
  readonly word: Word;
  readonly statement: ShapedStatement;
  /** The block it stands in, whose names its own value may use. */
  readonly scope: Scope;
  /** The block it is visible in: landmarks and views are everywhere. */
  readonly into: Scope;
  readonly depth: number;
}

/** Gathers every name declared in `document` and below; a name given twice is told with its first place. */
export function gatherNames(document: ShapedStatement, problems: ProblemList): Names {
  const root: Scope = { outer: undefined, names: new Map() };
  const scopes = new Map<ShapedStatement, Scope>();
  const declarations: Declaration[] = [];
  const walk = (statement: ShapedStatement, scope: Scope, depth: number): void => {
    scopes.set(statement, scope);
    for (const child of statement.children) {
      for (const { name, word } of declaredWords(child)) {
        if (name === "value") {
          declarations.push({ kind: name, word, statement: child, scope, into: scope, depth });
        } else if (name === "landmark" || name === "view") {
          declarations.push({ kind: name, word, statement: child, scope, into: root, depth: 0 });
        }
      }
      if (child.children.length > 0) {
        walk(child, { outer: scope, names: new Map() }, depth + 1);
      }
    }
  };
  walk(document, root, 0);
  return { root, scopes, ...enter(declarations, problems) };
}

/** The entry a name means in `scope`. `joint` and `plafond` are two words for one landmark. */
export function lookUp(scope: Scope, name: string): NamedEntry | undefined {
  for (let at: Scope | undefined = scope; at !== undefined; at = at.outer) {
    const entry = at.names.get(name);
    if (entry !== undefined) {
      return entry;
    }
  }
  const twin = twins.get(name);
  return twin === undefined ? undefined : rootOf(scope).names.get(twin);
}

/** Every name that can be written in `scope`. */
export function visibleNames(scope: Scope): readonly string[] {
  const names: string[] = [];
  for (let at: Scope | undefined = scope; at !== undefined; at = at.outer) {
    names.push(...at.names.keys());
  }
  return names;
}

const twins: ReadonlyMap<string, string> = new Map([
  ["joint", "plafond"],
  ["plafond", "joint"],
]);

function rootOf(scope: Scope): Scope {
  return scope.outer === undefined ? scope : rootOf(scope.outer);
}

/** Outer blocks first, so that a name repeated in an inner block is told there; a value that takes a landmark's name likewise. */
function enter(declarations: Declaration[], problems: ProblemList): Pick<Names, "entries" | "views"> {
  const entries: NamedEntry[] = [];
  const views = new Map<string, ViewEntry>();
  declarations.sort((a, b) => a.depth - b.depth || rankOf(a) - rankOf(b) || a.word.span.start - b.word.span.start);
  for (const { kind, word, statement, scope, into } of declarations) {
    const first = kind === "view" ? views.get(word.name) : givenBefore(into, word.name);
    if (first !== undefined) {
      problems.add({ slug: "name-repeated", span: word.span, found: word.name, also: first.word.span });
      continue;
    }
    if (kind === "view") {
      views.set(word.name, {
        word,
        statement,
        scope,
        uses: [],
        magnification: undefined,
        marker: undefined,
        seen: undefined,
      });
      continue;
    }
    const item = valueItem(statement);
    const entry: NamedEntry = { kind, word, item, statement, scope, uses: [], value: undefined };
    into.names.set(word.name, entry);
    entries.push(entry);
  }
  return { entries, views };
}

function rankOf({ kind }: Declaration): number {
  return kind === "value" ? 1 : 0;
}

function givenBefore(scope: Scope, name: string): NamedEntry | undefined {
  for (let at: Scope | undefined = scope; at !== undefined; at = at.outer) {
    const entry = at.names.get(name);
    if (entry !== undefined) {
      return entry;
    }
  }
  return undefined;
}

/** What a declaring statement gives its name: the first item that stands in no declaring slot. */
function valueItem(statement: ShapedStatement): Item | undefined {
  for (const slot of statement.rule?.slots ?? []) {
    if (slot.part.kind !== "declares") {
      return statement.slots.get(slot.name)?.[0];
    }
  }
  return undefined;
}
