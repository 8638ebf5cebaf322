/** Documents made for reading: as printed, only comments are added; expanded, no number and no finding changes. */
import { readdirSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { parse } from "../../grammar/parse.ts";
import { lex } from "../../grammar/tokens.ts";
import type { Analysis } from "../../server/answers/analyse.ts";
import { caution } from "../../server/answers/caution.ts";
import { expanded } from "../../server/answers/expanded.ts";
import { printed } from "../../server/answers/printed.ts";
import { differences } from "../../server/answers/what-if.ts";
import { limitTable } from "../../server/findings/limit-table.ts";
import { analyseText, sampleText, sampleWith } from "../check.ts";

const samples = readdirSync(new URL("../../samples/plans", import.meta.url))
  .filter((name) => name.endsWith(".isthmus"))
  .map((name) => `plans/${name}`);
const path = "plans/simple-shaft.isthmus";

function sample(name: string): Analysis {
  return analyseText(sampleText(name), name.slice("plans/".length));
}

/** What a text says, without its comments and its layout. */
function said(text: string): readonly string[] {
  return lex(text)
    .filter(({ kind }) => !["comment", "line-end", "newline"].includes(kind))
    .map(({ span }) => text.slice(span.start, span.end))
    .filter((token) => token.trim() !== "");
}

function commentsOf(text: string): readonly string[] {
  return text.split("\n").filter((line) => line.trimStart().startsWith("# "));
}

describe("as printed", () => {
  test.each(samples)("%s says the same, with comments", (name) => {
    const analysis = sample(name);
    const made = printed(analysis, "plan.isthmus");
    expect(said(made)).toEqual(said(analysis.text));
    expect(parse(made).problems.length).toBe(analysis.parsed.problems.length);
    expect(made.replace(/\n# /g, " ")).toContain(caution);
    for (const { slug, message } of analysis.judgement.findings) {
      expect(made).toContain(`${slug}: ${message}`);
    }
    const ids = analysis.reckonings?.list.map(({ id }) => id) ?? [];
    expect(commentsOf(made).filter((line) => ids.some((id) => line.startsWith(`# ${id} `)))).toHaveLength(ids.length);
  });

  test("the number stands behind its line, the finding under it", () => {
    const text = sampleWith(path, ["ream 8.5 mm to 11 mm by 0.5 mm", "ream 8.5 mm to 12.5 mm by 0.5 mm"]);
    const lines = printed(analyseText(text), "plan.isthmus").split("\n");
    const at = lines.findIndex((line) => line.includes("ream 8.5"));
    expect(lines[at]).toBe("    ream 8.5 mm to 12.5 mm by 0.5 mm  # → 2.5 mm over the nail");
    expect(lines[at + 1]).toMatch(/^ {4}# \w+ reaming-\w+/);
  });

  test("nothing is put into a text over several lines", () => {
    const text = sampleWith(path, [
      'summary "Reamed locked nail with two turns of compression across a narrow gap."',
      'summery """\n    Reamed\n    nail\n    """',
    ]);
    const analysis = analyseText(text);
    expect(analysis.judgement.findings.map(({ slug }) => slug)).toContain("unknown-word");
    const made = printed(analysis, "plan.isthmus");
    expect(said(made)).toEqual(said(text));
    const lines = made.split("\n");
    expect(lines[lines.indexOf('    """') + 1]).toContain("# error unknown-word");
  });

  test("what a text says cannot end a comment", () => {
    const text = sampleWith(path, ["nail tarnbeck,", "nail tarn\u2028beck,"]);
    expect(said(printed(analyseText(text), "a\nname.isthmus"))).toEqual(said(text));
  });

  test("the line ends are those of the text", () => {
    const text = sampleText(path).replaceAll("\n", "\r\n");
    expect(printed(analyseText(text), "plan.isthmus").replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
  });
});

describe("expanded", () => {
  test.each(samples)("%s keeps every number and finding", (name) => {
    const analysis = sample(name);
    const made = expanded(analysis, "plan.isthmus");
    const { changed, come, gone } = differences(analysis, analyseText(made, name.slice("plans/".length)));
    expect({ changed, come, gone }).toEqual({ changed: [], come: [], gone: [] });
    expect(said(made).join(" ")).not.toMatch(/\bream [^,]* to /);
  });

  test("names are put back, heads written out, the catalogue's lines and all limits stand below", () => {
    const text = sampleWith(
      path,
      ["    landmark scar 395 mm ± 2 mm on ap", "    let read = 395 mm ± 2 mm on ap\n    landmark scar read"],
      ["nail tarnbeck, diameter 10 mm", "nail tarnbeck, diameter thick"],
      ["    wire ball-tip", "    let thick = 10 mm\n    wire ball-tip"],
    );
    const made = expanded(analyseText(text), "plan.isthmus");
    expect(made).toContain("    landmark scar 395 mm ± 2 mm on ap\n");
    expect(made).toContain("nail tarnbeck, diameter 10 mm,");
    expect(made).toContain("ream 8.5 mm, 9 mm, 9.5 mm, 10 mm, 10.5 mm, 11 mm\n");
    expect(made).not.toMatch(/^\s*let /m);
    expect(made).toMatch(/# From tarnbeck\.isthmus, line \d+:\n# nail tarnbeck \{/);
    for (const { name } of limitTable) expect(made).toContain(`# ${name}: `);
    expect(made).toMatch(/# sagittal: .*ellerby\.isthmus, line \d+/);
  });

  test("a catalogue is given as it is", () => {
    const text = sampleText("catalogue/tarnbeck.isthmus");
    expect(said(expanded(analyseText(text), "tarnbeck.isthmus"))).toEqual(said(text));
  });
});
