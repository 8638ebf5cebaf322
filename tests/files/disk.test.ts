/** Nothing outside the library is read, nothing but a regular text file is, and a file is replaced whole or not at all. */
import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { filesBelow, libraryRoot, readInside, readNamed, replaceFile } from "../../server/files/disk.ts";
import { largestFile, refusePath } from "../../server/files/paths.ts";

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "isthmus-files-"));
  for (const name of ["library/plans", "library/catalogue", "elsewhere"])
    mkdirSync(join(folder, name), { recursive: true });
  writeFileSync(join(folder, "library/isthmus.json"), "{}");
  writeFileSync(join(folder, "library/catalogue/good.isthmus"), "isthmus 1\n");
  writeFileSync(join(folder, "elsewhere/secret.isthmus"), "isthmus 1\n");
  writeFileSync(join(folder, "library/plans/plan.isthmus"), "isthmus 1\n");
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const plan = (): string => join(folder, "library/plans/plan.isthmus");
const inside = (path: string): string => readInside(join(folder, "library"), plan(), path).kind;

describe("imports stay inside the library", () => {
  test("a relative path inside is read, from the file that asks", () => {
    expect(inside("../catalogue/good.isthmus")).toBe("read");
    expect(inside("./plan.isthmus")).toBe("read");
  });

  test.each([
    ["leaves the folder", "../../elsewhere/secret.isthmus"],
    ["leaves it and comes back under another name", "../../library-2/x.isthmus"],
    ["absolute", "/etc/hostname"],
    ["a drive", "C:/x.isthmus"],
    ["a drive without a slash", "C:x.isthmus"],
    ["backslashes", "..\\catalogue\\good.isthmus"],
    ["a share", "\\\\host\\share"],
    ["an address", "file:../catalogue/good.isthmus"],
    ["another address", "http://localhost/x"],
    ["percent codes", "%2e%2e/%2e%2e/elsewhere/secret.isthmus"],
    ["a NUL", "../catalogue/good.isthmus\0"],
    ["a device", "CON"],
    ["a device with an ending", "../catalogue/nul.isthmus"],
    ["a trailing dot", "../catalogue/good.isthmus."],
    ["nothing", ""],
    ["the folder itself", ".."],
  ])("%s is refused", (_name, path) => {
    expect(inside(path)).toBe("outside");
  });

  test("a link out of the library is refused, one inside is followed", () => {
    symlinkSync(join(folder, "elsewhere/secret.isthmus"), join(folder, "library/catalogue/out.isthmus"));
    symlinkSync(join(folder, "elsewhere"), join(folder, "library/way-out"));
    symlinkSync(join(folder, "library/catalogue/good.isthmus"), join(folder, "library/catalogue/in.isthmus"));
    expect(inside("../catalogue/out.isthmus")).toBe("outside");
    expect(inside("../way-out/secret.isthmus")).toBe("outside");
    expect(inside("../catalogue/in.isthmus")).toBe("read");
  });

  test("a missing file is missing, a folder and a pipe are no files, and nothing blocks", () => {
    execFileSync("mkfifo", [join(folder, "library/catalogue/pipe.isthmus")]);
    expect(inside("../catalogue/none.isthmus")).toBe("missing");
    expect(inside("../catalogue")).toBe("not-a-file");
    expect(inside("../catalogue/pipe.isthmus")).toBe("not-a-file");
  });

  test("the root is the nearest folder above with isthmus.json or .git, else the file's own", () => {
    expect(libraryRoot(plan())).toBe(join(folder, "library"));
    expect(libraryRoot(join(folder, "elsewhere/secret.isthmus"))).toBe(join(folder, "elsewhere"));
  });

  test("what is refused says why", () => {
    expect(refusePath("/x")).toContain("not relative");
    expect(refusePath("plans/x.isthmus")).toBeUndefined();
  });
});

describe("only text is read", () => {
  test.each([
    ["bytes that are not UTF-8", Buffer.from([0x61, 0x62, 0xff, 0x63]), "byte 2 "],
    ["a cut character", Buffer.from([0x61, 0xc3]), "ends inside a character"],
    ["a NUL", Buffer.from([0x61, 0x00]), "byte 1;"],
    ["UTF-16", Buffer.from("isthmus 1", "utf16le"), "NUL"],
  ])("%s", (_name, bytes, says) => {
    const file = join(folder, "bytes.isthmus");
    writeFileSync(file, bytes);
    const read = readNamed(file);
    expect(read.kind).toBe("not-text");
    expect(read.kind === "read" ? "" : read.because).toContain(says);
  });

  test("a byte-order mark is kept in the text", () => {
    const file = join(folder, "bom.isthmus");
    writeFileSync(file, "\ufeffisthmus 1\n");
    expect(readNamed(file)).toMatchObject({ kind: "read", text: "\ufeffisthmus 1\n" });
  });

  test("a file over the limit is refused before it is read", () => {
    const file = join(folder, "large.isthmus");
    writeFileSync(file, Buffer.alloc(largestFile + 1, 0x20));
    expect(readNamed(file).kind).toBe("not-a-file");
  });
});

describe("writing", () => {
  test("a file is replaced whole and nothing is left beside it", () => {
    const file = join(folder, "elsewhere/write.isthmus");
    writeFileSync(file, "old");
    expect(replaceFile(file, "old", "new")).toBe(true);
    expect(readFileSync(file, "utf8")).toBe("new");
    expect(readdirSync(join(folder, "elsewhere")).filter((name) => name.startsWith("."))).toEqual([]);
  });

  test("a file that changed meanwhile is left alone", () => {
    const file = join(folder, "elsewhere/write.isthmus");
    writeFileSync(file, "somebody else's");
    expect(replaceFile(file, "old", "new")).toBe(false);
    expect(readFileSync(file, "utf8")).toBe("somebody else's");
  });
});

test("files below a folder come sorted, hidden ones and other endings left out", () => {
  const found = filesBelow([join(folder, "library/plans"), join(folder, "nowhere")]);
  expect(found).toEqual({ files: [plan()], missing: [join(folder, "nowhere")] });
});
