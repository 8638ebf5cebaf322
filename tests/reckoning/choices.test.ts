/**
 * Where a reckoning chooses: listed sizes at the very edge of a limit, holes on the edge of the fracture, screw families, protocols,
 * ends of the nail. Random plans never meet these places.
 */
import { describe, expect, test } from "vitest";
import { limitsOf } from "../../server/findings/limits.ts";
import type { LimitSetting, Plan, Protocol, ScrewFamily } from "../../server/meaning/plan.ts";
import { exact, unknown } from "../../server/quantity/arithmetic.ts";
import { reckon } from "../../server/reckoning/reckon.ts";
import { tipBeyondCortex } from "../../server/reckoning/screws.ts";
import { numberOf, plusMinusOf, reasonOf, wordOf, workedWith } from "./answers-of.ts";
import { of, worked } from "./worked-numbers.ts";

const inTrueSize = { ap: { marker: of(25), seen: of(25) }, lateral: { marker: of(25), seen: of(25) } };
const place = { file: "by-hand.isthmus", span: { start: 1, end: 2 } };

function remarkOf(plan: Plan, id: string): string | undefined {
  return reckon(plan).byId.get(id)?.remark;
}

function writtenOf(plan: Plan, id: string): string {
  const reckoning = reckon(plan).byId.get(id);
  return `${reckoning?.formula} = ${reckoning?.filled}`;
}

describe("listed lengths", () => {
  test("a length equal to the room fits", () => {
    const plan = workedWith({ ...inTrueSize, scar: of(353), sunk: of(8) });
    expect(numberOf(plan, "length.longest")).toBe(345);
    expect(numberOf(plan, "length.margin")).toBe(0);
    expect(numberOf(plan, "length.next")).toBe(360);
  });

  test("a length a rounding error longer than the room fits", () => {
    const plan = workedWith({ ...inTrueSize, scar: of(352.99999999999994), sunk: of(8) });
    expect(numberOf(plan, "length.longest")).toBe(345);
  });

  test("a length a micrometre longer does not", () => {
    expect(numberOf(workedWith({ ...inTrueSize, scar: of(352.999), sunk: of(8) }), "length.longest")).toBe(330);
  });

  test("no length short enough, none longer, none in order", () => {
    const short = workedWith({ lengths: [360, 375] });
    expect(reasonOf(short, "length.longest")).toBe("every listed length is too long");
    expect(numberOf(short, "length.next")).toBe(360);
    expect(numberOf(workedWith({ lengths: [375, 345, 360, 330] }), "length.longest")).toBe(345);
    expect(reasonOf(workedWith({ lengths: [] }), "length.longest")).toBe("the nail lists no length");
  });

  test("how likely each fits", () => {
    // available 353.74 ± 3.06: 345 lies 5.7 u below it, 352.5 lies 0.81 u below: Φ(0.81) = 79 % (normal distribution, computed)
    expect(remarkOf(workedWith({}), "length.margin")).toBe("probability that 345 mm fits: more than 99 %");
    expect(remarkOf(workedWith({ lengths: [352.5, 355] }), "length.margin")).toBe(
      "probability that 352.5 mm fits: 79 %",
    );
    expect(remarkOf(workedWith({ lengths: [352.5, 355] }), "length.nextMargin")).toBe(
      "probability that 355 mm fits: 20 %",
    );
    // So far apart that a double makes the probability 1 or 0; a reading is never that sure.
    const sharp = { ...inTrueSize, scar: of(360, 0.01) };
    expect(remarkOf(workedWith(sharp), "length.margin")).toBe("probability that 345 mm fits: more than 99 %");
    expect(remarkOf(workedWith(sharp), "length.nextMargin")).toBe("probability that 360 mm fits: less than 1 %");
    expect(remarkOf(workedWith({ ...inTrueSize, scar: of(360) }), "length.margin")).toBe(undefined);
  });

  test("without a scar the remark names the fallback", () => {
    const plan = workedWith({ scar: undefined });
    expect(remarkOf(plan, "length.available")).toBe("no scar is given: the limit is taken 15 mm short of the plafond");
    expect(writtenOf(plan, "length.available")).toBe("plafond - margin - sunk = 375.7 mm - 15 mm - 8 mm");
  });
});

