/** The samples, and texts made from them by the mistakes that hands make: what every answer must bear. */
import fc from "fast-check";
import { lex } from "../../grammar/tokens.ts";
import { sampleText } from "../check.ts";
import { variedSamples } from "../varied-samples.ts";

/** Samples by their paths: enough of them that no kind of statement is left out. */
export const samplePaths: readonly string[] = variedSamples;

type Mutation = (text: string, at: number) => string;

/** Takes away, doubles or swaps a token, cuts the text off, or puts something in that nobody expects there. */
const mutations: readonly Mutation[] = [
  (text, at) => withoutToken(text, at),
  (text, at) => {
    const { start, end } = tokenAt(text, at);
    return `${text.slice(0, end)} ${text.slice(start)}`;
  },
  (text, at) => {
    const [one, two] = [tokenAt(text, at), tokenAt(text, at + 1)];
    if (one.end > two.start) return text;
    const between = text.slice(one.end, two.start);
    return (
      text.slice(0, one.start) +
      text.slice(two.start, two.end) +
      between +
      text.slice(one.start, one.end) +
      text.slice(two.end)
    );
  },
  (text, at) => text.slice(0, at),
  (text, at) => text.slice(at),
  ...["🦴", "\r\n", "\r", '"', '"""', "{", "}", "(", ",", "#", "±", "\u202e", "12", " zz ", "\u0000"].map(
    (put): Mutation =>
      (text, at) =>
        text.slice(0, at) + put + text.slice(at),
  ),
  (text) => text.replaceAll("\n", "\r\n"),
  (text) => `\ufeff${text}`,
];

/** A sample's path and its text after one or two mistakes. */
export const mistaken: fc.Arbitrary<{ readonly path: string; readonly text: string }> = fc
  .tuple(
    fc.constantFrom(...samplePaths),
    fc.array(fc.tuple(fc.constantFrom(...mutations), fc.double({ min: 0, max: 1, noNaN: true })), {
      minLength: 1,
      maxLength: 2,
    }),
  )
  .map(([path, steps]) => ({
    path,
    text: steps.reduce((text, [mutate, share]) => mutate(text, Math.floor(share * text.length)), sampleText(path)),
  }));

function tokenAt(text: string, at: number): { readonly start: number; readonly end: number } {
  const token = lex(text).find(({ span }) => span.end > at);
  return token?.span ?? { start: text.length, end: text.length };
}

function withoutToken(text: string, at: number): string {
  const { start, end } = tokenAt(text, at);
  return text.slice(0, start) + text.slice(end);
}
