/** Names: every place that says one, over a text and over the samples, what lights up, what is typed together, and renaming. */
import { describe, expect, test } from "vitest";
import { factsOf } from "../../server/answers/facts.ts";
import { highlightsAt, linkedAt } from "../../server/answers/highlights.ts";
import { mentionsOf, nameAt } from "../../server/answers/names.ts";
import { renamableAt, renamed } from "../../server/answers/rename.ts";
import { applied, cursorIn, sampleText, sampleWith } from "../check.ts";
import { bracketed, changes, marked, sampleFacts } from "./editor-checks.ts";

const plan = "plans/simple-shaft.isthmus";
const catalogue = "catalogue/tarnbeck.isthmus";
const head = "  status for-review\n";
const named = (line: string, typed: string): string =>
  sampleWith(plan, [head, `${head}  let deep = 9 mm\n`], ["sunk 9 mm", "sunk deep"], [line, typed]);

function places(source: string, name?: string): string[] {
  const { analysis, cursor } = marked(source, name);
  const found = nameAt(analysis, cursor);
  if (found === undefined) return [];
  const files = [
    factsOf(analysis),
    ...sampleFacts(catalogue, "plans/typical-mistakes.isthmus", "protocol/ellerby.isthmus"),
  ];
  const mentions = mentionsOf(found, files, analysis.file);
  return mentions.map(({ place, declares }) => {
    const { text } = files.find(({ file }) => file === place.file) ?? { text: "" };
    const file = place.file.replace(/^.*\//, "");
    return `${file}${declares ? " gives" : ""}: ${bracketed(text, [place.span])[0]}`;
  });
}

describe("places that say a name", () => {
  test("a value has its line and its uses, in this text alone", () => {
    const found = ["checked.isthmus gives: let [deep] = 9 mm"];
    const nail = "checked.isthmus: nail tarnbeck, diameter 10 mm, length 330 mm, sunk [deep]";
    expect(places(named("cap 5 mm\n", "cap 5 mm\n").replace("let deep", "let de$0ep"))).toEqual([...found, nail]);
    expect(places(named("sunk deep", "sunk de$0ep".replace("$0", "$0")))).toEqual([...found, nail]);
  });

  test("a hole is said in the catalogue and in every plan that locks or frees it", () => {
    const found = places(cursorIn("lock D$02, drilled 32 mm"));
    expect(found).toContain("tarnbeck.isthmus gives: hole [D2], tip 24 mm, runs medial-lateral, takes dowel");
    expect(found).toContain("checked.isthmus: lock [D2], drilled 32 mm, screw 34 mm");
    expect(found).toContain("checked.isthmus: take D1, [D2], P1");
    expect(found.some((line) => line.startsWith("typical-mistakes.isthmus: lock [D2]"))).toBe(true);
    expect(new Set(found).size).toBe(found.length);
  });

  test("a view is said by every reading on it", () => {
    const found = places(cursorIn("view a$0p, marker 25 mm"));
    expect(found).toContain("checked.isthmus gives: view [ap], marker 25 mm, seen 28 mm ± 0.15 mm");
    expect(found).toHaveLength(1 + (sampleText(plan).match(/ on ap/g)?.length ?? 0));
  });

  test("a key of a bibliography is said by every citation that leads to the same entry", () => {
    const cited = (key: string): string =>
      sampleWith("plans/segmental-open.isthmus", ["[@lack2015]", `[@la$0ck2015; @${key}]`]);
    const name = "segmental-open.isthmus";
    expect(places(cited("lack2015"), name)).toHaveLength(2);
    expect(places(cited("nobody1901"), name)).toEqual([
      `${name}: ## [[@lack2015]; @nobody1901]: it is first in the list.`,
    ]);
    expect(places(cited("nobody1901").replace("$0", "").replace("@nobody", "@no$0body"), name)).toEqual([
      `${name}: ## [@lack2015; [@nobody1901]]: it is first in the list.`,
    ]);
  });

  test("a catalogue is said by the plans that use it", () => {
    const found = places(cursorIn('use "../catalogue/tarn$0beck.isthmus"'));
    expect(found).toContain('checked.isthmus: use ["../catalogue/tarnbeck.isthmus"]');
    expect(found).toContain('tarnbeck.isthmus gives: catalogue ["Tarnbeck, an invented set"] {');
  });

  test("a name that nothing gives is like itself in its own text alone; a plain word is no name", () => {
    expect(places(cursorIn("status for-re$0view"))).toEqual([]);
    const stray = sampleWith(plan, ["lock D2, drilled", "lock Q$07, drilled"], ["take D1, D2, P1", "take D1, Q7, P1"]);
    expect(places(stray)).toEqual([
      "checked.isthmus: lock [Q7], drilled 32 mm, screw 34 mm",
      "checked.isthmus: take D1, [Q7], P1",
    ]);
  });
});

test("what lights up tells the giving place from the uses", () => {
  const { analysis, cursor, text } = marked(named("sunk deep", "sunk de$0ep"));
  const found = highlightsAt(analysis, cursor);
  expect(found.map(({ declares }) => declares)).toEqual([true, false]);
  expect(found.map(({ span }) => text.slice(span.start, span.end))).toEqual(["deep", "deep"]);
});

describe("typed together", () => {
  const linked = (source: string): string[] => {
    const { analysis, cursor, text } = marked(source);
    return bracketed(text, linkedAt(analysis, cursor));
  };
  test("a value of this text", () => {
    expect(linked(named("sunk deep", "sunk de$0ep"))).toEqual([
      "let [deep] = 9 mm",
      "nail tarnbeck, diameter 10 mm, length 330 mm, sunk [deep]",
    ]);
  });
  test.each([
    ["a hole is said elsewhere too", cursorIn("lock D$02, drilled 32 mm")],
    [
      "a landmark that is reckoned with has its meaning from its name",
      sampleWith(plan, ["canal at 320 mm,", "canal at sc$0ar,"]),
    ],
    ["no name", cursorIn("status for-re$0view")],
  ])("%s", (_, source) => expect(linked(source)).toEqual([]));
});

describe("renaming", () => {
  const rename = (source: string, to: string): string[] | string | undefined => {
    const { analysis, cursor, text } = marked(source);
    const result = renamed(analysis, cursor, to, [factsOf(analysis), ...sampleFacts(catalogue)]);
    if (result === undefined) return undefined;
    if ("refused" in result) return result.refused;
    const own = result.edits.filter(({ place }) => place.file === analysis.file);
    const others = result.edits.filter(({ place }) => place.file !== analysis.file);
    const lines = changes(
      text,
      own.map(({ place, text: put }) => ({ span: place.span, text: put })),
    );
    return [...lines, ...others.map(({ place, text: put }) => `${place.file.replace(/^.*\//, "")} ${put}`)];
  };

  test("a value at its line and its uses", () => {
    expect(rename(named("sunk deep", "sunk de$0ep"), "depth")).toEqual([
      "- let deep = 9 mm",
      "- nail tarnbeck, diameter 10 mm, length 330 mm, sunk deep",
      "+ let depth = 9 mm",
      "+ nail tarnbeck, diameter 10 mm, length 330 mm, sunk depth",
    ]);
  });

  test("a view with every reading on it", () => {
    const lines = rename(cursorIn("view a$0p, marker 25 mm"), "frontal");
    expect(lines).toContain("+ view frontal, marker 25 mm, seen 28 mm ± 0.15 mm");
    expect(lines).toContain("+ landmark scar 395 mm ± 2 mm on frontal");
    expect(String(lines)).not.toContain("+ check frontal");
  });

  test("a hole in the catalogue and in the plan", () => {
    const lines = rename(cursorIn("lock D$02, drilled 32 mm"), "D9");
    expect(lines).toContain("+ lock D9, drilled 32 mm, screw 34 mm");
    expect(lines).toContain("+ take D1, D9, P1");
    expect(lines).toContain("tarnbeck.isthmus D9");
  });

  test("the case's label", () => {
    expect(rename(cursorIn("case HB-$02201 {"), "HB-1")).toEqual(["- case HB-2201 {", "+ case HB-1 {"]);
  });

  test.each([
    ["deep", "8deep", "is no name"],
    ["deep", "a b", "is no name"],
    ["deep", "mm", "is no name"],
    ["deep", "to", "is no name"],
    ["deep", "max", "is no name"],
    ["deep", "", "is no name"],
    ["deep", "scar", "is taken"],
  ])("%s → %s is refused", (_, to, because) => {
    expect(rename(named("sunk deep", "sunk de$0ep"), to)).toContain(because);
  });

  test("a hole's new name may not be another hole's", () => {
    expect(rename(cursorIn("lock D$02, drilled 32 mm"), "D1")).toContain("`D1` is taken");
  });

  test("what is reckoned with under its name stays, and what nothing gives", () => {
    expect(rename(cursorIn("landmark sc$0ar 395 mm"), "far")).toContain("reckoned with");
    expect(rename(sampleWith(plan, ["canal at 320 mm,", "canal at jo$0int,"]), "far")).toContain("reckoned with");
    expect(rename(sampleWith(plan, ["lock D2, drilled", "lock Q$07, drilled"]), "D4")).toContain("given by no file");
    expect(rename(cursorIn("status for-re$0view"), "draft")).toBeUndefined();
  });

  test("the same name again changes nothing", () => {
    expect(rename(named("sunk deep", "sunk de$0ep"), "deep")).toEqual([]);
  });

  test("what may be renamed is the name alone", () => {
    const { analysis, cursor, text } = marked(named("sunk deep", "sunk de$0ep"));
    const found = renamableAt(analysis, cursor);
    expect(found).toMatchObject({ name: "deep", shared: false });
    if (found === undefined || "refused" in found) throw new Error("nothing to rename");
    expect(text.slice(found.span.start, found.span.end)).toBe("deep");
    expect(applied(text, [{ span: found.span, text: "" }])).toContain("sunk \n");
  });
});
