/**
 * Plans of any length for measuring: the sample plan of a simple shaft fracture, grown with notes, values, readings, steps and
 * questions in a fixed mix. Everything in them is invented; the same length and variant always give the same text.
 */
import { cpSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

export const samplesFolder = fileURLToPath(new URL("../../samples/", import.meta.url));

const base = readFileSync(`${samplesFolder}plans/simple-shaft.isthmus`, "utf8").trimEnd().split("\n");

/** Lines that one unit of growth adds, in the blocks they are written to. */
interface Growth {
  readonly measures: string[];
  readonly operation: string[];
  readonly questions: string[];
}

/** A plan of `lines` lines (at least the sample's 74), closed with comments to the exact number. `variant` moves the readings. */
export function grownPlan(lines: number, variant = 0): string {
  const spare = lines - base.length;
  const units = Math.max(0, Math.floor(spare / linesOfUnit));
  const growth: Growth = { measures: [], operation: [], questions: [] };
  for (let unit = 0; unit < units; unit++) grow(growth, unit, units, variant);
  const last = base.length - 1; // The brace that closes the plan.
  const measuresEnd = blockEnd("measures");
  const operationEnd = blockEnd("operation");
  const grown = [
    ...base.slice(0, measuresEnd).map((line) => varied(line, variant)),
    ...growth.measures,
    // Steps stand before the first of the sample's, where they change the order of nothing.
    ...base.slice(measuresEnd, operationEnd),
    ...growth.operation,
    ...base.slice(operationEnd, last),
    ...growth.questions,
  ];
  for (let line = grown.length; line < lines - 1; line++) grown.push(`  # Invented line ${line + 1} of ${lines}.`);
  return `${[...grown, "}"].join("\n")}\n`;
}

/** Writes a library into `folder`: the sample catalogue and protocol, and `count` plans of which no two are the same. */
export function writeManyPlans(
  folder: string,
  count: number,
  lines: number,
): readonly { readonly file: string; readonly text: string }[] {
  for (const name of ["catalogue", "protocol", "isthmus.json"])
    cpSync(join(samplesFolder, name), join(folder, name), { recursive: true });
  mkdirSync(join(folder, "plans"), { recursive: true });
  return Array.from({ length: count }, (_, index) => {
    const file = join(folder, "plans", `plan-${String(index).padStart(5, "0")}.isthmus`);
    const text = grownPlan(lines, index + 1);
    writeFileSync(file, text);
    return { file, text };
  });
}

const linesOfUnit = 20;

function grow({ measures, operation, questions }: Growth, unit: number, units: number, variant: number): void {
  const share = (unit + 0.5) / units;
  // A third of the way between the sample's readings, so that no level is read twice.
  const level = 62 + share * 256 + (variant % 7) * 0.01;
  measures.push(
    "    ## Invented: read again by a second observer.",
    `    let offset-${unit} = plafond - ${decimal(45 + share * 60)} mm`,
    `    landmark mark-${unit} offset-${unit} - ${decimal(1 + share)} mm`,
    `    canal at ${decimal(level)} mm, width ${decimal(canalWidth(level))} mm ± 0.3 mm on ap, depth ${decimal(canalWidth(level))} mm ± 0.3 mm on lateral`,
    `    bone at ${decimal(level)} mm, width ${decimal(boneWidth(level))} mm on ap, depth ${decimal(boneWidth(level) + 2)} mm on lateral`,
  );
  for (let step = 0; step < 4; step++) {
    operation.push(
      `    ## Invented remark ${unit}.${step}: the view is kept until the next step is done.`,
      `    step "Look at the plan again, line ${unit}.${step}, and say aloud what comes next."`,
    );
  }
  questions.push(
    "",
    `  ask "What does reading ${unit} settle?" {`,
    `    answer "The width at mark ${unit}", right,`,
    '        because "It is read there and nowhere else."',
    '    answer "Nothing",',
    '        because "Every reading narrows an interval."',
    "  }",
  );
}

/** In mm, between the sample's own readings at 60, 200 and 320 mm. */
function canalWidth(level: number): number {
  return level < 200 ? 26 - ((level - 60) * 14) / 140 : 12 + ((level - 200) * 11) / 120;
}

function boneWidth(level: number): number {
  return level < 200 ? 58 - ((level - 40) * 32) / 160 : 26 + ((level - 200) * 10) / 120;
}

/** The readings of the sample shifted by hundredths, so that no two of many files are the same. */
function varied(line: string, variant: number): string {
  return variant === 0 ? line : line.replace("weight 74 kg", `weight ${decimal(60 + (variant % 4000) / 100)} kg`);
}

function decimal(value: number): string {
  return value.toFixed(2);
}

function blockEnd(name: string): number {
  const start = base.indexOf(`  ${name} {`);
  return base.indexOf("  }", start);
}
