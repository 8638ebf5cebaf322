/**
 * The functions that may be called in an expression: names, what they take, what they give. They are worked out elsewhere.
 */

export interface Parameter {
  readonly name: string;
  readonly doc: string;
}

export interface FunctionRule {
  readonly word: string;
  /** As shown while typing: `round-down(value, step)`. */
  readonly signature: string;
  readonly doc: string;
  readonly parameters: readonly Parameter[];
  /** True when the last parameter may be given any number of times. */
  readonly goesOn: boolean;
  readonly example: string;
}

const value: Parameter = { name: "value", doc: "Any value." };
const values: Parameter = { name: "values", doc: "Values of one dimension." };
const angle: Parameter = { name: "angle", doc: "An angle with its unit." };
const step: Parameter = { name: "step", doc: "The step, of the same dimension and above zero." };

const rules: readonly FunctionRule[] = [
  list("min", "The smallest of the values.", values, "min(12.4 mm, 12.2 mm)"),
  list("max", "The largest of the values.", values, "max(12.4 mm, 12.2 mm)"),
  list("mean", "The arithmetic mean of the values.", values, "mean(415 mm, 417 mm)"),
  fixed("abs", "The value without its sign.", [value], "abs(scar - plafond)"),
  fixed("sqrt", "The square root; its unit is the root of the value's unit.", [value], "sqrt(9)"),
  list("hypot", "The square root of the sum of squares.", values, "hypot(3 mm, 4 mm)"),
  fixed("sin", "The sine of an angle.", [angle], "sin(30 deg)"),
  fixed("cos", "The cosine of an angle.", [angle], "cos(60 deg)"),
  fixed("tan", "The tangent of an angle.", [angle], "tan(45 deg)"),
  fixed(
    "atan2",
    "The angle whose tangent is the first value over the second, by their signs in the right quadrant.",
    [
      { name: "across", doc: "The side opposite the angle." },
      { name: "along", doc: "The side beside the angle, of the same dimension." },
    ],
    "atan2(8 mm, 100 mm)",
  ),
  fixed("round-up", "The next multiple of the step that is not smaller.", [value, step], "round-up(352 mm, 15 mm)"),
  fixed("round-down", "The next multiple of the step that is not larger.", [value, step], "round-down(352 mm, 15 mm)"),
];

/** Every function by name. */
export const functionWords: ReadonlyMap<string, FunctionRule> = new Map(rules.map((rule) => [rule.word, rule]));

function fixed(word: string, doc: string, parameters: readonly Parameter[], example: string): FunctionRule {
  const signature = `${word}(${parameters.map((parameter) => parameter.name).join(", ")})`;
  return { word, signature, doc, parameters, goesOn: false, example };
}

function list(word: string, doc: string, parameter: Parameter, example: string): FunctionRule {
  return { word, signature: `${word}(${parameter.name}, …)`, doc, parameters: [parameter], goesOn: true, example };
}
