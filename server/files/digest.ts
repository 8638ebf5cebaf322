/** The digest by which a text is recognised again. */
import { createHash } from "node:crypto";

/** `sha256:` and 64 hexadecimal digits of the text's UTF-8 bytes. */
export function digestOf(text: string): string {
  return `sha256:${createHash("sha256").update(text, "utf8").digest("hex")}`;
}
