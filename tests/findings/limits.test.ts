/** The table of limits, and what protocols make of it. */
import { describe, expect, test } from "vitest";
import { limitTable } from "../../server/findings/limit-table.ts";
import { limitsOf, settingFault } from "../../server/findings/limits.ts";
import type { LimitSetting, Protocol, Typed } from "../../server/meaning/plan.ts";
import { constant, unknown } from "../../server/quantity/arithmetic.ts";
import { print } from "../../server/quantity/print.ts";
import type { Quantity } from "../../server/quantity/quantity.ts";
import { unit } from "../../server/quantity/units.ts";

const place = { file: "protocol.isthmus", span: { start: 3, end: 9 } };

function typed(quantity: Quantity): Typed {
  return { quantity, place };
}

function setting(
  name: string,
  least: Quantity | undefined,
  most: Quantity | undefined,
  because?: string,
): LimitSetting {
  return {
    name: { text: name, place },
    least: least && typed(least),
    most: most && typed(most),
    because: because === undefined ? undefined : { text: because, place },
    source: undefined,
    place,
  };
}

function protocol(...limits: readonly LimitSetting[]): Protocol {
  // Only the limits of a protocol are read here.
  return {
    kind: "protocol",
    file: place.file,
    limits,
    profiles: [],
    grades: [],
    neverWaived: [],
    demands: [],
  } as unknown as Protocol;
}

test("a profile of no such name sets nothing", () => {
  const named = { ...protocol(), profiles: [{ name: { text: "our-own", place }, place }] };
  expect(limitsOf([named]).get("sagittal")).toEqual(limitsOf([]).get("sagittal"));
});

/** Name, lower end, upper end as printed: the published and customary figures, each named in the table's basis. */
const expected: readonly (readonly [string, string, string])[] = [
  ["achieved-alignment", "-", "-"],
  ["achieved-compression", "-", "1 mm"],
  ["achieved-diameter", "-", "0 mm"],
  ["achieved-length", "-", "0 mm"],
  ["achieved-level", "-", "5 mm"],
  ["achieved-screw", "-", "2 mm"],
  ["coronal", "-", "5 deg"],
  ["compartment-gradient", "30 mmHg", "-"],
  ["compression", "-", "-"],
  ["cortex-left", "3 mm", "-"],
  ["drilled-versus-predicted", "-", "6 mm"],
  ["dynamise-from", "6 weeks", "-"],
  ["entry-from-midline", "4.1 mm", "14.1 mm"],
  ["fatigue-distance", "50 mm", "-"],
  ["fit-ratio", "0.8", "0.99"],
  ["fit-ratio-femur", "0.7", "-"],
  ["gap-strain", "-", "10 %"],
  ["hole-to-fracture", "10 mm", "-"],
  ["knee-flexion", "90 deg", "-"],
  ["magnification", "1", "1.4"],
  ["narrow-canal", "8 mm", "-"],
  ["reaming-over-isthmus", "-", "2 mm"],
  ["reaming-over-nail", "0.5 mm", "1.5 mm"],
  ["reaming-start-over-isthmus", "-", "0.5 mm"],
  ["reaming-step", "-", "0.5 mm"],
  ["rotation", "-", "10 deg"],
  ["sagittal", "-", "5 deg"],
  ["screws-per-fragment", "2", "-"],
  ["screws-short-fragment", "3", "-"],
  ["shortening", "-", "10 mm"],
  ["tip-beyond-cortex", "0 mm", "2 mm"],
  ["tip-past-fracture", "40 mm", "-"],
  ["tip-to-plafond", "5 mm", "-"],
  ["top-below-bone", "0 mm", "15 mm"],
  ["top-below-joint", "6 mm", "-"],
];

