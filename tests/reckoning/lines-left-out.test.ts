/**
 * Every number of some plans in words, and what becomes of the numbers when one line after the other is left out of the plan or its
 * catalogue, written down in files a reader can follow. What has been told in other numbers is not told again.
 */
import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { describe, expect, test } from "vitest";
import { understood } from "../../server/answers/understood.ts";
import { answerText } from "../../server/answers/wording.ts";
import { libraryOfTexts } from "../../server/meaning/library.ts";
import type { Reckoning } from "../../server/reckoning/reckoning.ts";
import { keeps, shapeOf, withoutEachLine } from "../told-text.ts";

const samples = join(import.meta.dirname, "../../samples");
const plans = [
  "simple-shaft",
  "planned-dynamisation",
  "proximal-third",
  "oblique-backslap",
  "femoral-shaft",
  "humeral-shaft",
];

const kept = (file: string): string => join(import.meta.dirname, `lines-left-out/${file}.txt`);

/** The texts of a plan and of what it reads, by path from the samples. */
type Texts = ReadonlyMap<string, string>;

function textsOf(plan: string): Texts {
  const path = `plans/${plan}.isthmus`;
  const text = readFileSync(join(samples, path), "utf8");
  const read = [...text.matchAll(/^ {2}(?:use|follow) "([^"]+)"/gm)].map(([, named = ""]) => join("plans", named));
  return new Map([[path, text], ...read.map((each) => [each, readFileSync(join(samples, each), "utf8")] as const)]);
}

function reckoned(texts: Texts): readonly Reckoning[] {
  const [[path = "", text = ""] = []] = texts;
  const library = libraryOfTexts((from, named) => {
    const file = join(dirname(from), named);
    const found = texts.get(file);
    return found === undefined
      ? { kind: "missing", because: "there is no such file" }
      : { kind: "read", file, text: found };
  });
  return understood(path, text, library).reckonings?.list ?? [];
}

function told(reckoning: Reckoning): string {
  const { id, label, formula, filled, remark } = reckoning;
  const noted = remark === undefined ? "" : ` (${remark})`;
  return `${id}, ${label}: ${answerText(reckoning)}${noted}; ${formula} = ${filled}`;
}

/** Each statement's line, and the two landmarks the length hangs on together. */
function leavingOut(text: string): readonly (readonly [said: string, text: string])[] {
  const lines = text.split("\n");
  const each = withoutEachLine(text);
  const ends = lines.filter((line) => !/^\s+landmark (?:scar|plafond|joint)\b/.test(line));
  return ends.length < lines.length - 1 ? [...each, ["both ends of the bone", ends.join("\n")]] : each;
}

describe.each(plans)("%s", (plan) => {
  test("every number", async () => {
    const whole = reckoned(textsOf(plan)).map(told);
    expect(whole.length).toBeGreaterThan(30);
    await keeps([`${whole.join("\n")}\n`], kept(plan));
  });
});

describe.each(plans)("%s without one line after the other", (plan) => {
  test("what becomes of the numbers", async () => {
    await keeps(leftOf(textsOf(plan)), kept(`${plan}-without`));
  });
});

function* leftOf(texts: Texts): Generator<string> {
  const whole = reckoned(texts).map(told);
  const seen = new Set(whole.map(shapeOf));
  for (const [path, text] of texts)
    for (const [said, less] of leavingOut(text)) {
      const without = reckoned(new Map([...texts, [path, less]]));
      const ids = new Set(without.map(({ id }) => id));
      const gone = whole.map((line) => line.slice(0, line.indexOf(","))).filter((id) => !ids.has(id));
      const other = without.map(told).filter((line) => {
        const isNew = !seen.has(shapeOf(line));
        seen.add(shapeOf(line));
        return isNew;
      });
      const rows = [...(gone.length === 0 ? [] : [`gone: ${gone.join(", ")}`]), ...other];
      if (rows.length > 0) yield `${path} without \`${said}\`\n${rows.map((row) => `  ${row}\n`).join("")}`;
    }
}
