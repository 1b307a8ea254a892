import { PDFDocument } from "@cantoo/pdf-lib";
import { describe, expect, it } from "vitest";
import { appendUpdate, issuedBytes } from "../../../src/pdf/write/append-update.ts";
import { inspectPdf, isWhole } from "../../../src/pdf/write/inspect-pdf.ts";
import { readAttachment } from "../../../src/pdf/write/read-attachment.ts";
import {
  drawing,
  job,
  mutoolPixels,
  pixels,
  qpdf,
  qpdfComplaints,
  report,
  request,
  tools,
  vermillion,
} from "./fixtures.ts";

const text = (bytes: Uint8Array): string => Buffer.from(bytes).toString("latin1");
const bytes = (latin: string): Uint8Array => new Uint8Array(Buffer.from(latin, "latin1"));
const code = (original: Uint8Array): string => {
  const result = appendUpdate(original, request());
  return result.ok ? "accepted" : result.problems[0]!.code;
};

/** Ways a file is damaged on its way: each leaves its objects readable one by one. */
const DAMAGES: Readonly<Record<string, (sound: string) => string>> = {
  "an index that is not where the end says": (sound) => sound.replace(/startxref\n\d+/, "startxref\n7"),
  "a lost end": (sound) => sound.replace(/startxref[\s\S]*$/, ""),
  "line ends changed at its start, so that every offset is off": (sound) => sound.replace("\n", "\r\n\r\n"),
  "words of a mail put before it": (sound) =>
    `Sent from the site office${" ".repeat(400)}\n${sound}`.replace(/startxref\n\d+/, "startxref\n1"),
};
const KINDS: Readonly<Record<string, () => Promise<Uint8Array>>> = {
  "a table": () => drawing({ pages: 2 }),
  "object streams": () => drawing({ pages: 2, objectStreams: true }),
  ...(tools.qpdf
    ? {
        "AES-256": async () =>
          qpdf(await drawing({ pages: 2 }), "--object-streams=disable", "--encrypt", "", "owner", "256", "--"),
      }
    : {}),
};

describe.each(Object.entries(KINDS))("a file with %s", (_, make) => {
  it.each(Object.entries(DAMAGES))(
    "and %s is refused, and issued as a repaired copy when one is asked for",
    async (_, damage) => {
      const original = bytes(damage(text(await make())));
      expect(code(original)).toBe("pdf.damaged");
      expect(isWhole(original)).toBe(false);
      const password = { password: "owner" };
      const made = appendUpdate(
        original,
        request({ copy: "repaired", attachment: job, freshPages: await report(), ...password }),
      );
      if (!made.ok) throw new Error(JSON.stringify(made.problems));
      expect(made.value.lost).toBe(0);
      const file = issuedBytes(original, made.value.increment);
      expect(Buffer.from(file.subarray(0, original.length)).equals(Buffer.from(original))).toBe(true);
      expect(isWhole(file)).toBe(true);
      expect(inspectPdf(file)).toMatchObject({ ok: true, value: { damaged: false, pageCount: 4 } });
      expect(readAttachment(file, job.name)).toEqual({ ok: true, value: job.bytes });
      const want = [vermillion.r, vermillion.g, vermillion.b].map((c) => c * 255);
      const near = (colour: readonly number[]) => colour.every((part, i) => Math.abs(part - want[i]!) < 2);
      if (tools.qpdf) expect(qpdfComplaints(file)).toBe("");
      if (tools.mutool) expect(near(mutoolPixels(file, 1, 72).at(110, 190))).toBe(true);
      if (tools.pdftoppm) expect(near(pixels(file, 1, 72).at(110, 190))).toBe(true);
    },
  );
});

describe("a repaired copy", () => {
  const repaired = (original: Uint8Array) => appendUpdate(original, request({ copy: "repaired" }));

  it("of a whole file is that file issued as ever", async () => {
    const original = await drawing();
    expect(repaired(original)).toEqual(appendUpdate(original, request()));
  });

  it("writes anew a stream whose stated length is wrong", async () => {
    const sound = text(await drawing());
    const [, number, length] = /(\d+) 0 obj\n<<[^>]*?\/Length (\d+)/.exec(sound)!;
    const wrong = String(Number(length) - 7).padStart(length!.length, "0");
    const original = bytes(
      sound.replace(`/Length ${length}`, `/Length ${wrong}`).replace(/startxref\n\d+/, "startxref\n7"),
    );
    const made = repaired(original);
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    const written = text(made.value.increment);
    expect(written.slice(written.indexOf(`\n${number} 0 obj`)).slice(0, 200)).toContain(`/Length ${length}`);
    if (tools.qpdf) expect(qpdfComplaints(issuedBytes(original, made.value.increment))).toBe("");
  });

  it("says how much of the document cannot be found", async () => {
    const sound = text(await drawing());
    const font = /(\d+) 0 obj\n<<\n\/Type \/Font\b/.exec(sound)!;
    const original = bytes(
      sound.replace(`${font[1]} 0 obj`, `${font[1]} 0 odj`).replace(/startxref\n\d+/, "startxref\n7"),
    );
    expect(repaired(original)).toMatchObject({ ok: true, value: { lost: 1 } });
  });

  it("takes nothing for an object that stands inside a stream", async () => {
    const document = await PDFDocument.load(await drawing());
    // A plain PDF attached to the drawing, with pages under the numbers of the drawing's own.
    await document.attach(await drawing({ pages: 5 }), "inner.pdf", {});
    await document.flush();
    for (const [ref, object] of document.context.enumerateIndirectObjects())
      if ("contents" in object && String(object).includes("/EmbeddedFile"))
        document.context.assign(ref, document.context.stream(await drawing({ pages: 5 }), { Type: "EmbeddedFile" }));
    const original = bytes(
      text(await document.save({ useObjectStreams: false })).replace(
        /startxref\n\d+\n%%EOF\s*$/,
        "startxref\n7\n%%EOF\n",
      ),
    );
    const made = repaired(original);
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    expect(inspectPdf(issuedBytes(original, made.value.increment))).toMatchObject({
      ok: true,
      value: { pageCount: 1 },
    });
  });

  it("is refused where an object of the document cannot be read", async () => {
    const sound = text(await drawing());
    const page = sound.indexOf("/Contents");
    const original = bytes(`${sound.slice(0, page)}<< (${sound.slice(page)}`.replace(/startxref\n\d+/, "startxref\n7"));
    const made = repaired(original);
    expect(made.ok).toBe(false);
    if (!made.ok) expect(made.problems[0]!.code).toMatch(/^pdf\.(beyond-repair|damaged|no-pages)$/);
  });
});
