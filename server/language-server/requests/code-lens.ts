/**
 * `textDocument/codeLens`, and the command behind a lens: the client is asked to show the finding. A client that cannot is given no
 * lens, for it would do nothing.
 */
import { lensesOf } from "../../answers/lenses.ts";
import { analysed, type Context, requireRunning } from "../context.ts";
import { toRange } from "../positions.ts";

export const showFindingCommand = "isthmus.showFinding";

export function codeLensRequest(context: Context): void {
  context.connection.onCodeLens(({ textDocument: { uri } }) => {
    const here = analysed(context, uri);
    if (here === undefined) return null;
    const { lines } = here.document;
    return lensesOf(here.analysis).map(({ span, title, finding }) => ({
      range: toRange(lines, span, context.client.encoding),
      command: {
        title,
        command: showFindingCommand,
        arguments: [uri, toRange(lines, finding.place.span, context.client.encoding)],
      },
    }));
  });

  context.connection.onExecuteCommand(async ({ command, arguments: given }) => {
    requireRunning(context);
    if (command !== showFindingCommand) return null;
    const [uri, selection] = given ?? [];
    if (typeof uri !== "string") return null;
    await context.connection.window.showDocument({ uri, selection, takeFocus: true });
    return null;
  });
}
