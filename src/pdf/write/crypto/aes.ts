/** AES with 128 or 256-bit keys (FIPS 197) in cipher block chaining mode, as PDF encryption uses it. */

const SBOX = new Uint8Array(256);
const INVERSE_SBOX = new Uint8Array(256);
/** Multiples of each byte in the field, for mixing columns: index 9, 11, 13, 14 and 2, 3. */
const TIMES: Record<2 | 3 | 9 | 11 | 13 | 14, Uint8Array> = {
  2: new Uint8Array(256),
  3: new Uint8Array(256),
  9: new Uint8Array(256),
  11: new Uint8Array(256),
  13: new Uint8Array(256),
  14: new Uint8Array(256),
};

const double = (x: number): number => ((x << 1) ^ (x & 0x80 ? 0x11b : 0)) & 255;
const multiply = (x: number, y: number): number => {
  let product = 0;
  for (let factor = x, bits = y; bits > 0; bits >>= 1, factor = double(factor)) if (bits & 1) product ^= factor;
  return product;
};

// The S-box from its definition: the inverse in the field, then an affine map. p runs through the powers of 3, q through
// their inverses.
for (let p = 1, q = 1, first = true; first || p !== 1; first = false) {
  p = multiply(p, 3);
  q = multiply(q, 0xf6);
  const s = (q ^ (q << 1) ^ (q << 2) ^ (q << 3) ^ (q << 4)) >>> 0;
  SBOX[p] = ((s & 255) ^ (s >> 8) ^ 0x63) & 255;
}
SBOX[0] = 0x63;
for (let i = 0; i < 256; i++) {
  INVERSE_SBOX[SBOX[i] as number] = i;
  for (const by of [2, 3, 9, 11, 13, 14] as const) TIMES[by][i] = multiply(i, by);
}

/** The round keys, 16 bytes each. */
const expand = (key: Uint8Array): Uint8Array => {
  const words = key.length / 4;
  const rounds = words + 6;
  const w = new Uint8Array(16 * (rounds + 1));
  w.set(key);
  let rcon = 1;
  for (let i = key.length; i < w.length; i += 4) {
    let t = [w[i - 4], w[i - 3], w[i - 2], w[i - 1]] as number[];
    const n = i / 4;
    if (n % words === 0) {
      t = [t[1], t[2], t[3], t[0]].map((b) => SBOX[b as number] as number);
      t[0] = (t[0] as number) ^ rcon;
      rcon = double(rcon);
    } else if (words > 6 && n % words === 4) t = t.map((b) => SBOX[b] as number);
    for (let j = 0; j < 4; j++) w[i + j] = (w[i + j - key.length] as number) ^ (t[j] as number);
  }
  return w;
};

const addKey = (s: Uint8Array, w: Uint8Array, round: number): void => {
  for (let i = 0; i < 16; i++) s[i] = (s[i] as number) ^ (w[16 * round + i] as number);
};

const encryptBlock = (s: Uint8Array, w: Uint8Array, t: Uint8Array): void => {
  const rounds = w.length / 16 - 1;
  const [two, three] = [TIMES[2], TIMES[3]];
  addKey(s, w, 0);
  for (let round = 1; round <= rounds; round++) {
    // Bytes substituted and rows shifted in one go: column c, row r comes from column c + r.
    for (let i = 0; i < 16; i++) t[i] = SBOX[s[(i + 4 * (i & 3)) & 15] as number] as number;
    if (round === rounds) s.set(t);
    else
      for (let c = 0; c < 16; c += 4) {
        const [a, b, d, e] = [t[c], t[c + 1], t[c + 2], t[c + 3]] as [number, number, number, number];
        s[c] = (two[a] as number) ^ (three[b] as number) ^ d ^ e;
        s[c + 1] = a ^ (two[b] as number) ^ (three[d] as number) ^ e;
        s[c + 2] = a ^ b ^ (two[d] as number) ^ (three[e] as number);
        s[c + 3] = (three[a] as number) ^ b ^ d ^ (two[e] as number);
      }
    addKey(s, w, round);
  }
};