describe("listed screws", () => {
  const drilled = (depth: number, near = false) =>
    workedWith({ locks: [{ hole: "P1", drilled: of(depth), screw: 52, near }] });

  test.each([
    [50, 50],
    [50.1, 52],
    [48.00001, 50],
    [60, 60],
    // 60 to 65 mm: 62 mm drilled has nothing between 62 and 64 mm.
    [63, 65],
    [65.000001, "no listed length suits the drilled depth"],
    [62, "no listed length suits the drilled depth"],
    [91, "no listed length suits the drilled depth"],
  ])("drilled %d mm: %s", (depth, best) => {
    if (typeof best === "number") expect(numberOf(drilled(depth), "screw.P1.best")).toBe(best);
    else expect(reasonOf(drilled(depth), "screw.P1.best")).toBe(best);
  });

  test.each([
    [50, 50],
    [51.9, 50],
    [90, 90],
  ])("near cortex alone, drilled %d mm: %d mm", (depth, best) => {
    const plan = drilled(depth, true);
    expect(numberOf(plan, "screw.P1.best")).toBe(best);
    expect(reckon(plan).byId.get("screw.P1.beyond")?.label).toBe("screw in P1 beyond the drilled depth");
    expect(reasonOf(plan, "screw.P1.stress.most")).toBe("the screw in P1 grips one cortex alone");
  });

  test("near cortex alone, nothing short enough", () => {
    expect(reasonOf(drilled(23, true), "screw.P1.best")).toBe("no listed length suits the drilled depth");
  });

  test("past the far cortex is positive, short of it negative", () => {
    expect(numberOf(drilled(51), "screw.P1.beyond")).toBe(1);
    expect(numberOf(drilled(53.5), "screw.P1.beyond")).toBe(-1.5);
  });
});

describe("the tip limit of a protocol", () => {
  const typed = (value: number) => ({ quantity: exact(value, "mm"), place });
  const setting = (least: number | undefined, most: number | undefined): LimitSetting => ({
    name: { text: "tip-beyond-cortex", place },
    least: least === undefined ? undefined : typed(least),
    most: most === undefined ? undefined : typed(most),
    because: undefined,
    source: undefined,
    place,
  });
  const under = (...limits: readonly LimitSetting[]): Plan => {
    const plan = workedWith({
      locks: [{ hole: "P1", drilled: of(51), screw: 52 }],
      screwLengths: [50, 51, 52, 54, 60],
    });
    const follows = limits.map((limit) => ({
      path: { text: "p.isthmus", place },
      document: {
        kind: "protocol",
        limits: [limit],
        profiles: [],
        grades: [],
        neverWaived: [],
        demands: [],
      } as unknown as Protocol,
    }));
    return { ...plan, follows };
  };

  test.each([
    ["the default", under(), 51],
    ["at least 1 mm", under(setting(1, 2)), 52],
    ["at least 2 mm, up to 4 mm", under(setting(2, 4)), 54],
    ["at least 5 mm, no upper end", under(setting(5, undefined)), 60],
    ["up to 4 mm: the far cortex must still be reached", under(setting(undefined, 4)), 51],
    ["the later protocol", under(setting(5, undefined), setting(1, 2)), 52],
    ["another limit's name", under({ ...setting(5, 9), name: { text: "cortex-left", place } }), 51],
  ])("%s", (_words, plan, best) => {
    expect(numberOf(plan, "screw.P1.best")).toBe(best);
  });

  test("the default is the one findings judge by", () => {
    const { least, most } = limitsOf([]).get("tip-beyond-cortex");
    expect([least?.value, most?.value]).toEqual([tipBeyondCortex.least, tipBeyondCortex.most]);
  });

  test("an end that is unknown makes the choice unknown, and the formula shows both ends", () => {
    const unreadable = { quantity: unknown("the limit could not be read"), place };
    expect(reasonOf(under({ ...setting(0, 2), most: unreadable }), "screw.P1.best")).toBe(
      "the limit could not be read",
    );
    expect(reasonOf(under({ ...setting(0, 2), least: unreadable }), "screw.P1.best")).toBe(
      "the limit could not be read",
    );
    expect(writtenOf(under(setting(1, 3)), "screw.P1.best")).toBe(
      "shortest listed from drilled + least beyond to drilled + most beyond = shortest listed from 51 mm + 1 mm to 51 mm + 3 mm",
    );
    expect(writtenOf(under(setting(1, undefined)), "screw.P1.best")).toBe(
      "shortest listed ≥ drilled + least beyond = shortest listed ≥ 51 mm + 1 mm",
    );
  });
});

