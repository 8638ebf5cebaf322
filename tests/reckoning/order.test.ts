/** Which step needs which where parts of the operation are left out of the plan: no nail, no screw, no check, a hole nobody lists. */
import { expect, test } from "vitest";
import type { Plan, Step } from "../../server/meaning/plan.ts";
import {
  checkAfterLocking,
  checksBeforeLocking,
  firstLock,
  fixedBeforeCompression,
  lastChange,
  locksAtDrivingEnd,
  locksAtFarEnd,
  outOfOrder,
  type PrecedenceName,
  precedences,
  reasonOf,
  standsInSlot,
  stepsAfter,
} from "../../server/reckoning/order.ts";
import { plannedSteps } from "../../server/reckoning/steps.ts";
import { exampleWith } from "./answers-of.ts";

const plan = exampleWith();

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

/** The steps of these kinds in this order; the second of a kind is a copy of the first. */
function inOrder(...kinds: readonly Step["kind"][]): Plan {
  const steps = kinds.map((kind) => {
    const step = plan.steps.find((each) => each.kind === kind);
    return step === undefined
      ? ({ kind: "backslap", amount: undefined, place: plan.operation, wordPlace: plan.operation } as const)
      : { ...step };
  });
  return { ...plan, steps };
}

/** Kinds of the pairs out of order, with the places of both in the list. */
function broken(of: Plan, name: PrecedenceName): readonly string[] {
  return outOfOrder(of, name).map(
    ({ earlier, later }) =>
      `${earlier.kind} ${of.steps.indexOf(earlier)} after ${later.kind} ${of.steps.indexOf(later)}`,
  );
}

test("of what is planned twice the first counts", () => {
  expect(broken(inOrder("enter", "wire", "enter"), "entry")).toEqual([]);
  expect(broken(inOrder("wire", "enter", "enter"), "entry")).toEqual(["enter 1 after wire 0"]);
  expect(broken(inOrder("wire", "ream", "wire"), "wire")).toEqual([]);
  expect(broken(inOrder("nail", "ream", "nail"), "reaming")).toEqual(["ream 1 after nail 0"]);
  expect(broken(inOrder("ream", "nail", "ream", "nail"), "reaming")).toEqual(["ream 2 after nail 1"]);
  expect(plannedSteps(inOrder("ream", "nail", "nail")).map(({ needs }) => needs.length)).toEqual([0, 1, 0]);
  expect(broken(inOrder("nail", "lock", "nail"), "nail")).toEqual([]);
  expect(plannedSteps(inOrder("nail", "check", "lock", "nail"))[1]?.needs.map(({ number }) => number)).toEqual([1]);
});

test("all that is needed has to be done before, what is and what is not", () => {
  const needs = plannedSteps(inOrder("ream", "nail", "ream"))[1]?.needs;
  expect(needs?.map(({ number, kept }) => [number, kept])).toEqual([
    [1, true],
    [3, false],
  ]);
});

test("one cap closes the driving end, and no cap closes nothing", () => {
  const compressed = inOrder("cap", "compress", "cap");
  expect(broken(compressed, "cap")).toEqual(["compress 1 after cap 0"]);
  expect(plannedSteps(compressed)[2]?.needs.map(({ number }) => number)).not.toContain(2);
  const none: Plan = {
    ...compressed,
    steps: compressed.steps.map((step) => (step.kind === "cap" ? { ...step, none: true } : step)),
  };
  expect(broken(none, "cap")).toEqual([]);
});

test.each(["lock", "compress", "backslap", "cap"] as const)("%s after the final check is looked at no more", (kind) => {
  expect(broken(inOrder("nail", "lock", "check", kind), "final-check")).toEqual([`${kind} 3 after check 2`]);
});

test("a screw before the nail is not the one that locking begins with", () => {
  const [early, ...rest] = plan.steps.filter((step) => step.kind === "lock");
  const [nail] = plan.steps.filter((step) => step.kind === "nail");
  if (early === undefined || nail === undefined) throw new Error("the worked plan has screws and a nail");
  expect(holeOf(firstLock({ ...plan, steps: [early, nail, ...rest] }))).toBe(rest[0]?.hole.text);
});

test("without screws nothing is checked before them and nothing after", () => {
  for (const { name, later } of precedences.filter((each) => ["check", "final-check"].includes(each.name)))
    expect([name, later(without("lock"))]).toStrictEqual([name, []]);
  const [final] = precedences.filter(({ name }) => name === "final-check");
  expect(final?.earlier(without("lock", "compress", "backslap", "cap", "nail"))).toStrictEqual([]);
});

test("one screw in a slot is enough for the compression", () => {
  const [slotted] = plan.steps.filter((step) => holeOf(step) === "P2");
  if (slotted === undefined) throw new Error("the worked plan has a screw in the slot");
  const both = inOrder("nail", "compress");
  const steps = [...both.steps.slice(0, 1), slotted, ...both.steps.slice(1), { ...slotted }];
  const needs = plannedSteps({ ...plan, steps })[2]?.needs;
  expect(needs?.map(({ number, kept }) => [number, kept])).toEqual([[2, true]]);
});

test("the table's names, in the order of an operation", () => {
  expect(precedences.map(({ name }) => name)).toEqual([
    "entry",
    "wire",
    "blocking",
    "reaming",
    "nail",
    "check-of-nail",
    "check",
    "far-locking",
    "slot-screw",
    "compression",
    "cap",
    "final-check",
  ]);
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
