/** Messages as they go over a wire: each body behind a header with its length in bytes. */

/** The bytes of a body with its header; with a `length` of one's own the header lies. */
export function framed(body: string | Uint8Array, length?: string): Buffer {
  const bytes = Buffer.from(body);
  return Buffer.concat([Buffer.from(`Content-Length: ${length ?? bytes.length}\r\n\r\n`), bytes]);
}

/** Takes chunks as they come and gives each message once it is whole. */
export function unframed(take: (message: object) => void): (chunk: Buffer) => void {
  let received: Buffer = Buffer.alloc(0);
  return (chunk) => {
    received = received.length === 0 ? chunk : Buffer.concat([received, chunk]);
    for (;;) {
      const end = received.indexOf("\r\n\r\n");
      if (end < 0) return;
      const length = Number(/Content-Length: (\d+)/i.exec(received.subarray(0, end).toString("ascii"))?.[1]);
      if (received.length < end + 4 + length) return;
      const body = received.subarray(end + 4, end + 4 + length).toString("utf8");
      received = received.subarray(end + 4 + length);
      take(JSON.parse(body) as object);
    }
  };
}
