/**
 * SHA-256 (FIPS 180-4) of some bytes, lower-case hexadecimal: the name by which a drawing is known. By the platform's own
 * implementation, or by the one below where a page was not opened over a secure address and has none.
 */
export async function sha256(bytes: Uint8Array): Promise<string> {
  const subtle: SubtleCrypto | undefined = globalThis.crypto?.subtle;
  if (!subtle) return plainSha256(bytes);
  return hex(new Uint8Array(await subtle.digest("SHA-256", bytes as Uint8Array<ArrayBuffer>)));
}

/** SHA-256 in plain JavaScript, one block of 64 bytes after the other; several times slower than the platform's. */
export function plainSha256(bytes: Uint8Array): string {
  const state = Uint32Array.from(firstPrimes(8), (prime) => fraction(Math.sqrt(prime)));
  const schedule = new Uint32Array(64);
  const whole = bytes.length - (bytes.length % 64);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  for (let at = 0; at < whole; at += 64) mixBlock(state, schedule, view, at);
  const tail = new Uint8Array(bytes.length - whole < 56 ? 64 : 128);
  tail.set(bytes.subarray(whole));
  tail[bytes.length - whole] = 0x80;
  const tailView = new DataView(tail.buffer);
  tailView.setBigUint64(tail.length - 8, BigInt(bytes.length) * 8n);
  for (let at = 0; at < tail.length; at += 64) mixBlock(state, schedule, tailView, at);
  const digest = new DataView(new ArrayBuffer(32));
  state.forEach((word, i) => {
    digest.setUint32(i * 4, word);
  });
  return hex(new Uint8Array(digest.buffer));
}

function mixBlock(state: Uint32Array, w: Uint32Array, block: DataView, at: number): void {
  for (let i = 0; i < 16; i++) w[i] = block.getUint32(at + i * 4);
  for (let i = 16; i < 64; i++) {
    const s0 = turn(w[i - 15]!, 7) ^ turn(w[i - 15]!, 18) ^ (w[i - 15]! >>> 3);
    const s1 = turn(w[i - 2]!, 17) ^ turn(w[i - 2]!, 19) ^ (w[i - 2]! >>> 10);
    w[i] = w[i - 16]! + s0 + w[i - 7]! + s1;
  }
  let [a, b, c, d, e, f, g, h] = state as unknown as [number, number, number, number, number, number, number, number];
  for (let i = 0; i < 64; i++) {
    const s1 = turn(e, 6) ^ turn(e, 11) ^ turn(e, 25);
    const t1 = (h + s1 + ((e & f) ^ (~e & g)) + constants[i]! + w[i]!) | 0;
    const s0 = turn(a, 2) ^ turn(a, 13) ^ turn(a, 22);
    const t2 = (s0 + ((a & b) ^ (a & c) ^ (b & c))) | 0;
    [h, g, f, e, d, c, b, a] = [g, f, e, (d + t1) | 0, c, b, a, (t1 + t2) | 0];
  }
  [a, b, c, d, e, f, g, h].forEach((word, i) => {
    state[i] = state[i]! + word;
  });
}

const turn = (word: number, by: number): number => (word >>> by) | (word << (32 - by));
/** The first 32 bits of the fractional part. */
const fraction = (n: number): number => Math.floor((n - Math.floor(n)) * 2 ** 32);
const constants = Uint32Array.from(firstPrimes(64), (prime) => fraction(Math.cbrt(prime)));

function firstPrimes(count: number): number[] {
  const primes: number[] = [];
  for (let n = 2; primes.length < count; n++) if (primes.every((prime) => n % prime !== 0)) primes.push(n);
  return primes;
}

const hex = (bytes: Uint8Array): string => Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
