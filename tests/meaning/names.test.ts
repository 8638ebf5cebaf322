/** Names: where each is visible, and what is told of one that is repeated, missing, unused or circular. */
import { describe, expect, test } from "vitest";
import { examplePlan as planText } from "../../server/findings/example.ts";
import { meaningOf, planWith, problemsOf, problemText, shown, understoodPlan } from "./texts.ts";

/** The plan with lines before its case and a use of them in the operation. */
function planWithLines(lines: string, sunk = "8 mm"): string {
  return planWith("  case TN-0417 {", `${lines}\n  case TN-0417 {`).replace("sunk 8 mm", `sunk ${sunk}`);
}

function sunkOf(text: string): string {
  const step = understoodPlan(text).steps.find(({ kind }) => kind === "nail");
  return step?.kind === "nail" ? shown(step.sunk) : "no nail";
}

describe("a name", () => {
  test("is visible in inner blocks and before its line", () => {
    expect(sunkOf(planWithLines("  let deep = half * 2\n  let half = 4.5 mm", "deep"))).toBe("9 mm");
  });

  test("of a block is not visible outside it", () => {
    const text = planWith("side left", "side left\n    let deep = 9 mm").replace("gap 3 mm ± 1 mm", "gap deep");
    expect(problemsOf(text)).toEqual([]);
    expect(problemsOf(text.replace("sunk 8 mm", "sunk deep"))).toEqual(["name-unknown deep"]);
  });

  test("may be the same in two blocks side by side", () => {
    const text = planWith("side left", "side left\n    let deep = 9 years")
      .replace("age 34 years", "age deep")
      .replace("wire ball-tip", "wire ball-tip\n    let deep = 7 mm")
      .replace("sunk 8 mm", "sunk deep");
    expect(problemsOf(text)).toEqual([]);
    expect(sunkOf(text)).toBe("7 mm");
  });

  test("given twice is told once, with the first place", () => {
    const text = planWithLines("  let deep = 8 mm\n  let deep = 9 mm", "deep");
    expect(problemsOf(text)).toEqual(["name-repeated deep"]);
    const [problem] = meaningOf(text).problems;
    expect(problem?.also?.start).toBe(text.indexOf("deep"));
    expect(sunkOf(text)).toBe("8 mm");
  });

  test.each([
    [
      "a value in an inner block",
      planWithLines("  let deep = 8 mm", "deep").replace("wire ball-tip", "wire ball-tip\n    let deep = 9 mm"),
      "deep",
    ],
    ["a landmark", planText.replace("landmark plafond 432", "landmark scar 432"), "scar"],
    ["a value and a landmark", planWithLines("  let scar = 8 mm"), "scar"],
    [
      "a view",
      planText.replace("view lateral, marker", "view lateral, true-size\n    view lateral, marker"),
      "lateral",
    ],
  ])("repeated: %s", (_, text, name) => {
    expect(problemsOf(text)).toEqual([`name-repeated ${name}`]);
  });

  test("that is never given is told at its first use alone, with the nearest", () => {
    const text = planWith("sunk 8 mm", "sunk plafnd - 330 mm").replace("cap 5 mm", "cap plafnd - 370 mm");
    expect(problemsOf(text)).toEqual(["name-unknown plafnd"]);
    const problem = understoodPlan(text).problems[0];
    expect(problem).toMatchObject({ near: "plafond", span: { start: text.indexOf("plafnd") } });
    expect(problem?.repairs?.[0]?.edits[0]?.text).toBe("plafond");
  });

  test("of a view that is never described is told once", () => {
    const text = planText.replaceAll(" on lateral", " on oblique");
    expect(problemsOf(text)).toEqual(["name-unused lateral", "scale-missing oblique"]);
  });

  test.each([
    ["itself", "  let deep = deep + 1 mm", ["name-unknown deep"]],
    ["another that means it", "  let deep = far\n  let far = deep", ["name-unknown far"]],
    ["two others", "  let deep = far + near-by\n  let far = near-by\n  let near-by = deep", ["name-unknown near-by"]],
  ])("that means %s is told once as a circle", (_, lines, expected) => {
    const text = planWithLines(lines, "deep");
    expect(problemsOf(text)).toEqual(expected);
    const problem = understoodPlan(text).problems[0];
    expect(problem?.inside).toBe("its own definition");
    expect(sunkOf(text)).toMatch(/^unknown/);
  });

  test.each([
    ["in the order of the text", (at: number) => `let n${at + 1} = n${at} + 1 mm`, "let n0 = 1 mm", "n3000"],
    ["against it", (at: number) => `let n${at} = n${at + 1} + 1 mm`, "let n3000 = 1 mm", "n0"],
  ])("may rest on thousands of others %s without overflowing", (order, line, last, top) => {
    const lines = Array.from({ length: 3000 }, (_, at) => line(at));
    const text = planWithLines(order === "against it" ? [...lines, last].join("\n") : [last, ...lines].join("\n"), top);
    expect(problemsOf(text)).toEqual([]);
    expect(sunkOf(text)).toBe("3001 mm");
  });

  test("in a circle of thousands is told without overflowing", () => {
    const lines = Array.from({ length: 3000 }, (_, at) => `let n${at} = n${(at + 1) % 3000} + 1 mm`);
    expect(problemsOf(planWithLines(lines.join("\n"), "n0"))).toHaveLength(1);
  });

  test("of a view in its own marker is a circle too", () => {
    expect(problemsOf(planWith("marker 25 mm, seen 28.75 mm ± 0.2 mm", "marker 25 mm on ap, seen 28.75 mm"))).toEqual([
      "name-unknown ap",
    ]);
  });

  test("that nothing uses is told, a landmark not", () => {
    expect(problemsOf(planWithLines("  let deep = 8 mm"))).toEqual(["name-unused deep"]);
    expect(problemsOf(planText.replace("landmark scar", "landmark bump 40 mm on ap\n    landmark scar"))).toEqual([]);
    expect(problemsOf(planText.replaceAll(" on lateral", ""))).toEqual(["name-unused lateral"]);
  });

  test.each(["constructor", "toString", "hasOwnProperty", "valueOf"])("may be %s", (name) => {
    const text = planWithLines(`  let ${name} = 7 mm`, name);
    expect(problemsOf(text)).toEqual([]);
    expect(sunkOf(text)).toBe("7 mm");
    expect(problemsOf(planWith("sunk 8 mm", `sunk ${name}`))).toEqual([`name-unknown ${name}`]);
    expect(problemsOf(planWith("32 mm\n", `32 mm on ${name}\n`))).toEqual([`scale-missing ${name}`]);
  });

  test("that is __proto__ is no word of the language and breaks nothing", () => {
    const text = planWithLines("  let __proto__ = 7 mm", "__proto__");
    expect(problemsOf(text).length).toBeGreaterThan(0);
    expect(understoodPlan(text).measures.landmarks).toHaveLength(2);
  });
});

