/** RC4 with the given key; the same call encrypts and decrypts. For files already encrypted that way. */
export const rc4 = (key: Uint8Array, data: Uint8Array): Uint8Array<ArrayBuffer> => {
  const s = Uint8Array.from({ length: 256 }, (_, i) => i);
  for (let i = 0, j = 0; i < 256; i++) {
    const si = s[i] as number;
    j = (j + si + (key[i % key.length] as number)) & 255;
    s[i] = s[j] as number;
    s[j] = si;
  }
  const out = new Uint8Array(data.length);
  for (let n = 0, i = 0, j = 0; n < data.length; n++) {
    i = (i + 1) & 255;
    const si = s[i] as number;
    j = (j + si) & 255;
    const sj = s[j] as number;
    s[i] = sj;
    s[j] = si;
    out[n] = (data[n] as number) ^ (s[(si + sj) & 255] as number);
  }
  return out;
};
