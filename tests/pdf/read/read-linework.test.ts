import { OPS } from "pdfjs-dist/legacy/build/pdf.mjs";
import { describe, expect, it, test } from "vitest";
import { OPERATOR } from "../../../src/pdf/read/engine-operators.ts";
import { bytesOf, type Linework, pathOf, SEGMENT } from "../../../src/pdf/read/linework.ts";
import type { PageGeometry } from "../../../src/pdf/read/page-geometry.ts";
import { type LineworkOptions, readLinework } from "../../../src/pdf/read/read-linework.ts";
import { withPlan } from "./open-bytes.ts";
import { contentPagePdf, pdfOf } from "./tiny-pdf.ts";

const page = { view: [0, 0, 612, 792], rotate: 0, userUnit: 1 } as const satisfies Omit<PageGeometry, "page">;
const read = (
  content: string,
  geometry: Omit<PageGeometry, "page"> = page,
  options?: LineworkOptions,
): Promise<Linework> => withPlan(contentPagePdf(content, geometry), (plan) => readLinework(plan, 1, options));
/** Segments as rows of start and end, to three decimals. */
const rows = ({ coords, count }: Linework): number[][] =>
  Array.from({ length: count }, (_, i) => [...coords.slice(4 * i, 4 * i + 4)].map((n) => Math.round(n * 1000) / 1000));

test("the engine's operators have the numbers written down here", () => {
  for (const [name, number] of Object.entries(OPERATOR))
    expect([name, (OPS as Record<string, number>)[name]]).toEqual([name, number]);
});

describe("segments", () => {
  it("lie in sheet space whatever the page's rotation, crop box and user unit", async () => {
    for (const rotate of [0, 90, 180, 270] as const) {
      for (const userUnit of [1, 2]) {
        const geometry = { view: [40, 30, 600, 700], rotate, userUnit } as const;
        expect(rows(await read("100 200 m 300 250 l S", geometry))).toEqual([[100, 200, 300, 250]]);
      }
    }
  });

  it("go through the current transformation, saved and restored (ISO 32000-2, 8.4.2)", async () => {
    const content = "q 2 0 0 2 10 20 cm 0 1 -1 0 0 0 cm 5 10 m 15 10 l S Q 5 10 m 15 10 l S";
    // Turned by a quarter, then doubled and shifted: (5, 10) goes to (-10, 5), to (-20, 10), to (-10, 30).
    expect(rows(await read(content))).toEqual(
      [
        // The part left of the page is cut off.
        [0, 0, 0, 0].slice(4),
        [5, 10, 15, 10],
      ].filter((row) => row.length > 0),
    );
    expect(rows(await read("q 2 0 0 2 110 20 cm 0 1 -1 0 0 0 cm 5 10 m 15 10 l S Q"))).toEqual([[90, 30, 90, 50]]);
  });

  it("are cut to the page and to the boxes of clips, and say so", async () => {
    const { flags, ...linework } = await read(
      "-100 100 m 100 100 l S q 50 50 20 400 re W n 0 200 m 600 200 l S Q 0 300 m 9 300 l S",
    );
    expect(rows({ flags, ...linework })).toEqual([
      [0, 100, 100, 100],
      [50, 200, 70, 200],
      [0, 300, 9, 300],
    ]);
    expect([...flags]).toEqual([SEGMENT.cutStart, SEGMENT.cutStart | SEGMENT.cutEnd, 0]);
  });

  it("of form XObjects go through their matrix and are cut to their box", async () => {
    const form = "0 0 m 40 0 l 40 30 l S";
    const bytes = pdfOf([
      "<< /Type /Catalog /Pages 2 0 R >>",
      "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
      "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 400 400] /Contents 4 0 R /Resources << /XObject << /X 5 0 R >> >> >>",
      "<< /Length 39 >>\nstream\nq 1 0 0 1 100 200 cm /X Do Q 0 0 m 9 9 l S\nendstream",
      `<< /Type /XObject /Subtype /Form /BBox [0 0 40 20] /Matrix [2 0 0 2 0 0] /Length ${form.length} >>\nstream\n${form}\nendstream`,
    ]);
    expect(rows(await withPlan(bytes, (plan) => readLinework(plan, 1)))).toEqual([
      [100, 200, 180, 200],
      [180, 200, 180, 240],
      [0, 0, 9, 9],
    ]);
  });

  it("carry pen, dash, fill and layer", async () => {
    const layers = "/OCProperties << /OCGs [6 0 R 7 0 R] /D << /OFF [7 0 R] >> >>";
    const content =
      "/OC /L1 BDC 1 0 0 RG 2 0 0 2 0 0 cm 3 w [4 1] 0 d 1 1 m 9 1 l S EMC /OC /L2 BDC 0 1 0 rg 1 1 8 8 re f EMC";
    const bytes = pdfOf([
      `<< /Type /Catalog /Pages 2 0 R ${layers} >>`,
      "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
      "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 400 400] /Contents 4 0 R /Resources << /Properties << /L1 6 0 R /L2 7 0 R >> >> >>",
      `<< /Length ${content.length} >>\nstream\n${content}\nendstream`,
      "null",
      "<< /Type /OCG /Name (E-POWR) >>",
      "<< /Type /OCG /Name (A-DETL) >>",
    ]);
    await withPlan(bytes, async (plan) => {
      const { styles, flags, pathClosed } = await readLinework(plan, 1);
      const names = styles.map(({ layer }) => plan.layers.find(({ id }) => id === layer)?.name);
      expect(names).toEqual(["E-POWR", "A-DETL"]);
      expect(styles).toMatchObject([
        { shown: true, stroke: "#ff0000", fill: null, width: 6, dash: [8, 2] },
        { shown: false, stroke: null, fill: "#00ff00", width: 0, dash: [] },
      ]);
      expect([...flags].slice(1)).toEqual(Array(4).fill(SEGMENT.filled));
      expect([...pathClosed]).toEqual([0, 1]);
    });
  });

  it("make chains where one starts at the end of another, drawn in one path or not", async () => {
    const linework = await read("10 10 m 20 10 l S 20 10 m 20 20 l S 50 50 m 60 50 l 60 60 l h S 0 0 m 1 1 l S");
    expect([...linework.pathStart]).toEqual([0, 2, 5, 6]);
    expect([...linework.pathClosed]).toEqual([0, 1, 0]);
    expect([0, 1, 2, 4, 5].map((segment) => pathOf(linework, segment))).toEqual([0, 0, 1, 1, 2]);
  });
});

