import { existsSync, readdirSync, readFileSync } from "node:fs";
import { describe, expect, it, vi } from "vitest";
import type { PageGeometry } from "../../../src/pdf/read/page-geometry.ts";
import type { PageContents } from "../../../src/pdf/read/plan-contents.ts";
import { readPage } from "../../../src/pdf/read/plan-reader.ts";
import { readSheet } from "../../../src/pdf/read/read-linework.ts";
import { withPlan } from "./open-bytes.ts";
import { contentPagePdf, pdfOf } from "./tiny-pdf.ts";

/** Both ways of reading a page's text: from the operators, and by the engine's own text reading; and whether the first asked for the second. */
async function bothWays(bytes: Uint8Array, page = 1) {
  return withPlan(bytes, async (plan) => {
    const engine = await readPage(plan, page);
    const proxy = await plan.document.getPage(page);
    const asked = vi.spyOn(proxy, "streamTextContent");
    const { contents, linework } = await readSheet(plan, page);
    return { engine, operators: contents, linework, asked: asked.mock.calls.length > 0 };
  });
}

/** Everything but what rounding to 32 bits, which the operators have gone through, may change. */
const rounded = ({ texts }: PageContents) =>
  texts.map(({ text, at, angle, height, width }) => ({
    text,
    numbers: [...at, angle, height, width].map((n) => Math.round(n * 100) / 100 + 0),
  }));

function expectSame(engine: PageContents, operators: PageContents): void {
  expect(operators.texts.map(({ text }) => text)).toEqual(engine.texts.map(({ text }) => text));
  for (const [i, run] of operators.texts.entries()) {
    const { at, angle, height, width } = engine.texts[i]!;
    const apart = [run.at[0] - at[0], run.at[1] - at[1], run.angle - angle, run.height - height, run.width - width];
    for (const each of apart) expect(Math.abs(each), JSON.stringify([run, engine.texts[i]])).toBeLessThan(1e-3);
  }
}

