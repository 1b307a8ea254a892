const SHIFTS = [7, 12, 17, 22, 5, 9, 14, 20, 4, 11, 16, 23, 6, 10, 15, 21];
/** RFC 1321, 3.4: T[i] is the integer part of 2^32 times abs(sin(i)), i in radians. */
const T = Array.from({ length: 64 }, (_, i) => Math.floor(Math.abs(Math.sin(i + 1)) * 2 ** 32) | 0);

/** MD5 of the bytes, 16 bytes (RFC 1321). For PDF's older encryption and its checksums, never for new secrets. */
export const md5 = (data: Uint8Array): Uint8Array<ArrayBuffer> => {
  const padded = new Uint8Array(((data.length + 72) >> 6) << 6);
  padded.set(data);
  padded[data.length] = 0x80;
  const view = new DataView(padded.buffer);
  view.setUint32(padded.length - 8, (data.length << 3) >>> 0, true);
  view.setUint32(padded.length - 4, Math.floor(data.length / 2 ** 29), true);
  let [a0, b0, c0, d0] = [0x67452301, 0xefcdab89 | 0, 0x98badcfe | 0, 0x10325476];
  const words = new Int32Array(16);
  for (let at = 0; at < padded.length; at += 64) {
    for (let i = 0; i < 16; i++) words[i] = view.getInt32(at + 4 * i, true);
    let [a, b, c, d] = [a0, b0, c0, d0];
    for (let i = 0; i < 64; i++) {
      const round = i >> 4;
      let f: number;
      let g: number;
      if (round === 0) [f, g] = [(b & c) | (~b & d), i];
      else if (round === 1) [f, g] = [(d & b) | (~d & c), (5 * i + 1) & 15];
      else if (round === 2) [f, g] = [b ^ c ^ d, (3 * i + 5) & 15];
      else [f, g] = [c ^ (b | ~d), (7 * i) & 15];
      const sum = (a + f + (T[i] as number) + (words[g] as number)) | 0;
      const turn = SHIFTS[round * 4 + (i & 3)] as number;
      [a, d, c, b] = [d, c, b, (b + ((sum << turn) | (sum >>> (32 - turn)))) | 0];
    }
    [a0, b0, c0, d0] = [(a0 + a) | 0, (b0 + b) | 0, (c0 + c) | 0, (d0 + d) | 0];
  }
  const out = new Uint8Array(16);
  const outView = new DataView(out.buffer);
  [a0, b0, c0, d0].forEach((word, i) => {
    outView.setInt32(4 * i, word, true);
  });
  return out;
};
