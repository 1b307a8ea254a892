import { zlibSync } from "fflate";

/** One page of a drawing set: size and turn, what is drawn on it, and its scaled plans. */
export interface DrawnPage {
  /** Media box before the turn, user space units (1/72 in.). */
  readonly width: number;
  readonly height: number;
  readonly rotate: 0 | 90;
  readonly content: string;
  /** What the file calls the page. */
  readonly label: string;
  /** Plans with a scale of their own, for viewers that measure (ISO 32000-2, 12.9). */
  readonly plans: readonly {
    readonly name: string;
    readonly box: readonly [number, number, number, number];
    readonly scaleText: string;
    readonly feetPerUnit: number;
  }[];
}

/**
 * A PDF file of these pages, as bytes: two of the standard 14 fonts, one optional-content group per layer, contents as they are
 * or `packed` (Flate), and no date or identifier, so that the same drawing gives the same bytes.
 */
export function pdfFile(
  title: string,
  layers: readonly string[],
  pages: readonly DrawnPage[],
  { packed = false }: { readonly packed?: boolean } = {},
): Uint8Array {
  const objects: string[] = [];
  const add = (body: string): string => `${objects.push(body)} 0 R`;
  const catalog = objects.push("");
  const tree = objects.push("");
  const info = add(`<< /Title (${escaped(title)}) /Producer (samples/draw.ts) >>`);
  const font = (name: string): string =>
    add(`<< /Type /Font /Subtype /Type1 /BaseFont /${name} /Encoding /WinAnsiEncoding >>`);
  const fonts = `<< /F1 ${font("Helvetica")} /F2 ${font("Helvetica-Bold")} >>`;
  const groups = layers.map((name) => add(`<< /Type /OCG /Name (${escaped(name)}) >>`));
  const properties = `<< ${groups.map((ref, i) => `/L${i} ${ref}`).join(" ")} >>`;
  const kids = pages.map((page) => {
    const data = packed ? deflated(page.content) : page.content;
    const filter = packed ? " /Filter /FlateDecode" : "";
    const content = add(`<< /Length ${data.length}${filter} >>\nstream\n${data}\nendstream`);
    const plans = page.plans.map((plan) => viewport(plan)).join("\n");
    return add(
      [
        `<< /Type /Page /Parent ${tree} 0 R /MediaBox [0 0 ${page.width} ${page.height}] /Rotate ${page.rotate}`,
        `/Resources << /Font ${fonts} /Properties ${properties} >> /Contents ${content}`,
        `/VP [${plans}] >>`,
      ].join("\n"),
    );
  });
  objects[tree - 1] = `<< /Type /Pages /Count ${kids.length} /Kids [${kids.join(" ")}] >>`;
  const all = groups.join(" ");
  const labels = pages.map((page, i) => `${i} << /P (${escaped(page.label)}) >>`).join(" ");
  objects[catalog - 1] =
    `<< /Type /Catalog /Pages ${tree} 0 R /PageLabels << /Nums [${labels}] >> /OCProperties << /OCGs [${all}] /D << /Order [${all}] /ON [${all}] >> >> >>`;

  // The second line marks the file as binary (ISO 32000-2, 7.5.2).
  let text = "%PDF-1.7\n%\xE2\xE3\xCF\xD3\n";
  const offsets = objects.map((body, i) => {
    const offset = text.length;
    text += `${i + 1} 0 obj\n${body}\nendobj\n`;
    return offset;
  });
  const start = text.length;
  const rows = offsets.map((offset) => `${String(offset).padStart(10, "0")} 00000 n \n`).join("");
  text += `xref\n0 ${objects.length + 1}\n0000000000 65535 f \n${rows}`;
  text += `trailer\n<< /Size ${objects.length + 1} /Root ${catalog} 0 R /Info ${info} >>\nstartxref\n${start}\n%%EOF\n`;
  return Uint8Array.from(text, (sign) => sign.charCodeAt(0));
}

/** Latin-1 text packed with zlib's method, its bytes as characters. */
function deflated(text: string): string {
  const bytes = zlibSync(
    Uint8Array.from(text, (sign) => sign.charCodeAt(0)),
    { level: 9 },
  );
  return Array.from(bytes, (byte) => String.fromCharCode(byte)).join("");
}

function viewport({ name, box, scaleText, feetPerUnit }: DrawnPage["plans"][number]): string {
  const feet = `<< /Type /NumberFormat /U (ft) /C 1 /D 1000 >>`;
  const perUnit = `<< /Type /NumberFormat /U (ft) /C ${Number(feetPerUnit.toFixed(9))} >>`;
  const square = `<< /Type /NumberFormat /U (sq ft) /C 1 /D 100 >>`;
  const measure = `<< /Type /Measure /Subtype /RL /R (${escaped(scaleText)}) /X [${perUnit}] /D [${feet}] /A [${square}] >>`;
  return `<< /Type /Viewport /BBox [${box.join(" ")}] /Name (${escaped(name)}) /Measure ${measure} >>`;
}

/** Text for a PDF string in brackets. Signs beyond Latin-1 have no place in these drawings. */
export function escaped(text: string): string {
  for (const sign of text) if (sign.charCodeAt(0) > 255) throw new Error(`No glyph for ${sign}`);
  return text.replace(/[\\()]/g, "\\$&");
}
