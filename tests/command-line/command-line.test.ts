/** Every command by its words in, its output and its exit code: the same function the bundle runs, without a process. */
import { copyFileSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, test } from "vitest";
import schema from "../../server/answers/records.schema.json" with { type: "json" };
import { copiedSamples, isthmus, samples } from "./ran.ts";

const copied = copiedSamples();
const file = (name: string): string => copied(name);

function written(name: string, text: string | Buffer): string {
  writeFileSync(file(name), text);
  return file(name);
}

describe("check", () => {
  test("a clean plan exits with 0", async () => {
    expect(await isthmus("check", file("plans/simple-shaft.isthmus"))).toMatchObject({ code: 0, err: "" });
  });

  test("mistakes exit with 1 and stand with line, carets and fix", async () => {
    const { code, out } = await isthmus("check", file("plans/typical-mistakes.isthmus"));
    expect(code).toBe(1);
    expect(out).toContain("warning  reaming-overshoot");
    expect(out).toContain("ream 8.5 mm to 12.5 mm by 0.5 mm\n");
    expect(out).toMatch(/\| +\^{5,}/);
    expect(out).toContain("fix: last head 12.5 mm → 11.5 mm");
  });

  test("--fail-on decides from which grade on", async () => {
    const uncertain = file("plans/uncertain-limits.isthmus");
    expect((await isthmus("check", uncertain)).code).toBe(0);
    expect((await isthmus("check", "--fail-on", "information", uncertain)).code).toBe(1);
    expect((await isthmus("check", "--fail-on", "terrible", uncertain)).code).toBe(2);
  });

  test("a folder is checked whole", async () => {
    const { code, out } = await isthmus("check", copied());
    expect(code).toBe(1);
    for (const name of ["simple-shaft", "typical-mistakes", "tarnbeck", "ellerby"])
      expect(out).toContain(`${name}.isthmus: `);
  });

  test("a file that cannot be read is told and exits with 3, and the others are still checked", async () => {
    const bad = written("plans/bytes.isthmus", Buffer.from([0x69, 0xff]));
    const ran = await isthmus("check", bad, file("plans/simple-shaft.isthmus"), file("none.isthmus"));
    rmSync(bad);
    expect(ran.code).toBe(3);
    expect(ran.err).toContain("byte 1 cannot be read");
    expect(ran.err).toContain("none.isthmus: there is no such file");
    expect(ran.out).toContain("simple-shaft.isthmus: nothing found");
  });

  test("a waived finding stands as waived, in text and json, and does not fail the check", async () => {
    const text = readFileSync(file("plans/simple-shaft.isthmus"), "utf8")
      .replace("drilled 32 mm, screw 34 mm", "drilled 32 mm, screw 40 mm")
      .replace(
        "  status for-review\n",
        '  waive screw-overlength at D2, because "no shorter one", signed "A. Sample"\n',
      );
    const name = written("plans/waived.isthmus", text);
    const shown = await isthmus("check", "--fail-on", "warning", name);
    const { out } = await isthmus("check", "--report", "json", name);
    rmSync(name);
    expect(shown.out).toMatch(/, waived +screw-overlength/);
    expect(shown.out).toContain("= waived: no shorter one (A. Sample)");
    expect(shown.code).toBe(0);
    const { files } = JSON.parse(out) as { files: { findings: { slug: string; waived: unknown }[] }[] };
    expect(files[0]?.findings.find(({ slug }) => slug === "screw-overlength")?.waived).toEqual({
      because: "no shorter one",
      signed: "A. Sample",
    });
  });

  test("json holds every finding with lines and columns from 1", async () => {
    const { out } = await isthmus("check", "--report", "json", file("plans/typical-mistakes.isthmus"));
    const { files } = JSON.parse(out) as { files: { findings: { slug: string; line: number; column: number }[] }[] };
    const found = files[0]?.findings.find(({ slug }) => slug === "support-under-knee");
    const line = readFileSync(file("plans/typical-mistakes.isthmus"), "utf8").split("\n")[(found?.line ?? 0) - 1];
    expect(line?.slice((found?.column ?? 0) - 1)).toMatch(/^knee, /);
  });

  test("what a document says reaches the terminal without its control characters", async () => {
    const name = written(
      "plans/escape.isthmus",
      'isthmus 1\n\nplan "\u001b[31mred\u202e" {\n  \u001b]0;title\u0007\n}\n',
    );
    const { out } = await isthmus("check", name);
    rmSync(name);
    expect(out).toContain("error  hidden-character");
    expect([...out].filter((character) => /[\p{Cc}\p{Cf}]/u.test(character) && character !== "\n")).toEqual([]);
  });
});

