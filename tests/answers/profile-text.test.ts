/** What is told of a profile of limits, held to the figures it sets and to what the vocabulary says of it. */
import { describe, expect, test } from "vitest";
import { protocolRule } from "../../grammar/vocabulary/protocol.ts";
import { explain, nearestTerm } from "../../server/answers/explain.ts";
import { profileMarkdown, profileRows } from "../../server/answers/profile-text.ts";
import { findingsPage } from "../../server/answers/reference.ts";

// Anneberg & Brink, Injury 2018;49 Suppl 1:S66 (printed): below 5 deg of varus or valgus, below 10 deg in the sagittal plane, below
// 10 mm of shortening. Freedman & Johnson, Clin Orthop 1995;315:25 (printed): 5 deg in any plane.
const figures = [
  ["every-plane-five", { coronal: "5 deg", sagittal: "5 deg", rotation: "10 deg", shortening: "10 mm" }],
  ["sagittal-ten", { coronal: "5 deg", sagittal: "10 deg", rotation: "10 deg", shortening: "10 mm" }],
] as const;

describe.each(figures)("%s", (name, limits) => {
  const told = Object.entries(limits).map(([limit, most]) => `\`${limit}\` up to ${most}`);

  test("is explained with each figure and what it rests on", () => {
    const text = explain(name) ?? "";
    for (const line of told) expect(text).toMatch(new RegExp(`^- ${line}\\. Basis: \\S.*\\.$`, "m"));
    expect(text.match(/^- /gm)).toHaveLength(told.length);
    expect(text).toContain(`\nprofile ${name}\n`);
  });

  test("stands in the reference", () => {
    expect(profileRows().find((row) => row.name === name)?.limits).toBe(told.join("; "));
    expect(findingsPage()).toContain(`| \`${name}\` | ${told.join("; ")} |`);
  });

  test("is what the vocabulary says of it", () => {
    const part = protocolRule.statements.find(({ word }) => word === "profile")?.slots[0]?.part;
    const doc = part?.kind === "choice" ? part.words[name] : undefined;
    expect(figuresIn(doc ?? "")).toEqual(limits);
  });
});

test("a profile of another name is none, and the nearest is offered", () => {
  expect(profileMarkdown("__proto__")).toBeUndefined();
  expect(explain("sagittal-tenn")).toBeUndefined();
  expect(nearestTerm("sagittal-tenn")).toBe("sagittal-ten");
});

/** "Coronal and sagittal up to 5 deg each, rotation up to 10 deg, …" by limit. */
function figuresIn(doc: string): Readonly<Record<string, string>> {
  const phrases = [...doc.toLowerCase().matchAll(/([a-z]+)(?: and ([a-z]+))? up to (\d+ [a-z]+)/g)];
  const entries = phrases.flatMap(([, one = "", other, most = ""]) =>
    (other === undefined ? [one] : [one, other]).map((limit): [string, string] => [limit, most]),
  );
  return Object.fromEntries(entries);
}