describe("screw families", () => {
  const holes = worked.holes.map((hole) => ({ ...hole, takes: ["peg", "bolt"] }));
  const lock = { hole: "P1", drilled: of(51), screw: 52 };
  const withBolts = (changes: Partial<ScrewFamily>, family?: string): Plan => {
    const plan = workedWith({ holes, locks: [family === undefined ? lock : { ...lock, family }] });
    const [peg] = plan.screwFamilies;
    if (peg === undefined) throw new Error("the worked plan has a screw family");
    return { ...plan, screwFamilies: [peg, { ...peg, name: { text: "bolt", place }, ...changes }] };
  };

  test("a hole that takes two and a step that names none", () => {
    expect(reasonOf(withBolts({}), "screw.P1.best")).toBe("hole P1 takes peg or bolt, and none is named");
    expect(numberOf(withBolts({}, "bolt"), "screw.P1.best")).toBe(52);
    expect(reasonOf(withBolts({}, "nut"), "screw.P1.best")).toBe("screw family nut is in no catalogue that was read");
  });

  test("a family for other nail diameters does not count", () => {
    const only = (diameter: number) => ({
      withDiameters: { sizes: [{ quantity: exact(diameter, "mm"), place }], place },
    });
    expect(numberOf(withBolts(only(12)), "screw.P1.best")).toBe(52);
    expect(reasonOf(withBolts(only(10)), "screw.P1.best")).toBe("hole P1 takes peg or bolt, and none is named");
  });

  test("a hole that takes nothing listed", () => {
    const plan = workedWith({ holes: worked.holes.map((hole) => ({ ...hole, takes: ["nut"] })), locks: [lock] });
    expect(reasonOf(plan, "screw.P1.best")).toBe("no listed screw goes into hole P1");
    expect(reasonOf(workedWith({ locks: [lock], screwLengths: [] }), "screw.P1.best")).toBe(
      "screw family peg lists no length",
    );
  });
});

describe("holes and the fracture", () => {
  const fracture = (from: number, to: number) =>
    workedWith({ ...inTrueSize, fracture: { from: of(from), to: of(to) } });

  test.each([
    [48, 60, 0, 1],
    [40, 60, -8, 0],
    [20, 50, -2, 0],
    [100, 120, 52, 1],
    [10, 30, 18, 0],
  ])("P1 at 48 mm, fracture from %d to %d mm: %d mm", (from, to, distance, counted) => {
    const plan = fracture(from, to);
    expect(numberOf(plan, "hole.P1.toFracture")).toBe(distance);
    // P2 lies at 36 mm, D2 and D1 at 327 and 341 mm.
    const near = (36 <= from ? 1 : 0) + counted;
    expect(numberOf(plan, "fragment.proximal.screws", "1")).toBe(near);
  });

  test("edges the wrong way round tell no side", () => {
    const plan = fracture(232, 208);
    const because = "the fracture's edges are the wrong way round";
    for (const id of [
      "hole.P1.toFracture",
      "fragment.proximal.screws",
      "fragment.distal.screws",
      "span.working",
      "fit.play.distal",
    ]) {
      expect(reasonOf(plan, id)).toBe(because);
    }
    expect(numberOf(plan, "level.fracture.from")).toBe(232);
    expect(numberOf(plan, "level.fracture.centre")).toBe(220);
  });

  test("a hole locked twice is one screw, the first", () => {
    const twice = [...worked.locks, { hole: "P1", drilled: of(51), screw: 60 }];
    const plan = workedWith({ locks: twice });
    expect(numberOf(plan, "fragment.proximal.screws", "1")).toBe(2);
    expect(numberOf(plan, "screw.P1.beyond")).toBe(1);
  });

  test("planes are counted", () => {
    const holes = worked.holes.map((hole) =>
      hole.name === "P1" ? { ...hole, runs: "anterior-posterior" as const } : hole,
    );
    expect(remarkOf(workedWith({ holes }), "fragment.proximal.screws")).toBe("1 medial-lateral, 1 anterior-posterior");
    expect(writtenOf(workedWith({ locks: [] }), "fragment.distal.screws")).toBe("none is planned = none is planned");
    expect(reckon(workedWith({ locks: [] })).byId.get("fragment.distal.screws")?.from).toHaveLength(1);
  });
});

