import { createHash } from "node:crypto";
import fc from "fast-check";
import { afterEach, describe, expect, test, vi } from "vitest";
import { plainSha256, sha256 } from "../../src/store/sha256.ts";

// NIST, Cryptographic Standards and Guidelines, example values for SHA-256: the messages "abc" and 448 bits long.
const published: readonly (readonly [string, string])[] = [
  ["abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"],
  [
    "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
    "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
  ],
];

afterEach(() => void vi.unstubAllGlobals());

describe("sha256", () => {
  test.each(published)("of %j is the published value, by both ways", async (text, expected) => {
    const bytes = new TextEncoder().encode(text);
    expect(await sha256(bytes)).toBe(expected);
    expect(plainSha256(bytes)).toBe(expected);
  });

  test("works where the page has no cryptography of the platform", async () => {
    vi.stubGlobal("crypto", {});
    expect(await sha256(new TextEncoder().encode("abc"))).toBe(published[0]![1]);
  });

  test("agrees with OpenSSL's at every length around the block borders", () => {
    for (let length = 0; length < 200; length++) {
      const bytes = Uint8Array.from({ length }, (_, i) => (i * 7 + length) & 255);
      expect(plainSha256(bytes), `${length} bytes`).toBe(createHash("sha256").update(bytes).digest("hex"));
    }
  });

  test("agrees with OpenSSL's on views into larger buffers", () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 500 }), fc.nat(40), (bytes, skip) => {
        const view = bytes.subarray(Math.min(skip, bytes.length));
        expect(plainSha256(view)).toBe(createHash("sha256").update(view).digest("hex"));
      }),
    );
  });
});
