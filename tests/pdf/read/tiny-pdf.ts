import type { PageGeometry } from "../../../src/pdf/read/page-geometry.ts";

/** Puts objects (without `obj`/`endobj`) into a minimal PDF 1.7 with a classic cross-reference table; object 1 is the catalog. */
export const pdfOf = (objects: readonly string[], extraTrailer = ""): Uint8Array => {
  let text = "%PDF-1.7\n";
  const offsets = objects.map((body, i) => {
    const at = text.length;
    text += `${i + 1} 0 obj\n${body}\nendobj\n`;
    return at;
  });
  const start = text.length;
  text += `xref\n0 ${objects.length + 1}\n0000000000 65535 f \n`;
  for (const at of offsets) text += `${String(at).padStart(10, "0")} 00000 n \n`;
  text += `trailer\n<< /Size ${objects.length + 1} /Root 1 0 R ${extraTrailer} >>\nstartxref\n${start}\n%%EOF\n`;
  return Uint8Array.from(text, (c) => c.charCodeAt(0));
};

const boxed = (g: Omit<PageGeometry, "page">): string => {
  const [x0, y0, x1, y1] = g.view;
  // A media box larger than the crop box, so that a reader that mixes them up is caught.
  return `/MediaBox [${x0 - 20} ${y0 - 10} ${x1 + 5} ${y1 + 40}] /CropBox [${g.view.join(" ")}] /Rotate ${g.rotate} /UserUnit ${g.userUnit}`;
};

/** One empty page with the given boxes, rotation and user unit. */
export const blankPagePdf = (geometry: Omit<PageGeometry, "page">): Uint8Array =>
  pdfOf([
    "<< /Type /Catalog /Pages 2 0 R >>",
    "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
    `<< /Type /Page /Parent 2 0 R ${boxed(geometry)} >>`,
  ]);

/** One page in Helvetica with the given content stream. */
export const contentPagePdf = (
  content: string,
  geometry: Omit<PageGeometry, "page"> = { view: [0, 0, 612, 792], rotate: 0, userUnit: 1 },
  catalogExtra = "",
): Uint8Array =>
  pdfOf([
    `<< /Type /Catalog /Pages 2 0 R ${catalogExtra} >>`,
    "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
    `<< /Type /Page /Parent 2 0 R ${boxed(geometry)} /Contents 4 0 R /Resources << /Font << /F1 5 0 R >> >> >>`,
    `<< /Length ${content.length} >>\nstream\n${content}\nendstream`,
    "<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>",
  ]);