const decryptBlock = (s: Uint8Array, w: Uint8Array, t: Uint8Array): void => {
  const rounds = w.length / 16 - 1;
  const [m9, m11, m13, m14] = [TIMES[9], TIMES[11], TIMES[13], TIMES[14]];
  addKey(s, w, rounds);
  for (let round = rounds - 1; round >= 0; round--) {
    for (let i = 0; i < 16; i++) t[i] = INVERSE_SBOX[s[(i - 4 * (i & 3)) & 15] as number] as number;
    s.set(t);
    addKey(s, w, round);
    if (round > 0)
      for (let c = 0; c < 16; c += 4) {
        const [a, b, d, e] = [s[c], s[c + 1], s[c + 2], s[c + 3]] as [number, number, number, number];
        s[c] = (m14[a] as number) ^ (m11[b] as number) ^ (m13[d] as number) ^ (m9[e] as number);
        s[c + 1] = (m9[a] as number) ^ (m14[b] as number) ^ (m11[d] as number) ^ (m13[e] as number);
        s[c + 2] = (m13[a] as number) ^ (m9[b] as number) ^ (m14[d] as number) ^ (m11[e] as number);
        s[c + 3] = (m11[a] as number) ^ (m13[b] as number) ^ (m9[d] as number) ^ (m14[e] as number);
      }
  }
};

/** Encrypts whole blocks (a multiple of 16 bytes, no padding added). */
export const aesCbcEncrypt = (key: Uint8Array, iv: Uint8Array, data: Uint8Array): Uint8Array<ArrayBuffer> => {
  const w = expand(key);
  const out = new Uint8Array(data.length);
  const block = iv.slice(0, 16);
  const spare = new Uint8Array(16);
  for (let at = 0; at < data.length; at += 16) {
    for (let i = 0; i < 16; i++) block[i] = (block[i] as number) ^ (data[at + i] as number);
    encryptBlock(block, w, spare);
    out.set(block, at);
  }
  return out;
};

/** Decrypts whole blocks; bytes behind the last whole block are left out, padding is kept. */
export const aesCbcDecrypt = (key: Uint8Array, iv: Uint8Array, data: Uint8Array): Uint8Array<ArrayBuffer> => {
  const w = expand(key);
  const whole = data.length - (data.length % 16);
  const out = new Uint8Array(whole);
  const block = new Uint8Array(16);
  const spare = new Uint8Array(16);
  for (let at = 0; at < whole; at += 16) {
    block.set(data.subarray(at, at + 16));
    decryptBlock(block, w, spare);
    const before = at === 0 ? iv : data.subarray(at - 16, at);
    for (let i = 0; i < 16; i++) out[at + i] = (block[i] as number) ^ (before[i] as number);
  }
  return out;
};

/** PDF's way (ISO 32000-2, 7.6.3): the initial vector first, then the data padded to whole blocks. */
export const sealWithAes = (key: Uint8Array, iv: Uint8Array, data: Uint8Array): Uint8Array<ArrayBuffer> => {
  const fill = 16 - (data.length % 16);
  const padded = new Uint8Array(data.length + fill).fill(fill, data.length);
  padded.set(data);
  const body = aesCbcEncrypt(key, iv, padded);
  const out = new Uint8Array(16 + body.length);
  out.set(iv.subarray(0, 16));
  out.set(body, 16);
  return out;
};

/** The reverse of `sealWithAes`. Padding that makes no sense is kept as data. */
export const openWithAes = (key: Uint8Array, data: Uint8Array): Uint8Array => {
  if (data.length < 32) return new Uint8Array(0);
  const plain = aesCbcDecrypt(key, data.subarray(0, 16), data.subarray(16));
  const fill = plain[plain.length - 1] as number;
  return fill >= 1 && fill <= 16 ? plain.subarray(0, plain.length - fill) : plain;
};
