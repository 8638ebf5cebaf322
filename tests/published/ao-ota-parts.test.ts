/**
 * What stands behind the group of a code of the AO/OTA classification: subgroups, qualifications, modifiers, and the
 * groups and segments of femur and humerus. Each check names its source and how far it can be trusted.
 */
import { describe, expect, test } from "vitest";
import { codeFault, codeParts, readCode } from "../../server/findings/fracture-code.ts";
import { modifiers, qualificationsOf, subgroupsOf } from "../../server/findings/fracture-code-parts.ts";
import { codeGroups, groupNamed, segments } from "../../server/findings/fracture-codes.ts";
import { changed, findingsOf } from "../findings/judged.ts";

function faultOf(text: string) {
  const code = readCode(text);
  if (code === undefined) return { because: "not read", mark: "printed" };
  return codeFault(code);
}

/** "tibial shaft, oblique, 30 deg or more | middle third" */
function meaningOf(text: string): string {
  const code = readCode(text);
  return code === undefined
    ? "not read"
    : codeParts(code)
        .map(({ meaning }) => meaning)
        .join(" | ");
}

// line: AO-4: AO/OTA 2018: 11, 13, 31, 33 and 43 with every group read (printed); 32 from memory, 12 printed
describe("AO-4: the groups of femur and humerus", () => {
  const groupsOf = (code: string): string =>
    (segments.find((each) => each.code === code)?.groups ?? []).map((group) => group.code.slice(2)).join(" ");

  test.each([
    ["11", "A1 A2 A3 B1 C1 C3"],
    ["12", "A1 A2 A3 B2 B3 C2 C3"],
    ["13", "A1 A2 A3 B1 B2 B3 C1 C2 C3"],
    ["31", "A1 A2 A3 B1 B2 B3 C1 C2"],
    ["32", "A1 A2 A3 B2 B3 C2 C3"],
    ["33", "A1 A2 A3 B1 B2 B3 C1 C2 C3"],
  ])("segment %s has %s", (segment, groups) => {
    expect(groupsOf(segment)).toBe(groups);
  });

  test.each([
    ["12A2", "printed"],
    ["31A1", "printed"],
    ["33A1", "printed"],
    ["11C3", "printed"],
    ["43A1", "printed"],
    ["42A2", "printed"],
    ["42A1", "from memory"],
    ["32A2", "from memory"],
    ["41A2", "from memory"],
    ["44A1", "from memory"],
    ["4F2A", "from memory"],
  ])("%s is %s", (code, mark) => {
    expect(groupNamed(code)?.mark).toBe(mark);
  });

  test("a group that is missing from a list is missing as surely as the list was read", () => {
    expect(faultOf("31C3")).toMatchObject({ mark: "printed" });
    expect(faultOf("42B1")).toMatchObject({ mark: "from memory" });
    expect(findingsOf(changed(["fracture 42A2", "fracture 42B1"]), "code-unknown")[0]?.message).toBe(
      'The AO/OTA classification of 2018 does not have "42B1": the tibial shaft has no group 42B1 (from memory, check against the source).',
    );
  });
});

// line: AO-6: AO/OTA 2018: 31A1 with 31A1.3 lateral wall > 20.5 mm, 31A2 <= 20.5 mm, 31A3 (printed); 31A2.2 and 31A2.3
// from memory
describe("AO-6: the lateral wall and the subgroups of 31A", () => {
  test.each([
    ["31A1.3", "proximal femur, pertrochanteric, simple | lateral wall above 20.5 mm"],
    ["31A2", "proximal femur, pertrochanteric, lateral wall 20.5 mm or less"],
    ["31A1.1", "proximal femur, pertrochanteric, simple | one trochanter alone"],
    ["31A1.2", "proximal femur, pertrochanteric, simple | two parts"],
    ["31A2.2", "proximal femur, pertrochanteric, lateral wall 20.5 mm or less | one intermediate fragment"],
    ["31A3.1", "proximal femur, intertrochanteric, reverse | oblique"],
    ["31A3.2", "proximal femur, intertrochanteric, reverse | transverse"],
    ["31A3.3", "proximal femur, intertrochanteric, reverse | wedge or multifragmentary"],
  ])("%s: %s", (text, meaning) => {
    expect(faultOf(text)).toBeUndefined();
    expect(meaningOf(text)).toBe(meaning);
  });

  test("31A2 has no subgroup .1, from memory", () => {
    expect(faultOf("31A2.1")).toEqual({
      because: "31A2 has the subgroups .2 and .3, not .1",
      mark: "from memory",
      grade: "warning",
    });
    expect(subgroupsOf("31", "A1")?.mark).toBe("printed");
    expect(subgroupsOf("31", "A2")?.mark).toBe("from memory");
  });
});

