/** `isthmus propose` by its words in, its output and its exit code. */
import { writeFileSync } from "node:fs";
import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, test } from "vitest";
import schema from "../../server/answers/proposals.schema.json" with { type: "json" };
import { sampleWith } from "../check.ts";
import { copiedSamples, isthmus } from "./ran.ts";

const copied = copiedSamples();
const sample = (name: string): string => copied("plans", `${name}.isthmus`);

function written(name: string, text: string): string {
  writeFileSync(sample(name), text);
  return sample(name);
}

const narrow = (): string =>
  written(
    "narrow",
    sampleWith("plans/simple-shaft.isthmus", ["width 12 mm ± 0.3 mm on ap", "width 7.5 mm ± 0.3 mm on ap"]),
  );

describe("as text", () => {
  test("three proposals stand as statements to paste, with their margins and their neighbours", async () => {
    const { code, out, err } = await isthmus("propose", sample("simple-shaft"));
    expect({ code, err }).toEqual({ code: 0, err: "" });
    expect(out).toMatch(/^.*simple-shaft\.isthmus: 3 proposals, best first; \d+ of \d+ choices had to be judged\n/);
    expect(out).toContain(
      [
        "1  nail tarnbeck 10 mm × 330 mm",
        "    ream 8.5 mm to 11 mm by 0.5 mm",
        "    nail tarnbeck, diameter 10 mm, length 330 mm, sunk 9 mm",
        "    lock D2, drilled 32 mm, screw 34 mm",
        "    lock D1, drilled 36 mm, screw 38 mm",
        "    lock P2, drilled 50 mm, screw 52 mm",
        "    lock P1, drilled 46 mm, screw 48 mm",
        "    cap 5 mm",
        "",
      ].join("\n"),
    );
    expect(out.match(/^\d {2}nail tarnbeck /gm)).toHaveLength(3);
    expect(out).toMatch(/^ {3}length margin +13\.7 mm ± 2\.6 mm +fits with more than 99 %$/m);
    expect(out).toMatch(/^ {3}over-reaming +1 mm$/m);
    expect(out).toMatch(/^ {3}fit ratio +0\.909$/m);
    expect(out).toMatch(/^ {3}bone removed +0\.021 ml ± 0\.026 ml$/m);
    expect(out).toMatch(
      /^ {3}length 345 mm +The tip may lie 1\.3 mm ± 2\.6 mm past the physeal scar \(probability 85 %\)\.$/m,
    );
    expect(out).toMatch(/^ {3}larger diameter +None thicker is listed\.$/m);
  });

  test("the order, the catalogue's notice and the caution stand with them", async () => {
    const { out } = await isthmus("propose", sample("simple-shaft"));
    expect(out).toContain(
      "by the probability that the length fits, the fit ratio nearest 0.9, the least bone removed.",
    );
    expect(out).toContain("Catalogue: Invented for examples. Not an implant on any market.");
    expect(out).toContain("Not a medical device");
    expect(out).not.toMatch(/\b(un)?safe\b/i);
  });

  test("the statements of each proposal, pasted, leave nothing of grade error", async () => {
    const { out } = await isthmus("propose", sample("simple-shaft"));
    const blocks = [...out.matchAll(/^\d {2}nail .*\n((?: {4}.*\n)+)/gm)].map(([, lines = ""]) => lines.split("\n"));
    expect(blocks).toHaveLength(3);
    for (const [ream = "", nail = ""] of blocks) {
      const pasted = written(
        "pasted",
        sampleWith(
          "plans/simple-shaft.isthmus",
          ["    ream 8.5 mm to 11 mm by 0.5 mm", ream],
          ["    nail tarnbeck, diameter 10 mm, length 330 mm, sunk 9 mm", nail],
        ),
      );
      expect((await isthmus("check", pasted)).code).toBe(0);
    }
  });

  test("nothing to propose exits with 1 and says why, the caution too", async () => {
    const { code, out } = await isthmus("propose", narrow());
    expect(code).toBe(1);
    expect(out).toContain("narrow.isthmus: nothing can be proposed\n  The first head is ");
    expect(out).toContain("over the isthmus; the limit is 0.5 mm");
    expect(out).toContain("Not a medical device");
    const mistakes = await isthmus("propose", sample("typical-mistakes"));
    expect(mistakes.code).toBe(1);
    expect(mistakes.out).toContain("No choice of nail takes this away.");
  });

  test("what a document says reaches the terminal without its control characters", async () => {
    const text = sampleWith("catalogue/tarnbeck.isthmus", [
      "Not an implant on any market.",
      "Not \u001b[31man implant\u202e.",
    ]);
    writeFileSync(copied("catalogue", "odd.isthmus"), text);
    const plan = sampleWith("plans/simple-shaft.isthmus", [
      "../catalogue/tarnbeck.isthmus",
      "../catalogue/odd.isthmus",
    ]);
    const { out } = await isthmus("propose", written("odd", plan));
    expect(out).toContain("\\u{1b}");
    expect([...out].filter((character) => /[\p{Cc}\p{Cf}]/u.test(character) && character !== "\n")).toEqual([]);
  });
});

