/** The reference pages say what the tool does: they are as `npm run reference` makes them, and name every word there is. */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { pagePath, pages, pageText } from "../../.build/make-reference.ts";
import { blockRules } from "../../grammar/vocabulary/blocks.ts";
import { rules } from "../../server/findings/all.ts";
import { limitTable } from "../../server/findings/limit-table.ts";

const text = (file: string): string => readFileSync(pagePath(file), "utf8");

describe("the reference", () => {
  test.each(pages)("%s is as it is made", (file, made) => {
    expect(text(file)).toBe(pageText(text(file), made));
  });

  test("the language page has every statement word", () => {
    const page = text("grammar/LANGUAGE.md");
    const words = [...blockRules.values()].flatMap(({ statements }) => statements.map(({ word }) => word));
    expect(words.filter((word) => !page.includes(`| \`${word}\` |`))).toEqual([]);
  });

  test("the findings page has every finding and every limit", () => {
    const page = text("server/findings/FINDINGS.md");
    expect(rules.filter(({ slug, title }) => !page.includes(`### ${title}\n\n\`${slug}\``))).toEqual([]);
    expect(limitTable.filter(({ name }) => !page.includes(`| \`${name}\` |`))).toEqual([]);
  });
});
