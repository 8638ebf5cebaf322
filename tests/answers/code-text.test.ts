/** A fracture code in words: what each part means, which of it was read and which is from memory. */
import { expect, test } from "vitest";
import { codeMarkdown } from "../../server/answers/code-text.ts";
import { checkHover, sampleWith } from "../check.ts";

const source = "Meinberg et al., Fracture and Dislocation Classification Compendium 2018";

test.each([
  ["42A2(b)[2,9]", "**42A2**: tibial shaft, oblique, 30 deg or more, middle third, displaced, poor bone quality"],
  ["12A2(b)", "**12A2**: humeral shaft, oblique, 30 deg or more, middle third"],
  ["31A1.3", "**31A1**: proximal femur, pertrochanteric, simple, lateral wall above 20.5 mm"],
  ["42A3[5a]", "**42A3**: tibial shaft, transverse, less than 30 deg, dislocated, anterior"],
  ["4F2B", "**4F2B**: fibular shaft, wedge or multifragmentary"],
])("%s: %s", (code, start) => {
  expect(codeMarkdown(code)).toContain(`${start}\n\nBasis: AO/OTA classification: ${source}`);
});

test.each([
  ["12A2(b)", "(printed)."],
  ["43B1(o)", "(printed)."],
  ["42A1(b)", "(from memory, check against the source)."],
  ["12A2(b)[2,9]", "(12A2, (b) printed; [2], [9] from memory, check against the source)."],
  ["42A3(b)", "(42A3 printed; (b) from memory, check against the source)."],
])("%s is as sure as its parts: %s", (code, trust) => {
  expect(codeMarkdown(code)?.endsWith(trust)).toBe(true);
});

test("a spelling of 2007 says what it has become", () => {
  expect(codeMarkdown("42-A2")).toBe(
    "**42-A2**: spelling of 2007; since 2018 written\n\n- `42A2`: tibial shaft, oblique, 30 deg or more\n\n" +
      `Basis: AO/OTA classification: ${source}, J Orthop Trauma 2018;32 Suppl 1:S1-S170 (the translation from memory).`,
  );
  expect(codeMarkdown("42-C1")).toContain(
    "- `42C2`: tibial shaft, intact segment\n- `42C3`: tibial shaft, fragmentary segment",
  );
  expect(codeMarkdown("42-B1")).toContain(
    "for the surgeon to say, perhaps\n\n- `42B2[13]`: tibial shaft, intact wedge, spiral type",
  );
  expect(codeMarkdown("31-C3")).toBe("**31-C3**: spelling of 2007; no group of 2018 is known to mean the same.");
});

test.each(["42B1", "42-D1", "61A1", "hello", ""])("%s is no code, and nothing is said", (code) => {
  expect(codeMarkdown(code)).toBeUndefined();
});

test("the hover on a code of a plan shows it", () => {
  checkHover(
    sampleWith("plans/femoral-shaft.isthmus", ["fracture 32A3(b)", "fracture 32A$03(b)"]),
    "**32A3**: femoral shaft, transverse, less than 30 deg, middle third",
    "from memory, check against the source",
  );
});
