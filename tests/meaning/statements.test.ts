/** Every statement of the vocabulary fills the field that is meant for it. */
import { describe, expect, test } from "vitest";
import { blockRules } from "../../grammar/vocabulary/blocks.ts";
import {
  exampleCatalogue as catalogueText,
  examplePlan as planText,
  exampleProtocol as protocolText,
} from "../../server/findings/example.ts";
import type { Said, SizeList, Step, Typed } from "../../server/meaning/plan.ts";
import {
  meaningOf,
  planWith,
  problemsOf,
  problemText,
  shown,
  understoodCatalogue,
  understoodPlan,
  understoodProtocol,
} from "./texts.ts";

function words(list: readonly Said[] | undefined): readonly string[] {
  return (list ?? []).map((said) => said.text);
}

function listed(list: SizeList | readonly Typed[] | undefined, unit = "mm"): readonly string[] {
  const sizes = list === undefined ? [] : "sizes" in list ? list.sizes : list;
  return sizes.map((size) => shown(size, unit));
}

function stepWith<K extends Step["kind"]>(line: string, kind: K): Extract<Step, { kind: K }> {
  const text = planWith("    wire ball-tip\n", `    wire ball-tip\n    ${line}\n`);
  const steps = understoodPlan(text).steps.filter((step): step is Extract<Step, { kind: K }> => step.kind === kind);
  const typed = steps.find((step) => text.startsWith(line, step.place.span.start));
  if (typed === undefined) {
    throw new Error(`no step was understood in ${line}`);
  }
  return typed;
}

describe("the plan", () => {
  test("keeps its own lines", () => {
    const text = planWith(
      "  status for-review\n",
      `  sources "references.bib"
  status approved
  summary "Short."
  waive drill-odd at D2, because "Measured twice.", signed "the surgeon"
  reviewed "the registrar", dated 2026-03-02, seal "4f1c9a0d"
  ask "Which end first?" {
    answer "The far end", right, because "Compression pulls against it."
    answer "The near end"
  }
`,
    ).replace(
      "    wire ball-tip\n",
      '    ask "Why a ball?" {\n      answer "To draw the reamer back", right\n    }\n    wire ball-tip\n',
    );
    expect(problemsOf(text)).toEqual([]);
    const plan = understoodPlan(text);
    expect(words(plan.sources)).toEqual(["references.bib"]);
    expect(plan.bibliographies.map(({ read }) => read?.entries.map(({ key }) => key))).toEqual([["one1996"]]);
    expect([plan.status?.text, plan.summary?.text]).toEqual(["approved", "Short."]);
    expect(plan.waivers).toMatchObject([
      {
        finding: { text: "drill-odd" },
        at: { text: "D2" },
        because: { text: "Measured twice." },
        signed: { text: "the surgeon" },
      },
    ]);
    expect(plan.reviews).toMatchObject([
      { by: { text: "the registrar" }, dated: { text: "2026-03-02" }, seal: { text: "4f1c9a0d" } },
    ]);
    expect(plan.questions.map((question) => question.text.text)).toEqual(["Which end first?", "Why a ball?"]);
    expect(plan.questions[0]?.answers).toMatchObject([
      { text: { text: "The far end" }, right: true, because: { text: "Compression pulls against it." } },
      { text: { text: "The near end" }, right: false, because: undefined },
    ]);
  });

  test("without its blocks leaves them undefined or empty", () => {
    const plan = understoodPlan('isthmus 1\n\nplan "Empty" {\n}\n');
    expect([plan.case, plan.achieved, plan.aftercare, plan.removal, plan.nail]).toEqual(new Array(5).fill(undefined));
    expect([plan.views, plan.steps, plan.fallbacks, plan.measures.landmarks]).toEqual([[], [], [], []]);
    expect(plan.measures.place).toBeUndefined();
  });

  test("without a title has an empty one at its word", () => {
    const text = planText.replace('plan "Oblique fracture of the left tibial shaft, invented" {', "plan {");
    const { title } = understoodPlan(text);
    expect([title.text, text.slice(title.place.span.start, title.place.span.end)]).toEqual(["", "plan"]);
  });
});

