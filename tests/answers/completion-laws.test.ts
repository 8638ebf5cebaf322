/**
 * What is offered may be taken: at every statement and at every word of every sample each offer is accepted, and the shape of the
 * language has nothing against it there. What an unfinished line still lacks is another matter.
 */
import { describe, expect, test } from "vitest";
import { type LexToken, lex } from "../../grammar/tokens.ts";
import { offersAt } from "../../server/answers/completion.ts";
import { analyseText, applied, complaintsIn, sampleText, snippetAsWritten } from "../check.ts";
import { samplePaths } from "./mutations.ts";

describe.each(samplePaths)("%s", (path) => {
  const text = sampleText(path);

  test("an offered statement may stand there, as a word and with its places unfilled", () => {
    let accepted = 0;
    for (const start of lineStarts(text)) {
      const opened = `${text.slice(0, start)}\n${text.slice(start)}`;
      for (const { text: word, snippet, kind, span } of offersAt(analyseText(opened, `../${path}`), start)) {
        for (const written of [word, snippetAsWritten(snippet ?? word)]) {
          const taken = applied(opened, [{ span, text: written }]);
          const complaints = complaintsIn(taken, { start: span.start, end: span.start + word.length });
          expect({ written, kind, complaints }).toEqual({ written, kind: "statement", complaints: [] });
          accepted += 1;
        }
      }
    }
    expect(accepted).toBeGreaterThan(20);
  });

  test("an offer inside a line may stand there", () => {
    const tokens = lex(text);
    let accepted = 0;
    for (const [index, token] of tokens.entries()) {
      if (index % 3 !== 0 || isFirst(tokens, index) || !isPlace(token)) continue;
      // A unit changes nothing behind it; before another word the rest of the phrase would be nonsense.
      const end = token.kind === "unit" ? token.span.end : endOfPhrase(tokens, index);
      const cut = text.slice(0, token.span.start) + text.slice(end);
      for (const offer of offersAt(analyseText(cut, `../${path}`), token.span.start)) {
        const { start } = offer.span;
        // A range is one thing, so its other end has to stand there before anything can be said of the first.
        const before = cut.slice(cut.lastIndexOf("\n", start - 1) + 1, start);
        const otherEnd = /, from [^,]*$/.test(before) && !before.includes(" to ") ? " to 900 mm" : "";
        const taken = applied(cut, [{ span: offer.span, text: `${offer.text}${otherEnd}` }]);
        const complaints = complaintsIn(taken, { start, end: start + offer.text.length });
        const line = taken.slice(taken.lastIndexOf("\n", start - 1) + 1, start + offer.text.length);
        expect({ line, complaints }).toEqual({ line, complaints: [] });
        accepted += 1;
      }
    }
    expect(accepted).toBeGreaterThan(5);
  });
});

/** Where each statement and brace of a block begins a line, and the end of the text. A line after a comma goes on with its statement. */
function lineStarts(text: string): number[] {
  const starts = [...text.matchAll(/(?<!,\n)^[^\S\n]*(?=[a-z}])/gm)].map(({ index }) => index);
  return [...starts.filter((_, at) => at % 2 === 0), text.length];
}

function isFirst(tokens: readonly LexToken[], index: number): boolean {
  return tokens[index - 1]?.kind === "newline" && tokens[index - 2]?.text !== ",";
}

function isPlace({ kind }: LexToken): boolean {
  return kind === "word" || kind === "unit" || kind === "code" || kind === "number";
}

/** The end of the phrase that a token stands in: the next comma, brace or line end. */
function endOfPhrase(tokens: readonly LexToken[], index: number): number {
  const next = tokens.slice(index).find(({ kind, text }) => kind === "newline" || text === "," || text === "{");
  return next?.span.start ?? tokens.at(-1)?.span.end ?? 0;
}
