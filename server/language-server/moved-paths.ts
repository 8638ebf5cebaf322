/** Which paths of a library have to be written anew when files or folders go to another place, and as what. Nothing is moved here. */
import type { Facts } from "../answers/facts.ts";
import type { FileEdit } from "./places.ts";

export interface Move {
  readonly oldUri: string;
  readonly newUri: string;
}

/** Edits in the files as they lie now, before anything moves. */
export function movedPaths(files: readonly Facts[], moves: readonly Move[]): readonly FileEdit[] {
  const plain = moves.flatMap(({ oldUri, newUri }) => {
    const [from, to] = [segmentsOf(oldUri), segmentsOf(newUri)];
    return from === undefined || to === undefined ? [] : [{ from, to }];
  });
  const after = (place: readonly string[]): readonly string[] => {
    const move = plain.find(({ from }) => from.every((segment, index) => segment === place[index]));
    return move === undefined ? place : [...move.to, ...place.slice(move.from.length)];
  };
  return files.flatMap(({ file, paths }) => {
    const own = segmentsOf(file);
    if (own === undefined) return [];
    return paths.flatMap(({ path, place }): FileEdit[] => {
      const target = joined(own, path);
      if (target === undefined) return [];
      const [from, to] = [after(own), after(target)];
      if (from === own && to === target) return [];
      const now = relativePath(from, to);
      return now === path || now === relativePath(own, target) ? [] : [{ place, text: quoted(now) }];
    });
  });
}

/** Host and path of a URI, decoded; undefined for what is none. */
function segmentsOf(uri: string): readonly string[] | undefined {
  if (!URL.canParse(uri)) return undefined;
  const { protocol, host, pathname } = new URL(uri);
  try {
    return [
      protocol,
      host,
      ...pathname
        .split("/")
        .filter((part) => part !== "")
        .map(decodeURIComponent),
    ];
  } catch {
    return undefined;
  }
}

/** Undefined when the path leads out at the top, or is not one the language reads. */
function joined(from: readonly string[], path: string): readonly string[] | undefined {
  if (path === "" || path.startsWith("/") || path.includes("\\")) return undefined;
  const place = from.slice(0, -1);
  for (const part of path.split("/")) {
    if (part === "..") {
      if (place.length <= 2) return undefined;
      place.pop();
    } else if (part !== "." && part !== "") place.push(part);
  }
  return place;
}

function relativePath(from: readonly string[], to: readonly string[]): string {
  const folder = from.slice(0, -1);
  let same = 0;
  while (same < folder.length && same < to.length - 1 && folder[same] === to[same]) same += 1;
  return [...folder.slice(same).map(() => ".."), ...to.slice(same)].join("/");
}

function quoted(path: string): string {
  return `"${path.replace(/["\\]/g, (sign) => `\\${sign}`)}"`;
}
