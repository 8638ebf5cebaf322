/** The order of the steps, the checks, and the removal. */
import { describe, expect, test } from "vitest";
import { exampleText } from "../../../server/findings/example.ts";
import { judged } from "../judged.ts";
import { lines, moved, noFallback, unreamed, without } from "./changes.ts";
import { applied, beyondSample, type Change, checkTable, mended, told } from "./table.ts";

describe("the steps", () => {
  const ream = "    ream 8.5 mm to 11 mm by 0.5 mm\n";

  checkTable("step-order", [
    { what: "the usual order", change: [], is: "clear" },
    {
      what: "wire after reaming",
      change: moved("wire", "nail"),
      is: "error",
      at: "wire",
      says: "The guide wire comes after the reaming",
    },
    {
      what: "entry after the wire",
      change: [
        [lines.enter, ""],
        [lines.wire, lines.wire + lines.enter],
      ],
      is: "error",
      at: "enter",
    },
    {
      what: "reaming after the nail",
      change: [
        [ream, ""],
        [lines.nail, lines.nail + ream],
      ],
      is: "error",
      at: "nail",
    },
    {
      what: "nail after the screws",
      change: moved("nail", "cap"),
      is: "error",
      at: "nail",
      says: "The nail comes after its screws; the nail comes first, because screws lock the nail that is in",
    },
    {
      what: "no check before locking",
      change: [[lines.check + lines.d2, lines.d2]],
      is: "warning",
      at: "lock",
      says: "without a check in two planes",
    },
    {
      what: "a check of rotation alone before locking",
      change: [[lines.check + lines.d2, `    check rotation\n${lines.d2}`]],
      is: "warning",
      at: "lock",
    },
    {
      what: "cap before the last screw at the driving end",
      change: moved("cap", "p1"),
      is: "error",
      at: "cap",
      says: "before P1",
    },
    {
      what: "cap before slot screw, compression and fixed screw",
      change: moved("cap", "p2"),
      is: "error",
      at: "cap",
      says: "before P2, the compression and P1",
    },
    {
      what: "no final check",
      change: [without("finalCheck")],
      is: "warning",
      at: "cap",
      says: "the final check comes last",
    },
    {
      what: "cap after the final check",
      change: [
        [lines.cap, ""],
        [lines.finalCheck, lines.finalCheck + lines.cap],
      ],
      is: "warning",
      at: "cap",
    },
    { what: "unreamed", change: unreamed(), is: "clear" },
    {
      what: "nail before wire and reaming",
      change: [
        [lines.nail, ""],
        [lines.wire, lines.nail + lines.wire],
      ],
      is: "error",
      at: "nail",
      says: "before the reaming; the reaming comes first, because the canal is reamed for the nail",
    },
    {
      what: "entry after the reaming, without a wire",
      change: [
        [lines.enter, ""],
        [lines.wire, ""],
        [lines.nail, lines.enter + lines.nail],
      ],
      is: "error",
      at: "enter",
      says: "after reaming",
      besides: ["wire-missing"],
    },
  ]);

  test.each<[string, readonly Change[], string]>([
    ["wire", moved("wire", "nail"), `${lines.enter}${lines.wire}    ## Chatter`],
    [
      "entry",
      [
        [lines.enter, ""],
        [lines.wire, lines.wire + lines.enter],
      ],
      lines.enter + lines.wire,
    ],
    ["nail", moved("nail", "cap"), lines.nail + lines.check + lines.d2],
    ["check before locking", [[lines.check + lines.d2, lines.d2]], lines.nail + lines.check + lines.d2],
    [
      "nail before wire",
      [
        [lines.nail, ""],
        [lines.wire, lines.nail + lines.wire],
      ],
      ream + lines.nail,
    ],
    ["cap", moved("cap", "p2"), lines.p1 + lines.cap + lines.finalCheck],
    ["final check", [without("finalCheck")], `${lines.cap}    check ap, lateral, rotation\n  }\n`],
    [
      "final check moved",
      [
        [lines.cap, ""],
        [lines.finalCheck, lines.finalCheck + lines.cap],
      ],
      lines.p1 + lines.cap + lines.finalCheck,
    ],
  ])("%s: the line is put where it belongs", (_, change, text) => {
    const again = mended("step-order", change);
    expect(again.text).toContain(text);
    expect(again.judgement.findings.map((each) => each.slug)).toEqual(["compression-past-gap"]);
  });

  test("notes move with their step", () => {
    const again = mended("step-order", [
      noFallback,
      [`    ## Chatter starts at the isthmus; let the reamer do the work.\n${ream}`, ""],
      [lines.nail, `${lines.nail}    ## Let it do the work.\n${ream}`],
    ]);
    expect(again.text).toContain(`${lines.wire}    ## Let it do the work.\n${ream}${lines.nail}`);
  });

  checkTable("check-one-plane", [
    { what: "both planes", change: [], is: "clear" },
    {
      what: "both planes in two checks",
      change: [[lines.check + lines.d2, `    check lateral\n    check ap\n${lines.d2}`]],
      is: "clear",
    },
    {
      what: "ap only",
      change: [[lines.check + lines.d2, `    check ap\n${lines.d2}`]],
      is: "warning",
      at: "check ap",
      says: "lateral is missing",
    },
    {
      what: "lateral only",
      change: [[lines.check + lines.d2, `    check lateral\n${lines.d2}`]],
      is: "warning",
      says: "ap is missing",
    },
    { what: "none at all", change: [[lines.check + lines.d2, lines.d2]], is: "clear", besides: ["step-order"] },
  ]);
});

