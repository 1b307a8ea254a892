import { createCipheriv, createDecipheriv, createHash } from "node:crypto";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { aesCbcDecrypt, aesCbcEncrypt, openWithAes, sealWithAes } from "../../../src/pdf/write/crypto/aes.ts";
import { md5 } from "../../../src/pdf/write/crypto/md5.ts";
import { rc4 } from "../../../src/pdf/write/crypto/rc4.ts";
import { sha256, sha384, sha512 } from "../../../src/pdf/write/crypto/sha2.ts";

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const hex = (data: Uint8Array): string => Buffer.from(data).toString("hex");
const unhex = (text: string): Uint8Array => new Uint8Array(Buffer.from(text.replace(/\s/g, ""), "hex"));

describe("digests", () => {
  it("answer as RFC 1321, A.5 lists", () => {
    expect(hex(md5(bytes("")))).toBe("d41d8cd98f00b204e9800998ecf8427e");
    expect(hex(md5(bytes("message digest")))).toBe("f96b697d7cb7938d525a2f31aaf161d0");
  });
  it("agree with Node's for every length round the block borders", () => {
    for (const n of [0, 1, 3, 54, 55, 56, 57, 63, 64, 65, 111, 112, 113, 119, 127, 128, 129, 255, 1000]) {
      const data = Uint8Array.from({ length: n }, (_, i) => (i * 37 + n) & 255);
      for (const [algorithm, digest] of Object.entries({ md5, sha256, sha384, sha512 }))
        expect(hex(digest(data)), `${algorithm} of ${n} bytes`).toBe(createHash(algorithm).update(data).digest("hex"));
    }
  });
});

describe("AES", () => {
  it("gives the example vector of FIPS 197, C.1 and C.3", () => {
    const plain = unhex("00112233445566778899aabbccddeeff");
    const zero = new Uint8Array(16);
    expect(hex(aesCbcEncrypt(unhex("000102030405060708090a0b0c0d0e0f"), zero, plain))).toBe(
      "69c4e0d86a7b0430d8cdb78070b4c55a",
    );
    const key = unhex("000102030405060708090a0b0c0d0e0f101112131415161718191a1b1c1d1e1f");
    expect(hex(aesCbcEncrypt(key, zero, plain))).toBe("8ea2b7ca516745bfeafc49904b496089");
  });
  it("agrees with Node's, both ways", () => {
    const key16 = fc.uint8Array({ minLength: 16, maxLength: 16 });
    const key32 = fc.uint8Array({ minLength: 32, maxLength: 32 });
    fc.assert(
      fc.property(fc.oneof(key16, key32), key16, fc.uint8Array({ maxLength: 100 }), (key, iv, data) => {
        const cipher = createCipheriv(key.length === 16 ? "aes-128-cbc" : "aes-256-cbc", key, iv);
        const theirs = Buffer.concat([iv, cipher.update(data), cipher.final()]);
        expect(hex(sealWithAes(key, iv, data))).toBe(theirs.toString("hex"));
        expect(hex(openWithAes(key, theirs))).toBe(hex(data));
        const raw = createDecipheriv(key.length === 16 ? "aes-128-cbc" : "aes-256-cbc", key, iv).setAutoPadding(false);
        expect(hex(aesCbcDecrypt(key, iv, theirs.subarray(16)))).toBe(raw.update(theirs.subarray(16)).toString("hex"));
      }),
    );
  });
});

describe("RC4", () => {
  it("gives the key stream of RFC 6229 for a 40-bit key", () => {
    expect(hex(rc4(unhex("0102030405"), new Uint8Array(16)))).toBe("b2396305f03dc027ccc3524a0a1118a8");
  });
});
