/** The check of shapes itself: a message that fits has nothing wrong, and each kind of slip is told with its path. */
import { expect, test } from "vitest";
import { wrongInParams, wrongInResult } from "./shapes.ts";

const range = { start: { line: 1, character: 2 }, end: { line: 1, character: 3 } };

test("what fits has nothing wrong", () => {
  expect(wrongInResult("textDocument/hover", null)).toEqual([]);
  expect(wrongInResult("textDocument/hover", { contents: { kind: "markdown", value: "x" }, range })).toEqual([]);
  expect(wrongInResult("textDocument/references", [{ uri: "file:///a", range }])).toEqual([]);
  expect(wrongInParams("workspace/inlayHint/refresh", undefined)).toEqual([]);
  expect(wrongInResult("isthmus/anything", 1)).toEqual([]);
});

test.each<[string, unknown, string]>([
  ["textDocument/references", [{ uri: "file:///a" }], "[0].range is missing"],
  ["textDocument/references", [{ uri: 1, range }], "[0].uri is no DocumentUri"],
  ["textDocument/references", [{ uri: "a", range, colour: 1 }], "has no property colour"],
  [
    "textDocument/references",
    [{ uri: "a", range: { ...range, end: { line: -1, character: 0 } } }],
    "is no uinteger: -1",
  ],
  ["textDocument/references", [{ uri: "a", range: { ...range, end: { line: 0.5, character: 0 } } }], "is no uinteger"],
  ["textDocument/documentHighlight", [{ range, kind: 9 }], "is no DocumentHighlightKind: 9"],
  ["textDocument/foldingRange", {}, "textDocument/foldingRange is no "],
  ["textDocument/semanticTokens/full", { data: ["a"] }, "data[0] is no uinteger"],
  ["textDocument/no", null, "is not described"],
])("%s %j", (method, result, told) => {
  expect(wrongInResult(method, result).join("\n")).toContain(told);
});

test("what the server sends of itself is held to the same", () => {
  expect(wrongInParams("textDocument/publishDiagnostics", { uri: "a", diagnostics: [{ range }] }).join()).toContain(
    "message is missing",
  );
  expect(wrongInParams("window/nothing", {})).toEqual(["window/nothing is not described"]);
});
