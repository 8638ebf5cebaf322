/** Rows of work without a server: the full analysis, parsing with the vocabulary alone, and how both grow with the text. */
import { type Name, names } from "./contenders.ts";
import { fasterRow, type Row, withinRow } from "./row.ts";
import { timeTogether } from "./timing.ts";

const short = 300;
const long = 5000;

export async function analysisRows(): Promise<Row[]> {
  const small = await timed(short, 15);
  const large = await timed(long, 5);
  const full = `full analysis, ${short} lines`;
  const alone = (lines: number): string => `parse and vocabulary, ${lines} lines`;
  return [
    fasterRow(full, "yaml-language-server", small("full"), small("yaml service"), 15),
    fasterRow(full, "`yaml` + ajv", small("full"), small("yaml"), 7),
    fasterRow(full, "JSON language service", small("full"), small("json service"), 5),
    withinRow(alone(short), "sticky regular expression", small("alone"), small("sticky"), 5),
    withinRow(alone(long), "sticky regular expression", large("alone"), large("sticky"), 8),
    beside(alone(short), "`JSON.parse`", small("alone"), small("JSON.parse")),
    beside(alone(long), "`JSON.parse`", large("alone"), large("JSON.parse")),
    beside(alone(short), "`JSON.parse` + ajv", small("alone"), small("json")),
    beside(alone(short), "js-yaml + ajv", small("alone"), small("js-yaml")),
    beside(alone(short), "Langium parse", small("alone"), small("langium parse")),
    fasterRow(alone(short), "yaml-language-server", small("alone"), small("yaml service"), 30),
    fasterRow(alone(short), "`yaml` + ajv", small("alone"), small("yaml"), 15),
    fasterRow(alone(short), "Langium build", small("alone"), small("langium build"), 10),
    growthRow("full analysis", small("full"), large("full")),
    growthRow("parse and vocabulary", small("alone"), large("alone")),
  ];
}

/** For a reader to judge the steadiness of the base by; nothing is to be reached. */
function beside(what: string, peer: string, ours: number, theirs: number): Row {
  return { ...withinRow(what, peer, ours, theirs, 1), reach: "–", outcome: "shown beside" };
}

function growthRow(what: string, small: number, large: number): Row {
  const row = withinRow(
    `${what}: time per line, ${short} to ${long} lines`,
    "per line",
    large / long,
    small / short,
    1.5,
  );
  const micro = (value: number): string => `${(1000 * value).toFixed(2)} µs a line`;
  return { ...row, ours: micro(large / long), peer: `at ${short} lines: ${micro(small / short)}` };
}

async function timed(lines: number, rounds: number): Promise<(name: Name) => number> {
  const times = await timeTogether(names, lines, rounds);
  return (name) => {
    const time = times.get(name);
    if (time === undefined) throw new Error(`${name} was not timed`);
    return time;
  };
}
