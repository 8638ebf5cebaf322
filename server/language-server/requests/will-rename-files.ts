/** `workspace/willRenameFiles`: paths of imports and bibliographies follow a file or a folder to its new place. */
import type { Context } from "../context.ts";
import { everyFact, noProgress } from "../library-walk.ts";
import { movedPaths } from "../moved-paths.ts";
import { editOfFiles } from "../places.ts";

export function willRenameFilesRequest(context: Context): void {
  context.connection.workspace.onWillRenameFiles(async ({ files: moves }, token) => {
    const files = await everyFact(context, token, noProgress, "");
    const edits = movedPaths(files, moves);
    if (edits.length === 0) return null;
    const texts = new Map(files.map(({ file, text }) => [file, text]));
    // Whoever moves a file means its paths too: none of these edits asks to be looked at.
    return editOfFiles(context, undefined, edits, (uri) => texts.get(uri));
  });
}