describe("as JSON", () => {
  interface Record {
    readonly because: readonly string[];
    readonly caution: string;
    readonly catalogues: readonly string[];
    readonly proposals: readonly {
      readonly nail: string;
      readonly diameter: number;
      readonly length: number;
      readonly heads: readonly number[];
      readonly fits: number;
      readonly figures: readonly { readonly id: string; readonly value: number | null }[];
      readonly neighbours: readonly { readonly words: string }[];
    }[];
  }

  test.each(["simple-shaft", "typical-mistakes", "distal-third", "uncertain-limits"])(
    "%s follows its schema",
    async (name) => {
      const { out } = await isthmus("propose", "--json", sample(name));
      const valid = new Ajv2020({ allErrors: true, strict: true, allowUnionTypes: true }).compile(schema);
      const record: unknown = JSON.parse(out);
      expect(valid(record), JSON.stringify(valid.errors)).toBe(true);
    },
  );

  test("holds the same proposals as the text, unrounded, with the caution", async () => {
    const record = JSON.parse((await isthmus("propose", "--json", sample("simple-shaft"))).out) as Record;
    expect(record.proposals.map(({ nail, diameter, length, heads }) => [nail, diameter, length, heads.at(-1)])).toEqual(
      [
        ["tarnbeck", 10, 330, 11],
        ["tarnbeck", 12, 330, 13.5],
        ["tarnbeck", 11, 330, 12],
      ],
    );
    expect(record.proposals[0]?.figures.find(({ id }) => id === "fit.ratio")?.value).toBe(10 / 11);
    expect(record.proposals[0]?.neighbours).toHaveLength(4);
    expect(record.caution).toContain("Not a medical device");
    expect(record.catalogues).toEqual(["Invented for examples. Not an implant on any market."]);
  });

  test("gives the reasons where nothing is proposed", async () => {
    const { code, out } = await isthmus("propose", "--json", narrow());
    const record = JSON.parse(out) as Record;
    expect(code).toBe(1);
    expect(record.proposals).toEqual([]);
    expect(record.because.join()).toContain("over the isthmus");
  });
});

describe("called wrongly", () => {
  test("without a file, or with two, it exits with 2", async () => {
    expect(await isthmus("propose")).toMatchObject({ code: 2, out: "" });
    expect((await isthmus("propose", sample("simple-shaft"), sample("distal-third"))).code).toBe(2);
    expect((await isthmus("propose", "--three", sample("simple-shaft"))).code).toBe(2);
  });

  test("on what is not there or no plan it exits with 3", async () => {
    expect((await isthmus("propose", copied("none.isthmus"))).code).toBe(3);
    const catalogue = await isthmus("propose", copied("catalogue", "tarnbeck.isthmus"));
    expect(catalogue.code).toBe(3);
    expect(catalogue.out).toContain("nothing can be proposed\n  It is a catalogue.");
  });

  test("the help names it and its options, with the caution", async () => {
    expect((await isthmus("--help")).out).toContain("isthmus propose FILE");
    const help = await isthmus("propose", "--help");
    expect(help.code).toBe(0);
    expect(help.out).toContain("--json");
    expect(help.out).toContain("Not a medical device");
  });
});
