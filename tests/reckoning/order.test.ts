/** Which step needs which where parts of the operation are left out of the plan: no nail, no screw, no check, a hole nobody lists. */
import { expect, test } from "vitest";
import { parse } from "../../grammar/parse.ts";
import { exampleDocument } from "../../server/findings/example.ts";
import type { Plan, Step } from "../../server/meaning/plan.ts";
import { understand } from "../../server/meaning/understand.ts";
import {
  checkAfterLocking,
  checksBeforeLocking,
  firstLock,
  fixedBeforeCompression,
  lastChange,
  locksAtDrivingEnd,
  locksAtFarEnd,
  outOfOrder,
  precedences,
  reasonOf,
  standsInSlot,
  stepsAfter,
} from "../../server/reckoning/order.ts";
import { plannedSteps } from "../../server/reckoning/steps.ts";

function worked(): Plan {
  const { file, text, library } = exampleDocument({ change: [] });
  const { document } = understand(parse(text), file, library);
  if (document?.kind !== "plan") throw new Error("the example is a plan");
  return document;
}

const plan = worked();

function without(...kinds: readonly Step["kind"][]): Plan {
  return { ...plan, steps: plan.steps.filter(({ kind }) => !kinds.includes(kind)) };
}

function holeOf(step: Step | undefined): string | undefined {
  return step?.kind === "lock" ? step.hole.text : step?.kind;
}

// prepare, position, reduce, enter, wire, ream, nail, check, D2, D1, P2 (slot), compress, P1 (fixed), cap, check.
test("the screws of either end, and the one in the slot", () => {
  expect(locksAtFarEnd(plan).map(holeOf)).toEqual(["D2", "D1"]);
  expect(locksAtDrivingEnd(plan).map(holeOf)).toEqual(["P2", "P1"]);
  expect(locksAtDrivingEnd(plan).map((lock) => standsInSlot(plan, lock))).toEqual([true, false]);
});

test("a hole that no nail lists is at neither end and no slot", () => {
  const unlisted: Plan = { ...plan, nail: undefined };
  expect(locksAtFarEnd(unlisted)).toEqual([]);
  expect(locksAtDrivingEnd(unlisted)).toEqual([]);
  const [lock] = plan.steps.filter((step) => step.kind === "lock");
  expect(lock === undefined ? "no lock" : standsInSlot(unlisted, lock)).toBe(false);
});

test("the first screw is the first after the nail; there is none without nail or screws", () => {
  expect(holeOf(firstLock(plan))).toBe("D2");
  expect(firstLock(without("nail"))).toBeUndefined();
  expect(firstLock(without("lock"))).toBeUndefined();
});

test("a fixed screw before the compression is passed over, unless there is no other", () => {
  const [before, after] = [plan.steps.slice(0, 8), plan.steps.slice(8)];
  const fixed = plan.steps.filter((step) => holeOf(step) === "P1");
  const early: Plan = { ...plan, steps: [...before, ...fixed, ...after.filter((step) => !fixed.includes(step))] };
  expect(fixedBeforeCompression(early).map(holeOf)).toEqual(["P1"]);
  expect(fixedBeforeCompression(plan)).toEqual([]);
  expect(holeOf(firstLock(early))).toBe("D2");
  const alone: Plan = { ...early, steps: early.steps.filter((step) => step.kind !== "lock" || holeOf(step) === "P1") };
  expect(holeOf(firstLock(alone))).toBe("P1");
});

test("checks before and after locking", () => {
  const places = (steps: readonly (Step | undefined)[]): number[] =>
    steps.flatMap((step) => (step === undefined ? [] : [plan.steps.indexOf(step) + 1]));
  expect(places(checksBeforeLocking(plan))).toEqual([8]);
  expect(places([checkAfterLocking(plan)])).toEqual([15]);
  expect(checksBeforeLocking(without("lock"))).toEqual([]);
  expect(checkAfterLocking(without("lock"))).toBeUndefined();
  expect(checkAfterLocking(without("check"))).toBeUndefined();
});

test("the last change is the last of screw, compression, backslap and cap, or the nail where there is none", () => {
  expect(lastChange(plan)?.kind).toBe("cap");
  expect(holeOf(lastChange(without("cap")))).toBe("P1");
  expect(lastChange(without("cap", "lock", "compress", "backslap"))?.kind).toBe("nail");
  expect(lastChange(without("cap", "lock", "compress", "backslap", "nail"))).toBeUndefined();
});

test("nothing follows the entry where neither wire, reamer nor nail is planned", () => {
  const [entry] = precedences.filter(({ name }) => name === "entry");
  expect(entry?.later(plan).map(({ kind }) => kind)).toEqual(["wire"]);
  expect(entry?.later(without("wire")).map(({ kind }) => kind)).toEqual(["ream"]);
  expect(entry?.later(without("wire", "ream")).map(({ kind }) => kind)).toEqual(["nail"]);
  expect(entry?.later(without("wire", "ream", "nail"))).toEqual([]);
});

test("pairs out of order, each with what it needs", () => {
  const steps = [...plan.steps].reverse();
  const pairs = outOfOrder({ ...plan, steps }, "reaming");
  expect(pairs.map(({ earlier, later }) => [earlier.kind, later.kind])).toEqual([["ream", "nail"]]);
  expect(outOfOrder(plan, "reaming")).toEqual([]);
});

test("each reason by its name", () => {
  expect(reasonOf("wire")).toBe("reamers run over the wire");
  for (const { name, because } of precedences) expect(reasonOf(name)).toBe(because);
});

test("the steps after a step, without it", () => {
  const [nail] = plan.steps.filter(({ kind }) => kind === "nail");
  expect(nail === undefined ? 0 : stepsAfter(plan, nail).length).toBe(8);
});

test("a nail without a name is a nail", () => {
  const nameless: Plan = {
    ...plan,
    steps: plan.steps.map((step) => (step.kind === "nail" ? { ...step, name: undefined } : step)),
  };
  expect(plannedSteps(nameless)[6]?.what).toBe("nail");
  expect(plannedSteps(plan)[6]?.what).toBe("nail fenwick");
});

test("a check of nothing is a check", () => {
  const empty: Plan = {
    ...plan,
    steps: plan.steps.map((step) => (step.kind === "check" ? { ...step, things: [] } : step)),
  };
  expect(plannedSteps(empty)[7]?.what).toBe("check");
});
