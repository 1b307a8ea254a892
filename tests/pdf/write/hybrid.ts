import { deflateSync } from "node:zlib";

/** Objects of a plain file with a classic table, by number, in order. */
const objectsOf = (text: string): Map<number, string> => {
  const found = new Map<number, string>();
  for (const [, number, body] of text.matchAll(/(?:^|\n)(\d+) 0 obj\n([\s\S]*?)\nendobj/g))
    found.set(Number(number), body!);
  return found;
};

/**
 * Writes a plain file anew as a hybrid-reference file (ISO 32000-2, 7.5.8.4): what is no stream, and neither root nor page tree, goes into an
 * object stream that only the cross-reference stream of the trailer's /XRefStm knows; the table calls it free.
 */
export const asHybrid = (plain: Uint8Array): Uint8Array => {
  const text = Buffer.from(plain).toString("latin1");
  const objects = objectsOf(text);
  const trailer = text.slice(text.lastIndexOf("trailer"));
  const root = Number(/\/Root (\d+) 0 R/.exec(trailer)![1]);
  const info = /\/Info \d+ 0 R/.exec(trailer)?.[0] ?? "";
  const isOpen = (number: number, body: string) =>
    number === root || body.includes("stream\n") || body.includes("/Type /Pages");
  const hidden = [...objects].filter(([number, body]) => !isOpen(number, body));
  const last = Math.max(...objects.keys());
  const [pack, index] = [last + 1, last + 2];

  const parts: Buffer[] = [Buffer.from("%PDF-1.5\n%\xe2\xe3\xcf\xd3\n", "latin1")];
  let length = parts[0]!.length;
  const offsets = new Map<number, number>();
  const add = (number: number, body: Buffer): void => {
    offsets.set(number, length);
    const whole = Buffer.concat([Buffer.from(`${number} 0 obj\n`), body, Buffer.from("\nendobj\n")]);
    parts.push(whole);
    length += whole.length;
  };
  const stream = (entries: string, data: Buffer): Buffer => {
    const packed = deflateSync(data);
    const head = `<< ${entries} /Filter /FlateDecode /Length ${packed.length} >>\nstream\n`;
    return Buffer.concat([Buffer.from(head), packed, Buffer.from("\nendstream")]);
  };
  for (const [number, body] of objects) if (isOpen(number, body)) add(number, Buffer.from(body, "latin1"));

  let at = 0;
  const places = hidden.map(([number, body]) => {
    const place = `${number} ${at}`;
    at += body.length + 1;
    return place;
  });
  const head = `${places.join(" ")}\n`;
  const bodies = Buffer.from(hidden.map(([, body]) => `${body}\n`).join(""), "latin1");
  add(
    pack,
    stream(`/Type /ObjStm /N ${hidden.length} /First ${head.length}`, Buffer.concat([Buffer.from(head), bodies])),
  );

  const rows = hidden.map(([, _], i) => Buffer.from([2, pack >> 8, pack & 255, i >> 8, i & 255]));
  const ranges = hidden.map(([number]) => `${number} 1`).join(" ");
  add(
    index,
    stream(`/Type /XRef /Size ${index + 1} /W [1 2 2] /Index [${ranges}] /Root ${root} 0 R`, Buffer.concat(rows)),
  );

  const lines = Array.from({ length: index }, (_, i) => {
    const offset = offsets.get(i + 1);
    return offset === undefined ? "0000000000 00000 f \n" : `${String(offset).padStart(10, "0")} 00000 n \n`;
  });
  const table = `xref\n0 ${index + 1}\n0000000000 65535 f \n${lines.join("")}`;
  const end = `trailer\n<< /Size ${index + 1} /Root ${root} 0 R ${info} /XRefStm ${offsets.get(index)} >>\nstartxref\n${length}\n%%EOF\n`;
  return new Uint8Array(Buffer.concat([...parts, Buffer.from(table + end, "latin1")]));
};
