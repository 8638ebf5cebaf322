/**
 * Whether a fracture's pattern leaves the length of the bone to the screws, as the rules about loading and dynamisation ask. It judges
 * nothing.
 */
import type { Plan } from "../meaning/plan.ts";
import { unknown } from "../quantity/arithmetic.ts";
import type { Unknown } from "../quantity/quantity.ts";
import { readCode } from "./fracture-code.ts";

const shafts: ReadonlySet<string> = new Set(["12", "32", "42"]);

/**
 * What the pattern is called: "fragmentary wedge"; undefined when the fragments can stand on each other or it is no shaft's. Unknown
 * when there is no code that can be read.
 */
export function unstablePattern(plan: Plan): string | Unknown | undefined {
  const said = plan.case?.fracture?.code;
  if (said === undefined) return unknown("the fracture has no code");
  const code = readCode(said.text);
  if (code === undefined) return unknown(`${said.text} is no fracture code`);
  if (!shafts.has(code.segment)) return undefined;
  if (code.group === "B3") return "fragmentary wedge";
  return code.type === "C" ? "multifragmentary fracture" : undefined;
}
