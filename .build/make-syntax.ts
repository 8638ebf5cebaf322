/**
 * Makes the editor's two syntax files, and a third for Markdown fences, from the vocabulary: colours and typing habits follow the
 * tables and nothing is listed twice. Run with Node to write them; a test holds the files to what this makes.
 */
import { writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { TokenType } from "chevrotain";
import { T } from "../grammar/tokens.ts";
import { blockRules } from "../grammar/vocabulary/blocks.ts";
import { functionWords } from "../grammar/vocabulary/functions.ts";
import type { Part, Slot, StatementRule } from "../grammar/vocabulary/rule.ts";
import { unitWords } from "../grammar/vocabulary/units.ts";

/** One rule of a TextMate grammar. */
interface Colouring {
  name?: string;
  contentName?: string;
  match?: string;
  begin?: string;
  end?: string;
  while?: string;
  captures?: Record<string, { name: string }>;
  beginCaptures?: Record<string, { name: string }>;
  endCaptures?: Record<string, { name: string }>;
  patterns?: readonly Colouring[];
  include?: string;
}

/** What the tables say of one word that begins a statement, in whichever blocks it does. */
interface StatementWords {
  readonly word: string;
  /** In every block it stands in; a nail is a block in a catalogue and a step in an operation. */
  readonly opensBlock: boolean;
  readonly clauses: ReadonlySet<string>;
  /** Fixed words before a slot: `at`, `up-to`. */
  readonly leads: ReadonlySet<string>;
  /** The words to choose from, and known names. */
  readonly choices: ReadonlySet<string>;
  /** True when a name follows the word. */
  readonly named: boolean;
}

const wordStart = "(?<![A-Za-z0-9-])";
const wordEnd = "(?![A-Za-z0-9]|-[A-Za-z0-9])";
/** A number may follow a minus, a word may not. */
const digitsStart = "(?<![A-Za-z0-9])";
const word = patternOf(T.Word);
const number = patternOf(T.Number);

/** File name inside grammar/ and text of every syntax file. */
export function syntaxFiles(): ReadonlyMap<string, string> {
  return new Map([
    ["isthmus.tmLanguage.json", written(planColours())],
    ["markdown-fence.tmLanguage.json", written(fenceColours())],
    ["language-configuration.json", written(typingHabits())],
  ]);
}

function written(value: unknown): string {
  return `${JSON.stringify(value, undefined, 2)}\n`;
}

function planColours(): unknown {
  const statements = statementWords();
  return {
    comment: "Made by .build/make-syntax.ts from the vocabulary; changes belong there.",
    scopeName: "source.isthmus",
    name: "Isthmus",
    fileTypes: ["isthmus"],
    patterns: [
      { include: "#note" },
      { include: "#comment" },
      { include: "#brace" },
      ...statements.map((each) => ({ include: `#statement-${each.word}` })),
      { include: "#item" },
    ],
    repository: {
      ...Object.fromEntries(statements.map((each) => [`statement-${each.word}`, statementColours(each)])),
      ...commonColours(),
    },
  };
}

/** A statement runs to the end of its line or to its block, and on into the next line after a comma. */
function statementColours(rule: StatementWords): Colouring {
  const clauses = alternatives(rule.clauses);
  const afterWord = [
    ...(rule.clauses.size > 0 ? [`(${clauses})${wordEnd}`] : ["(?!)()"]),
    ...(rule.named
      ? [`${rule.choices.size > 0 ? `(?!(?:${alternatives(rule.choices)})${wordEnd})` : ""}(${word})${wordEnd}`]
      : []),
  ].join("|");
  return {
    name: "meta.statement.isthmus",
    begin: `^\\s*(${rule.word})${wordEnd}(?:[ \\t]+(?:${afterWord}))?`,
    beginCaptures: {
      1: { name: rule.opensBlock ? "keyword.control.isthmus" : "keyword.other.statement.isthmus" },
      2: { name: "entity.other.attribute-name.isthmus" },
      ...(rule.named ? { 3: { name: "entity.name.type.isthmus" } } : {}),
    },
    end: `(?=\\s*[{}])|(?=\\s*(?:#.*)?$)`,
    patterns: [
      {
        begin: ",(?=\\s*(?:#.*)?$)",
        beginCaptures: { 0: { name: "punctuation.separator.comma.isthmus" } },
        end: `^(?=\\s*[^\\s#])`,
        patterns: [{ include: "#comment" }],
      },
      ...(rule.clauses.size > 0
        ? [
            {
              match: `(?:(,)\\s*|^\\s*)(${clauses})${wordEnd}`,
              captures: {
                1: { name: "punctuation.separator.comma.isthmus" },
                2: { name: "entity.other.attribute-name.isthmus" },
              },
            },
          ]
        : []),
      ...worded("entity.other.attribute-name.isthmus", rule.leads),
      ...worded("variable.other.enummember.isthmus", rule.choices),
      { include: "#item" },
    ],
  };
}

function worded(name: string, words: ReadonlySet<string>): readonly Colouring[] {
  return words.size === 0 ? [] : [{ name, match: `${wordStart}(?:${alternatives(words)})${wordEnd}` }];
}

function commonColours(): Record<string, Colouring> {
  return {
    note: {
      name: "comment.block.documentation.isthmus",
      begin: "^\\s*(##)(?!#)",
      beginCaptures: { 1: { name: "punctuation.definition.comment.isthmus" } },
      end: "$",
      patterns: [
        { name: "markup.inline.raw.isthmus", match: "`[^`]+`" },
        { name: "markup.underline.link.citation.isthmus", match: "\\[@[^\\]\\s]+\\]" },
      ],
    },
    comment: {
      name: "comment.line.number-sign.isthmus",
      begin: "#",
      beginCaptures: { 0: { name: "punctuation.definition.comment.isthmus" } },
      end: "$",
    },
    brace: { name: "punctuation.section.block.isthmus", match: "[{}]" },
    item: {
      patterns: [
        { include: "#comment" },
        { include: "#text" },
        { name: "constant.other.date.isthmus", match: `${digitsStart}${patternOf(T.Date)}` },
        { name: "constant.other.fracture-code.isthmus", match: `${digitsStart}${patternOf(T.Code)}` },
        { name: "invalid.illegal.number.isthmus", match: `${digitsStart}${patternOf(T.OddNumber)}` },
        {
          match: `${digitsStart}(${number})\\s*(${alternatives(unitWords.keys())})${wordEnd}`,
          captures: { 1: { name: "constant.numeric.isthmus" }, 2: { name: "keyword.other.unit.isthmus" } },
        },
        { name: "constant.numeric.isthmus", match: `${digitsStart}${number}` },
        { name: "keyword.operator.plus-minus.isthmus", match: patternOf(T.PlusMinus) },
        {
          match: `${wordStart}(on)\\s+(${word})${wordEnd}`,
          captures: { 1: { name: "keyword.operator.word.isthmus" }, 2: { name: "variable.other.view.isthmus" } },
        },
        { name: "keyword.operator.word.isthmus", match: `${wordStart}(?:to|by|on)${wordEnd}` },
        {
          name: "support.function.isthmus",
          match: `${wordStart}(?:${alternatives(functionWords.keys())})(?=\\s*\\()`,
        },
        { name: "keyword.operator.arithmetic.isthmus", match: "[-+*/]" },
        { name: "keyword.operator.assignment.isthmus", match: "=" },
        { name: "punctuation.separator.comma.isthmus", match: "," },
        { name: "punctuation.section.group.isthmus", match: "[()]" },
        { name: "variable.other.isthmus", match: `${wordStart}${word}` },
      ],
    },
    text: {
      patterns: [
        {
          name: "string.quoted.triple.isthmus",
          begin: '"""',
          end: '"""',
          beginCaptures: { 0: { name: "punctuation.definition.string.begin.isthmus" } },
          endCaptures: { 0: { name: "punctuation.definition.string.end.isthmus" } },
          patterns: [{ include: "#escape" }],
        },
        {
          name: "string.quoted.double.isthmus",
          begin: '"',
          end: '"|$',
          beginCaptures: { 0: { name: "punctuation.definition.string.begin.isthmus" } },
          endCaptures: { 0: { name: "punctuation.definition.string.end.isthmus" } },
          patterns: [{ include: "#escape" }],
        },
      ],
    },
    escape: { name: "constant.character.escape.isthmus", match: '\\\\["\\\\n]' },
  };
}

/** Colours a fence of a Markdown file that names the language. */
function fenceColours(): unknown {
  return {
    comment: "Made by .build/make-syntax.ts; changes belong there.",
    scopeName: "markdown.isthmus.codeblock",
    injectionSelector: "L:text.html.markdown",
    patterns: [{ include: "#fence" }],
    repository: {
      fence: {
        name: "markup.fenced_code.block.markdown",
        begin: "(^|\\G)(\\s*)(`{3,}|~{3,})\\s*(?i:(isthmus)(\\s[^`~]*)?$)",
        end: "(^|\\G)(\\2|\\s{0,3})(\\3)\\s*$",
        beginCaptures: {
          3: { name: "punctuation.definition.markdown" },
          4: { name: "fenced_code.block.language.markdown" },
        },
        endCaptures: { 3: { name: "punctuation.definition.markdown" } },
        patterns: [
          {
            begin: "(^|\\G)(\\s*)(.*)",
            while: "(^|\\G)(?!\\s*([`~]{3,})\\s*$)",
            contentName: "meta.embedded.block.isthmus",
            patterns: [{ include: "source.isthmus" }],
          },
        ],
      },
    },
  };
}

/** Brackets, comments, indentation and what Enter does. */
function typingHabits(): unknown {
  return {
    comments: { lineComment: "#" },
    brackets: [
      ["{", "}"],
      ["(", ")"],
    ],
    autoClosingPairs: [
      { open: "{", close: "}", notIn: ["string", "comment"] },
      { open: "(", close: ")", notIn: ["string", "comment"] },
      { open: '"', close: '"', notIn: ["string", "comment"] },
    ],
    surroundingPairs: [
      ["{", "}"],
      ["(", ")"],
      ['"', '"'],
    ],
    wordPattern: `${word}|${number}`,
    indentationRules: {
      increaseIndentPattern: '^[^#"]*(?:"[^"]*"[^#"]*)*\\{\\s*(?:#.*)?$',
      decreaseIndentPattern: "^\\s*\\}",
    },
    onEnterRules: [
      { beforeText: "^\\s*##\\s+\\S.*$", action: { indent: "none", appendText: "## " } },
      {
        // A statement that goes on stands four further in, as the layout has it.
        beforeText: "^\\s*[A-Za-z][^#]*,\\s*$",
        previousLineText: "(?:[^,\\s]|^)\\s*$",
        action: { indent: "indent", appendText: "  " },
      },
    ],
    folding: { offSide: false },
  };
}

/** Every word that may begin a statement, what its tables say of it in all blocks together, in alphabetical order. */
function statementWords(): readonly StatementWords[] {
  const rules = [...blockRules.values()].flatMap((block) => block.statements);
  const byWord = Map.groupBy(rules, (rule) => rule.word);
  return [...byWord].map(([each, group]) => merged(each, group)).sort((a, b) => (a.word < b.word ? -1 : 1));
}

function merged(each: string, rules: readonly StatementRule[]): StatementWords {
  const slots = rules.flatMap((rule) => [...rule.slots, ...rule.clauses.flatMap((clause) => clause.slots)]);
  const heads = rules.flatMap((rule) => rule.slots.slice(0, 1)).flatMap((slot) => partsOf(slot));
  return {
    word: each,
    opensBlock: rules.every((rule) => rule.block !== undefined),
    clauses: new Set(rules.flatMap((rule) => rule.clauses.map((clause) => clause.word))),
    leads: new Set(slots.flatMap((slot) => (slot.lead === undefined || slot.lead === "=" ? [] : [slot.lead]))),
    choices: new Set(slots.flatMap(partsOf).flatMap(choicesOf)),
    named: heads.some((part) => part.kind === "declares" || part.kind === "names"),
  };
}

function partsOf(slot: Slot): readonly Part[] {
  return flattened(slot.part);
}

function flattened(part: Part): readonly Part[] {
  return part.kind === "either" ? part.parts.flatMap(flattened) : [part];
}

function choicesOf(part: Part): readonly string[] {
  return part.kind === "choice" ? Object.keys(part.words) : [];
}

/** How the lexer reads a token; the two kinds of regular expression agree on all that the table uses. */
function patternOf(token: TokenType): string {
  if (token.PATTERN instanceof RegExp) return token.PATTERN.source;
  throw new Error(`The token ${token.name} is not read by a pattern.`);
}

/** The longest first, so that `minutes` is not read as `m`. */
function alternatives(words: Iterable<string>): string {
  return [...new Set(words)]
    .sort((a, b) => b.length - a.length || (a < b ? -1 : 1))
    .map((each) => each.replaceAll(/[.*+?^${}()|[\]\\]/g, "\\$&"))
    .join("|");
}

if (import.meta.main) {
  const folder = fileURLToPath(new URL("../grammar/", import.meta.url));
  for (const [name, text] of syntaxFiles()) writeFileSync(`${folder}${name}`, text);
}
