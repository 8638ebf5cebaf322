/**
 * Joins operands and the operators between them into one expression: `*` and `/` before `+` and `-`, each from the left.
 */
import type { Binary, Expression } from "./tree.ts";

export type Operator = Binary["operator"];

/** `operators` has one member fewer than `operands`, which has at least one. */
export function joined(operands: readonly Expression[], operators: readonly Operator[]): Expression {
  const terms: Expression[] = [];
  const signs: Operator[] = [];
  operands.forEach((operand, index) => {
    const operator = operators[index - 1];
    const left = terms.at(-1);
    if (left !== undefined && (operator === "*" || operator === "/")) {
      terms[terms.length - 1] = binary(operator, left, operand);
      return;
    }
    terms.push(operand);
    if (operator !== undefined) signs.push(operator);
  });
  return terms.reduce((left, right, index) => binary(signs[index - 1] ?? "+", left, right));
}

function binary(operator: Operator, left: Expression, right: Expression): Binary {
  return { kind: "binary", operator, left, right, span: { start: left.span.start, end: right.span.end } };
}