/** The four curves usual for a circle: off by at most 1/3,700 of the radius (known of the factor 0.5523, from memory). */
const circle = (x: number, y: number, r: number): string => {
  const k = 0.5522847498 * r;
  const [w, e, s, n] = [x - r, x + r, y - r, y + r];
  return `${e} ${y} m ${e} ${y + k} ${x + k} ${n} ${x} ${n} c ${x - k} ${n} ${w} ${y + k} ${w} ${y} c ${w} ${y - k} ${x - k} ${s} ${x} ${s} c ${x + k} ${s} ${e} ${y - k} ${e} ${y} c h S`;
};

describe("curves", () => {
  it("are flattened to within a tenth of a point of the true circle, and known as circles", async () => {
    const { coords, count, arcs, flags } = await read(circle(300, 400, 150));
    for (let i = 0; i < count; i++) {
      const [ax, ay, bx, by] = coords.slice(4 * i, 4 * i + 4) as unknown as [number, number, number, number];
      const middle = Math.hypot((ax + bx) / 2 - 300, (ay + by) / 2 - 400);
      expect(Math.abs(middle - 150)).toBeLessThan(0.1 + 150 / 3700);
      expect(flags[i]! & SEGMENT.curved).toBe(SEGMENT.curved);
    }
    expect(arcs).toHaveLength(1);
    const [{ centre, radius, full }] = arcs as [(typeof arcs)[number]];
    expect([...centre.map((n) => Math.round(n * 100) / 100), full]).toEqual([300, 400, true]);
    expect(radius).toBeCloseTo(150, 1);
  });

  it("drawn as short lines are known as circles too, and boxes are not", async () => {
    const corner = (i: number, n: number): string =>
      `${200 + 30 * Math.cos((2 * Math.PI * i) / n)} ${200 + 30 * Math.sin((2 * Math.PI * i) / n)}`;
    const ring = (n: number): string =>
      Array.from({ length: n }, (_, i) => `${corner(i, n)} m ${corner((i + 1) % n, n)} l S`).join(" ");
    expect((await read(ring(16))).arcs).toMatchObject([{ full: true }]);
    expect((await read(ring(6))).arcs).toEqual([]);
    expect((await read("10 10 50 30 re S")).arcs).toEqual([]);
  });
});