describe("text from the operators of a page", () => {
  it("lies where ISO 32000-2, 9.4.4 puts it: spacing, stretch, rise, leading, the matrices, a size below zero", async () => {
    // Helvetica (Adobe's metrics): A 667, E 667, L 556, space 278 thousandths of an em.
    const content = [
      "BT /F1 10 Tf 100 500 Td (EL) Tj ET",
      "BT /F1 10 Tf 0.5 Tc 100 480 Td (EL) Tj ET",
      "BT /F1 10 Tf 0 Tc 60 Tz 100 460 Td (EL) Tj ET",
      "BT /F1 10 Tf 0 1 -1 0 300 400 Tm (EL) Tj ET",
      "q 2 0 0 2 10 20 cm BT /F1 10 Tf 100 Tz 100 100 Td 12 TL (AA) Tj T* (EE) Tj ET Q",
      "BT -10 0 0 -10 200 300 Tm /F1 1 Tf (LL) Tj ET",
    ].join("\n");
    const { operators } = await bothWays(contentPagePdf(content));
    const found = Object.fromEntries(rounded(operators).map(({ text, numbers }) => [`${text} ${numbers[1]}`, numbers]));
    expect(found).toEqual({
      "EL 500": [100, 500, 0, 10, 12.23],
      "EL 480": [100, 480, 0, 10, 12.73],
      // (667 + 556) / 1000 x 10 x 60 %.
      "EL 460": [100, 460, 0, 10, 7.34],
      // The stretch goes on from one text object to the next, as it is part of the graphics state.
      "EL 400": [300, 400, 1.57, 10, 7.34],
      "AA 220": [210, 220, 0, 20, 26.68],
      "EE 196": [210, 196, 0, 20, 26.68],
      "LL 300": [200, 300, 3.14, 10, 6.67],
    });
  });

  const font = "/Type /Font /Subtype /Type1 /BaseFont /Helvetica";
  it.each([
    [
      "words apart, kerned, tracked and spaced",
      "BT /F1 9 Tf 1 0 0 1 40 700 Tm [(T) 80 (OP) -300 (OF) -700 (STEEL) -2000 (12)] TJ 0 -14 Td 3 Tc 2 Tw (A B C) Tj ET",
    ],
    ["spaces before, after and alone", "BT /F1 9 Tf 40 700 Td ( A ) Tj (B) Tj ( ) Tj (C) Tj 20 0 Td (D) Tj ET"],
    ["raised and lowered", "BT /F1 12 Tf 40 700 Td (12) Tj 4 Ts /F1 6 Tf (3) Tj 0 Ts (/) Tj -1 Ts (8) Tj ET"],
    [
      "invisible (rendering mode 3), outlined and clipping",
      "BT 3 Tr /F1 12 Tf 40 700 Td (hidden) Tj 1 Tr 0 -20 Td (outline) Tj 7 Tr 0 -20 Td (clip) Tj ET 0 0 m 9 9 l S",
    ],
    [
      "slanted, mirrored, at 30 degrees",
      "BT /F1 12 Tf 1 0 0.3 1 40 700 Tm (slant) Tj -1 0 0 1 200 600 Tm (mirror) Tj 0.866 0.5 -0.5 0.866 300 300 Tm (turned a b) Tj ET",
    ],
    ["lines by ' and \"", "BT /F1 12 Tf 14 TL 40 700 Td (one) ' 3 1 (two w) \" (three) ' ET"],
    [
      "a size changed within a line and set twice",
      "BT /F1 12 Tf 40 700 Td (A) Tj /F1 6 Tf (b) Tj /F2 6 Tf (c) Tj 40 650 Td (Z) Tj ET BT /F1 6 Tf 80 1350 Td (Z) Tj ET",
    ],
    ["beside the page and across its edge", "BT /F1 12 Tf -30 700 Td (leaving the edge) Tj 0 -900 Td (below) Tj ET"],
    ["saved and restored inside a text object", "BT /F1 12 Tf 40 700 Td q 5 Tc (ab) Tj Q (cd) Tj ET"],
    [
      "a text matrix scaled in the middle of a line",
      "BT /F1 1 Tf 12 0 0 12 40 700 Tm (A) Tj 24 0 0 24 52 700 Tm (B) Tj 12 0 0 12 72 700 Tm (C) Tj ET",
    ],
    [
      "backwards, over itself and one by one",
      "BT /F1 12 Tf 100 700 Td (B) Tj -60 0 Td (A) Tj 9 0 Td (b) Tj 8 0 Td (c) Tj 8 2 Td (d) Tj 8 9 Td (e) Tj ET",
    ],
    ["ligatures and signs written as one", "BT /F1 12 Tf 40 700 Td (\\336\\337 \\265 \\240x) Tj ET"],
    [
      "no font, and a font that is not there",
      "BT 40 700 Td (lost) Tj /F9 12 Tf (lost too) Tj /F1 12 Tf 0 -20 Td (kept) Tj ET",
    ],
  ])("is the engine's own: %s", async (_, content) => {
    const bytes = pdfOf([
      "<< /Type /Catalog /Pages 2 0 R >>",
      "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
      "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 612 792] /Contents 4 0 R /Resources << /Font << /F1 5 0 R /F2 6 0 R >> >> >>",
      `<< /Length ${content.length} >>\nstream\n${content}\nendstream`,
      `<< ${font} /Encoding << /Differences [222 /fi /fl] >> >>`,
      "<< /Type /Font /Subtype /Type1 /BaseFont /Courier >>",
    ]);
    const { engine, operators, asked } = await bothWays(bytes);
    expectSame(engine, operators);
    expect([asked, engine.texts.length > 0]).toEqual([false, true]);
  });

  it("of forms, layers, masks and graphics states that set a font is the engine's own, on turned and scaled pages too", async () => {
    const content =
      "BT /F1 10 Tf 0.5 Tc 60 700 Td (before) Tj ET q 1 0 0 1 100 200 cm 2 0 0 2 0 0 cm /X Do Q BT 200 700 Td (after) Tj ET /OC /L1 BDC BT 60 650 Td (shown) Tj ET EMC /OC /L2 BDC BT 200 650 Td (hidden) Tj ET EMC /G2 gs BT 60 600 Td (by state) Tj ET /G1 gs BT 60 560 Td (masked) Tj ET";
    const form = "BT 10 10 Td (inherits) Tj /F1 5 Tf 0 Tc 0 -8 Td (own) Tj ET q 0 1 -1 0 50 20 cm /Y Do Q";
    const inner = "BT /F1 8 Tf (deep) Tj ET";
    const mask = "BT /F1 6 Tf 20 20 Td (part of a mask) Tj ET";
    const stream = (dict: string, body: string) => `<< ${dict} /Length ${body.length} >>\nstream\n${body}\nendstream`;
    for (const { rotate, userUnit } of [
      { rotate: 0, userUnit: 1 },
      { rotate: 90, userUnit: 1 },
      { rotate: 270, userUnit: 2 },
    ] satisfies Pick<PageGeometry, "rotate" | "userUnit">[]) {
      const bytes = pdfOf([
        "<< /Type /Catalog /Pages 2 0 R /OCProperties << /OCGs [6 0 R 7 0 R] /D << /OFF [7 0 R] >> >> >>",
        "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
        `<< /Type /Page /Parent 2 0 R /MediaBox [0 0 612 792] /CropBox [40 30 600 760] /Rotate ${rotate} /UserUnit ${userUnit} /Contents 4 0 R /Resources << /Font << /F1 5 0 R >> /Properties << /L1 6 0 R /L2 7 0 R >> /XObject << /X 8 0 R >> /ExtGState << /G1 10 0 R /G2 12 0 R >> >> >>`,
        stream("", content),
        `<< ${font} >>`,
        "<< /Type /OCG /Name (E-POWR) >>",
        "<< /Type /OCG /Name (A-DETL) >>",
        stream(
          "/Type /XObject /Subtype /Form /BBox [0 0 400 400] /Matrix [1.5 0 0 1.5 0 0] /Resources << /Font << /F1 5 0 R >> /XObject << /Y 9 0 R >> >>",
          form,
        ),
        stream(
          "/Type /XObject /Subtype /Form /BBox [0 0 400 400] /Group << /S /Transparency >> /Resources << /Font << /F1 5 0 R >> >>",
          inner,
        ),
        "<< /Type /ExtGState /SMask << /Type /Mask /S /Luminosity /G 11 0 R >> >>",
        stream(
          "/Type /XObject /Subtype /Form /BBox [0 0 400 400] /Group << /S /Transparency /CS /DeviceGray >> /Resources << /Font << /F1 5 0 R >> >>",
          mask,
        ),
        "<< /Type /ExtGState /Font [5 0 R 22] >>",
      ]);
      const { engine, operators, asked } = await bothWays(bytes);
      expectSame(engine, operators);
      expect(asked).toBe(false);
      expect(engine.texts.map(({ text }) => text).sort()).toEqual(
        ["after", "before", "by state", "deep", "hidden", "inherits", "masked", "own", "shown"].sort(),
      );
    }
  });

  /** A font whose glyphs are content streams, A and B, each a box of `box`, with or without a box of the whole font. */
  const drawnFont = (matrix: string, box: string, content: string) =>
    pdfOf([
      "<< /Type /Catalog /Pages 2 0 R >>",
      "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
      "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 612 792] /Contents 4 0 R /Resources << /Font << /F1 5 0 R >> >> >>",
      `<< /Length ${content.length} >>\nstream\n${content}\nendstream`,
      `<< /Type /Font /Subtype /Type3 /FontBBox ${box} /FontMatrix ${matrix} /FirstChar 65 /LastChar 66 /Widths [10 10] /Encoding << /Differences [65 /A /B] >> /CharProcs << /A 6 0 R /B 6 0 R >> /Resources << >> >>`,
      "<< /Length 35 >>\nstream\n10 0 0 0 8 9 d1 0 0 8 9 re f 1 1 m f\nendstream",
    ]);
  it("of fonts drawn glyph by glyph is the engine's own, which is asked where the height of letters is in doubt", async () => {
    const small = "BT /F1 1 Tf 20 0 0 20 40 700 Tm (AB) Tj 0 -2 Td (BA AB) Tj ET";
    const large = "BT /F1 20 Tf 40 700 Td (AB) Tj 0 -40 Td (BA AB) Tj ET";
    const results = [];
    for (const bytes of [
      drawnFont("[0.1 0 0 0.1 0 0]", "[0 0 10 12]", small),
      drawnFont("[0.1 0 0 0.1 0 0]", "[0 0 10 12]", large),
      drawnFont("[0.1 0 0 0.1 0 0]", "[0 0 0 0]", large),
      drawnFont("[0.001 0 0 0.001 0 0]", "[0 0 1000 1000]", large),
    ]) {
      const { engine, operators, asked } = await bothWays(bytes);
      expectSame(engine, operators);
      results.push([asked, engine.texts.length > 0]);
    }
    expect(results).toEqual([
      [false, true],
      [true, true],
      [true, true],
      [false, true],
    ]);
  });

  /** A font without a program of its own whose two-byte codes stand for themselves, written downwards or not. */
  const composite = (encoding: string, content: string) => {
    const toUnicode =
      "/CIDInit /ProcSet findresource begin begincmap 1 begincodespacerange <0000> <ffff> endcodespacerange 1 beginbfrange <0020> <07ff> <0020> endbfrange endcmap end";
    return pdfOf([
      "<< /Type /Catalog /Pages 2 0 R >>",
      "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
      "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 612 792] /Contents 4 0 R /Resources << /Font << /F1 5 0 R >> >> >>",
      `<< /Length ${content.length} >>\nstream\n${content}\nendstream`,
      `<< /Type /Font /Subtype /Type0 /BaseFont /Made /Encoding /${encoding} /DescendantFonts [6 0 R] /ToUnicode 7 0 R >>`,
      "<< /Type /Font /Subtype /CIDFontType2 /BaseFont /Made /CIDSystemInfo << /Registry (Adobe) /Ordering (Identity) /Supplement 0 >> /DW 600 /FontDescriptor 8 0 R >>",
      `<< /Length ${toUnicode.length} >>\nstream\n${toUnicode}\nendstream`,
      "<< /Type /FontDescriptor /FontName /Made /Flags 4 /FontBBox [0 -200 1000 800] /ItalicAngle 0 /Ascent 800 /Descent -200 /CapHeight 700 /StemV 80 >>",
    ]);
  };
  it("written downwards is the engine's own", async () => {
    const down =
      "BT /F1 12 Tf 300 700 Td <004100420043> Tj 20 0 Td [<0041> -900 <0042> 300 <0043>] TJ 20 0 Td 2 Tc <00440045> Tj 0 -60 Td <00200041> Tj ET";
    const { engine, operators, asked } = await bothWays(composite("Identity-V", down));
    expectSame(engine, operators);
    expect([asked, engine.texts.length > 2]).toEqual([false, true]);
  });

  it("written from right to left is put in order by the engine", async () => {
    const { engine, operators, asked } = await bothWays(
      composite("Identity-H", "BT /F1 12 Tf 300 700 Td <05d005d105d2> Tj ET"),
    );
    expectSame(engine, operators);
    expect([asked, engine.texts.map(({ text }) => text)]).toEqual([true, ["\u05d2\u05d1\u05d0"]]);
  });
});

