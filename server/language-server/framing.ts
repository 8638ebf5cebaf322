/**
 * Watches the frames on standard input before anything is kept of them: a header without an end, or a length nobody can mean, would
 * otherwise be waited for without a bound. What a message says is not looked at.
 */

/** In bytes: far above what the two headers of the protocol take. */
const longestHeader = 8 * 1024;

/** In bytes: a text of this size is no plan, and its message would be held in memory several times over. */
const longestBody = 64 * 1024 * 1024;

/** Takes the bytes as they come; the answer says why no message can be found any more, and is undefined while one can. */
export function framingWatch(): (bytes: Uint8Array) => string | undefined {
  let header = "";
  let body = 0;
  return (bytes) => {
    let at = 0;
    while (at < bytes.length) {
      if (body > 0) {
        const skipped = Math.min(body, bytes.length - at);
        body -= skipped;
        at += skipped;
        continue;
      }
      header += String.fromCharCode(bytes[at] ?? 0);
      at += 1;
      if (!header.endsWith("\r\n\r\n")) {
        if (header.length > longestHeader) return "a header has no end";
        continue;
      }
      const length = lengthIn(header);
      if (typeof length === "string") return length;
      body = length;
      header = "";
    }
    return undefined;
  };
}

function lengthIn(header: string): number | string {
  const lengths = [...header.matchAll(/^content-length:[ \t]*(.*?)[ \t]*\r$/gim)].map(([, length]) => length ?? "");
  const [first = ""] = lengths;
  if (lengths.some((each) => each !== first)) return "a header has two lengths";
  if (!/^\d{1,9}$/.test(first)) return "a header has no length";
  const length = [...first].reduce((sum, digit) => 10 * sum + digit.charCodeAt(0) - 0x30, 0);
  return length > longestBody ? "a message is too long" : length;
}