describe("the case", () => {
  test("keeps concerns, contact, lengthening and an open injury", () => {
    const text = planText
      .replace("soft-tissue closed C1", 'soft-tissue open IIIA\n    concern infection\n    concern "steroids"')
      .replace("gap 3 mm ± 1 mm", "gap 3 mm ± 1 mm, contact 40 %")
      .replace("short 8 mm", "long 3 mm");
    expect(problemsOf(text)).toEqual([]);
    const told = understoodPlan(text).case;
    expect([told?.softTissue?.kind.text, told?.softTissue?.grade?.text]).toEqual(["open", "IIIA"]);
    expect(words(told?.concerns)).toEqual(["infection", "steroids"]);
    expect(shown(told?.fracture?.contact, "%")).toBe("40 %");
    expect([shown(told?.alignment?.length?.amount), told?.alignment?.length?.direction.text]).toEqual(["3 mm", "long"]);
    // 208 / 1.15 and 232 / 1.15; the uncertainty is the marker's alone.
    expect([shown(told?.fracture?.from), shown(told?.fracture?.to)]).toEqual([
      "180.9 mm ± 1.3 mm",
      "201.7 mm ± 1.4 mm",
    ]);
  });

  test("keeps a direct reading of the nail's length", () => {
    const text = planText.replace("    epiphysis proximal", "    nail-length 900 mm - 548 mm\n    epiphysis proximal");
    expect(shown(understoodPlan(text).measures.nailLength)).toBe("352 mm");
  });
});

describe("a step", () => {
  test("prepare", () =>
    expect(words(stepWith('prepare tourniquet, "shave"', "prepare").things)).toEqual(["tourniquet", "shave"]));
  test("position", () => {
    const step = stepWith("position lateral, table radiolucent, support knee, knee 95 deg", "position");
    expect([step.posture?.text, step.table?.text, step.support?.text, shown(step.knee, "deg")]).toEqual([
      "lateral",
      "radiolucent",
      "knee",
      "95 deg",
    ]);
  });
  test("reduce", () => {
    const step = stepWith('reduce open, using clamp, "a spike", hold clamp', "reduce");
    expect([step.how?.text, words(step.using), words(step.hold)]).toEqual(["open", ["clamp", "a spike"], ["clamp"]]);
  });
  test("enter", () => {
    const step = stepWith("enter suprapatellar, from-midline 3 mm medial", "enter");
    expect([step.approach?.text, shown(step.fromMidline?.amount), step.fromMidline?.direction.text]).toEqual([
      "suprapatellar",
      "3 mm",
      "medial",
    ]);
  });
  test("wire", () => expect(stepWith("wire smooth", "wire").tip?.text).toBe("smooth"));
  test("ream", () => {
    expect(listed(stepWith("ream 8 mm to 9 mm by 0.5 mm, 10 mm", "ream").heads)).toEqual([
      "8 mm",
      "8.5 mm",
      "9 mm",
      "10 mm",
    ]);
  });
  test("unreamed", () => expect(stepWith("unreamed", "unreamed").kind).toBe("unreamed"));
  test("nail", () => {
    const step = stepWith("nail other, diameter 9 mm, length 300 mm, sunk 4 mm", "nail");
    const sizes = [step.diameter, step.length, step.sunk].map((size) => shown(size));
    expect([step.name?.text, ...sizes]).toEqual(["other", "9 mm", "300 mm", "4 mm"]);
  });
  test("block", () => {
    const step = stepWith("block at 300 mm, side lateral, screw 40 mm", "block");
    expect([shown(step.level), step.side?.text, shown(step.screw)]).toEqual(["300 mm", "lateral", "40 mm"]);
  });
  test("lock", () => {
    const step = stepWith("lock D9, drilled 30 mm, screw peg 28 mm, grip near", "lock");
    expect([step.hole.text, shown(step.drilled), step.family?.text, shown(step.screw), step.grip]).toEqual([
      "D9",
      "30 mm",
      "peg",
      "28 mm",
      "near",
    ]);
    expect(stepWith("lock D9, drilled 30 mm, screw 28 mm", "lock")).toMatchObject({ family: undefined, grip: "both" });
  });
  test("compress", () => {
    expect(shown(stepWith("compress 3 turns", "compress").amount, "turns")).toBe("3 turns");
    expect(shown(stepWith("compress 3 mm", "compress").amount)).toBe("3 mm");
  });
  test("backslap", () => expect(shown(stepWith("backslap 4 mm", "backslap").amount)).toBe("4 mm"));
  test("cap", () => {
    expect(stepWith("cap none", "cap")).toMatchObject({ none: true, extension: undefined });
    const step = stepWith("cap 10 mm", "cap");
    expect([step.none, shown(step.extension)]).toEqual([false, "10 mm"]);
  });
  test("check", () =>
    expect(words(stepWith("check length, stability", "check").things)).toEqual(["length", "stability"]));
  test("step", () => expect(stepWith('step "Irrigate."', "step").text?.text).toBe("Irrigate."));

  test("points at its word and at its line", () => {
    const text = planWith("cap 5 mm", "cap 7 mm  # tall");
    const cap = understoodPlan(text).steps.find((step) => step.kind === "cap");
    const slice = (span: { start: number; end: number } | undefined) => text.slice(span?.start, span?.end);
    expect([slice(cap?.wordPlace.span), slice(cap?.place.span)]).toEqual(["cap", "cap 7 mm"]);
  });
});