describe("the driving end", () => {
  test("backslap and compression both draw it back", () => {
    const plan = workedWith({ backslap: of(1.5, 0.4) });
    expect(writtenOf(plan, "nail.topAfter")).toBe("sunk - backslap - compression = 8 mm - 1.50 mm - 2.5 mm");
    expect(numberOf(plan, "nail.topAfter")).toBe(4);
    expect(plusMinusOf(plan, "nail.topAfter")).toBeCloseTo(0.4, 12);
    expect(writtenOf(plan, "overinsertion.needed")).toBe("backslap + compression = 1.50 mm + 2.5 mm");
  });

  test("compression in turns and in mm together", () => {
    const plan = workedWith({ turns: 2, compress: of(1) });
    const both = workedWith({ turns: undefined, compress: of(1) });
    const step = both.steps.find(({ kind }) => kind === "compress");
    if (step === undefined) throw new Error("there is a compress step");
    const longer = { ...plan, steps: [...plan.steps, step] };
    expect(writtenOf(longer, "compression.amount")).toBe("turns × pitch + compression = 2 turns × 1.25 mm/turn + 1 mm");
    expect(numberOf(longer, "compression.amount")).toBe(3.5);
    expect(writtenOf(both, "nail.topAfter")).toBe("sunk - compression = 8 mm - 1 mm");
  });

  test("nothing draws it back", () => {
    const plan = workedWith({ turns: undefined });
    expect(numberOf(plan, "nail.topAfter")).toBe(8);
    expect(numberOf(plan, "overinsertion.needed")).toBe(0);
    expect(writtenOf(plan, "overinsertion.needed")).toBe("nothing draws the nail back = 0 mm");
  });
});

describe("dynamisation", () => {
  test("a fixed screw that stays holds the slot's end", () => {
    const plan = workedWith({ dynamise: ["D1"] });
    expect(numberOf(plan, "dynamisation.left")).toBe(0);
    expect(remarkOf(plan, "dynamisation.left")).toBe("P1 still holds that end");
    expect(reasonOf(plan, "nail.topDynamised")).toBe("absent");
    expect(numberOf(plan, "overinsertion.needed")).toBe(2.5);
  });

  test("no screw in a slot", () => {
    const plan = workedWith({ dynamise: ["P2"] });
    expect(numberOf(plan, "dynamisation.left")).toBe(0);
    expect(remarkOf(plan, "dynamisation.left")).toBe("no screw stands in a slot once the named screws are out");
  });

  test("compression longer than the slot leaves less than nothing", () => {
    const plan = workedWith({ turns: 5, dynamise: ["P1"] });
    expect(numberOf(plan, "dynamisation.left")).toBe(-0.25);
    expect(reasonOf(plan, "nail.topDynamised")).toBe("the compression is longer than the slot");
    expect(reasonOf(plan, "overinsertion.needed")).toBe("the compression is longer than the slot");
  });

  test("two slots give way by the shorter one; with slots at both ends the one a screw leaves is meant", () => {
    const holes = [
      { name: "P2", end: "top", distance: 28, runs: "medial-lateral", slot: 6 },
      { name: "P1", end: "top", distance: 40, runs: "medial-lateral", slot: 4 },
      { name: "D2", end: "tip", distance: 26, runs: "medial-lateral", slot: 5 },
      { name: "D1", end: "tip", distance: 12, runs: "medial-lateral" },
    ] as const;
    const plan = workedWith({ holes, turns: undefined, dynamise: ["D1"] });
    expect(numberOf(plan, "dynamisation.left")).toBe(5);
    expect(numberOf(plan, "nail.tipDynamised")).toBe(358);
    const atTop = workedWith({ holes, dynamise: [] });
    expect(numberOf(atTop, "dynamisation.left")).toBe(1.5);
    expect(writtenOf(atTop, "dynamisation.left")).toBe("shortest slot - compression = 4 mm - 2.5 mm");
  });
});