describe("reckon", () => {
  test("prints every reckoning, the catalogue's notice and the caution", async () => {
    const { code, out } = await isthmus("reckon", file("plans/simple-shaft.isthmus"));
    expect(code).toBe(0);
    expect(out).toMatch(/level\.scar +352\.7 mm ± 2\.6 mm/);
    expect(out).toContain("Not an implant on any market.");
    expect(out).toContain("Not a medical device");
  });

  test.each(["simple-shaft", "typical-mistakes", "distal-third", "uncertain-limits"])(
    "--json of %s follows its schema",
    async (name) => {
      const { out } = await isthmus("reckon", "--json", file(`plans/${name}.isthmus`));
      const record: unknown = JSON.parse(out);
      const valid = new Ajv2020({ allErrors: true, strict: true, allowUnionTypes: true }).compile(schema);
      expect(valid(record), JSON.stringify(valid.errors)).toBe(true);
    },
  );

  test("the schema refuses what is not such a record", () => {
    const valid = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(schema);
    expect(valid({ edition: 1 })).toBe(false);
  });

  test("an unknown value is null with its reason", async () => {
    const text = readFileSync(file("plans/simple-shaft.isthmus"), "utf8").replace(/ {4}landmark.*\n/g, "");
    const name = written("plans/no-landmarks.isthmus", text);
    const { out } = await isthmus("reckon", "--json", name);
    rmSync(name);
    const { reckonings } = JSON.parse(out) as { reckonings: { id: string; value: unknown; because?: string }[] };
    const available = reckonings.find(({ id }) => id === "length.available");
    expect(available?.value).toBeNull();
    expect(available?.because).toContain("scar");
  });

  test("a catalogue is not reckoned, and that is said", async () => {
    const ran = await isthmus("reckon", file("catalogue/tarnbeck.isthmus"));
    expect(ran.code).toBe(3);
    expect(ran.err).toContain("it is a catalogue");
  });

  test("two files or none are wrong use", async () => {
    expect((await isthmus("reckon")).code).toBe(2);
    expect((await isthmus("reckon", "a", "b")).code).toBe(2);
  });
});

describe("tidy", () => {
  const tidyText = (): string => readFileSync(join(samples, "plans/simple-shaft.isthmus"), "utf8");

  test("--check writes nothing and exits with 1", async () => {
    const untidy = tidyText().replaceAll(" mm", "mm");
    const name = written("plans/untidy.isthmus", untidy);
    expect((await isthmus("tidy", "--check", name)).code).toBe(1);
    expect(readFileSync(name, "utf8")).toBe(untidy);
    expect((await isthmus("tidy", name)).code).toBe(0);
    expect(readFileSync(name, "utf8")).toBe(tidyText());
    expect((await isthmus("tidy", "--check", name)).code).toBe(0);
    rmSync(name);
  });

  test("a text with something broken in it is left alone", async () => {
    const broken = `${tidyText()}\n  @@@ {\n`;
    const name = written("plans/broken.isthmus", broken);
    const ran = await isthmus("tidy", name);
    expect(ran.code).toBe(1);
    expect(ran.err).toContain("left alone");
    expect(readFileSync(name, "utf8")).toBe(broken);
    rmSync(name);
  });

  test("bytes that are not text are never rewritten", async () => {
    const name = written("plans/bytes.isthmus", Buffer.from([0x69, 0xff, 0x0a]));
    expect((await isthmus("tidy", name)).code).toBe(3);
    expect([...readFileSync(name)]).toEqual([0x69, 0xff, 0x0a]);
    rmSync(name);
  });
});

describe("explain", () => {
  test.each([
    ["reaming-overshoot", "Wrong:"],
    ["tip-beyond-cortex", "0 mm to 2 mm"],
    ["length.available", "scar - sunk"],
    ["hole.X9.level", "level of hole"],
    ["lock", "drilled"],
    ["mmHg", "133.322387415"],
    ["round-down", "round-down("],
  ])("%s", async (term, says) => {
    const { code, out } = await isthmus("explain", term);
    expect(code).toBe(0);
    expect(out).toContain(says);
    expect(out).toContain("Not a medical device");
  });

  test("an unknown term exits with 1 and names the nearest", async () => {
    const ran = await isthmus("explain", "reaming-overshot");
    expect(ran.code).toBe(1);
    expect(ran.err).toContain("did you mean reaming-overshoot?");
  });

  test("without a term it lists what is known", async () => {
    const { code, out } = await isthmus("explain");
    expect(code).toBe(0);
    expect(out).toContain("reaming-overshoot");
    expect(out).toContain("length.available");
  });
});

describe("the whole", () => {
  test("help shows the commands and the caution", async () => {
    const { code, out } = await isthmus("--help");
    expect(code).toBe(0);
    for (const word of ["check", "reckon", "tidy", "explain", "serve", "Not a medical device"])
      expect(out).toContain(word);
    expect((await isthmus("check", "--help")).out).toContain("--fail-on GRADE");
  });

  test.each([
    [[]],
    [["chekc"]],
    [["check"]],
    [["check", "--nonsense", "x"]],
    [["tidy"]],
    [["serve"]],
    [["explain", "a", "b"]],
  ])("%j is wrong use", async (words) => {
    const ran = await isthmus(...words);
    expect(ran.code).toBe(2);
    expect(ran.err).not.toBe("");
  });

  test("--version is the package's", async () => {
    const manifest = JSON.parse(readFileSync(join(samples, "../package.json"), "utf8")) as { version: string };
    expect((await isthmus("--version")).out).toBe(`isthmus ${manifest.version}\n`);
  });

  test("an import is not read from outside the library", async () => {
    copyFileSync(file("catalogue/tarnbeck.isthmus"), copied("..", "outside.isthmus"));
    const text = readFileSync(file("plans/simple-shaft.isthmus"), "utf8").replace(
      "../catalogue/tarnbeck",
      "../../outside",
    );
    const name = written("plans/reaching.isthmus", text);
    const { out, code } = await isthmus("check", name);
    rmSync(name);
    rmSync(copied("..", "outside.isthmus"));
    expect(code).toBe(1);
    expect(out).toContain("error  file-outside");
  });
});
