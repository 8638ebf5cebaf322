/**
 * The call hierarchy read as what feeds a number: what an item "calls" is what it is made of, who "calls" it is what is made of it.
 */
import { type CallHierarchyItem, SymbolKind } from "vscode-languageserver";
import { type Feed, type FeedNode, fedBy, feedNodesAt, feeds } from "../../answers/feeds.ts";
import { analysed, type Context } from "../context.ts";
import { locator } from "../places.ts";
import { fromProtocol, toRange } from "../positions.ts";

const kinds: Readonly<Record<FeedNode["kind"], SymbolKind>> = {
  line: SymbolKind.Property,
  reckoning: SymbolKind.Number,
  finding: SymbolKind.Event,
};

export function callHierarchyRequest(context: Context): void {
  const { callHierarchy } = context.connection.languages;

  callHierarchy.onPrepare(({ textDocument: { uri }, position }) => {
    const here = analysed(context, uri);
    if (here === undefined) return null;
    const nodes = feedNodesAt(here.analysis, fromProtocol(here.document.lines, position, context.client.encoding));
    return nodes.length === 0 ? null : nodes.map(itemOf(context, uri));
  });

  // Spans of what feeds an item stand in the item's own text, spans of what it feeds in the other's: one text here.
  const answer = (
    item: CallHierarchyItem,
    ask: typeof feeds,
  ): { item: CallHierarchyItem; feed: Feed }[] | undefined => {
    const { uri, key } = (item.data ?? {}) as { readonly uri?: string; readonly key?: string };
    const here = uri === undefined ? undefined : analysed(context, uri);
    if (here === undefined || uri === undefined || key === undefined) return undefined;
    return ask(here.analysis, key).map((feed) => ({ item: itemOf(context, uri)(feed.node), feed }));
  };
  const rangesOf = (item: CallHierarchyItem, { spans }: Feed) => {
    const lines = context.documents.get((item.data as { uri: string }).uri)?.lines;
    return lines === undefined ? [] : spans.map((span) => toRange(lines, span, context.client.encoding));
  };

  callHierarchy.onIncomingCalls(({ item }) => {
    const found = answer(item, feeds);
    return found?.map(({ item: from, feed }) => ({ from, fromRanges: rangesOf(item, feed) })) ?? null;
  });
  callHierarchy.onOutgoingCalls(({ item }) => {
    const found = answer(item, fedBy);
    return found?.map(({ item: to, feed }) => ({ to, fromRanges: rangesOf(item, feed) })) ?? null;
  });
}

function itemOf(context: Context, uri: string): (node: FeedNode) => CallHierarchyItem {
  const locate = locator(context, (file) => context.workspace.text(file));
  return ({ key, kind, name, detail, place, span }) => ({
    name,
    kind: kinds[kind],
    detail,
    uri: place.file,
    range: locate(place).range,
    selectionRange: locate({ file: place.file, span }).range,
    data: { uri, key },
  });
}