describe("in a line that is not understood", () => {
  test("a name may be given: nothing is said of its uses", () => {
    const text = planWith("sunk 8 mm", "sunk scar - 350 mm").replace(
      "landmark scar 416 mm ± 2 mm on ap",
      "landmork-x scar 416 mm on ap",
    );
    const told = problemsOf(text);
    expect(told).toHaveLength(1);
    expect(told[0]).toMatch(/^unknown-word/);
  });

  test("a name may be used: nothing is said of it as unused", () => {
    const text = planWithLines("  let deep = 8 mm").replace("cap 5 mm", "cap 5 mm\n    zzzzzz deep");
    expect(problemsOf(text)).toEqual(["unknown-word zzzzzz"]);
  });

  test("a misspelt word keeps what it was meant to say", () => {
    const text = planText.replace("landmark scar", "landmrk scar").replace("view ap,", "vew ap,");
    expect(problemsOf(text)).toEqual(["unknown-word vew", "unknown-word landmrk"]);
    expect(shown(understoodPlan(text).measures.landmarks[0]?.level)).toBe("361.7 mm ± 3.1 mm");
  });

  test("a misspelt block keeps everything in it", () => {
    const text = planText.replace("  measures {", "  mesures {").replace("  operation {", "  operatoin {");
    expect(problemsOf(text)).toEqual(["unknown-word mesures", "unknown-word operatoin"]);
    const plan = understoodPlan(text);
    expect([plan.measures.canals.length, plan.steps.length]).toEqual([3, 15]);
  });

  test("a misspelt thing counts as the one that was meant", () => {
    const text = planText.replace("prepare antibiotic", "prepare antibotic");
    expect(problemsOf(text)).toEqual(["unknown-word antibotic"]);
    const step = understoodPlan(text).steps[0];
    expect(step?.kind === "prepare" ? step.things.map((thing) => thing.text) : step).toEqual([
      "antibiotic",
      "time-out",
    ]);
  });
});

describe("a catalogue", () => {
  const nail =
    "nail a {\n for tibia\n diameters 9 mm\n lengths 300 mm\n hole H, top 9 mm, runs medial-lateral, takes peg\n";
  const screws = " screws peg {\n thread 5 mm\n core 4 mm\n drill 4 mm\n lengths 30 mm\n }\n";
  const head = 'isthmus 1\n\ncatalogue "invented" {\n notice "Invented."\n';

  test.each([
    ["nails", `${nail} }\n ${nail} }\n${screws}`, "a"],
    ["families", `${nail} }\n${screws}${screws}`, "peg"],
    ["holes", `${nail} hole H, tip 9 mm, runs medial-lateral, takes peg\n }\n${screws}`, "H"],
  ])("with two %s of one name tells the second", (_, body, name) => {
    expect(problemsOf(`${head}${body}}\n`)).toEqual([`name-repeated ${name}`]);
  });

  test("says nothing about names that others judge", () => {
    expect(problemsOf(planText.replace("lock D2", "lock D9").replace("nail fenwick", "nail unheard-of"))).toEqual([]);
    const { references } = meaningOf(planText.replace("lock D2", "lock D9"));
    expect(references.uses.find((use) => use.name === "D9")).toMatchObject({ kind: "hole", declared: undefined });
  });
});

test("problems stand in the order of the text", () => {
  const text = planWithLines("  let unused-b = 8 mm\n  let unused-a = 8 mm", "unknown-c");
  const { problems } = meaningOf(text);
  expect(problems.map((problem) => problemText(text, problem))).toEqual([
    "name-unused unused-b",
    "name-unused unused-a",
    "name-unknown unknown-c",
  ]);
});
