/** The records other programs read: every sample's fits the schema that comes with the package, and its numbers are the engine's own. */
import { readFileSync } from "node:fs";
import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, test } from "vitest";
import { caution } from "../../server/answers/caution.ts";
import { linesOf } from "../../server/answers/lines.ts";
import { type AnalysisRecord, analysisRecord, recordEdition } from "../../server/answers/records.ts";
import { analyseText, sampleText, sampleWith } from "../check.ts";
import { samplePaths } from "./mutations.ts";

const schema: object = JSON.parse(
  readFileSync(new URL("../../server/answers/records.schema.json", import.meta.url), "utf8"),
);
const plan = "plans/simple-shaft.isthmus";
const digest = `sha256:${"0".repeat(64)}`;

function recordOf(text: string, name = "checked.isthmus"): AnalysisRecord {
  return analysisRecord(analyseText(text, name), "a.isthmus", digest, caution);
}

describe("the schema", () => {
  const validate = new Ajv2020({ allErrors: true, allowUnionTypes: true }).compile(schema);

  test.each([...samplePaths.map((path) => [path, sampleText(path)] as const), ["an empty text", ""] as const])(
    "holds %s",
    (_, text) => {
      const record: unknown = JSON.parse(JSON.stringify(recordOf(text)));
      expect(validate(record) ? [] : validate.errors).toEqual([]);
    },
  );

  test("refuses what is not a record", () => {
    const record = recordOf(sampleText(plan));
    expect(validate(JSON.parse(JSON.stringify({ ...record, edition: 2 })))).toBe(false);
    expect(validate(JSON.parse(JSON.stringify({ ...record, extra: 1 })))).toBe(false);
    expect(validate({})).toBe(false);
  });
});

describe("a reckoning", () => {
  const { reckonings } = recordOf(sampleText(plan));
  const one = (id: string, of = reckonings) => of.find((each) => each.id === id);

  test("has its unrounded value, its half-width at k = 2 and its basis", () => {
    // (395 ± 2) mm over 1.12, itself from 28 mm ± 0.15 mm over 25 mm.
    const scar = one("level.scar");
    expect(scar?.value).toBeCloseTo(395 / 1.12, 9);
    expect(scar?.plusMinus).toBeCloseTo(Math.hypot(2 / 1.12, (395 / 1.12) * (0.15 / 28)), 9);
    expect(scar).toMatchObject({ unit: "mm", label: "level of scar" });
    expect(scar?.basis).not.toBe("");
  });

  test("is exact with 0, and a word where the answer is one", () => {
    expect(one("nail.tip")).toMatchObject({ value: 339, plusMinus: 0, unit: "mm" });
    expect(one("segment")).toMatchObject({ value: "shaft", plusMinus: 0 });
  });

  test("says where it comes from, lines and columns from 1, with the file when it is another", () => {
    const text = sampleText(plan);
    const { line, character } = linesOf(text).position(text.indexOf("395 mm ± 2 mm"));
    const from = one("level.scar")?.from ?? [];
    expect(from.some((place) => place.line === line + 1 && place.column <= character + 1)).toBe(true);
    expect(from.every((place) => place.line >= 1 && place.column >= 1)).toBe(true);
    const places = reckonings.flatMap((each) => each.from).filter(({ file }) => file !== undefined);
    expect(places.length).toBeGreaterThan(0);
    expect([...new Set(places.map(({ file }) => file))].sort()).toEqual([
      "../catalogue/tarnbeck.isthmus",
      "../protocol/ellerby.isthmus",
    ]);
  });

  test("that is withheld has no value and says why", () => {
    const withheld = recordOf(sampleWith(plan, ["395 mm ± 2 mm on ap", "395 on ap"])).reckonings;
    expect(one("level.scar", withheld)).toMatchObject({ value: null, plusMinus: 0 });
    expect(one("level.scar", withheld)?.because).toBeTruthy();
  });
});

describe("a finding", () => {
  test("has its place, its numbers in its unit and how sure it is", () => {
    const text = sampleWith(plan, ["drilled 32 mm, screw 34 mm", "drilled 32 mm, screw 40 mm"]);
    const found = recordOf(text).findings.find(({ slug }) => slug === "screw-overlength");
    const { line, character } = linesOf(text).position(text.indexOf("40 mm\n"));
    expect(found).toMatchObject({
      ...{ grade: "warning", at: "D2", value: 8, limit: 2, margin: 6, unit: "mm", probability: 1 },
      ...{ line: line + 1, column: character + 1, endLine: line + 1, endColumn: character + 6 },
      ...{ waived: null, fallback: null },
    });
  });

  test("has its waiver and its fallback", () => {
    const text = sampleWith(
      plan,
      ["  status for-review\n", '  waive screw-overlength at D2, because "a", signed "b"\n'],
      ["drilled 32 mm, screw 34 mm", "drilled 32 mm, screw 40 mm"],
      ["  aftercare {", '  fallback "c" {\n    cap 10 mm\n  }\n\n  aftercare {'],
    );
    const { findings } = recordOf(text);
    expect(findings.find(({ slug }) => slug === "screw-overlength")?.waived).toEqual({ because: "a", signed: "b" });
    expect(findings.find(({ slug }) => slug === "cap-proud")?.fallback).toBe("c");
  });

  test("of the text itself has no numbers", () => {
    const found = recordOf(sampleWith(plan, ["side right\n", "sied right\n"])).findings[0];
    expect(found).toMatchObject({ slug: "unknown-word", value: null, limit: null, margin: null, unit: null });
  });
});

test("a record names its edition, its file, its digest and the caution", () => {
  expect(recordOf("")).toEqual({
    ...{ edition: recordEdition, file: "a.isthmus", digest, caution },
    ...{ reckonings: [], findings: recordOf("").findings },
  });
  expect(recordOf("").caution).toContain("Not a medical device");
});
