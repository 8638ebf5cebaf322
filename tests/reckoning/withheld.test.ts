/**
 * What the second computation does to plans: nothing to sane ones, by a wide margin; a number that it does not bear out is withheld
 * with its reason, and so is everything reckoned from it.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Plan } from "../../server/meaning/plan.ts";
import { constant, exact, unknown } from "../../server/quantity/arithmetic.ts";
import { enclosedBy, enclosureOf } from "../../server/quantity/enclosure.ts";
import { reckon } from "../../server/reckoning/reckon.ts";
import type { Reckonings } from "../../server/reckoning/reckoning.ts";
import { inWords, reckoned } from "../../server/reckoning/writing.ts";
import { analyseText, sampleText, sampleWith } from "../check.ts";
import { runs } from "../runs.ts";
import { planFrom } from "./plan-by-hand.ts";
import { numbers } from "./random-numbers.ts";
import { worked } from "./worked-numbers.ts";

const disagree = "two ways of computing it disagree";
const cancels = "nearly equal numbers cancel in it, and rounding alone could change it";

/** Ids withheld for the one reason or the other. */
function withheld({ list }: Reckonings): readonly string[] {
  return list.flatMap(({ id, answer }) =>
    answer.kind === "unknown" && [disagree, cancels].includes(answer.because) ? [`${id}: ${answer.because}`] : [],
  );
}

/** The widest enclosure, as part of what is allowed. */
function widest({ list }: Reckonings): number {
  const widths = list.flatMap(({ answer }) => {
    if (answer.kind !== "known") return [];
    const { low, high } = enclosureOf(answer);
    return [(high - low) / (1e-9 * Math.max(1, Math.abs(answer.value)))];
  });
  return Math.max(...widths);
}

describe("sane plans lose no number", () => {
  test.each(["simple-shaft", "distal-third", "femoral-shaft", "humeral-shaft", "typical-mistakes", "uncertain-limits"])(
    "%s, with a hundred times to spare",
    (name) => {
      const { reckonings } = analyseText(sampleText(`plans/${name}.isthmus`));
      if (reckonings === undefined) throw new Error("the sample is a plan");
      expect(reckonings.list.filter(({ answer }) => answer.kind === "known").length).toBeGreaterThan(5);
      expect(withheld(reckonings)).toEqual([]);
      expect(widest(reckonings)).toBeLessThan(0.01);
    },
  );

  test("the worked plan, with a hundred times to spare", () => {
    const reckonings = reckon(planFrom(worked));
    expect(withheld(reckonings)).toEqual([]);
    expect(widest(reckonings)).toBeLessThan(0.01);
    expect(widest(reckonings)).toBeGreaterThan(0);
  });

  test("random plans", { timeout: 60_000 }, () => {
    fc.assert(
      fc.property(numbers, (given) => {
        expect(withheld(reckon(planFrom(given)))).toEqual([]);
      }),
      { numRuns: runs(300) },
    );
  });
});

describe("a number that is not borne out", () => {
  test("is withheld, and what hangs on it with it", () => {
    const wrong = enclosedBy(constant(361.7, "mm"), { low: 361.8, high: 361.9 });
    const reckonings = reckon(withScar(wrong));
    expect(withheld(reckonings)).toEqual(
      [
        "level.scar",
        "length.available",
        "length.longest",
        "length.margin",
        "length.next",
        "length.nextMargin",
        "tip.toScar",
      ].map((id) => `${id}: ${disagree}`),
    );
    expect(reckonings.byId.get("level.plafond")?.answer.kind).toBe("known");
  });

  test("nothing changes for the same number with an enclosure that holds it", () => {
    const right = enclosedBy(constant(361.7, "mm"), { low: 361.7 - 1e-10, high: 361.7 + 1e-10 });
    const answers = ({ list }: Reckonings) =>
      list.map(({ id, answer }) => [id, answer.kind === "known" ? answer.value : answer]);
    expect(answers(reckon(withScar(right)))).toEqual(answers(reckon(withScar(constant(361.7, "mm")))));
  });

  test("is withheld when a plan's own expression cancels", () => {
    const cancelled = (by: string) =>
      sampleWith("plans/simple-shaft.isthmus", [
        "landmark scar 395 mm ± 2 mm",
        `landmark scar 395 mm * (1 mm / 3 + ${by} mm - ${by} mm) / (1 mm / 3)`,
      ]);
    const known = analyseText(cancelled("1000")).reckonings;
    const lost = analyseText(cancelled("1000000000")).reckonings;
    if (known === undefined || lost === undefined) throw new Error("the sample is a plan");
    expect(known.byId.get("level.scar")?.answer.kind).toBe("known");
    expect(withheld(known)).toEqual([]);
    expect(withheld(lost)).toContain(`level.scar: ${cancels}`);
    expect(withheld(lost)).toContain(`length.available: ${cancels}`);
  });

  test("bone removed beyond any number keeps the reason it has", () => {
    const canals = [{ level: { value: 100, half: 0 }, width: { value: 11, half: 0 }, depth: { value: 11, half: 0 } }];
    const { byId } = reckon(planFrom({ ...worked, canals, heads: [1e100] }));
    expect(byId.get("ream.removed")?.answer).toEqual(exact(1e200, "mm³"));
    expect(byId.get("ream.removed")?.remark).toBeUndefined();
  });

  test("takes its remark with it", () => {
    const parts = {
      id: "cap.top",
      label: "top of the cap",
      unit: "mm",
      by: inWords("as measured", []),
      basis: { mark: "computed", text: "by hand" },
      remark: "3 mm of it are the cap",
    } as const;
    expect(reckoned({ ...parts, answer: constant(3, "mm") })).toMatchObject({ remark: parts.remark });
    const wrong = reckoned({ ...parts, answer: enclosedBy(constant(3, "mm"), { low: 4, high: 5 }) });
    expect(wrong.answer).toEqual(unknown(disagree));
    expect("remark" in wrong).toBe(false);
  });
});

/** The worked plan with another level of the scar. */
function withScar(quantity: ReturnType<typeof constant>): Plan {
  const plan = planFrom(worked);
  const landmarks = plan.measures.landmarks.map((mark) =>
    mark.name.text === "scar" ? { ...mark, level: { ...mark.level, quantity } } : mark,
  );
  return { ...plan, measures: { ...plan.measures, landmarks } };
}