test("what was achieved keeps its steps and its alignment", () => {
  const text = planText.replace(
    "  aftercare {",
    "  achieved {\n    cap 10 mm\n    alignment coronal 2 deg valgus\n  }\n\n  aftercare {",
  );
  expect(problemsOf(text)).toEqual([]);
  const { achieved } = understoodPlan(text);
  expect(achieved?.steps.map((step) => step.kind)).toEqual(["cap"]);
  expect(shown(achieved?.alignment?.coronal?.amount, "deg")).toBe("2 deg");
  expect(achieved?.alignment?.sagittal).toBeUndefined();
});

test("aftercare keeps its lines", () => {
  const text = planText.replace(
    "    review at",
    '    weight-bearing tolerated\n    dynamise at 10 weeks, remove P1, P2\n    advise "Move the ankle."\n    review at',
  );
  expect(problemsOf(text)).toEqual([]);
  const { aftercare } = understoodPlan(text);
  expect(aftercare?.bearing.map((line) => [line.how.text, shown(line.load, "kg"), shown(line.until, "weeks")])).toEqual(
    [
      ["partial", "20 kg", "6 weeks"],
      ["tolerated", "not given", "not given"],
    ],
  );
  const watch = aftercare?.watches[0];
  expect([watch?.what.text, shown(watch?.diastolic, "mmHg"), shown(watch?.pressure, "mmHg")]).toEqual([
    "compartment",
    "72 mmHg",
    "28 mmHg",
  ]);
  expect(listed(aftercare?.reviews, "weeks")).toEqual(["2 weeks", "6 weeks", "12 weeks"]);
  expect([shown(aftercare?.dynamise?.at, "weeks"), words(aftercare?.dynamise?.remove)]).toEqual([
    "10 weeks",
    ["P1", "P2"],
  ]);
  expect(words(aftercare?.advice)).toEqual(["Move the ankle."]);
});

describe("the catalogue", () => {
  test("is understood whole", () => {
    expect(problemsOf(catalogueText)).toEqual([]);
    const catalogue = understoodCatalogue(catalogueText);
    expect(catalogue.notice?.text).toMatch(/^Invented/);
    const [nail] = catalogue.nails;
    expect([nail?.name.text, nail?.bone?.text, nail?.material?.text]).toEqual(["fenwick", "tibia", "titanium-alloy"]);
    expect([shown(nail?.modulus, "GPa"), shown(nail?.bore)]).toEqual(["110 GPa", "5 mm"]);
    expect(listed(nail?.diameters)).toEqual(["9 mm", "10 mm", "11 mm", "12 mm"]);
    expect(listed(nail?.lengths)).toHaveLength(13);
    expect(listed(nail?.lengths).at(-1)).toBe("420 mm");
    expect([shown(nail?.compression?.travel), shown(nail?.compression?.pitch)]).toEqual(["6 mm", "1.25 mm"]);
    expect(listed(nail?.caps)).toEqual(["0 mm", "5 mm", "10 mm", "15 mm"]);
    expect(words(nail?.fits)).toEqual(["42A1", "42A2", "42A3", "42B2", "42B3", "42C2", "42C3"]);
    expect(
      nail?.holes.map((hole) => [hole.name.text, hole.end, shown(hole.distance), hole.runs, shown(hole.slot)]),
    ).toEqual([
      ["P2", "top", "28 mm", "medial-lateral", "6 mm"],
      ["P1", "top", "40 mm", "medial-lateral", "not given"],
      ["D2", "tip", "26 mm", "medial-lateral", "not given"],
      ["D1", "tip", "12 mm", "medial-lateral", "not given"],
    ]);
    expect(nail?.holes.map((hole) => words(hole.takes))).toEqual([["peg"], ["peg"], ["peg"], ["peg"]]);
    const [family] = catalogue.screws;
    expect([shown(family?.thread), shown(family?.core), shown(family?.drill)]).toEqual(["4.6 mm", "3.9 mm", "3.8 mm"]);
    // 24, 26, … 60 are 19 lengths; 65, 70, … 90 are 6.
    expect(listed(family?.lengths)).toHaveLength(25);
    expect(family?.withDiameters).toBeUndefined();
    expect(listed(catalogue.reamers[0]?.heads)).toHaveLength(13);
    expect(listed(catalogue.reamers[0]?.frontCutting)).toEqual(["8 mm", "8.5 mm"]);
  });

  test("keeps bends, driving ends, oblique and tilted holes, nail diameters of screws", () => {
    const text = catalogueText
      .replace("bore 5 mm", "bore 5 mm\n    driving-end 12 mm, along 55 mm\n    bend 10 deg, at 50 mm")
      .replace("hole D1, tip 12 mm, runs medial-lateral", "hole D1, tip 12 mm, runs oblique 45 deg, tilt 10 deg")
      .replace("thread 4.6 mm", "with diameters 9 mm to 10 mm by 1 mm\n    thread 4.6 mm");
    expect(problemsOf(text)).toEqual([]);
    const { nails, screws } = understoodCatalogue(text);
    const [nail] = nails;
    expect([shown(nail?.drivingEnd?.diameter), shown(nail?.drivingEnd?.along)]).toEqual(["12 mm", "55 mm"]);
    expect([shown(nail?.bend?.angle, "deg"), shown(nail?.bend?.at)]).toEqual(["10 deg", "50 mm"]);
    const hole = nail?.holes.at(-1);
    expect([hole?.runs, shown(hole?.oblique, "deg"), shown(hole?.tilt, "deg")]).toEqual([
      "oblique",
      "45 deg",
      "10 deg",
    ]);
    expect(listed(screws[0]?.withDiameters)).toEqual(["9 mm", "10 mm"]);
  });

  test("with a hole at both ends knows neither", () => {
    const { nails } = understoodCatalogue(
      catalogueText.replace("hole D1, tip 12 mm", "hole D1, top 300 mm, tip 12 mm"),
    );
    expect(nails[0]?.holes.at(-1)).toMatchObject({ end: undefined, distance: undefined });
  });
});

