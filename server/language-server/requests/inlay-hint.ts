/** `textDocument/inlayHint` and `inlayHint/resolve`: where a part of a hint leads is told when it is asked for. */
import type { InlayHint } from "vscode-languageserver";
import { type Hint, hintsIn } from "../../answers/hints.ts";
import type { Place } from "../../meaning/plan.ts";
import { analysed, type Context } from "../context.ts";
import { locator } from "../places.ts";
import { toProtocol, toSpan } from "../positions.ts";

interface PartData {
  readonly tooltip: string;
  readonly from: Place | undefined;
}

export function inlayHintRequest(context: Context): void {
  const { inlayHint } = context.connection.languages;
  inlayHint.on(async ({ textDocument, range }) => {
    const wanted = await context.settings.hints(textDocument.uri);
    const here = analysed(context, textDocument.uri);
    if (here === undefined) return null;
    const { encoding } = context.client;
    const { lines } = here.document;
    return hintsIn(here.analysis, toSpan(lines, range, encoding), wanted).map((hint) => ({
      position: toProtocol(lines, hint.offset, encoding),
      ...shown(context, hint),
      paddingLeft: true,
    }));
  });

  inlayHint.resolve((hint) => {
    const parts = (hint.data ?? []) as readonly PartData[];
    const { label } = hint;
    if (typeof label === "string" || parts.length === 0) return hint;
    const locate = locator(context, (file) => context.workspace.text(file));
    return {
      ...hint,
      // Between two numbers stands a comma, which leads nowhere.
      label: label.map((part, index) => {
        const data = index % 2 === 0 ? parts[index / 2] : undefined;
        if (data === undefined) return part;
        return { ...part, tooltip: data.tooltip, ...(data.from === undefined ? {} : { location: locate(data.from) }) };
      }),
    };
  });
}

function shown({ client }: Context, { label, tooltip, parts }: Hint): Pick<InlayHint, "label" | "tooltip" | "data"> {
  if (!client.resolvesHintParts) return { label, tooltip };
  const data: readonly PartData[] = parts.map((part) => ({ tooltip: part.tooltip, from: part.from }));
  return {
    label: parts.flatMap(({ words }, index) => [...(index === 0 ? [] : [{ value: ", " }]), { value: words }]),
    data,
  };
}
