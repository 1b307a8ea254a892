/**
 * SHA-256, SHA-384 and SHA-512 (FIPS 180-4), which PDF's AES-256 encryption asks for. The round constants are worked
 * out from their definition (fractional parts of roots of primes) instead of being listed.
 */

const PRIMES: number[] = [];
for (let n = 2; PRIMES.length < 80; n++) if (PRIMES.every((p) => n % p !== 0)) PRIMES.push(n);

/** The first 64 bits of the fractional part of the k-th root of n, as [high, low] words. */
const rootFraction = (n: number, k: 2n | 3n): [number, number] => {
  const target = BigInt(n) << (64n * k);
  let low = 0n;
  let high = 1n << 70n;
  while (high - low > 1n) {
    const mid = (low + high) >> 1n;
    if (mid ** k <= target) low = mid;
    else high = mid;
  }
  return [Number((low >> 32n) & 0xffffffffn) | 0, Number(low & 0xffffffffn) | 0];
};

const K = PRIMES.map((p) => rootFraction(p, 3n));
const SQUARE = PRIMES.slice(0, 16).map((p) => rootFraction(p, 2n));
const K_HIGH = Int32Array.from(K, ([high]) => high);
const K_LOW = Int32Array.from(K, ([, low]) => low);

/** The message, a one bit, zeros and the length in bits, filling whole blocks. */
const pad = (data: Uint8Array, block: 64 | 128): DataView => {
  const padded = new Uint8Array(Math.ceil((data.length + 1 + block / 8) / block) * block);
  padded.set(data);
  padded[data.length] = 0x80;
  const view = new DataView(padded.buffer);
  view.setUint32(padded.length - 8, Math.floor(data.length / 2 ** 29));
  view.setUint32(padded.length - 4, (data.length << 3) >>> 0);
  return view;
};

/** SHA-256 of the bytes, 32 bytes. */
export const sha256 = (data: Uint8Array): Uint8Array<ArrayBuffer> => {
  const view = pad(data, 64);
  const h = Int32Array.from(SQUARE.slice(0, 8), ([high]) => high);
  const w = new Int32Array(64);
  const turn = (x: number, n: number): number => (x >>> n) | (x << (32 - n));
  for (let at = 0; at < view.byteLength; at += 64) {
    for (let i = 0; i < 16; i++) w[i] = view.getInt32(at + 4 * i);
    for (let i = 16; i < 64; i++) {
      const x = w[i - 15] as number;
      const y = w[i - 2] as number;
      const s0 = turn(x, 7) ^ turn(x, 18) ^ (x >>> 3);
      const s1 = turn(y, 17) ^ turn(y, 19) ^ (y >>> 10);
      w[i] = (w[i - 16] as number) + s0 + (w[i - 7] as number) + s1;
    }
    let [a, b, c, d, e, f, g, k] = h as unknown as [number, number, number, number, number, number, number, number];
    for (let i = 0; i < 64; i++) {
      const s1 = turn(e, 6) ^ turn(e, 11) ^ turn(e, 25);
      const t1 = (k + s1 + ((e & f) ^ (~e & g)) + (K_HIGH[i] as number) + (w[i] as number)) | 0;
      const s0 = turn(a, 2) ^ turn(a, 13) ^ turn(a, 22);
      const t2 = (s0 + ((a & b) ^ (a & c) ^ (b & c))) | 0;
      [k, g, f, e, d, c, b, a] = [g, f, e, (d + t1) | 0, c, b, a, (t1 + t2) | 0];
    }
    for (const [i, x] of [a, b, c, d, e, f, g, k].entries()) h[i] = (h[i] as number) + x;
  }
  const out = new Uint8Array(32);
  const outView = new DataView(out.buffer);
  h.forEach((word, i) => {
    outView.setInt32(4 * i, word);
  });
  return out;
};

/** SHA-512 of the bytes, 64 bytes. */
export const sha512 = (data: Uint8Array): Uint8Array<ArrayBuffer> => sha512From(SQUARE.slice(0, 8), data);
/** SHA-384 of the bytes, 48 bytes. */
export const sha384 = (data: Uint8Array): Uint8Array<ArrayBuffer> => sha512From(SQUARE.slice(8), data).slice(0, 48);