describe("the protocol", () => {
  test("is understood whole", () => {
    expect(problemsOf(protocolText)).toEqual([]);
    const protocol = understoodProtocol(protocolText);
    expect(
      protocol.limits.map((limit) => [
        limit.name.text,
        shown(limit.least),
        shown(limit.most, limit.name.text === "sagittal" ? "deg" : "mm"),
      ]),
    ).toEqual([
      ["sagittal", "not given", "10 deg"],
      ["tip-beyond-cortex", "0 mm", "2 mm"],
    ]);
    expect(protocol.limits[0]?.because?.text).toBe("our alignment profile");
    expect(protocol.grades.map((grade) => [grade.finding.text, grade.grade.text])).toEqual([
      ["cap-missing", "warning"],
    ]);
    expect(words(protocol.demands)).toEqual(["time-out", "antibiotic"]);
  });

  test("keeps plain numbers, least bounds and sources", () => {
    const text = protocolText.replace(
      "demand",
      'limit screws-per-fragment at-least 2, source "a paper"\n  limit fit-ratio 0.8 to 0.99\n  demand',
    );
    expect(problemsOf(text)).toEqual([]);
    const limits = understoodProtocol(text).limits.slice(2);
    expect(limits.map((limit) => [shown(limit.least, "1"), shown(limit.most, "1")])).toEqual([
      ["2", "not given"],
      ["0.8", "0.99"],
    ]);
    expect(limits[0]?.source?.text).toBe("a paper");
  });
});

describe("the example of every statement", () => {
  const blocks = [...blockRules.values()].filter(({ name }) => !["file", "ask"].includes(name));
  const examples = blocks.flatMap(({ name, statements }) => statements.map((rule) => [name, rule.example] as const));

  /** The statement alone in its block: much is missing around it, so only what is said of its own line counts. */
  function problemsInLine(block: string, example: string): readonly string[] {
    const line = example.endsWith("{") ? `${example}\n}` : example;
    const head = headOf(block);
    const text = `isthmus 1\n\n${head.join(" {\n")} {\n${line}\n${"}\n".repeat(head.length)}`;
    const start = text.indexOf(line);
    const named = new Set(["name-unknown", "scale-missing", "name-unused", "file-missing", "missing"]);
    const { problems } = meaningOf(text);
    const own = problems.filter(
      ({ span, slug }) => span.start >= start && span.end <= start + line.length && !named.has(slug),
    );
    return own.map((problem) => problemText(text, problem));
  }

  function headOf(block: string): readonly string[] {
    switch (block) {
      case "plan":
      case "catalogue":
      case "protocol":
        return [`${block} "X"`];
      case "nail":
      case "screws":
        return ['catalogue "X"', `${block} x`];
      case "reamers":
        return ['catalogue "X"', block];
      case "fallback":
        return ['plan "X"', 'fallback "X"'];
      case "case":
        return ['plan "X"', "case X"];
      default:
        return ['plan "X"', block];
    }
  }

  test("are all of them looked at", () => expect(examples.length).toBeGreaterThan(100));

  test.each(examples)("in %s says nothing wrong: %s", (block, example) => {
    expect(problemsInLine(block, example)).toEqual([]);
  });
});
