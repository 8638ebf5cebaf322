/** What lies on the tray: the planned sizes, nail and screws with one size either side, everything counted. */
import { expect, test } from "vitest";
import { trayOf } from "../../server/reckoning/tray.ts";
import { reasonOf, wordOf, workedWith } from "./answers-of.ts";
import { of, worked } from "./worked-numbers.ts";

test("the worked plan", () => {
  // By hand: 6 heads, 3 nails, 1 drill, 4 screws with two neighbours each (34 and 32 mm share 32 and 34 mm), device, cap.
  expect(wordOf(workedWith({}), "tray")).toBe(
    "reamer heads 8.5 mm, 9 mm, 9.5 mm, 10 mm, 10.5 mm, 11 mm; nail fenwick, 10 mm thick, 330 mm, 345 mm, 360 mm; " +
      "drill 3.8 mm; peg screws 30 mm, 32 mm × 2, 34 mm × 2, 36 mm, 50 mm, 52 mm × 2, 54 mm × 2, 56 mm; " +
      "compression device; end cap 5 mm: 24 pieces",
  );
  const pieces = trayOf(workedWith({})).map((line) => [line.what, line.pieces, line.from.length > 0]);
  expect(pieces.slice(0, 3)).toEqual([
    ["reamer heads", 6, true],
    ["nail fenwick, 10 mm thick,", 3, true],
    ["drill", 1, true],
  ]);
});

test("the ends of a list have one neighbour, a size that is not listed has both", () => {
  const nails = (length: number) => trayOf(workedWith({ length })).find(({ what }) => what.startsWith("nail"))?.sizes;
  expect(nails(240)).toBe("240 mm, 255 mm");
  expect(nails(420)).toBe("405 mm, 420 mm");
  expect(nails(350)).toBe("345 mm, 350 mm, 360 mm");
});

test("what is not used is not there, what is not known is", () => {
  const plan = workedWith({ heads: undefined, turns: undefined, cap: "none", locks: [{ hole: "P1" }] });
  expect(wordOf(plan, "tray")).toBe(
    "nail fenwick, 10 mm thick, 330 mm, 345 mm, 360 mm; drill 3.8 mm; peg screws of unknown size: 5 pieces",
  );
  const unlisted = { ...plan, nail: undefined, screwFamilies: [] };
  expect(wordOf(unlisted, "tray")).toBe(
    "nail fenwick, 10 mm thick, 345 mm; drill of unknown size; locking screws of unknown size: 3 pieces",
  );
  expect(reasonOf({ ...plan, steps: [] }, "tray")).toBe("absent");
});

test("a wire with its tip, two screw families", () => {
  const plan = workedWith({
    locks: [worked.locks[0] ?? { hole: "D2" }, { hole: "P1", drilled: of(51), screw: 52, family: "bolt" }],
  });
  const place = plan.operation;
  const [peg] = plan.screwFamilies;
  if (peg === undefined) throw new Error("the worked plan has a screw family");
  const wire = { kind: "wire" as const, tip: { text: "ball-tip", place }, place, wordPlace: place };
  const bolt = { ...peg, name: { text: "bolt", place } };
  const lines = trayOf({ ...plan, steps: [wire, ...plan.steps], screwFamilies: [peg, bolt] });
  expect(lines.map(({ what, sizes }) => `${what} ${sizes}`).filter((line) => /wire|screws/.test(line))).toEqual([
    "ball-tip guide wire ",
    "peg screws 30 mm, 32 mm, 34 mm",
    "bolt screws 50 mm, 52 mm, 54 mm",
  ]);
});

test("a wire alone is one piece, from the step that asks for it", () => {
  const plan = workedWith({});
  const place = { file: "a", span: { start: 7, end: 9 } };
  const wire = { kind: "wire" as const, tip: undefined, place, wordPlace: place };
  expect(wordOf({ ...plan, steps: [wire] }, "tray")).toBe("guide wire: 1 piece");
  expect(trayOf({ ...plan, steps: [wire] })).toEqual([{ what: "guide wire", sizes: "", pieces: 1, from: [place] }]);
});

test("each line stands where the plan asks for it", () => {
  const plan = workedWith({});
  const at = (start: number) => ({ file: "a", span: { start, end: start + 1 } });
  const steps = plan.steps.map((step, index) => ({ ...step, place: at(index) }));
  const numbersOf = (...kinds: readonly string[]) =>
    steps.flatMap((step, index) => (kinds.includes(step.kind) ? [index] : []));
  const lines = new Map(
    trayOf({ ...plan, steps }).map(({ what, from }) => [what, from.map(({ span }) => span.start)] as const),
  );
  expect(lines.get("peg screws")).toEqual(numbersOf("lock"));
  expect(lines.get("compression device")).toEqual(numbersOf("compress"));
  expect(lines.get("end cap")).toEqual(numbersOf("cap"));
  expect(lines.get("nail fenwick, 10 mm thick,")).toEqual(numbersOf("nail"));
});

test("a nail that is not named is a nail", () => {
  const plan = workedWith({});
  const steps = plan.steps.map((step) => (step.kind === "nail" ? { ...step, name: undefined } : step));
  expect(trayOf({ ...plan, steps }).map(({ what }) => what)).toContain("nail, 10 mm thick,");
});
