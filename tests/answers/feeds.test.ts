/** What feeds a number and what it feeds: the links between lines, reckonings and findings, each held from both sides. */
import { describe, expect, test } from "vitest";
import { fedBy, feedNodesAt, feeds } from "../../server/answers/feeds.ts";
import { analyseText, cursorIn, sampleText, sampleWith } from "../check.ts";
import { marked } from "./editor-checks.ts";

const path = "plans/simple-shaft.isthmus";

function nodes(source: string) {
  const { analysis, cursor } = marked(source);
  return { analysis, found: feedNodesAt(analysis, cursor) };
}

describe("at a line", () => {
  test("stand the numbers it decides, and the line itself", () => {
    const { found } = nodes(cursorIn("la$0ndmark scar 395 mm ± 2 mm on ap"));
    expect(found.map(({ key }) => key.split(":")[0])).toEqual(["reckoning", "line"]);
    expect(found[0]?.detail).toBe("352.7 mm ± 2.6 mm");
    expect(found[1]?.name).toBe("landmark scar 395 mm ± 2 mm on ap");
  });

  test.each([cursorIn("  opera$0tion {"), cursorIn("## The far e$0nd first")])(
    "none at a block or a note",
    (source) => {
      expect(nodes(source).found).toEqual([]);
    },
  );
});

describe("links", () => {
  test("a reckoning is fed by the lines it came from, and a line by the names it says", () => {
    const { analysis, found } = nodes(cursorIn("la$0ndmark scar 395 mm ± 2 mm on ap"));
    const [number, line] = found;
    expect(fedBy(analysis, number?.key ?? "").map(({ node }) => node.name)).toContain(
      "landmark scar 395 mm ± 2 mm on ap",
    );
    const named = fedBy(analysis, line?.key ?? "");
    expect(named.map(({ node }) => node.name)).toEqual(["view ap, marker 25 mm, seen 28 mm ± 0.15 mm"]);
    expect(analysis.text.slice(named[0]?.spans[0]?.start, named[0]?.spans[0]?.end)).toBe("ap");
  });

  test("a line feeds the reckonings made of it, a reckoning the findings that judge it", () => {
    const text = sampleWith(path, ["ream 8.5 mm to 11 mm", "re$0am 8.5 mm to 13 mm"]);
    const { analysis, found } = nodes(text);
    const over = feeds(analysis, "reckoning:ream.over");
    expect(over.map(({ node }) => node.name)).toContain("reaming-overshoot");
    const line = found.at(-1)?.key ?? "";
    expect(feeds(analysis, line).map(({ node }) => node.key)).toContain("reckoning:ream.over");
    const [finding] = over;
    expect(fedBy(analysis, finding?.node.key ?? "").map(({ node }) => node.key)).toContain("reckoning:ream.over");
  });

  test("whatever feeds a number is fed back to it", () => {
    const analysis = analyseText(sampleText(path));
    let links = 0;
    for (const { id } of analysis.reckonings?.list ?? []) {
      for (const { node } of fedBy(analysis, `reckoning:${id}`)) {
        links += 1;
        expect(feeds(analysis, node.key).map((feed) => feed.node.key)).toContain(`reckoning:${id}`);
      }
    }
    expect(links).toBeGreaterThan(100);
  });

  test.each(["", "line:", "line:1e9", "reckoning:none", "finding:-1", "finding:constructor", "__proto__"])(
    "%j is no node",
    (key) => {
      const analysis = analyseText(sampleText(path));
      expect([...fedBy(analysis, key), ...feeds(analysis, key)]).toEqual([]);
    },
  );
});
