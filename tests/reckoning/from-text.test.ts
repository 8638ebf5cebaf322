/**
 * The worked plan as text: what the grammar and the meaning make of it is reckoned to the same answers as the plan built by hand, and
 * every place points into the text at what was typed.
 */
import { describe, expect, test } from "vitest";
import { parse } from "../../grammar/parse.ts";
import { exampleCatalogue, exampleDocument, examplePlan } from "../../server/findings/example.ts";
import { understand } from "../../server/meaning/understand.ts";
import { print } from "../../server/quantity/print.ts";
import { reckon } from "../../server/reckoning/reckon.ts";
import type { Reckoning, Reckonings } from "../../server/reckoning/reckoning.ts";
import { workedWith } from "./answers-of.ts";
import { of } from "./worked-numbers.ts";

const { library } = exampleDocument({ change: [] });

function reckonText(text: string): Reckonings {
  const { document } = understand(parse(text), "plan.isthmus", library);
  if (document?.kind !== "plan") throw new Error("the text is a plan");
  return reckon(document);
}

function printed({ answer, unit }: Reckoning): string {
  if (answer.kind === "word") return answer.word;
  return answer.kind === "known" ? print(answer, unit) : answer.because;
}

describe("the worked plan as text", () => {
  const reckoned = (): Reckonings => reckonText(examplePlan);
  const byHand = (): Reckonings =>
    reckon(
      workedWith({
        alignment: {
          coronal: [of(9), "varus"],
          sagittal: [of(6), "procurvatum"],
          length: [of(8), "short"],
        },
      }),
    );

  test("has the same reckonings in the same order with the same answers", () => {
    // The text has steps that the numbers do not: `steps` has tests of its own.
    const all = ({ list }: Reckonings) =>
      list.filter(({ id }) => id !== "steps").map((each) => `${each.id}: ${printed(each)} = ${each.filled}`);
    // The text plans a wire too, which is on the tray alone.
    const tray = ["ball-tip guide wire; reamer", "25 pieces"] as const;
    const expected = all(byHand()).map((line) => line.replace("reamer", tray[0]).replace("24 pieces", tray[1]));
    expect(all(reckoned())).toEqual(expected);
  });

  test("points at what was typed", () => {
    const typedFor = (id: string): readonly string[] =>
      (reckoned().byId.get(id)?.from ?? []).map(({ file, span }) =>
        (file === "plan.isthmus" ? examplePlan : exampleCatalogue).slice(span.start, span.end),
      );
    expect(typedFor("level.scar")).toEqual(["416 mm ± 2 mm on ap", "28.75 mm ± 0.2 mm", "25 mm"]);
    expect(typedFor("hole.D1.level")).toEqual(["8 mm", "345 mm", "12 mm"]);
    expect(typedFor("compression.amount")).toEqual(["2 turns", "1.25 mm"]);
    expect(typedFor("screw.P1.beyond")).toEqual(["52 mm", "51 mm"]);
    expect(typedFor("nail.topAfter")).toEqual(["8 mm", "2 turns", "1.25 mm"]);
    expect(typedFor("compartment.gradient")).toEqual(["72 mmHg", "28 mmHg"]);
  });
});

describe("a plan in the middle of being written", () => {
  test("every prefix is reckoned without a throw, and no answer stands on a half-typed number in silence", () => {
    for (let end = 0; end <= examplePlan.length; end += 7) {
      const { document } = understand(parse(examplePlan.slice(0, end)), "plan.isthmus", library);
      if (document?.kind !== "plan") continue;
      for (const { id, answer, filled, formula } of reckon(document).list) {
        expect(`${id} ${formula} ${filled}`).not.toMatch(/NaN|Infinity|undefined/);
        if (answer.kind === "unknown") expect(answer.because).not.toBe("");
      }
    }
  });

  test.each([
    ["scar 416 mm ± 2 mm on ap", "scar 416 ± 2 on ap", "level.scar"],
    ["sunk 8 mm", "sunk 8", "nail.tip"],
    ["compress 2 turns", "compress 2", "nail.topAfter"],
    ["drilled 51 mm", "drilled 51", "screw.P1.best"],
    ["diastolic 72 mmHg", "diastolic 72", "compartment.gradient"],
  ])("%s without its unit, %s: %s is unknown, and nothing known is another number", (whole, half, id) => {
    const before = reckonText(examplePlan);
    const after = reckonText(examplePlan.replace(whole, half));
    expect(after.byId.get(id)?.answer.kind).toBe("unknown");
    const changed = before.list.filter((each) => {
      const now = after.byId.get(each.id);
      return now !== undefined && printed(now) !== printed(each) && now.answer.kind !== "unknown";
    });
    // Nothing known became another number.
    expect(changed.map((each) => each.id)).toEqual([]);
  });
});
