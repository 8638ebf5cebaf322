/** Citations and questions for learners. */
import { describe, expect, test } from "vitest";
import { changed, findingsOf, fixed, marked, outcomeOf } from "./judged.ts";

type Change = readonly [from: string, to: string];

const sources: Change = ["  status for-review\n", '  sources "references.bib"\n  status for-review\n'];

function note(text: string): Change {
  return ["    ## Chatter starts at the isthmus", `    ## ${text}\n    ## Chatter starts at the isthmus`];
}

function asked(...answers: readonly string[]): Change {
  return [
    "  aftercare {\n",
    `  ask "Which?" {\n${answers.map((each) => `    ${each}\n`).join("")}  }\n\n  aftercare {\n`,
  ];
}

describe("citations", () => {
  test("of a source that is there are not told", () => {
    const analysis = changed(sources, note("Heat [@leunig1996]."));
    expect(outcomeOf(analysis, "citation-unknown")).toBe("clear");
    expect(outcomeOf(analysis, "citation-unused")).toBe("clear");
  });

  test("of one that is not are told at the key, with the nearest", () => {
    const analysis = changed(sources, note("Heat [@leunig1996; @leunig1995]."));
    const found = findingsOf(analysis, "citation-unknown");
    expect(found.map(({ message }) => message)).toEqual(['No bibliography of the plan has "leunig1995".']);
    expect(marked(analysis, found[0])).toBe("@leunig1995");
    expect(fixed(analysis, found[0])).toContain("[@leunig1996; @leunig1996]");
  });

  test.each(["__proto__", "constructor"])("of %s are told like any other", (key) => {
    expect(findingsOf(changed(sources, note(`[@${key}]`)), "citation-unknown")).toHaveLength(1);
  });

  test("without a bibliography say so", () => {
    const [finding] = findingsOf(changed(note("Heat [@leunig1996].")), "citation-unknown");
    expect(finding?.message).toBe('"leunig1996" is cited, and the plan names no sources.');
  });

  test("with a bibliography that is missing leave it at that, and everything else is judged", () => {
    const gone: Change = [sources[0], sources[1].replace("references", "gone")];
    const analysis = changed(gone, note("Heat [@leunig1996]."));
    expect(findingsOf(analysis, "citation-unknown")).toEqual([]);
    expect(outcomeOf(analysis, "citation-unknown")).toBe("cannot tell");
    expect(findingsOf(analysis, "file-missing").map(({ grade, message }) => [grade, message])).toEqual([
      ["warning", '"gone.bib" cannot be read as a bibliography.'],
    ]);
    expect(outcomeOf(analysis, "implausible")).toBe("clear");
  });

  test("never made are told together at the line that reads them", () => {
    const more = "}\n@misc{two,}\n@misc{three,}\n@misc{four,}\n@misc{five,}\n";
    const analysis = changed(sources, ["  volume = {78},\n}\n", `  volume = {78},\n${more}`]);
    const [finding] = findingsOf(analysis, "citation-unused");
    expect(finding?.message).toBe('Never cited of "references.bib": "leunig1996", "two", "three" and 2 others.');
    expect(finding?.grade).toBe("information");
    expect(marked(analysis, finding)).toBe('"references.bib"');
  });
});

describe("questions", () => {
  test.each<[string, readonly string[], readonly string[]]>([
    ["with a right answer", ['answer "A", right, because "x"', 'answer "B", because "y"'], []],
    ["without an answer", [], ["This question has no answer."]],
    ["without a right one", ['answer "A", because "x"'], ["None of this question's answers is marked as right."]],
  ])("%s", (_, answers, messages) => {
    const found = findingsOf(changed(asked(...answers)), "question-unanswered");
    expect(found.map(({ message }) => message)).toEqual(messages);
  });

  test("have a reason for each answer", () => {
    const analysis = changed(asked('answer "A", right', 'answer "B", because " "', 'answer "C", because "y"'));
    const found = findingsOf(analysis, "question-without-reason");
    expect(found.map(({ message }) => message)).toEqual([
      'The answer "A" has no reason.',
      'The answer "B" has no reason.',
    ]);
    expect(found.map((finding) => marked(analysis, finding))).toEqual(['"A"', '"B"']);
  });

  test("are told in whichever block they stand", () => {
    const inside: Change = ["    wire ball-tip\n", '    ask "Why a ball?" {\n    }\n    wire ball-tip\n'];
    expect(findingsOf(changed(inside), "question-unanswered")).toHaveLength(1);
  });
});
