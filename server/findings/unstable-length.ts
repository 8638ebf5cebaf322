/**
 * Whether a fracture's pattern leaves the length of the bone to the screws, as the rules about loading and dynamisation ask. It judges
 * nothing.
 */
import type { Plan } from "../meaning/plan.ts";
import { readCode } from "./fracture-code.ts";

const shafts: ReadonlySet<string> = new Set(["12", "32", "42"]);

/** What the pattern is called: "fragmentary wedge"; undefined when the fragments can stand on each other or it is no shaft's. */
export function unstablePattern(plan: Plan): string | undefined {
  const code = readCode(plan.case?.fracture?.code?.text ?? "");
  if (code === undefined || !shafts.has(code.segment)) return undefined;
  if (code.group === "B3") return "fragmentary wedge";
  return code.type === "C" ? "multifragmentary fracture" : undefined;
}

/** Why the pattern cannot be told; undefined when it can. */
export function patternUntold(plan: Plan): string | undefined {
  const code = plan.case?.fracture?.code;
  if (code === undefined) return "the fracture has no code";
  return readCode(code.text) === undefined ? `${code.text} is no fracture code` : undefined;
}
