/**
 * The samples for tests whose cost grows with the samples' number times their length: taken from the shortest up, each that
 * holds a first word of a line, or a bone, that no shorter one holds. No kind of document or statement is left out.
 */
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../samples/", import.meta.url));

/** Paths below `samples/` with forward slashes, sorted. */
export const variedSamples: readonly string[] = chosen();

function chosen(): readonly string[] {
  const texts = readdirSync(root, { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".isthmus"))
    .map((name) => ({ name: name.replaceAll("\\", "/"), text: readFileSync(root + name, "utf8") }))
    .sort((one, other) => one.text.length - other.text.length || (one.name < other.name ? -1 : 1));
  const seen = new Set<string>();
  const taken = texts.filter(({ text }) => {
    const fresh = (text.match(/^ *(?:bone (?:tibia|femur|humerus)|[a-z-]+|##?)/gm) ?? [])
      .map((word) => word.trim())
      .filter((word) => !seen.has(word));
    for (const word of fresh) seen.add(word);
    return fresh.length > 0;
  });
  return taken.map(({ name }) => name).sort();
}
