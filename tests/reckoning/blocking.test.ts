/** How far a blocking screw stands from the canal's axis: which screw is meant, what passes it, and what is said when it is not known. */
import { describe, expect, test } from "vitest";
import type { Plan, Said } from "../../server/meaning/plan.ts";
import { reckon } from "../../server/reckoning/reckon.ts";
import { trayOf } from "../../server/reckoning/tray.ts";
import { numberOf, reasonOf, workedWith } from "./answers-of.ts";

const id = "block.1.offset";
const said = (text: string): Said => ({ text, place: { file: "", span: { start: 0, end: 0 } } });

/** The worked plan with a blocking screw of the family that is named, and the families of its catalogue. */
function blocked(family: string | undefined, families: readonly string[]): Plan {
  const plan = workedWith({ blocks: true });
  const [peg] = plan.screwFamilies;
  if (peg === undefined) throw new Error("the worked plan has a screw family");
  const steps = plan.steps.map((step) =>
    step.kind === "block" && family !== undefined ? { ...step, family: said(family) } : step,
  );
  return { ...plan, steps, screwFamilies: families.map((name) => ({ ...peg, name: said(name) })) };
}

describe("the offset", () => {
  test("is half the last head and half the thread", () => {
    expect(numberOf(blocked(undefined, ["peg"]), id)).toBeCloseTo((11 + 4.6) / 2, 12);
  });

  test("is half the nail and half the thread when the canal is not reamed, and says so", () => {
    const reamed = blocked(undefined, ["peg"]);
    const plan = { ...reamed, steps: reamed.steps.filter(({ kind }) => kind !== "ream") };
    expect(numberOf(plan, id)).toBeCloseTo((10 + 4.6) / 2, 12);
    expect(reckon(plan).byId.get(id)?.remark).toBe("the canal is not reamed: the nail passes the screw");
    expect(reckon(blocked(undefined, ["peg"])).byId.get(id)?.remark).toBeUndefined();
  });

  test("is of the family that is named", () => {
    expect(numberOf(blocked("bolt", ["peg", "bolt"]), id)).toBeCloseTo(7.8, 12);
    expect(reasonOf(blocked("pin", ["peg"]), id)).toBe("screw family pin is in no catalogue that was read");
  });

  test("is not known of one family of several, or of none", () => {
    expect(reasonOf(blocked(undefined, ["peg", "bolt"]), id)).toBe(
      "a blocking screw could be of peg or bolt, and none is named",
    );
    expect(reasonOf(blocked(undefined, []), id)).toBe("no screw of a catalogue is there to block with");
  });

  test("leaves out a family that goes with other nails", () => {
    const plan = blocked(undefined, ["peg", "bolt"]);
    const thick = { ...(plan.nail?.diameters ?? { sizes: [] }), sizes: plan.nail?.diameters?.sizes.slice(-1) ?? [] };
    const families = plan.screwFamilies.map((family) =>
      family.name.text === "bolt" ? { ...family, withDiameters: thick as typeof family.withDiameters } : family,
    );
    expect(thick.sizes).toHaveLength(1);
    expect(numberOf({ ...plan, screwFamilies: families }, id)).toBeCloseTo(7.8, 12);
  });

  test("is not known without a thread", () => {
    const plan = blocked(undefined, ["peg"]);
    const bare = plan.screwFamilies.map((family) => ({ ...family, thread: undefined }));
    expect(reasonOf({ ...plan, screwFamilies: bare }, id)).toBe("screw family peg lists no thread");
  });
});

describe("the tray", () => {
  const screws = (plan: Plan) => trayOf({ ...plan, steps: plan.steps.filter(({ kind }) => kind === "block") });
  test("has a blocking screw and its drill", () => {
    expect(screws(blocked(undefined, ["peg"])).map(({ what, sizes }) => `${what} ${sizes}`)).toEqual([
      "drill 3.8 mm",
      "peg screws of unknown size",
    ]);
  });

  test("has one of a family that is not known by its name, or as what it is for", () => {
    expect(screws(blocked("pin", ["peg"])).map(({ what }) => what)).toEqual(["drill", "pin screws"]);
    expect(screws(blocked(undefined, [])).map(({ what }) => what)).toEqual(["drill", "blocking screws"]);
  });
});