// line: AO-4: AO/OTA 2018: 43 has the subgroups .1 to .3 each (printed); 12 tells the third by its qualification
// (printed), 32 and 42 the same (from memory), so that a shaft has no subgroups (from memory)
describe("AO-4: subgroups", () => {
  test.each(["43A1.1", "43B2.2", "43C3.3", "41A2.1", "33C1.3", "44B3.2"])("%s is read", (text) => {
    expect(faultOf(text)).toBeUndefined();
  });

  test.each([
    ["43A1.4", "43A1 has the subgroups .1, .2 and .3, not .4", "printed"],
    ["41A2.4", "a subgroup is .1, .2 or .3", "printed"],
    ["33A1.0", "a subgroup is .1, .2 or .3", "printed"],
    ["42A2.1", "a shaft has no subgroups since 2018; its third stands in round brackets", "from memory"],
    ["32B2.3", "a shaft has no subgroups since 2018; its third stands in round brackets", "from memory"],
    ["12C3.1", "a shaft has no subgroups since 2018; its third stands in round brackets", "from memory"],
  ])("%s: %s (%s)", (text, because, mark) => {
    expect(faultOf(text)).toMatchObject({ because, mark });
  });

  test("what rests on memory behind a group that exists is a warning, and its fix leaves the group", () => {
    const [found] = findingsOf(changed(["fracture 42A2", "fracture 42A2.1(b)[9]"]), "code-unknown");
    expect(found?.grade).toBe("warning");
    expect(found?.message).toContain("(from memory, check against the source)");
    expect(found?.fixes?.map(({ title }) => title)).toEqual(["42A2.1(b)[9] → 42A2(b)[9]: oblique, 30 deg or more"]);
  });
});

// line: AO-4: AO/OTA 2018 qualifications: shaft A and B a b c, shaft C i j k (printed for 12, from memory for 32 and
// 42); 43 o y f h z q r (printed); 31B2 p q r (printed)
describe("AO-4: qualifications", () => {
  test.each([
    ["12A1(a)", "humeral shaft, spiral | proximal third"],
    ["32B2(b)", "femoral shaft, intact wedge | middle third"],
    ["42A3(c)", "tibial shaft, transverse, less than 30 deg | distal third"],
    ["32C2(j)", "femoral shaft, intact segment | shaft alone"],
    ["12C3(i)", "humeral shaft, fragmentary segment | proximal shaft into the metaphysis"],
    ["42C3(k)", "tibial shaft, fragmentary segment | distal shaft into the metaphysis"],
    ["43B1(o,f)", "distal tibia, split | anterior | lateral"],
    ["43B1(y)", "distal tibia, split | posterior"],
    ["43B1(h)", "distal tibia, split | medial"],
    ["43B1(z)", "distal tibia, split | medial with the malleolus"],
    ["43B1(q)", "distal tibia, split | frontal"],
    ["43B1(r)", "distal tibia, split | sagittal"],
    ["31B2(p)", "proximal femur, neck, transcervical | line below 30 deg"],
    ["31B2(q)", "proximal femur, neck, transcervical | line of 30 to 70 deg"],
    ["31B2(r)", "proximal femur, neck, transcervical | line above 70 deg"],
  ])("%s: %s", (text, meaning) => {
    expect(faultOf(text)).toBeUndefined();
    expect(meaningOf(text)).toBe(meaning);
  });

  test.each([
    ["12A1(i)", 'round brackets hold a, b, c here, not "i"', "printed"],
    ["32A1(d)", 'round brackets hold a, b, c here, not "d"', "from memory"],
    ["42C2(b)", 'round brackets hold i, j, k here, not "b"', "from memory"],
    ["43C1(a)", 'round brackets hold o, y, f, h, z, q, r here, not "a"', "printed"],
    ["31B2(s)", 'round brackets hold p, q, r here, not "s"', "printed"],
    ["31A1(B)", 'round brackets hold single small letters here, not "B"', "printed"],
    ["42A2(b,b)", 'the qualification "b" stands in it twice', "printed"],
    ["42A2()", 'round brackets hold a, b, c here, not ""', "from memory"],
  ])("%s: %s (%s)", (text, because, mark) => {
    expect(faultOf(text)).toMatchObject({ because, mark });
  });

  test("a list that is not known takes any small letter and says nothing of it", () => {
    expect(qualificationsOf("41", "A2")).toBeUndefined();
    expect(faultOf("41A2(z)")).toBeUndefined();
    expect(meaningOf("41A2(z)")).toBe("proximal tibia, extra-articular, simple");
  });
});