/** 64-bit words live as pairs: index 2i is the high word, 2i + 1 the low one. */
const sha512From = (start: readonly [number, number][], data: Uint8Array): Uint8Array<ArrayBuffer> => {
  const view = pad(data, 128);
  const h = Int32Array.from(start.flat());
  const w = new Int32Array(160);
  const s = new Int32Array(16);
  for (let at = 0; at < view.byteLength; at += 128) {
    for (let i = 0; i < 32; i++) w[i] = view.getInt32(at + 4 * i);
    for (let i = 32; i < 160; i += 2) {
      const [xh, xl, yh, yl] = [w[i - 30], w[i - 29], w[i - 4], w[i - 3]] as [number, number, number, number];
      add(w, i, [
        [w[i - 32] as number, w[i - 31] as number],
        [high(xh, xl, 1) ^ high(xh, xl, 8) ^ (xh >>> 7), low(xh, xl, 1) ^ low(xh, xl, 8) ^ ((xl >>> 7) | (xh << 25))],
        [w[i - 14] as number, w[i - 13] as number],
        [
          high(yh, yl, 19) ^ high(yh, yl, 61) ^ (yh >>> 6),
          low(yh, yl, 19) ^ low(yh, yl, 61) ^ ((yl >>> 6) | (yh << 26)),
        ],
      ]);
    }
    s.set(h);
    for (let i = 0; i < 160; i += 2) {
      const [ah, al, bh, bl, ch, cl] = s as unknown as number[] as [number, number, number, number, number, number];
      const [eh, el, fh, fl, gh, gl] = s.subarray(8) as unknown as [number, number, number, number, number, number];
      const t1: [number, number][] = [
        [s[14] as number, s[15] as number],
        [high(eh, el, 14) ^ high(eh, el, 18) ^ high(eh, el, 41), low(eh, el, 14) ^ low(eh, el, 18) ^ low(eh, el, 41)],
        [(eh & fh) ^ (~eh & gh), (el & fl) ^ (~el & gl)],
        [K_HIGH[i / 2] as number, K_LOW[i / 2] as number],
        [w[i] as number, w[i + 1] as number],
      ];
      const t2: [number, number][] = [
        [high(ah, al, 28) ^ high(ah, al, 34) ^ high(ah, al, 39), low(ah, al, 28) ^ low(ah, al, 34) ^ low(ah, al, 39)],
        [(ah & bh) ^ (ah & ch) ^ (bh & ch), (al & bl) ^ (al & cl) ^ (bl & cl)],
      ];
      const d: [number, number] = [s[6] as number, s[7] as number];
      s.copyWithin(2, 0, 14);
      add(s, 8, [d, ...t1]);
      add(s, 0, [...t1, ...t2]);
    }
    for (let i = 0; i < 16; i += 2)
      add(h, i, [
        [h[i] as number, h[i + 1] as number],
        [s[i] as number, s[i + 1] as number],
      ]);
  }
  const out = new Uint8Array(64);
  const outView = new DataView(out.buffer);
  h.forEach((word, i) => {
    outView.setInt32(4 * i, word);
  });
  return out;
};

/** High word of the pair turned right by n bits. */
const high = (h: number, l: number, n: number): number =>
  n < 32 ? (h >>> n) | (l << (32 - n)) : (l >>> (n - 32)) | (h << (64 - n));
/** Low word of the pair turned right by n bits. */
const low = (h: number, l: number, n: number): number => high(l, h, n);

/** Writes the sum of the pairs to `into` at `i`. */
const add = (into: Int32Array, i: number, pairs: readonly (readonly [number, number])[]): void => {
  let lows = 0;
  let highs = 0;
  for (const [h, l] of pairs) {
    lows += l >>> 0;
    highs += h >>> 0;
  }
  into[i + 1] = lows | 0;
  into[i] = (highs + Math.floor(lows / 2 ** 32)) | 0;
};
