/**
 * Where marks land on paper and screen, asked of renderers that are not ours: poppler, MuPDF and pdf.js. The expected
 * place is computed here from ISO 32000-2 (8.3.2.3 for user space, table 31 for Rotate, CropBox and UserUnit), not by our code.
 */
import { getDocument, VerbosityLevel } from "pdfjs-dist/legacy/build/pdf.mjs";
import { describe, expect, it } from "vitest";
import type { AppendRequest } from "../../src/pdf/write/append-update.ts";
import { drawing, issue, mark, mutoolPixels, pixels, squareAt, tools, vermillion } from "../pdf/write/fixtures.ts";

const colour = [vermillion.r, vermillion.g, vermillion.b].map((c) => Math.round(c * 255)) as [number, number, number];
const crops: Record<string, [number, number, number, number] | undefined> = {
  "no crop box": undefined,
  "a crop box": [50, 30, 300, 200],
};
const rotations = [0, 90, 180, 270] as const;
const spot = [140, 90] as const;

/** Place of a sheet point in the shown page, in points of the unturned user unit times `scale`, y down. */
const placeOf = (
  [x, y]: readonly [number, number],
  [left, bottom, width, height]: readonly [number, number, number, number],
  rotate: number,
): [number, number] => {
  const [u, v] = [x - left, y - bottom];
  if (rotate === 90) return [v, u];
  if (rotate === 180) return [width - u, v];
  if (rotate === 270) return [height - v, width - u];
  return [u, height - v];
};

const near = (got: readonly number[], want: readonly number[]): boolean =>
  got.every((c, i) => Math.abs(c - want[i]!) <= 6);

const cases = rotations.flatMap((rotate) =>
  Object.entries(crops).flatMap(([crop, box]) => [1, 2].map((userUnit) => ({ rotate, crop, box, userUnit }))),
);

const issued = async (c: (typeof cases)[number], over: Partial<AppendRequest> = {}): Promise<Uint8Array> => {
  const original = await drawing({ rotate: c.rotate, userUnit: c.userUnit, ...(c.box ? { crop: c.box } : {}) });
  const annotations = [mark({ rect: [spot[0], spot[1], spot[0], spot[1]], picture: squareAt(...spot, 8) })];
  return issue(original, { pages: [{ page: 1, annotations }], ...over });
};

const checkPlace = (
  image: { width: number; height: number; at: (x: number, y: number) => [number, number, number] },
  c: (typeof cases)[number],
): void => {
  const box = c.box ?? ([0, 0, 400, 300] as const);
  const [x, y] = placeOf(spot, box, c.rotate);
  // Pixels to a unit of sheet space, measured from the picture: renderers differ in whether they honour UserUnit.
  const across = c.rotate % 180 === 0 ? box[2] : box[3];
  const scale = image.width / across;
  expect(near(image.at(x * scale, y * scale), colour), "the middle has the mark's colour").toBe(true);
  for (const [dx, dy] of [
    [6, 6],
    [-6, 6],
    [6, -6],
    [-6, -6],
  ] as const)
    expect(near(image.at((x + dx) * scale, (y + dy) * scale), colour), "just inside").toBe(true);
  for (const [dx, dy] of [
    [11, 0],
    [-11, 0],
    [0, 11],
    [0, -11],
  ] as const)
    expect(near(image.at((x + dx) * scale, (y + dy) * scale), [255, 255, 255]), "just outside").toBe(true);
};

describe.each(cases)("turned by $rotate, with $crop, user unit $userUnit", (c) => {
  it.skipIf(!tools.pdftoppm)(
    "poppler shows the mark in its place (skipped where pdftoppm is not installed)",
    async () => {
      const image = pixels(await issued(c), 1, 72, "-cropbox");
      checkPlace(image, c);
    },
  );

  it.skipIf(!tools.pdftoppm)(
    "poppler shows the flattened mark in its place (skipped where pdftoppm is not installed)",
    async () => {
      checkPlace(pixels(await issued(c, { flatten: true }), 1, 72, "-cropbox"), c);
    },
  );

  it.skipIf(!tools.mutool)("MuPDF shows the mark in its place (skipped where mutool is not installed)", async () => {
    checkPlace(mutoolPixels(await issued(c), 1, 72), c);
  });

  it("pdf.js gives the mark's box in its place", async () => {
    const task = getDocument({ data: await issued(c), verbosity: VerbosityLevel.ERRORS });
    const page = await (await task.promise).getPage(1);
    const viewport = page.getViewport({ scale: 1 });
    const [annotation] = await page.getAnnotations();
    const [x0, y0, x1, y1] = annotation.rect as [number, number, number, number];
    const middle = viewport.convertToViewportPoint((x0 + x1) / 2, (y0 + y1) / 2) as [number, number];
    const [x, y] = placeOf(spot, c.box ?? [0, 0, 400, 300], c.rotate);
    expect(middle[0]).toBeCloseTo(x * c.userUnit, 2);
    expect(middle[1]).toBeCloseTo(y * c.userUnit, 2);
    await task.destroy();
  });
});

describe.skipIf(!tools.pdftoppm)("a layer (skipped where pdftoppm is not installed)", () => {
  it("hides its marks when it is off, flattened or not", async () => {
    for (const flatten of [false, true]) {
      const shown = await issued(cases[0]!, { flatten });
      // The same file with the layer switched off by a byte-for-byte change of its list: ON is read as OFF.
      const text = Buffer.from(shown).toString("latin1");
      const off = new Uint8Array(Buffer.from(text.replace("/ON [", "/OFF["), "latin1"));
      expect(off.length).toBe(shown.length);
      const [x, y] = placeOf(spot, [0, 0, 400, 300], 0);
      expect(near(pixels(shown, 1, 72).at(x, y), colour)).toBe(true);
      expect(near(pixels(off, 1, 72).at(x, y), [255, 255, 255])).toBe(true);
    }
  });
});

describe.skipIf(!tools.pdftoppm)("opacity (skipped where pdftoppm is not installed)", () => {
  it("lets the drawing show through by its share, item by item", async () => {
    const [square] = squareAt(100, 100, 20);
    const picture = [{ ...square!, opacity: 0.5 }, squareAt(200, 100, 20)[0]!];
    const image = pixels(issue(await drawing(), { pages: [{ page: 1, annotations: [mark({ picture })] }] }), 1, 72);
    const half = colour.map((c) => Math.round((c + 255) / 2));
    expect(near(image.at(100, 200), half)).toBe(true);
    expect(near(image.at(200, 200), colour)).toBe(true);
  });
});
