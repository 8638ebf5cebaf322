/**
 * A fracture code in the spelling of 2007. Where the group has kept its meaning the code is rewritten; where it has not, the choices are
 * put to the surgeon.
 */
import type { Said } from "../meaning/plan.ts";
import type { Fix, Found, Grade, PlanRule } from "./finding.ts";
import { codeFault, type FractureCode, isGroupOf2007, readCode, withMeaning } from "./fracture-code.ts";
import { source2018, translated } from "./fracture-codes.ts";
import { cannotTell, clear } from "./judging.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "code-old-spelling",
  title: "Fracture code in the spelling of 2007",
  why:
    "The classification was revised in 2018: the hyphen was dropped, and a few groups were dropped or changed their meaning. " +
    "A code of 2007 is read, but cases are only counted together when all are written alike.",
  grade: "information",
  basis: {
    mark: "printed",
    text: `${source2018}; 2007: Marsh et al., J Orthop Trauma 2007;21 Suppl:S1-S133; which groups kept their meaning is partly from memory, check against the source`,
  },
  limits: [],
  wrong: { change: [["fracture 42A2", "fracture 42-A2"]] },
  right: { change: [] },
  check: ({ plan }) => {
    const said = plan.case?.fracture?.code;
    if (said === undefined) return cannotTell("the fracture has no code");
    const code = readCode(said.text);
    if (code === undefined || code.edition !== 2007 || !isGroupOf2007(code)) return clear;
    return { found: [oldCode(said, code)] };
  },
};

function oldCode(said: Said, code: FractureCode): Found {
  const { to, sure } = translated(code.segment, code.group);
  // The third figure of a shaft told the fibula in 2007; of an end segment its meaning was not looked up. Brackets are of 2018.
  const mechanical = sure && code.subgroup === "" && bracketFault(code) === undefined;
  const grade: Grade = mechanical ? "information" : "warning";
  return {
    place: said.place,
    message: words(said, code, mechanical),
    grade,
    at: said.text,
    fixes: to.map((group) => rewrite(said, code, group, mechanical)),
  };
}

function words(said: Said, code: FractureCode, mechanical: boolean): string {
  const start = `${said.text} is the spelling of 2007`;
  if (mechanical) return `${start}; since 2018 it is written ${code.stem}${code.brackets}.`;
  if (code.subgroup !== "") return `${start}; its figure after the point has another meaning since 2018.`;
  const fault = bracketFault(code);
  if (fault !== undefined) return `${start}; as 2018 writes it, its brackets would not be right: ${fault}.`;
  return `${start}; the group has changed since 2018, so which one is meant is for the surgeon to say.`;
}

/** What is wrong with the brackets once the group is written as 2018 writes it. */
function bracketFault(code: FractureCode): string | undefined {
  const [group] = translated(code.segment, code.group).to;
  const now = group === undefined ? undefined : readCode(`${code.segment}${group.slice(0, 2)}${code.brackets}`);
  return now === undefined ? undefined : codeFault(now)?.because;
}

function rewrite(said: Said, code: FractureCode, group: string, mechanical: boolean): Fix {
  const text = `${code.segment}${group}${mechanical ? code.brackets : ""}`;
  return {
    title: `${said.text} → ${withMeaning(text)}`,
    class: mechanical ? "keeps every decision" : "needs a choice",
    edits: [{ span: said.place.span, text }],
  };
}
