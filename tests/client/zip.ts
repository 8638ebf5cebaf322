/** Reads a ZIP archive into memory: just what packages for VS Code use (stored and deflated entries, no ZIP64). */
import { inflateRawSync } from "node:zlib";

const endSignature = 0x06054b50;
const entrySignature = 0x02014b50;

/** File contents by path, in the archive's order. Throws on anything that is not such an archive. */
export function unzip(archive: Buffer): ReadonlyMap<string, Buffer> {
  const end = archive.lastIndexOf(Buffer.from("PK\u0005\u0006", "latin1"));
  if (end < 0 || archive.readUInt32LE(end) !== endSignature) throw new Error("No ZIP archive.");
  const files = new Map<string, Buffer>();
  let at = archive.readUInt32LE(end + 16);
  for (let left = archive.readUInt16LE(end + 10); left > 0; left -= 1) {
    if (archive.readUInt32LE(at) !== entrySignature) throw new Error("A broken ZIP archive.");
    const nameLength = archive.readUInt16LE(at + 28);
    const name = archive.toString("utf8", at + 46, at + 46 + nameLength);
    files.set(name, contentOf(archive, at));
    at += 46 + nameLength + archive.readUInt16LE(at + 30) + archive.readUInt16LE(at + 32);
  }
  return files;
}

function contentOf(archive: Buffer, entry: number): Buffer {
  const method = archive.readUInt16LE(entry + 10);
  const packed = archive.readUInt32LE(entry + 20);
  const local = archive.readUInt32LE(entry + 42);
  const start = local + 30 + archive.readUInt16LE(local + 26) + archive.readUInt16LE(local + 28);
  const bytes = archive.subarray(start, start + packed);
  if (method === 0) return bytes;
  if (method === 8) return inflateRawSync(bytes);
  throw new Error(`A ZIP entry packed by method ${method}.`);
}