describe("the removal", () => {
  const take = {
    cap: "    take cap\n",
    attach: "    attach extractor\n",
    far: "    take D1, D2, P2\n",
    last: "    take P1\n",
    withdraw: "    withdraw nail\n",
  };

  checkTable("removal-order", [
    { what: "the usual order", change: [], is: "clear" },
    {
      what: "cap after the extractor",
      change: [
        [take.cap, ""],
        [take.attach, take.attach + take.cap],
      ],
      is: "error",
      at: "cap",
    },
    {
      what: "extractor after the last screw at the driving end",
      change: [
        [take.attach, ""],
        [take.withdraw, take.attach + take.withdraw],
      ],
      is: "error",
      at: "attach extractor",
    },
    {
      what: "extractor before the last screw at the driving end",
      change: [
        [take.attach, ""],
        [take.last, take.attach + take.last],
      ],
      is: "clear",
    },
    {
      what: "cap taken with the last screw",
      change: [
        [take.cap, ""],
        [take.last, "    take P1, cap\n"],
      ],
      is: "error",
      at: "cap",
    },
    {
      what: "neither extractor nor withdrawal",
      change: [
        [take.attach, ""],
        [take.withdraw, ""],
      ],
      is: "clear",
    },
    {
      what: "no extractor",
      change: [[take.attach, ""]],
      is: "error",
      at: "withdraw nail",
      says: "no extractor is attached",
    },
    {
      what: "a screw after the nail",
      change: [
        [take.last, ""],
        [take.withdraw, take.withdraw + take.last],
      ],
      is: "error",
      at: "withdraw nail",
      says: "while the screw in P1 still holds it",
    },
    {
      what: "screws after the nail",
      change: [
        [take.far, ""],
        [take.withdraw, take.withdraw + take.far],
      ],
      is: "error",
      says: "while the screws in",
    },
  ]);

  checkTable("removal-incomplete", [
    { what: "all taken out", change: [], is: "clear" },
    {
      what: "a far screw left",
      change: [[take.far, "    take D1, P2\n"]],
      is: "error",
      at: "withdraw nail",
      says: "The screw in D2",
    },
    { what: "the cap left", change: [[take.cap, ""]], is: "error", says: "The cap is put in" },
    { what: "two left", change: [[take.far, "    take P2\n"]], is: "error", count: 2 },
    {
      what: "one taken out by the dynamisation",
      change: [
        [take.last, ""],
        ["    review at 2", "    dynamise at 10 weeks, remove P1\n    review at 2"],
      ],
      is: "clear",
    },
  ]);

  test.each<[string, string, readonly Change[], string]>([
    [
      "removal-order",
      "cap",
      [
        [take.cap, ""],
        [take.attach, take.attach + take.cap],
      ],
      take.cap + take.attach,
    ],
    ["removal-order", "extractor", [[take.attach, ""]], take.attach + take.last],
    [
      "removal-order",
      "nail",
      [
        [take.last, ""],
        [take.withdraw, take.withdraw + take.last],
      ],
      take.last + take.withdraw,
    ],
    ["removal-incomplete", "far screw", [[take.far, "    take D1, P2\n"]], `    take D2\n${take.attach}`],
    ["removal-incomplete", "screw at the driving end", [[take.last, ""]], take.last + take.withdraw],
    ["removal-incomplete", "cap", [[take.cap, ""]], take.cap + take.attach],
    [
      "removal-incomplete",
      "last, nothing withdrawn",
      [
        [take.last, ""],
        [take.withdraw, ""],
      ],
      `${take.far}    take P1\n`,
    ],
  ])("%s · %s: the line is put where it belongs", (slug, _, change, text) => {
    const again = mended(slug, change);
    expect(again.text).toContain(text);
    expect(again.judgement.findings.map((each) => each.slug)).toEqual(["compression-past-gap"]);
  });
});

/** The text with `line` put before each of the others in turn: at most one finding, and its fix leaves none. */
function checkEveryPlace(steps: readonly string[], line: string, textOf: (steps: readonly string[]) => string): void {
  const others = steps.filter((each) => each !== line);
  for (let at = 0; at <= others.length; at++) {
    const analysis = judged({ text: textOf(others.toSpliced(at, 0, line)) });
    const [found, ...more] = analysis.judgement.findings.filter((each) => each.slug !== "compression-past-gap");
    expect(more.map(told), `before ${others[at] ?? "the end"}`).toEqual([]);
    if (found === undefined) continue;
    const fix = found.fixes?.[0];
    expect(fix, told(found)).toBeDefined();
    if (fix === undefined) continue;
    const again = judged({ text: applied(analysis.text, fix) });
    expect(beyondSample(again), `${told(found)} → ${fix.title}`).toEqual([]);
  }
}

describe("one line in a wrong place is one mistake, and its fix mends it", () => {
  const plan = exampleText({ change: [noFallback] });

  const [head = "", rest = ""] = plan.split("  operation {\n");
  const [operation = "", ...after] = rest.split("  }\n");
  const steps = operation.split("\n").filter((line) => line !== "" && !line.includes("##"));
  /** Where these stand is a matter of taste; a check moved is a check missing. */
  const placed = steps.filter((line) => !/^ +(prepare|position|reduce|check)/.test(line));

  test.each(placed.map((line) => [line.trim(), line] as const))("operation: %s", (_, line) => {
    const tail = after.join("  }\n");
    checkEveryPlace(steps, line, (lines) => `${head}  operation {\n${lines.join("\n")}\n  }\n${tail}`);
  });

  const [before = "", removal = ""] = plan.split("  removal {\n");
  const takes = removal.split("\n").filter((line) => line.startsWith("    "));

  test.each(takes.map((line) => [line.trim(), line] as const))("removal: %s", (_, line) => {
    checkEveryPlace(takes, line, (lines) => `${before}  removal {\n${lines.join("\n")}\n  }\n}\n`);
  });
});
