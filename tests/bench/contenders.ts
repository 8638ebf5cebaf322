/** What is timed beside each other within a process's work, each made by its name from the same generated plan. */
import { parse } from "../../grammar/parse.ts";
import { shape } from "../../grammar/shape.ts";
import { analyse, libraryOver } from "../../server/answers/analyse.ts";
import { readInside } from "../../server/files/disk.ts";
import { type Content, contentOf } from "./as-data.ts";
import { grownPlan, samplesFolder } from "./grown-plan.ts";
import { jsonParseAndAjv, jsonService, jsYamlAndAjv, langium, yamlAndAjv, yamlService } from "./peers.ts";

/** One whole round of work on the plan. */
type Work = () => unknown;
type Make = (plan: string, content: Content) => Work | Promise<Work>;

const makes = {
  full: analysisOf,
  alone: (plan) => () => shape(parse(plan).tree),
  sticky: (plan) => () => countTokens(plan),
  "JSON.parse":
    (_, { json }) =>
    () =>
      JSON.parse(json),
  json: (_, content) => jsonParseAndAjv(content),
  "js-yaml": (_, content) => jsYamlAndAjv(content),
  yaml: (_, content) => yamlAndAjv(content),
  "json service": (_, content) => jsonService(content),
  "yaml service": (_, content) => yamlService(content),
  "langium parse": async (plan) => (await langium(plan)).parse,
  "langium build": async (plan) => (await langium(plan)).build,
} as const satisfies Record<string, Make>;

export type Name = keyof typeof makes;
export const names = Object.keys(makes) as readonly Name[];

/** Of a plan of about so many lines. Throws where the contender cannot do the work at all. */
export async function contender(name: Name, lines: number): Promise<Work> {
  const plan = grownPlan(lines);
  const make: Make = makes[name];
  return make(plan, contentOf(plan));
}

function analysisOf(plan: string): Work {
  const library = libraryOver((from, path) => readInside(samplesFolder, from, path));
  const file = `${samplesFolder}plans/grown.isthmus`;
  const errors = analyse(file, plan, library).judgement.findings.filter(({ grade }) => grade === "error");
  if (errors.length > 0) throw new Error(`the generated plan has errors: ${errors[0]?.slug}`);
  return () => analyse(file, plan, library);
}

const token =
  /[ \t]+|\r?\n|#[^\n]*|"(?:\\.|[^"\\\n])*"|\d+(?:\.\d+)?(?![\w.(])|[A-Za-z0-9](?:-?[A-Za-z0-9()%])*|[{},=±+*/()-]/y;

/** The floor of any lexer: one regular expression that goes over the whole text and keeps where each token ends. */
function countTokens(text: string): number[] {
  const ends: number[] = [];
  token.lastIndex = 0;
  while (token.test(text)) ends.push(token.lastIndex);
  if (ends.at(-1) !== text.length) throw new Error("the sticky expression stopped within the text");
  return ends;
}