// line: AO-4: AO/OTA 2018 universal modifiers 1 to 14 with their letters (from memory)
describe("AO-4: modifiers", () => {
  test("there are fourteen, four with letters", () => {
    expect([...modifiers.keys()]).toEqual(Array.from({ length: 14 }, (_, index) => `${index + 1}`));
    const lettered = [...modifiers].filter(([, { letters }]) => letters.size > 0);
    expect(lettered.map(([figure, { letters }]) => figure + [...letters.keys()].join(""))).toEqual([
      "3ab",
      "5abcdef",
      "6abcdef",
      "8abcde",
    ]);
  });

  test.each([
    ["42A2[3a]", "impacted, joint surface"],
    ["42A2[5b]", "dislocated, posterior"],
    ["42A2[6f]", "subluxated or unstable ligaments, in several directions"],
    ["42A2[8a]", "injured cartilage, ICRS grade 0"],
    ["42A2[8e]", "injured cartilage, ICRS grade 4"],
    ["42B2[13]", "spiral type"],
    ["42B2[14]", "bending type"],
    ["32A3[9]", "poor bone quality"],
  ])("%s: %s", (text, meaning) => {
    expect(faultOf(text)).toBeUndefined();
    expect(meaningOf(text).split(" | ").at(-1)).toBe(meaning);
  });

  test.each([
    ["42A2[0]", 'there is no modifier "0"'],
    ["42A2[15]", 'there is no modifier "15"'],
    ["42A2[3c]", 'there is no modifier "3c"'],
    ["42A2[8f]", 'there is no modifier "8f"'],
    ["42A2[1,2]", "the modifiers 1 (not displaced) and 2 (displaced) exclude each other"],
    ["42A2[4,9,3b]", "the modifiers 4 (not impacted) and 3 (impacted) exclude each other"],
  ])("%s: %s", (text, because) => {
    expect(faultOf(text)).toEqual({ because, mark: "from memory" });
  });

  test("one modifier stands once", () => {
    expect(faultOf("42A2[9,9]")?.because).toBe('the modifier "9" stands in it twice');
    expect(faultOf("42A2[2,9]")).toBeUndefined();
  });

  test("of what is wrong the fix takes nothing up", () => {
    const titles = (text: string): readonly string[] =>
      findingsOf(changed(["fracture 42A2", `fracture ${text}`]), "code-unknown").flatMap((each) =>
        (each.fixes ?? []).map(({ title }) => title.split(":")[0] ?? ""),
      );
    expect(titles("42A2(d)[2,9]")).toEqual(["42A2(d)[2,9] → 42A2[2,9]"]);
    expect(titles("42A2(b)[2,1]")).toEqual(["42A2(b)[2,1] → 42A2(b)[2]"]);
    expect(titles("42A2(b,b)")).toEqual(["42A2(b,b) → 42A2(b)"]);
  });
});

// line: AO-5: AO/OTA 2018 drops the hyphen (printed); brackets are of 2018 alone (from memory)
describe("AO-5: brackets behind a spelling of 2007", () => {
  const found = (text: string) => findingsOf(changed(["fracture 42A2", `fracture ${text}`]), "code-old-spelling")[0];

  test("that 2018 has are kept", () => {
    expect(found("42-A2(b)[2]")?.fixes?.map(({ class: kind, edits }) => [kind, edits[0]?.text])).toEqual([
      ["keeps every decision", "42A2(b)[2]"],
    ]);
  });

  test("that 2018 does not have are not", () => {
    const finding = found("42-A2(j)");
    expect(finding?.grade).toBe("warning");
    expect(finding?.message).toContain('round brackets hold a, b, c here, not "j"');
    expect(finding?.fixes?.map(({ class: kind, edits }) => [kind, edits[0]?.text])).toEqual([
      ["needs a choice", "42A2"],
    ]);
  });
});

// line: AO-3: AO/OTA 2018 shaft, >= 30 deg oblique, < 30 deg transverse (printed for 12; from memory for 32 and 42)
test("AO-3: every part of a known code has a meaning in words of our own", () => {
  for (const { code } of codeGroups) expect(meaningOf(code), code).toMatch(/^[a-z]+ ?[a-z]*, [a-z]/);
  expect(meaningOf("12A2")).toBe("humeral shaft, oblique, 30 deg or more");
  expect(meaningOf("32A3")).toBe("femoral shaft, transverse, less than 30 deg");
});

// line: AO-1 and AO-2: rule of squares, Rockwood and Green 10e fig. 5-7 (printed rule, computed): a square at the distal
// end of every bone, the proximal femur to the lower edge of the lesser trochanter; the edge itself our own reading
describe("AO-1 and AO-2: the rule of squares on a femur", () => {
  const segmentAt = (centre: string): string | undefined => {
    const analysis = changed(
      ["    bone tibia\n", "    bone femur\n"],
      ["fracture 42A2", "fracture 32A2"],
      ["epiphysis distal 58 mm on ap", "epiphysis distal 52 mm"],
      ["landmark plafond 432 mm ± 2 mm on ap", "landmark joint 380 mm\n    landmark lesser-trochanter 76 mm"],
      ["from 208 mm on ap to 232 mm on ap", `from ${centre} to ${centre}`],
    );
    const answer = analysis.reckonings?.byId.get("segment")?.answer;
    return answer?.kind === "word" ? answer.word : undefined;
  };

  test.each([
    ["60 mm above the knee", "320 mm", "shaft"],
    ["52 mm above it, the side of the square", "328 mm", "distal"],
    ["45 mm above it", "335 mm", "distal"],
    ["70 mm below the entry, above the trochanter's edge", "70 mm", "proximal"],
    ["76 mm below it, at the edge", "76 mm", "proximal"],
    ["80 mm below it", "80 mm", "shaft"],
  ])("%s", (_, centre, segment) => {
    expect(segmentAt(centre)).toBe(segment);
  });
});
