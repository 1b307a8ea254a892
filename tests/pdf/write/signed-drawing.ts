import { spawnSync } from "node:child_process";
import { PDFDocument, PDFHexString, PDFName, PDFString } from "@cantoo/pdf-lib";
import { fromBER, Integer, ObjectIdentifier, OctetString, Utf8String } from "asn1js";
import {
  Attribute,
  AttributeTypeAndValue,
  Certificate,
  ContentInfo,
  CryptoEngine,
  EncapsulatedContentInfo,
  IssuerAndSerialNumber,
  SignedAndUnsignedAttributes,
  SignedData,
  SignerInfo,
  setEngine,
} from "pkijs";
import { drawing, withFile } from "./fixtures.ts";

setEngine("node", new CryptoEngine({ name: "node", crypto: globalThis.crypto }));

/** Room for a signature's bytes, hexadecimal digits. */
const ROOM = 8192;
const HASH = "SHA-256";

export interface Signing {
  /** Certify the document at a level (ISO 32000-2, table 257). */
  readonly level?: 1 | 2 | 3;
  /** Lock the document by the field's own lock (table 237). */
  readonly lock?: 1 | 2 | 3;
  readonly objectStreams?: boolean;
}

/** A drawing of our own with a real signature over all of its bytes, by an invented signer with a key made for the occasion. */
export const signedDrawing = async ({ level, lock, objectStreams = false }: Signing = {}): Promise<Uint8Array> => {
  const document = await PDFDocument.load(await drawing({ pages: 2 }));
  const { context } = document;
  const transform = { Type: "TransformParams", P: level ?? 3, V: PDFName.of("1.2") };
  const signature = context.register(
    context.obj({
      Type: "Sig",
      Filter: "Adobe.PPKLite", // the name that the worked examples of ISO 32000 use
      SubFilter: "adbe.pkcs7.detached",
      ByteRange: ["0", "B111111111", "B222222222", "B333333333"].map((name) => PDFName.of(name)),
      Contents: PDFHexString.of("0".repeat(ROOM)),
      M: PDFString.of("D:20260304050607Z"),
      ...(level === undefined
        ? {}
        : { Reference: [{ Type: "SigRef", TransformMethod: "DocMDP", TransformParams: transform }] }),
    }),
  );
  const page = document.getPage(0);
  const field = context.register(
    context.obj({
      Type: "Annot",
      Subtype: "Widget",
      FT: "Sig",
      T: PDFString.of("Seal"),
      Rect: [300, 30, 370, 60],
      F: 132,
      P: page.ref,
      V: signature,
      ...(lock === undefined ? {} : { Lock: { Type: "SigFieldLock", Action: "All", P: lock } }),
    }),
  );
  page.node.set(PDFName.of("Annots"), context.obj([field]));
  document.catalog.set(PDFName.of("AcroForm"), context.obj({ Fields: [field], SigFlags: 3 }));
  if (level !== undefined) document.catalog.set(PDFName.of("Perms"), context.obj({ DocMDP: signature }));
  const saved = await document.save({ useObjectStreams: false, updateFieldAppearances: false });
  if (objectStreams) throw new Error("a signature's dictionary stands in the open");
  return sign(Buffer.from(saved));
};

const sign = async (file: Buffer): Promise<Uint8Array> => {
  const open = file.indexOf(`<${"0".repeat(ROOM)}>`);
  const close = open + ROOM + 2;
  const range = [0, open, close, file.length - close];
  const at = file.indexOf("/B111111111");
  const end = file.indexOf("]", at);
  const start = file.lastIndexOf("[", at);
  file.write(`[${range.join(" ")}`.padEnd(end - start), start, "latin1");
  const made = await signatureOver(coveredBytes(file));
  const hex = Buffer.from(made).toString("hex");
  if (hex.length > ROOM) throw new Error("the signature does not fit");
  file.write(hex.padEnd(ROOM, "0"), open + 1, "latin1");
  return new Uint8Array(file);
};