describe("the canal and the bone between their readings", () => {
  const bones = [
    { level: of(40), width: of(60) },
    { level: of(60), width: of(50) },
    { level: of(60), width: of(48) },
  ];
  const at = (distance: number) =>
    workedWith({
      ...inTrueSize,
      sunk: of(0),
      bones,
      locks: [],
      holes: [{ name: "P1", end: "top", distance, runs: "medial-lateral" }],
    });

  test.each([
    [30, 60, "bone held constant beyond 40 mm"],
    [40, 60, undefined],
    [45, 57.5, "bone interpolated between 40 mm and 60 mm"],
    [60, 48, undefined],
    [70, 48, "bone held constant beyond 60 mm"],
  ])("at %d mm: %d mm wide", (distance, width, how) => {
    expect(numberOf(at(distance), "hole.P1.path")).toBe(width);
    expect(remarkOf(at(distance), "hole.P1.path")).toBe(how);
  });

  test("the isthmus: the first of two equal readings names it", () => {
    const canals = [
      { level: of(100), width: of(12), depth: of(11) },
      { level: of(200), width: of(11), depth: of(14) },
    ];
    const plan = workedWith({ ...inTrueSize, canals });
    expect(numberOf(plan, "canal.isthmus")).toBe(11);
    expect(numberOf(plan, "canal.isthmusLevel")).toBe(100);
    expect(remarkOf(plan, "canal.isthmus")).toBe("depth of the canal at 100 mm");
  });

  test("an oblique hole without an angle, a hole without a direction", () => {
    const holes = [{ name: "P1", end: "top", distance: 40, runs: "oblique" }] as const;
    const plan = workedWith({ holes, locks: [] });
    expect(reasonOf(plan, "hole.P1.path")).toBe("the direction of hole P1 is not given");
    const undirected = plan.nail && {
      ...plan,
      nail: { ...plan.nail, holes: plan.nail.holes.map((hole) => ({ ...hole, runs: undefined })) },
    };
    if (undirected === undefined) throw new Error("the worked plan has a nail");
    expect(reasonOf(undirected, "hole.P1.path")).toBe("the direction of hole P1 is not given");
  });

  test("an oblique path with its formula", () => {
    const holes = [{ name: "P1", end: "top", distance: 40, runs: "oblique", angle: 30, tilt: 20 }] as const;
    const round = [{ level: of(48), width: of(40), depth: of(40) }];
    const plan = workedWith({ ...inTrueSize, holes, bones: round, locks: [] });
    expect(numberOf(plan, "hole.P1.path")).toBeCloseTo(40 / Math.cos(Math.PI / 9), 9);
    expect(writtenOf(plan, "hole.P1.path")).toBe(
      "2 / √((cos(angle) / (width / 2))² + (sin(angle) / (depth / 2))²) / cos(tilt) = " +
        "2 / √((cos(30 deg) / (40 mm / 2))² + (sin(30 deg) / (40 mm / 2))²) / cos(20 deg)",
    );
  });
});

describe("words", () => {
  test("a view in true size", () => {
    const plan = workedWith({});
    const [view] = plan.views;
    if (view === undefined) throw new Error("the worked plan has views");
    const trueSize = { ...view, marker: undefined, seen: undefined, trueSize: true, magnification: exact(1, "1") };
    const changed = { ...plan, views: [trueSize] };
    expect(numberOf(changed, "magnification.ap", "1")).toBe(1);
    expect(writtenOf(changed, "magnification.ap")).toBe("true size = true size");
    const upsideDown = { ...plan, views: [{ ...view, magnification: exact(-1.1, "1") }] };
    expect(reasonOf(upsideDown, "magnification.ap")).toBe("the magnification of ap is not above 0");
  });

  test("a negative number stands in brackets", () => {
    expect(writtenOf(workedWith({ sunk: of(-3) }), "nail.tip")).toBe("sunk + length = (-3 mm) + 345 mm");
  });

  test("a centre that may lie on either side of the square's edge", () => {
    // The centre lies 0.375 mm below the edge with u 0.25 mm: Φ(-1.5) = 7 % (normal distribution, computed).
    const fracture = { from: of(76.375, 1), to: of(76.375) };
    const plan = workedWith({ ...inTrueSize, proximalSquare: of(76), fracture });
    expect(wordOf(plan, "segment")).toBe("shaft");
    expect(remarkOf(plan, "segment")).toBe(
      "edge of the proximal square at 76 mm; probability that the centre lies in it: 7 %",
    );
    expect(remarkOf(workedWith({}), "segment")).toBe(undefined);
  });

  test("the smallest of several gradients", () => {
    const plan = workedWith({});
    const other = workedWith({ diastolic: of(60), pressure: of(35) });
    if (plan.aftercare === undefined || other.aftercare === undefined) throw new Error("both plans have after-care");
    const watches = [...plan.aftercare.watches, ...other.aftercare.watches];
    const both = { ...plan, aftercare: { ...plan.aftercare, watches } };
    expect(numberOf(both, "compartment.gradient", "mmHg")).toBeCloseTo(25, 12);
    expect(remarkOf(both, "compartment.gradient")).toBe("the smallest of those given");
    expect(writtenOf(both, "compartment.gradient")).toBe("diastolic - pressure = 60 mmHg - 35 mmHg");
  });
});

