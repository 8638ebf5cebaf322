/**
 * Looks into shaped statements: which clause stands there, which items fill a slot, which words a slot declares or names. It
 * knows the vocabulary's form and none of its words, and reads no values.
 */
import type { ShapedClause, ShapedStatement } from "../../grammar/shaped.ts";
import type { Item, Span, Statement, Word } from "../../grammar/tree.ts";
import type { DimensionName, NameKind, Part, Slot } from "../../grammar/vocabulary/rule.ts";

/** What has slots: a statement's head or one of its clauses. */
export interface Slotted {
  readonly rule: { readonly slots: readonly Slot[] } | undefined;
  readonly slots: ReadonlyMap<string, readonly Item[]>;
  /** A head has its statement and the clauses after it, a clause its span. */
  readonly statement?: Statement;
  readonly clauses?: readonly ShapedClause[];
  readonly span?: Span;
}

export function clauseOf(statement: ShapedStatement, word: string): ShapedClause | undefined {
  return statement.clauses.find((clause) => clause.rule.word === word);
}

export function childrenOf(statement: ShapedStatement | undefined, word: string): readonly ShapedStatement[] {
  return statement === undefined ? [] : statement.children.filter((child) => child.rule?.word === word);
}

export function childOf(statement: ShapedStatement | undefined, word: string): ShapedStatement | undefined {
  return statement?.children.find((child) => child.rule?.word === word);
}

/** The first item of the first slot that is filled. */
export function firstItem(slotted: Slotted): Item | undefined {
  for (const slot of slotted.rule?.slots ?? []) {
    const item = slotted.slots.get(slot.name)?.[0];
    if (item !== undefined) {
      return item;
    }
  }
  return undefined;
}

export function partOf(slotted: Slotted, slot: string): Part | undefined {
  return slotted.rule?.slots.find((candidate) => candidate.name === slot)?.part;
}

/** The names a statement gives, with what kind of name each is. */
export function declaredWords(statement: ShapedStatement): readonly { name: NameKind; word: Word }[] {
  const found: { name: NameKind; word: Word }[] = [];
  for (const slotted of [statement, ...statement.clauses]) {
    for (const slot of slotted.rule?.slots ?? []) {
      const { part } = slot;
      if (part.kind === "declares") {
        found.push(...wordsIn(slotted, slot.name).map((word) => ({ name: part.name, word })));
      }
    }
  }
  return found;
}

/** The names a statement uses outside expressions, with the kind each is of. What a block is called is no use of a name. */
export function namedWords(statement: ShapedStatement): readonly { name: NameKind; word: Word }[] {
  const found: { name: NameKind; word: Word }[] = [];
  const opensBlock = statement.rule?.block !== undefined;
  for (const slotted of opensBlock ? [] : [statement, ...statement.clauses]) {
    for (const slot of slotted.rule?.slots ?? []) {
      for (const word of wordsIn(slotted, slot.name)) {
        const name = nameKindOf(slot.part, word.name);
        if (name !== undefined) {
          found.push({ name, word });
        }
      }
    }
  }
  return found;
}

/** The dimensions a value in this part may have; undefined when any will do. */
export function dimensionsOf(part: Part | undefined): readonly DimensionName[] | undefined {
  switch (part?.kind) {
    case "quantity":
    case "range":
      return part.plain === true ? [...part.of, "share"] : part.of;
    case "level":
      return ["length"];
    case "either": {
      const all = part.parts.filter(isValued).map(dimensionsOf);
      const known = all.filter((some) => some !== undefined);
      return all.length === 0 || known.length < all.length ? undefined : known.flat();
    }
    default:
      return undefined;
  }
}

function isValued(part: Part): boolean {
  return part.kind === "quantity" || part.kind === "range" || part.kind === "level" || part.kind === "expression";
}

function wordsIn(slotted: Slotted, slot: string): readonly Word[] {
  return (slotted.slots.get(slot) ?? []).filter((item) => item.kind === "word");
}

/** The kind of name `word` is when it fills `part`; a fixed word of a choice comes first. */
function nameKindOf(part: Part, word: string): NameKind | undefined {
  if (part.kind === "names") {
    return part.name;
  }
  if (part.kind !== "either") {
    return undefined;
  }
  for (const inner of part.parts) {
    if (inner.kind === "choice" && Object.hasOwn(inner.words, word)) {
      return undefined;
    }
    const kind = nameKindOf(inner, word);
    if (kind !== undefined) {
      return kind;
    }
  }
  return undefined;
}
