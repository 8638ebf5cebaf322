/**
 * The AO/OTA classification against its printed lists: which codes exist, what a spelling of 2007 becomes, where a
 * segment ends. Each check names its source and how far it can be trusted.
 */
import { describe, expect, test } from "vitest";
import { codeFault, readCode } from "../../server/findings/fracture-code.ts";
import { codeGroups, groupNamed, segments, translated } from "../../server/findings/fracture-codes.ts";
import { changed, findingsOf } from "../findings/judged.ts";

function isCode2018(text: string): boolean {
  const code = readCode(text);
  return code !== undefined && code.edition === 2018 && codeFault(code) === undefined;
}

// line: AO-4: AO/OTA 2018 group lists (printed for 12; 42 from memory, identical in structure)
describe("AO-4: group codes", () => {
  test.each(["42A1", "42A2", "42A3", "42B2", "42B3", "42C2", "42C3"])("%s exists", (text) => {
    expect(isCode2018(text)).toBe(true);
  });

  test.each(["42B1", "42C1", "42D1", "42A4", "31C3", "11B2"])("%s does not", (text) => {
    expect(isCode2018(text)).toBe(false);
  });

  // line: AO-4: AO/OTA 2018, humerus: no 11B2, 11B3, 11C2; femur: no 31C3 (printed)
  test.each(["11B2", "11B3", "11C2", "31C3", "12B1", "12C1", "32B1", "32C1"])("%s does not either", (text) => {
    expect(isCode2018(text)).toBe(false);
  });

  // line: AO-4: AO/OTA 2018: seven groups of the tibial shaft, 2007 had nine (from memory)
  test.each(["12", "32", "42"])("shaft %s has seven groups", (code) => {
    expect(segments.find((segment) => segment.code === code)?.groups).toHaveLength(7);
  });

  // line: AO-4: AO/OTA 2018: distal tibia, malleoli, distal femur, distal humerus, proximal tibia have nine (printed
  // for 13, 33, 43; from memory for 41, 44)
  test.each(["13", "33", "41", "43", "44"])("end segment %s has nine groups", (code) => {
    expect(segments.find((segment) => segment.code === code)?.groups).toHaveLength(9);
  });

  test("no code is listed twice, and each has a meaning in words of our own", () => {
    expect(new Set(codeGroups.map((group) => group.code)).size).toBe(codeGroups.length);
    for (const { code, meaning } of codeGroups) expect(meaning, code).toMatch(/^[a-z][a-z0-9 ,.-]{2,70}$/);
  });
});

// line: AO-3: AO/OTA 2018 shaft, >= 30 deg oblique, < 30 deg transverse (printed for 12)
test("AO-3: a line of 30 deg or more is oblique, of less transverse", () => {
  for (const shaft of ["12", "32", "42"]) {
    expect(groupNamed(`${shaft}A2`)?.meaning).toBe("oblique, 30 deg or more");
    expect(groupNamed(`${shaft}A3`)?.meaning).toBe("transverse, less than 30 deg");
  }
});

// line: AO-6: AO/OTA 2018: lateral wall 20.5 mm (printed)
test("AO-6: 31A2 has a lateral wall of 20.5 mm or less", () => {
  expect(groupNamed("31A2")?.meaning).toContain("20.5 mm or less");
});

