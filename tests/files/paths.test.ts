/** Where a path leads in a library of URIs, and what is refused before anything is read. */
import { describe, expect, test } from "vitest";
import { resolveUri } from "../../server/files/paths.ts";

const folders = ["vscode-vfs://github/trauma/plans", "memfs:/library/"];

describe("a path in a library of URIs", () => {
  test.each([
    ["vscode-vfs://github/trauma/plans/a.isthmus", "b.isthmus", "vscode-vfs://github/trauma/plans/b.isthmus"],
    ["vscode-vfs://github/trauma/plans/x/a.isthmus", "../c/b.isthmus", "vscode-vfs://github/trauma/plans/c/b.isthmus"],
    ["memfs:/library/a.isthmus", "./sub/b c#1?.isthmus", "memfs:/library/sub/b%20c%231%3F.isthmus"],
  ])("from %s, %s leads to %s", (from, path, uri) => {
    expect(resolveUri(folders, from, path)).toEqual({ uri });
  });

  test.each([
    ["memfs:/library/a.isthmus", "../b.isthmus"],
    ["memfs:/library/a.isthmus", "x/../../library-two/b.isthmus"],
    ["memfs:/library/a.isthmus", "/etc/passwd"],
    ["memfs:/library/a.isthmus", "https://example.org/b.isthmus"],
    ["memfs:/library/a.isthmus", "%2e%2e/b.isthmus"],
    ["memfs:/library/a.isthmus", "..\\b.isthmus"],
    ["vscode-vfs://github/trauma/plans/a.isthmus", "../plans-of-others/b.isthmus"],
  ])("from %s, %s is refused", (from, path) => {
    expect(resolveUri(folders, from, path)).toMatchObject({ kind: "outside" });
  });

  test("is not looked for from a text in no open folder", () => {
    expect(resolveUri(folders, "memfs:/library-two/a.isthmus", "b.isthmus")).toMatchObject({ kind: "missing" });
    expect(resolveUri([], "untitled:Untitled-1", "b.isthmus")).toMatchObject({ kind: "missing" });
  });
});