describe("bone removed", () => {
  test("a round canal reamed throughout: the closed form of a tube within 0.1 %", () => {
    const canals = [{ level: of(100), width: of(9), depth: of(9) }];
    const plan = workedWith({ ...inTrueSize, canals, heads: [11], sunk: of(5.4), length: 345 });
    const tube = ((Math.PI / 4) * (11 ** 2 - 9 ** 2) * 350.4) / 1000;
    expect(Math.abs(numberOf(plan, "ream.removed", "ml") / tube - 1)).toBeLessThan(0.001);
  });

  test("a canal wider than the head loses nothing", () => {
    const canals = [{ level: of(100), width: of(12), depth: of(13) }];
    expect(numberOf(workedWith({ ...inTrueSize, canals, heads: [11] }), "ream.removed", "ml")).toBe(0);
  });

  test("pass by pass it adds up", () => {
    const canals = [{ level: of(100), width: of(9), depth: of(10) }];
    const plan = workedWith({ ...inTrueSize, canals, heads: [9, 10, 11] });
    const passes = remarkOf(plan, "ream.removed") ?? "";
    const volumes = [...passes.matchAll(/: ([\d.]+) ml/g)].map((match) => Number(match[1]));
    expect(volumes).toHaveLength(3);
    expect(volumes[0]).toBe(0);
    expect(volumes.reduce((a, b) => a + b, 0)).toBeCloseTo(numberOf(plan, "ream.removed", "ml"), 1);
  });

  test("nothing absurd is added up", () => {
    expect(reasonOf(workedWith({ length: 1e9 }), "ream.removed")).toBe("the tip lies farther than any bone is long");
    const closed = [{ level: of(100), width: of(0), depth: of(9) }];
    expect(reasonOf(workedWith({ canals: closed }), "ream.removed")).toBe("a width of the canal is not above 0");
    const narrow = [{ level: of(100), width: of(9), depth: of(9) }];
    expect(numberOf(workedWith({ sunk: of(-400), canals: narrow }), "ream.removed", "ml")).toBe(0);
  });
});

describe("alignment", () => {
  test("straight has no plane, and one plane alone is not enough", () => {
    const straight = workedWith({ alignment: { coronal: [of(0), "varus"], sagittal: [of(0), "procurvatum"] } });
    expect(numberOf(straight, "alignment.true", "deg")).toBe(0);
    expect(reasonOf(straight, "alignment.plane")).toBe("there is no angulation");
    const half = workedWith({ alignment: { coronal: [of(5), "varus"] } });
    expect(reasonOf(half, "alignment.true")).toBe("no sagittal angle is given");
  });

  test.each([
    ["short", 8, 8],
    ["long", 8, -8],
  ] as const)("%s by %d mm, and what compression adds beyond the gap", (direction, amount, short) => {
    const alignment = { length: [of(amount), direction] as const };
    expect(numberOf(workedWith({ alignment }), "alignment.shortening")).toBe(short);
    // 4 turns of 1.25 mm close a gap of 3 mm and shorten by 2 mm.
    expect(numberOf(workedWith({ alignment, turns: 4 }), "alignment.shortening")).toBe(short + 2);
    expect(numberOf(workedWith({ turns: 4 }), "alignment.shortening")).toBe(2);
  });

  test("as achieved, beside as injured", () => {
    const injured = workedWith({ alignment: { coronal: [of(9), "varus"], sagittal: [of(6), "procurvatum"] } });
    const after = workedWith({
      alignment: { coronal: [of(2), "varus"], sagittal: [of(1), "recurvatum"], length: [of(3), "long"] },
    });
    const plan = { ...injured, achieved: { steps: [], alignment: after.case?.alignment, place } };
    expect(numberOf(plan, "alignment.achieved.true", "deg")).toBeCloseTo(2.2356, 3);
    expect(numberOf(plan, "alignment.achieved.shortening")).toBe(-3);
    expect(numberOf(plan, "alignment.true", "deg")).toBeCloseTo(10.7627, 4);
    expect(remarkOf(plan, "alignment.achieved.true")).toBe("varus and recurvatum");
  });
});

test("no gap has no strain, and the whole body weight is borne without a partial load", () => {
  const closed = workedWith({ fracture: { from: of(208), to: of(232), gap: of(0) } });
  expect(reasonOf(closed, "gap.strain.most")).toBe("there is no gap: its strain is undefined");
  const ratio =
    numberOf(workedWith({ load: undefined }), "gap.motion.most") / numberOf(workedWith({}), "gap.motion.most");
  expect(ratio).toBeCloseTo(78 / 20, 9);
});
