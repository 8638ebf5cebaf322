/**
 * SHA-256 (FIPS 180-4) of a text, as a plain function: a seal has to be told in the middle of judging, in a browser's worker too,
 * where the platform's own digest is only to be had later. It is no part of any secret.
 */

/** 64 hexadecimal digits of the text's UTF-8 bytes. A lone surrogate counts as U+FFFD. */
export function sha256(text: string): string {
  const bytes = padded(new TextEncoder().encode(text));
  const { constants, firstState } = table();
  const state = Uint32Array.from(firstState);
  const schedule = new Uint32Array(64);
  for (let at = 0; at < bytes.byteLength; at += 64) {
    fill(schedule, bytes, at);
    compress(state, schedule, constants);
  }
  return [...state].map((word) => word.toString(16).padStart(8, "0")).join("");
}

/** The bytes, a one bit, zeros, and the length in bits: a whole number of blocks of 64 bytes (5.1.1). */
function padded(bytes: Uint8Array): DataView {
  const blocks = Math.ceil((bytes.length + 9) / 64);
  const whole = new Uint8Array(blocks * 64);
  whole.set(bytes);
  whole[bytes.length] = 0x80;
  const view = new DataView(whole.buffer);
  view.setBigUint64(whole.length - 8, BigInt(bytes.length) * 8n);
  return view;
}

/** The message schedule of one block (6.2.2, step 1). */
function fill(schedule: Uint32Array, bytes: DataView, at: number): void {
  for (let t = 0; t < 16; t += 1) schedule[t] = bytes.getUint32(at + 4 * t);
  for (let t = 16; t < 64; t += 1) {
    const [w2, w7, w15, w16] = [
      word(schedule, t - 2),
      word(schedule, t - 7),
      word(schedule, t - 15),
      word(schedule, t - 16),
    ];
    const s0 = turn(w15, 7) ^ turn(w15, 18) ^ (w15 >>> 3);
    const s1 = turn(w2, 17) ^ turn(w2, 19) ^ (w2 >>> 10);
    schedule[t] = s1 + w7 + s0 + w16;
  }
}

/** Steps 2 to 4 of 6.2.2. */
function compress(state: Uint32Array, schedule: Uint32Array, constants: Uint32Array): void {
  let [a, b, c, d, e, f, g, h] = [0, 1, 2, 3, 4, 5, 6, 7].map((at) => word(state, at)) as Eight;
  for (let t = 0; t < 64; t += 1) {
    const choose = (e & f) ^ (~e & g);
    const majority = (a & b) ^ (a & c) ^ (b & c);
    const first =
      (h + (turn(e, 6) ^ turn(e, 11) ^ turn(e, 25)) + choose + word(constants, t) + word(schedule, t)) >>> 0;
    const second = ((turn(a, 2) ^ turn(a, 13) ^ turn(a, 22)) + majority) >>> 0;
    [a, b, c, d, e, f, g, h] = [(first + second) >>> 0, a, b, c, (d + first) >>> 0, e, f, g];
  }
  for (const [at, add] of [a, b, c, d, e, f, g, h].entries()) state[at] = word(state, at) + add;
}

type Eight = [number, number, number, number, number, number, number, number];

function turn(value: number, by: number): number {
  return (value >>> by) | (value << (32 - by));
}

function word(words: Uint32Array, at: number): number {
  return words[at] ?? 0;
}

interface Table {
  readonly constants: Uint32Array;
  readonly firstState: Uint32Array;
}

let known: Table | undefined;

/**
 * The first 32 bits of the fractional parts of the cube roots of the first 64 primes (4.2.2), and of the square roots of 8 (5.3.3). Few
 * plans are sealed, so they are worked out for the first that is.
 */
function table(): Table {
  if (known === undefined) {
    const primes = firstPrimes(64);
    known = {
      constants: Uint32Array.from(primes, (prime) => fraction(prime, 3n)),
      firstState: Uint32Array.from(primes.slice(0, 8), (prime) => fraction(prime, 2n)),
    };
  }
  return known;
}

function firstPrimes(count: number): readonly bigint[] {
  const found: bigint[] = [];
  for (let next = 2n; found.length < count; next += 1n) {
    if (found.every((prime) => next % prime !== 0n)) found.push(next);
  }
  return found;
}

/** The largest whole number whose power is at most prime × 2^(32 × degree), without its whole part: exact, by halving. */
function fraction(prime: bigint, degree: bigint): number {
  const target = prime << (32n * degree);
  let [low, high] = [0n, 1n << 40n];
  while (high - low > 1n) {
    const middle = (low + high) >> 1n;
    if (middle ** degree <= target) low = middle;
    else high = middle;
  }
  const view = new DataView(new ArrayBuffer(8));
  view.setBigUint64(0, low);
  return view.getUint32(4);
}