describe("the table", () => {
  test("holds these limits with these ends", () => {
    const limits = limitsOf([]);
    const shown = limitTable.map(({ name }) => {
      const { least, most, unit: word } = limits.get(name);
      return [name, least === undefined ? "-" : print(least, word), most === undefined ? "-" : print(most, word)];
    });
    expect(shown).toEqual(expected);
  });

  test.each(limitTable.map((entry) => [entry.name, entry] as const))("%s is documented", (_, entry) => {
    expect(entry.title).toMatch(/^[a-z].*[^.]$/);
    expect(entry.basis.text).not.toBe("");
    expect(unit(entry.unit)?.word).toBe(entry.unit);
    if (entry.basis.mark === "printed") expect(entry.basis.text).toMatch(/\b(19|20)\d\d\b/);
    if (entry.basis.mark === "common practice") expect(entry.basis.text).toContain("no single source");
  });

  test("says on whom a measured figure was measured", () => {
    const without = limitTable.filter((entry) => entry.basis.mark === "printed" && !("population" in entry));
    expect(without.map((entry) => entry.name)).toEqual(["reaming-step", "rotation", "shortening"]);
  });

  test("an unknown limit cannot be asked for", () => {
    expect(() => limitsOf([]).get("no-such" as never)).toThrow("no limit is called no-such");
  });
});

describe("protocols", () => {
  test("a setting replaces both ends and keeps its reason and place", () => {
    const limit = limitsOf([protocol(setting("reaming-over-nail", undefined, constant(1, "mm"), "our reamers"))]).get(
      "reaming-over-nail",
    );
    expect(limit.least).toBeUndefined();
    expect(limit.most).toMatchObject({ value: 1 });
    expect(limit).toMatchObject({ because: "our reamers", from: place, basis: { mark: "department's choice" } });
  });

  test("another unit of the same kind is read as what it is", () => {
    const limits = limitsOf([protocol(setting("shortening", undefined, constant(2, "cm")))]);
    expect(limits.get("shortening").most).toMatchObject({ value: 20 });
  });

  test("the later one holds", () => {
    const first = protocol(setting("sagittal", undefined, constant(10, "deg")));
    const second = protocol(setting("sagittal", undefined, constant(7, "deg")));
    expect(limitsOf([first, second]).get("sagittal").most).toMatchObject({ value: 7 });
    expect(limitsOf([second, first]).get("sagittal").most).toMatchObject({ value: 10 });
  });

  test("other limits keep their defaults", () => {
    const limits = limitsOf([protocol(setting("sagittal", undefined, constant(10, "deg")))]);
    expect(limits.get("coronal")).toEqual(limitsOf([]).get("coronal"));
  });

  test.each([
    [
      "of another dimension",
      setting("sagittal", undefined, constant(10, "mm")),
      "limit sagittal is an angle, not a length",
    ],
    [
      "unknown",
      setting("sagittal", undefined, unknown("no value x is given")),
      "limit sagittal is unknown: no value x is given",
    ],
    [
      "upside down",
      setting("fit-ratio", constant(0.9, "1"), constant(0.8, "1")),
      "limit fit-ratio has its lower end above its upper end",
    ],
    ["nothing", setting("coronal", undefined, undefined), "limit coronal is set to nothing"],
  ])("a setting %s makes the limit unreadable", (_, given, why) => {
    expect(settingFault(given)).toBe(why);
    const limit = limitsOf([protocol(given)]).get(given.name.text as "sagittal");
    expect(limit.unreadable).toBe(why);
    expect(limit.least).toBeUndefined();
    expect(limit.most).toBeUndefined();
  });

  test.each(["__proto__", "constructor", "toString", "no-such-limit"])(
    "a setting called %s changes nothing",
    (name) => {
      const limits = limitsOf([protocol(setting(name, undefined, constant(1, "mm")))]);
      for (const { name: own } of limitTable) expect(limits.get(own)).toEqual(limitsOf([]).get(own));
      expect(settingFault(setting(name, undefined, constant(1, "mm")))).toBeUndefined();
    },
  );
});
