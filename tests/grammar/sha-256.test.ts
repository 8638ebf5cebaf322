/** SHA-256 against the values FIPS 180-4's examples print, and against the platform's own on any text. */
import { createHash } from "node:crypto";
import fc from "fast-check";
import { expect, test } from "vitest";
import { sha256 } from "../../grammar/sha-256.ts";

// NIST, "Examples with intermediate values", SHA-256: printed.
test.each([
  ["abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"],
  [
    "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
    "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
  ],
])("%s has the digest that is printed", (text, digest) => {
  expect(sha256(text)).toBe(digest);
});

test.each([0, 1, 55, 56, 57, 63, 64, 65, 119, 120, 128, 100_000])(
  "a text of %i letters has the platform's digest",
  (n) => {
    const text = "a".repeat(n);
    expect(sha256(text)).toBe(createHash("sha256").update(text, "utf8").digest("hex"));
  },
);

test("any text has the platform's digest", () => {
  fc.assert(
    fc.property(fc.string({ unit: "binary", maxLength: 300 }), (text) => {
      expect(sha256(text)).toBe(createHash("sha256").update(text, "utf8").digest("hex"));
    }),
  );
});
