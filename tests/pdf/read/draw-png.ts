import { crc32, deflateSync } from "node:zlib";

/** A picture in black and white as a PNG (ISO/IEC 15948): eight bits of grey a pixel, ink where `isInk` says so; rows from the top. */
export function drawPng(width: number, height: number, isInk: (x: number, y: number) => boolean): Uint8Array {
  const rows = new Uint8Array(height * (width + 1));
  for (let y = 0; y < height; y++)
    // Each row begins with its filter: none.
    for (let x = 0; x < width; x++) rows[y * (width + 1) + 1 + x] = isInk(x, y) ? 0 : 255;
  const head = new Uint8Array(13);
  const fields = new DataView(head.buffer);
  fields.setUint32(0, width);
  fields.setUint32(4, height);
  head[8] = 8;
  const signature = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a);
  return Buffer.concat([
    signature,
    chunk("IHDR", head),
    chunk("IDAT", deflateSync(rows)),
    chunk("IEND", new Uint8Array()),
  ]);
}

function chunk(type: string, data: Uint8Array): Uint8Array {
  const named = Buffer.concat([Buffer.from(type, "latin1"), data]);
  const whole = Buffer.alloc(named.length + 8);
  whole.writeUInt32BE(data.length);
  named.copy(whole, 4);
  whole.writeUInt32BE(crc32(named), named.length + 4);
  return whole;
}
