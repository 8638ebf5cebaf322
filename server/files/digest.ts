/** The digest by which a text is recognised again. */

/** `sha256:` and 64 hexadecimal digits of the text's UTF-8 bytes. */
export function digestOf(text: string): string {
  // Loaded where it is needed: most commands tell no digest.
  const { createHash } = process.getBuiltinModule("node:crypto");
  return `sha256:${createHash("sha256").update(text, "utf8").digest("hex")}`;
}
