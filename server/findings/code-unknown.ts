/**
 * A fracture code that the AO/OTA classification of 2018 does not have, nor that of 2007 in its spelling with a hyphen. A code of 2007
 * is `code-old-spelling`.
 */
import type { Said } from "../meaning/plan.ts";
import type { Fix, Found, PlanRule, Verdict } from "./finding.ts";
import { type CodeFault, codeFault, type FractureCode, isGroupOf2007, readCode, withMeaning } from "./fracture-code.ts";
import { classification, groupNamed, segmentNamed, translated } from "./fracture-codes.ts";
import { cannotTell, clear, found, together } from "./judging.ts";
import { quoted } from "./words.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "code-unknown",
  title: "Fracture code that the classification does not have",
  why:
    "The code decides which nails are said to fit and how the fracture is counted later. " +
    "The classification of 2018 has no wedge or complex group 1 in a shaft; those fractures are written with a modifier.",
  grade: "error",
  basis: classification,
  limits: [],
  wrong: { change: [["fracture 42A2", "fracture 42B1"]] },
  right: { change: [] },
  check: ({ plan }) => {
    const fracture = plan.case?.fracture;
    const codes = [fracture?.code, fracture?.fibula].filter((code) => code !== undefined);
    return codes.length === 0
      ? cannotTell("the fracture has no code")
      : together(codes.map((code) => checkCode(code, code === fracture?.fibula)));
  },
};

function checkCode(said: Said, asFibula: boolean): Verdict {
  const code = readCode(said.text);
  if (code === undefined) return found(unknownCode(said, byForm("it is no code of the classification"), []));
  const isFibula = code.segment.startsWith("4F");
  if (isFibula !== asFibula) {
    const wanted = asFibula ? "a fibula's code begins with 4F" : "4F is a fibula's code";
    return found(unknownCode(said, byForm(wanted), []));
  }
  if (code.edition === 2007) {
    if (isGroupOf2007(code)) return clear;
    return found(unknownCode(said, byForm("the classification of 2007 does not have it either"), []));
  }
  const fault = codeFault(code);
  return fault === undefined ? clear : found(unknownCode(said, fault, nearCodes(said, code)));
}

/** What the form of the code says without a list. */
function byForm(because: string): CodeFault {
  return { because, mark: "printed" };
}

function unknownCode(said: Said, { because, mark, grade }: CodeFault, fixes: readonly Fix[]): Found {
  const trust = mark === "printed" ? "" : " (from memory, check against the source)";
  return {
    place: said.place,
    message: `The AO/OTA classification of 2018 does not have ${quoted(said.text)}: ${because}${trust}.`,
    at: said.text,
    ...(grade === undefined ? {} : { grade }),
    fixes,
  };
}

/**
 * The group alone with what of it the classification has; where the group is what is wrong, what a group of 2007 written without its
 * hyphen may mean, else the groups of the same type.
 */
function nearCodes(said: Said, code: FractureCode): readonly Fix[] {
  if (groupNamed(code.stem) !== undefined) return [changeTo(said, withoutFaults(code))];
  const groups = (segmentNamed(code.segment)?.groups ?? []).filter((group) =>
    group.code.startsWith(code.segment + code.type),
  );
  const fresh = isGroupOf2007(code) && !groups.some((group) => group.code === code.stem);
  const meant = fresh ? translated(code.segment, code.group).to.map((group) => `${code.segment}${group}`) : [];
  const others = groups.map((group) => group.code).filter((each) => each !== code.stem);
  const texts = meant.length > 0 ? meant : others;
  return texts.slice(0, 3).map((text) => changeTo(said, text));
}

function changeTo(said: Said, text: string): Fix {
  return {
    title: `${said.text} → ${withMeaning(text)}`,
    class: "needs a choice",
    edits: [{ span: said.place.span, text }],
  };
}

/** Parts are taken up one by one as long as the classification has what results. */
function withoutFaults(code: FractureCode): string {
  const bare: FractureCode = { ...code, subgroup: "", qualifications: [], modifiers: [] };
  const candidates: readonly ((now: FractureCode) => FractureCode)[] = [
    (now) => ({ ...now, subgroup: code.subgroup }),
    ...code.qualifications.map((each) => (now: FractureCode) => ({
      ...now,
      qualifications: [...now.qualifications, each],
    })),
    ...code.modifiers.map((each) => (now: FractureCode) => ({ ...now, modifiers: [...now.modifiers, each] })),
  ];
  const sound = candidates.reduce((now, take) => (codeFault(take(now)) === undefined ? take(now) : now), bare);
  const round = sound.qualifications.length === 0 ? "" : `(${sound.qualifications.join(",")})`;
  const square = sound.modifiers.length === 0 ? "" : `[${sound.modifiers.join(",")}]`;
  return `${sound.stem}${sound.subgroup}${round}${square}`;
}
