import { aesCbcDecrypt, aesCbcEncrypt, openWithAes, sealWithAes } from "./crypto/aes.ts";
import { md5 } from "./crypto/md5.ts";
import { rc4 } from "./crypto/rc4.ts";
import { sha256, sha384, sha512 } from "./crypto/sha2.ts";
import { damaged, failure } from "./pdf-failure.ts";
import { isDict, nameOf, numberOf, type PdfDict, type PdfObject, type PdfRef, PdfString } from "./pdf-object.ts";
import { concat } from "./stream-data.ts";

/** What a password lets its holder do (ISO 32000-2, table 22). Everything when the owner's password was given. */
export interface Permissions {
  /** Bit 6: add or change annotations. */
  readonly annotate: boolean;
  /** Bit 4: change the contents of pages. */
  readonly modify: boolean;
  /** Bit 11, or bit 4: insert pages. */
  readonly assemble: boolean;
}

type Method = "none" | "rc4" | "aes-128" | "aes-256";
/** Kinds of data a file may encrypt by different methods. */
export type Sealed = "string" | "stream" | "embedded";

/** The 32 bytes that fill up short passwords (ISO 32000-2, 7.6.4.3.2, step a). */
const PADDING = Uint8Array.from(
  "28bf4e5e4e758a4164004e56fffa01082e2e00b6d0683e802f0ca9fe6453697a".match(/../g) ?? [],
  (h) => Number.parseInt(h, 16),
);

/** The standard security handler of one file, opened with a password: decrypts what is read, encrypts what is added. */
export class Security {
  private constructor(
    private readonly key: Uint8Array,
    private readonly methods: Readonly<Record<Sealed, Method>>,
    readonly permissions: Permissions,
    readonly encryptsMetadata: boolean,
  ) {}

  /**
   * Opens the handler. `id` is the first part of the trailer's /ID. Throws `pdf.password-needed` (no password given and
   * the empty one does not fit), `pdf.password-wrong` or `pdf.encryption-unknown`.
   */
  static open(encrypt: PdfDict, id: Uint8Array, password: string | undefined): Security {
    const entries = readEntries(encrypt);
    const key = entries.revision >= 5 ? openNew(entries, password ?? "") : openOld(entries, id, password ?? "");
    if (key === undefined) throw failure(password ? "pdf.password-wrong" : "pdf.password-needed");
    const may = (bit: number): boolean => key.owner || (entries.permissions & (1 << (bit - 1))) !== 0;
    const modify = may(4);
    const assemble = modify || (entries.revision >= 3 && may(11));
    return new Security(key.key, entries.methods, { annotate: may(6), modify, assemble }, entries.encryptsMetadata);
  }

  /** Decrypts data that belongs to the object. */
  unseal(kind: Sealed, owner: PdfRef, data: Uint8Array): Uint8Array {
    const method = this.methods[kind];
    if (method === "none") return data;
    if (method === "aes-256") return openWithAes(this.key, data);
    const key = this.objectKey(owner, method);
    return method === "rc4" ? rc4(key, data) : openWithAes(key, data);
  }

  /**
   * Encrypts data that belongs to the object. The initial vector is a digest of key, place and data, so the same update
   * is the same bytes, and no two different texts share one.
   */
  seal(kind: Sealed, owner: PdfRef, data: Uint8Array, place: number): Uint8Array {
    const method = this.methods[kind];
    if (method === "none") return data;
    if (method === "rc4") return rc4(this.objectKey(owner, method), data);
    const where = Uint8Array.of(owner.num, owner.num >> 8, owner.num >> 16, owner.num >> 24, place, place >> 8);
    const iv = sha256(concat([this.key, where, data])).subarray(0, 16);
    return sealWithAes(method === "aes-256" ? this.key : this.objectKey(owner, method), iv, data);
  }

  /** Algorithm 1 of ISO 32000-2, 7.6.3.2. */
  private objectKey(owner: PdfRef, method: Method): Uint8Array {
    const { num, gen } = owner;
    const salt = method === "aes-128" ? [0x73, 0x41, 0x6c, 0x54] : [];
    const tail = Uint8Array.of(num, num >> 8, num >> 16, gen, gen >> 8, ...salt);
    return md5(concat([this.key, tail])).subarray(0, Math.min(this.key.length + 5, 16));
  }
}

interface Entries {
  readonly revision: number;
  readonly keyLength: number;
  readonly owner: Uint8Array;
  readonly user: Uint8Array;
  readonly ownerKey: Uint8Array;
  readonly userKey: Uint8Array;
  readonly permissions: number;
  readonly methods: Readonly<Record<Sealed, Method>>;
  readonly encryptsMetadata: boolean;
}

