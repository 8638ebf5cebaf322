/** The reference pages say what the tool does: they are as `npm run reference` makes them, and name every word there is. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { pagePath, pages, pageText } from "../../.build/make-reference.ts";
import { blockRules } from "../../grammar/vocabulary/blocks.ts";
import { rules } from "../../server/findings/all.ts";
import { limitTable } from "../../server/findings/limit-table.ts";
import { reckon } from "../../server/reckoning/reckon.ts";
import { planFrom } from "../reckoning/plan-by-hand.ts";
import { numbers } from "../reckoning/random-numbers.ts";

/** An id without the name of the hole, landmark, view or screw it is about. */
const kindOf = (id: string): string => id.replace(/^(hole|screw|level|magnification|block)\.[^.]+/, "$1");

const text = (file: string): string => readFileSync(pagePath(file), "utf8");

describe("the reference", () => {
  test.each(pages)("%s is as it is made", (file, made) => {
    expect(text(file)).toBe(pageText(text(file), made));
  });

  test("the page of reckonings has every kind that random plans have", () => {
    const page = text("server/reckoning/RECKONINGS.md");
    const kinds = fc.sample(numbers, 200).flatMap((given) => [...reckon(planFrom(given)).byId.keys()].map(kindOf));
    const told = new Set([...page.matchAll(/^## `([^`]+)`/gm)].map(([, id = ""]) => kindOf(id)));
    expect(new Set(kinds).size).toBeGreaterThan(50);
    expect([...new Set(kinds)].filter((kind) => !told.has(kind))).toEqual([]);
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
