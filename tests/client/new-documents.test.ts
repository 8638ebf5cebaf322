/** Holds the texts the client shows to the language: the frame of a new plan and the fences of the walkthrough can be read. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { newCatalogueSnippet, newPlanSnippet, newProtocolSnippet } from "../../client/new-documents.ts";
import { parse } from "../../grammar/parse.ts";
import type { Problem } from "../../grammar/problems.ts";
import { shape } from "../../grammar/shape.ts";

function problemsIn(text: string): readonly Problem[] {
  const parsed = parse(text);
  return [...parsed.problems, ...shape(parsed.tree).problems];
}

/** A snippet as it stands when its choices and names are left and its gaps are filled in order. */
function filled(snippet: string, gaps: readonly string[]): string {
  const rest = [...gaps];
  return snippet
    .replaceAll(/\$\{\d+:([^}]*)\}/g, "$1")
    .replaceAll(/\$\{\d+\|([^,]*),[^}]*\|\}/g, "$1")
    .replaceAll(/\$\d+/g, () => rest.shift() ?? "");
}

test("a new plan is read without a problem once its gaps are filled", () => {
  const measure = "landmark scar 400 mm on ap";
  const nail = "nail tarnbeck, diameter 10 mm, length 330 mm, sunk 9 mm";
  const text = filled(newPlanSnippet, ["190", "198", "25", "28", measure, nail]).replace("CODE", "42A3");
  expect(text).not.toContain("$");
  expect(problemsIn(text)).toEqual([]);
});

test("a new plan has no number that its writer did not type, but the edition", () => {
  expect(filled(newPlanSnippet, []).match(/\d+/g)).toEqual(["1"]);
});

test("every choice a new plan offers can be read", () => {
  for (const [whole, word = "", words = ""] of newPlanSnippet.matchAll(/(\S+) \$\{\d+\|([^}]*)\|\}/g)) {
    for (const choice of words.split(",")) {
      const text = filled(newPlanSnippet.replace(whole, `${word} ${choice}`), ["190", "198", "25", "28", "", ""]);
      expect(problemsIn(text).filter(({ slug }) => slug === "unknown-word")).toEqual([]);
    }
  }
});

test("the fence of the walkthrough is read without a problem", () => {
  const page = readFileSync(new URL("../../client/walkthrough/readings.md", import.meta.url), "utf8");
  const fence = /```isthmus\n([\s\S]*?)```/.exec(page)?.[1] ?? "";
  expect(fence).toContain("marker 25 mm");
  const frame = newPlanSnippet.replace(/ {2}images \{[\s\S]*? {2}operation/, `${fence}operation`);
  const nail = "nail tarnbeck, diameter 10 mm, length 330 mm, sunk 9 mm";
  expect(problemsIn(filled(frame, ["190", "198", nail]).replace("CODE", "42A3"))).toEqual([]);
});

test.each([
  [
    "catalogue",
    newCatalogueSnippet,
    ["9", "12", "1", "240", "420", "15", "28", "4.6", "3.9", "3.8", "24", "60", "2", "8", "14", "0.5"],
  ],
  ["protocol", newProtocolSnippet, ["1.5"]],
])(
  "a new %s is read without a problem once its gaps are filled, and has no number of its own",
  (_kind, snippet, gaps) => {
    // One gap keeps its number wherever it stands; names repeat theirs.
    expect(problemsIn(filled(snippet, gaps))).toEqual([]);
    expect(filled(snippet, []).match(/\d+/g)).toEqual(["1"]);
  },
);
