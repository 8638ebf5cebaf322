/** Which paths a document may name, where in a library of URIs they lead, and how large a file may be. Nothing is read here. */

/** In bytes. Larger files are refused before they are read: no plan, catalogue or protocol comes near it. */
export const largestFile = 4 * 1024 * 1024;

/** Why a larger file is refused. */
export const tooLarge = `it is larger than ${largestFile / 1024 / 1024} MB`;

/** Why a path written in a document is refused before anything is asked; undefined when it may be tried. */
export function refusePath(path: string): string | undefined {
  if (path === "") return "the path is empty";
  if (path.includes("\0")) return "the path holds a NUL character";
  if (path.includes("\\")) return "paths are written with forward slashes";
  if (path.includes("%")) return "paths are written plainly, without percent codes";
  if (path.startsWith("/") || /^[A-Za-z]:/.test(path)) return "the path is not relative to this file";
  if (/^[A-Za-z][A-Za-z0-9+.-]*:/.test(path)) return "addresses are not read";
  for (const part of path.split("/")) {
    if (/^(con|prn|aux|nul|com[0-9]|lpt[0-9])(\.|$)/i.test(part)) return "the path names a device";
    if (part !== "." && part !== ".." && /[. ]$/.test(part)) return "a part of the path ends in a dot or a space";
  }
  return undefined;
}

/**
 * Where `path`, as written in the document `from`, leads: the URI, or why nothing may be read. It must stay inside that one of the
 * `folders` (URIs) the document lies in.
 */
export function resolveUri(
  folders: readonly string[],
  from: string,
  path: string,
): { readonly uri: string } | { readonly kind: "missing" | "outside"; readonly because: string } {
  const refused = refusePath(path);
  if (refused !== undefined) return { kind: "outside", because: refused };
  const folder = folders.find((each) => from.startsWith(asFolder(each)));
  if (folder === undefined)
    return { kind: "missing", because: "imports are read once the folder that holds this text is open" };
  const base = URL.canParse(from) ? new URL(from) : undefined;
  if (base === undefined) return { kind: "missing", because: "this text has no place from which to look" };
  const { href } = new URL(path.split("/").map(encodeURIComponent).join("/"), base);
  if (!href.startsWith(asFolder(folder)))
    return { kind: "outside", because: "the path leaves the folder of the library" };
  return { uri: href };
}

function asFolder(uri: string): string {
  return uri.endsWith("/") ? uri : `${uri}/`;
}