const folder = new URL("../../../../shared/drawings/", import.meta.url);
const samples = ["fennick-lane-store", "riverside-workshop"].map((name) => `samples/${name}/${name}.pdf`);
const drawings = existsSync(folder) ? readdirSync(folder).filter((name) => name.endsWith(".pdf")) : [];
const files = [
  ...samples.map((path) => new URL(`../../../${path}`, import.meta.url)),
  ...drawings.map((name) => new URL(name, folder)),
];

describe("whole drawings, of both ways of reading", () => {
  // The sets of others only where they are at hand.
  it.each(files.map((file) => [file.pathname.split("/").at(-1), file] as const))(
    "%s: the same text on its first pages, without asking the engine for it",
    async (_, file) => {
      await withPlan(new Uint8Array(readFileSync(file)), async (plan) => {
        for (const { page } of plan.pages.slice(0, 4)) {
          const engine = await readPage(plan, page);
          const proxy = await plan.document.getPage(page);
          const asked = vi.spyOn(proxy, "streamTextContent");
          const { contents } = await readSheet(plan, page);
          expect(asked).not.toHaveBeenCalled();
          expectSame(engine, contents);
          expect(contents.label).toBe(engine.label);
          proxy.cleanup();
        }
      });
    },
    60_000,
  );
});
