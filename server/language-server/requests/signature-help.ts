/** `textDocument/signatureHelp`. */
import { signatureAt } from "../../answers/signature.ts";
import { analysed, type Context } from "../context.ts";
import { fromProtocol } from "../positions.ts";

export function signatureHelpRequest(context: Context): void {
  context.connection.onSignatureHelp(({ textDocument, position }) => {
    const here = analysed(context, textDocument.uri);
    if (here === undefined) return null;
    const found = signatureAt(here.analysis, fromProtocol(here.document.lines, position, context.client.encoding));
    if (found === undefined) return null;
    const { label, doc, parameters, active } = found;
    return {
      signatures: [
        {
          label,
          documentation: doc,
          parameters: parameters.map(({ start, end, doc: documentation }) => ({
            label: [start, end] as [number, number],
            documentation,
          })),
        },
      ],
      activeSignature: 0,
      // Past the last one no parameter lights up.
      activeParameter: active ?? parameters.length,
    };
  });
}