const readEntries = (encrypt: PdfDict): Entries => {
  const number = (key: string): number => numberOf(encrypt.get(key)) ?? 0;
  const bytes = (key: string): Uint8Array => {
    const value = encrypt.get(key);
    return value instanceof PdfString ? value.bytes : new Uint8Array(0);
  };
  const [version, revision] = [number("V"), number("R")];
  const known = nameOf(encrypt.get("Filter")) === "Standard" && [1, 2, 4, 5].includes(version) && revision >= 2;
  if (!known || revision > 6 || (version === 5) !== revision >= 5)
    throw failure("pdf.encryption-unknown", "", { filter: nameOf(encrypt.get("Filter")) ?? "", version, revision });
  if (bytes("O").length < (version === 5 ? 48 : 32) || bytes("U").length < (version === 5 ? 48 : 32))
    throw damaged("encryption dictionary", "its password entries are too short");
  let keyLength = version === 1 ? 5 : Math.floor((number("Length") || (version === 4 ? 128 : 40)) / 8);
  const methods: Record<Sealed, Method> = { string: "rc4", stream: "rc4", embedded: "rc4" };
  if (version >= 4) {
    const filters = encrypt.get("CF");
    const method = (entry: string, other: PdfObject | undefined): Method => {
      const filter = nameOf(encrypt.get(entry) ?? other ?? null) ?? "Identity";
      if (filter === "Identity") return "none";
      const given = isDict(filters) ? filters.get(filter) : undefined;
      const cfm = isDict(given) ? nameOf(given.get("CFM")) : undefined;
      const found = ({ None: "none", V2: "rc4", AESV2: "aes-128", AESV3: "aes-256" } as const)[cfm ?? ""];
      if (found === undefined)
        throw failure("pdf.encryption-unknown", "", { filter: cfm ?? filter, version, revision });
      return found;
    };
    methods.stream = method("StmF", undefined);
    methods.string = method("StrF", undefined);
    methods.embedded = method("EFF", encrypt.get("StmF"));
    if (version === 4) keyLength = 16;
  }
  return {
    revision,
    keyLength: Math.min(Math.max(keyLength, 5), 16),
    owner: bytes("O"),
    user: bytes("U"),
    ownerKey: bytes("OE"),
    userKey: bytes("UE"),
    permissions: number("P") | 0,
    methods,
    encryptsMetadata: encrypt.get("EncryptMetadata") !== false,
  };
};

interface Opened {
  readonly key: Uint8Array;
  readonly owner: boolean;
}

const sameStart = (a: Uint8Array, b: Uint8Array, length: number): boolean => {
  for (let i = 0; i < length; i++) if (a[i] !== b[i]) return false;
  return true;
};

/** Revisions 2 to 4 (ISO 32000-2, 7.6.4.3 and 7.6.4.4, algorithms 2 to 7). */
const openOld = (e: Entries, id: Uint8Array, password: string): Opened | undefined => {
  const given = Uint8Array.from(password, (c) => c.charCodeAt(0) & 255);
  const pad = (bytes: Uint8Array): Uint8Array => concat([bytes, PADDING]).subarray(0, 32);
  const tryUser = (user: Uint8Array): Uint8Array | undefined => {
    const p = e.permissions;
    const extra = e.revision >= 4 && !e.encryptsMetadata ? [255, 255, 255, 255] : [];
    const tail = Uint8Array.of(p, p >> 8, p >> 16, p >> 24);
    let key = md5(concat([pad(user), e.owner.subarray(0, 32), tail, id, Uint8Array.from(extra)]));
    const n = e.revision === 2 ? 5 : e.keyLength;
    if (e.revision >= 3) for (let i = 0; i < 50; i++) key = md5(key.subarray(0, n));
    const fileKey = key.subarray(0, n);
    if (e.revision === 2) return sameStart(rc4(fileKey, PADDING), e.user, 32) ? fileKey : undefined;
    let check: Uint8Array = md5(concat([PADDING, id]));
    for (let i = 0; i < 20; i++)
      check = rc4(
        fileKey.map((b) => b ^ i),
        check,
      );
    return sameStart(check, e.user, 16) ? fileKey : undefined;
  };
  let ownerKey = md5(pad(given));
  if (e.revision >= 3) for (let i = 0; i < 50; i++) ownerKey = md5(ownerKey);
  const n = e.revision === 2 ? 5 : e.keyLength;
  let user: Uint8Array = e.owner.subarray(0, 32);
  for (let i = e.revision === 2 ? 0 : 19; i >= 0; i--)
    user = rc4(
      ownerKey.subarray(0, n).map((b) => b ^ i),
      user,
    );
  const asOwner = tryUser(user);
  if (asOwner) return { key: asOwner, owner: true };
  const asUser = tryUser(given);
  return asUser && { key: asUser, owner: false };
};

/** Revisions 5 and 6 (ISO 32000-2, 7.6.4.3.3, algorithm 2.A). */
const openNew = (e: Entries, password: string): Opened | undefined => {
  const given = new TextEncoder().encode(password.normalize("NFKC")).subarray(0, 127);
  const none = new Uint8Array(0);
  const zero = new Uint8Array(16);
  const user48 = e.user.subarray(0, 48);
  const digest = e.revision === 5 ? (...parts: Uint8Array[]) => sha256(concat(parts)) : hardenedDigest;
  if (sameStart(digest(given, e.owner.subarray(32, 40), user48), e.owner, 32)) {
    const key = digest(given, e.owner.subarray(40, 48), user48);
    return { key: aesCbcDecrypt(key, zero, e.ownerKey.subarray(0, 32)), owner: true };
  }
  if (sameStart(digest(given, e.user.subarray(32, 40), none), e.user, 32)) {
    const key = digest(given, e.user.subarray(40, 48), none);
    return { key: aesCbcDecrypt(key, zero, e.userKey.subarray(0, 32)), owner: false };
  }
  return undefined;
};

/** Algorithm 2.B of ISO 32000-2, 7.6.4.3.4. */
const hardenedDigest = (password: Uint8Array, salt: Uint8Array, user: Uint8Array): Uint8Array => {
  let k: Uint8Array = sha256(concat([password, salt, user]));
  for (let round = 0, last = 0; round < 64 || last > round - 32; round++) {
    const once = concat([password, k, user]);
    const data = concat(Array.from({ length: 64 }, () => once));
    const sealed = aesCbcEncrypt(k.subarray(0, 16), k.subarray(16, 32), data);
    // The first 16 bytes as a number modulo 3: 256 is 1 modulo 3, so the sum of the bytes will do.
    const rest = sealed.subarray(0, 16).reduce((sum, b) => sum + b, 0) % 3;
    k = [sha256, sha384, sha512][rest]?.(sealed) ?? k;
    last = sealed[sealed.length - 1] as number;
  }
  return k.subarray(0, 32);
};