// line: AO-5: AO/OTA 2018 drops the hyphen; 43A1 kept its meaning (printed), 42B1 was dropped (from memory)
describe("AO-5: the spelling of 2007", () => {
  const slugsOf = (text: string): readonly string[] =>
    changed(["fracture 42A2", `fracture ${text}`])
      .judgement.findings.filter((each) => each.slug.startsWith("code-"))
      .map((each) => `${each.grade} ${each.slug}`);

  test("42-B1 is read as 2007, with a hint", () => {
    expect(slugsOf("42-B1")).toEqual(["warning code-old-spelling"]);
  });

  test("42B1 is refused as 2018", () => {
    expect(slugsOf("42B1")).toEqual(["error code-unknown"]);
  });

  test("43-A1 becomes 43A1 by itself", () => {
    const [found] = findingsOf(changed(["fracture 42A2", "fracture 43-A1"]), "code-old-spelling");
    expect(found?.fixes?.map((fix) => [fix.class, fix.edits[0]?.text])).toEqual([["keeps every decision", "43A1"]]);
  });

  // line: AO-5: mechanical only for A1-A3, B3, C2, C3 of a shaft; B1, B2 and C1 need the surgeon (from memory)
  test("of a shaft, six groups are translated by themselves and three are not", () => {
    const groups = ["A1", "A2", "A3", "B1", "B2", "B3", "C1", "C2", "C3"];
    expect(groups.filter((group) => translated("42", group).sure)).toEqual(["A1", "A2", "A3", "B3", "C2", "C3"]);
    expect(translated("42", "B1").to).toEqual(["B2[13]"]);
    expect(translated("42", "B2").to).toEqual(["B2[14]"]);
  });

  // line: AO-5: 43B3 changed its meaning: 2007 multifragmentary depression, 2018 depression (printed / from memory)
  test("43-B3 is not translated by itself", () => {
    expect(translated("43", "B3")).toEqual({ to: ["B3"], sure: false });
    expect(translated("43", "B2")).toEqual({ to: ["B2"], sure: true });
  });

  // line: AO-5: 33-A1 was simple in 2007 and is an avulsion in 2018 (printed for 2018)
  test("a segment whose groups were not compared is not translated by itself", () => {
    expect(translated("33", "A1").sure).toBe(false);
    expect(translated("31", "C3")).toEqual({ to: [], sure: false });
  });
});

// line: AO-4: code(qualification)[modifier], several separated by commas (from memory)
describe("AO-4: qualifications and modifiers", () => {
  test.each(["42A2(b)", "42A2(b)[2,9]", "42C2(j)", "43C1.1", "43B1(o,f)", "42A3[5a]", "42A3[8e]", "4F2A", "42B2[13]"])(
    "%s is read",
    (text) => {
      expect(isCode2018(text)).toBe(true);
    },
  );

  test.each([
    "42A2(j)",
    "42C2(a)",
    "42A2(b",
    "42A2[0]",
    "42A2[15]",
    "42A2[4a]",
    "42A2[5g]",
    "43C1.4",
    "43B1(a)",
    "4F4A",
    "4F2C",
    "45A1",
  ])("%s is not", (text) => {
    expect(isCode2018(text)).toBe(false);
  });
});

// line: AO-1 and AO-2: rule of squares, Rockwood and Green 10e fig. 5-7 (computed); a centre on the edge counts as in
// the square: our own reading
describe("AO-1 and AO-2: the rule of squares", () => {
  const segmentAt = (centre: string): string | undefined => {
    const analysis = changed(
      ["epiphysis proximal 88 mm on ap", "epiphysis proximal 76 mm"],
      ["epiphysis distal 58 mm on ap", "epiphysis distal 52 mm"],
      ["landmark plafond 432 mm ± 2 mm on ap", "landmark plafond 380 mm"],
      ["from 208 mm on ap to 232 mm on ap", `from ${centre} to ${centre}`],
    );
    const answer = analysis.reckonings?.byId.get("segment")?.answer;
    return answer?.kind === "word" ? answer.word : undefined;
  };

  test.each([
    ["60 mm above the plafond", "320 mm", "shaft"],
    ["52 mm above it, the side of the square", "328 mm", "distal"],
    ["45 mm above it", "335 mm", "distal"],
    ["70 mm below the plateau", "70 mm", "proximal"],
    ["80 mm below it", "80 mm", "shaft"],
  ])("%s", (_, centre, segment) => {
    expect(segmentAt(centre)).toBe(segment);
  });
});