describe("bad and very large pages", () => {
  it("with coordinates of a thousand million are cut to the page, and nothing else is lost", async () => {
    const linework = await read(
      "-1e9 50 m 1000000000 50 l S 1000000000 1000000000 m 999999999 -1000000000 l S 10 10 m 20 20 l S".replace(
        "-1e9",
        "-1000000000",
      ),
    );
    expect(rows(linework)).toEqual([
      [0, 50, 612, 50],
      [10, 10, 20, 20],
    ]);
  });

  it("with 5,000 layers keep them apart", async () => {
    const count = 5000;
    const names = Array.from({ length: count }, (_, i) => i);
    const content = names.map((i) => `/OC /L${i} BDC ${i % 600} 10 m ${i % 600} 20 l S EMC`).join("\n");
    const first = 5;
    const bytes = pdfOf([
      `<< /Type /Catalog /Pages 2 0 R /OCProperties << /OCGs [${names.map((i) => `${first + i} 0 R`).join(" ")}] /D << >> >> >>`,
      "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
      `<< /Type /Page /Parent 2 0 R /MediaBox [0 0 612 792] /Contents 4 0 R /Resources << /Properties << ${names.map((i) => `/L${i} ${first + i} 0 R`).join(" ")} >> >> >>`,
      `<< /Length ${content.length} >>\nstream\n${content}\nendstream`,
      ...names.map((i) => `<< /Type /OCG /Name (L${i}) >>`),
    ]);
    const { styles, count: segments } = await withPlan(bytes, (plan) => readLinework(plan, 1));
    expect([segments, new Set(styles.map(({ layer }) => layer)).size]).toEqual([count, count]);
  });

  it("with 40,000 hatch lines mark them, and not the line beside them, in under 60 bytes a segment", async () => {
    const lines: string[] = [];
    for (let i = 0; i < 40_000; i++) {
      const [column, row] = [i % 200, Math.floor(i / 200)];
      lines.push(`${20 + 2 * column} ${20 + 3 * row} m ${20.9 + 2 * column} ${22 + 3 * row} l S`);
    }
    const linework = await read(`${lines.join("\n")}\n500 30 m 500 600 l S`);
    const hatched = linework.flags.reduce((sum, bits) => sum + Number((bits & SEGMENT.hatch) !== 0), 0);
    expect(hatched).toBeGreaterThan(39_000);
    expect(linework.flags[40_000]! & SEGMENT.hatch).toBe(0);
    expect(bytesOf(linework) / linework.count).toBeLessThan(60);
  });

  it("stop when they are told to, before, while and after the engine works", async () => {
    const content = Array.from({ length: 30_000 }, (_, i) => `${i % 600} 1 m ${i % 600} 9 l S`).join("\n");
    await withPlan(contentPagePdf(content), async (plan) => {
      const reason = new Error("enough");
      await expect(readLinework(plan, 1, { signal: AbortSignal.abort(reason) })).rejects.toBe(reason);
      const early = new AbortController();
      const reading = readLinework(plan, 1, { signal: early.signal });
      early.abort(reason);
      await expect(reading).rejects.toBe(reason);
      const late = new AbortController();
      let pauses = 0;
      const pause = async () => {
        if (++pauses === 1) late.abort(reason);
      };
      await expect(readLinework(plan, 1, { signal: late.signal, pause })).rejects.toBe(reason);
      expect(pauses).toBe(1);
      const progress: number[] = [];
      const whole = await readLinework(plan, 1, { onProgress: (done, of) => progress.push(done / of) });
      expect([whole.count, progress.at(-1)]).toEqual([30_000, 1]);
    });
  });

  it("without anything drawn give nothing", async () => {
    const nothing = await read("");
    expect([nothing.count, nothing.pathClosed.length, nothing.partial]).toEqual([0, 0, false]);
  });
});

describe("hatching and letters", () => {
  it("a ceiling grid of two feet at an eighth of an inch is no hatching; joints of a quarter inch are", async () => {
    const spaced = (step: number): string =>
      Array.from({ length: 12 }, (_, i) => `100 ${100 + step * i} m 500 ${100 + step * i} l S`).join(" ");
    const marked = async (step: number) =>
      (await read(spaced(step))).flags.filter((bits) => bits & SEGMENT.hatch).length;
    // 1/8 in. to the foot: 2 ft are 1/4 in., 18 points.
    expect([await marked(18), await marked(4)]).toEqual([0, 12]);
  });

  it("uneven parallel lines are no hatching", async () => {
    const offsets = [0, 2, 7, 8.5, 14, 15, 21, 27, 29, 36, 38.5, 45];
    const { flags } = await read(offsets.map((y) => `100 ${96 + y} m 300 ${96 + y} l S`).join(" "));
    expect([...flags]).toEqual(offsets.map(() => 0));
  });

  it("letters drawn as outlines or strokes are marked, arrowheads and dashes are not", async () => {
    // An E as an outline of twelve edges, eight of them in a row.
    const letter = (x: number): string =>
      `${x} 100 m ${x + 5} 100 l ${x + 5} 101 l ${x + 1} 101 l ${x + 1} 103 l ${x + 4} 103 l ${x + 4} 104 l ${x + 1} 104 l ${x + 1} 107 l ${x + 5} 107 l ${x + 5} 108 l ${x} 108 l f`;
    const word = Array.from({ length: 8 }, (_, i) => letter(100 + 7 * i)).join(" ");
    // An N of three strokes.
    const strokes = Array.from(
      { length: 6 },
      (_, i) => `${300 + 8 * i} 100 m ${300 + 8 * i} 108 l ${304 + 8 * i} 100 l ${304 + 8 * i} 108 l S`,
    ).join(" ");
    const arrow = "400 400 m 410 403 l 410 397 l f";
    const dashes = Array.from({ length: 20 }, (_, i) => `${100 + 12 * i} 300 m ${108 + 12 * i} 300 l S`).join(" ");
    const { flags } = await read(`${word} ${strokes} ${arrow} ${dashes}`);
    const isGlyph = [...flags].map((bits) => (bits & SEGMENT.glyph) !== 0);
    expect(isGlyph.slice(0, 8 * 12 + 6 * 3).every(Boolean)).toBe(true);
    expect(isGlyph.slice(8 * 12 + 6 * 3).some(Boolean)).toBe(false);
  });
});