const rangeOf = (file: Uint8Array): [number, number, number, number] => {
  const found = /\/ByteRange\s*\[\s*(\d+)\s+(\d+)\s+(\d+)\s+(\d+)/.exec(Buffer.from(file).toString("latin1"));
  if (!found) throw new Error("nothing is signed");
  return found.slice(1).map(Number) as [number, number, number, number];
};

/** The bytes that the first signature of a file covers. */
export const coveredBytes = (file: Uint8Array): Uint8Array => {
  const [a, b, c, d] = rangeOf(file);
  return new Uint8Array(Buffer.concat([file.subarray(a, a + b), file.subarray(c, c + d)]));
};

/** A detached signature (RFC 5652) over bytes. */
const signatureOver = async (bytes: Uint8Array): Promise<ArrayBuffer> => {
  const algorithm = {
    name: "RSASSA-PKCS1-v1_5",
    modulusLength: 2048,
    publicExponent: new Uint8Array([1, 0, 1]),
    hash: HASH,
  };
  const keys = (await crypto.subtle.generateKey(algorithm, true, ["sign", "verify"])) as CryptoKeyPair;
  const certificate = new Certificate();
  certificate.version = 2;
  certificate.serialNumber = new Integer({ value: 7 });
  const called = () =>
    new AttributeTypeAndValue({ type: "2.5.4.3", value: new Utf8String({ value: "P. Ternhill, invented" }) });
  certificate.issuer.typesAndValues.push(called());
  certificate.subject.typesAndValues.push(called());
  certificate.notBefore.value = new Date("2026-01-01T00:00:00Z");
  certificate.notAfter.value = new Date("2036-01-01T00:00:00Z");
  await certificate.subjectPublicKeyInfo.importKey(keys.publicKey);
  await certificate.sign(keys.privateKey, HASH);

  const digest = await crypto.subtle.digest(HASH, bytes as BufferSource);
  const attributes = [
    new Attribute({ type: "1.2.840.113549.1.9.3", values: [new ObjectIdentifier({ value: "1.2.840.113549.1.7.1" })] }),
    new Attribute({ type: "1.2.840.113549.1.9.4", values: [new OctetString({ valueHex: digest })] }),
  ];
  const signer = new SignerInfo({
    version: 1,
    sid: new IssuerAndSerialNumber({ issuer: certificate.issuer, serialNumber: certificate.serialNumber }),
    signedAttrs: new SignedAndUnsignedAttributes({ type: 0, attributes }),
  });
  const signed = new SignedData({
    version: 1,
    encapContentInfo: new EncapsulatedContentInfo({ eContentType: "1.2.840.113549.1.7.1" }),
    signerInfos: [signer],
    certificates: [certificate],
  });
  await signed.sign(keys.privateKey, 0, HASH, bytes as BufferSource);
  return new ContentInfo({ contentType: "1.2.840.113549.1.7.2", content: signed.toSchema(true) })
    .toSchema()
    .toBER(false);
};

/** Does the signature of a file hold for the bytes it covers? Asked of a library that knows nothing of PDF. */
export const signatureHolds = async (file: Uint8Array): Promise<boolean> => {
  const [, open, close] = rangeOf(file);
  const hex = Buffer.from(file.subarray(open + 1, close - 1)).toString("latin1");
  const { result } = fromBER(new Uint8Array(Buffer.from(hex, "hex")).buffer);
  const signed = new SignedData({ schema: new ContentInfo({ schema: result }).content });
  try {
    return await signed.verify({ signer: 0, data: coveredBytes(file).slice().buffer, checkChain: false });
  } catch {
    return false;
  }
};

/** What poppler's verifier says of the signatures of a file; undefined where it is not installed. */
export const saidByPdfsig = (file: Uint8Array): string | undefined =>
  spawnSync("pdfsig", ["-v"]).error === undefined
    ? withFile(file, (path) => spawnSync("pdfsig", ["-nocert", path], { encoding: "utf8" }).stdout)
    : undefined;
