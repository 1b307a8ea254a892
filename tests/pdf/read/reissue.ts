import {
  concatTransformationMatrix,
  degrees,
  drawObject,
  PDFDocument,
  PDFName,
  PDFNumber,
  popGraphicsState,
  pushGraphicsState,
} from "@cantoo/pdf-lib";
import type { Point2 } from "../../../src/geometry/point.ts";
import { findGrid } from "../../../src/pdf/read/find-grid.ts";
import type { IssueContent } from "../../../src/pdf/read/issue-content.ts";
import { readPage } from "../../../src/pdf/read/plan-reader.ts";
import { readLinework } from "../../../src/pdf/read/read-linework.ts";
import { withPlan } from "./open-bytes.ts";

/** How a page is issued again: its content turned, scaled and shifted on a page of another make. */
export interface Reissue {
  /** Quarter turns counter-clockwise of the content in sheet space. */
  readonly quarter?: 0 | 1 | 2 | 3;
  readonly scale?: number;
  /** Further shift, sheet units. */
  readonly shift?: Point2;
  readonly rotate?: 0 | 90 | 180 | 270;
  /** The crop box begins here in the media box, which begins at (0, 0). */
  readonly corner?: Point2;
  readonly userUnit?: number;
  readonly mirrored?: boolean;
}

/** A page issued again by another library, and where a point of the old one lies on it. */
export async function reissue(
  bytes: Uint8Array,
  page: number,
  { quarter = 0, scale = 1, shift = [0, 0], rotate = 0, corner = [0, 0], userUnit = 1, mirrored = false }: Reissue,
): Promise<{ readonly bytes: Uint8Array; readonly place: (at: Point2) => Point2 }> {
  const from = await PDFDocument.load(bytes, { ignoreEncryption: true });
  const old = from.getPage(page - 1);
  const box = old.getCropBox();
  const doc = await PDFDocument.create();
  const form = await doc.embedPage(old, {
    left: box.x,
    bottom: box.y,
    right: box.x + box.width,
    top: box.y + box.height,
  });
  const [w, h] = [box.width * scale, box.height * scale];
  const size: [number, number] = quarter % 2 === 0 ? [w, h] : [h, w];
  const sheet = doc.addPage(size);
  sheet.setMediaBox(0, 0, corner[0] + size[0] + 40, corner[1] + size[1] + 40);
  sheet.setCropBox(corner[0], corner[1], size[0], size[1]);
  if (rotate) sheet.setRotation(degrees(rotate));
  if (userUnit !== 1) sheet.node.set(PDFName.of("UserUnit"), PDFNumber.of(userUnit));
  const flip = mirrored ? -1 : 1;
  const [c, s] = (
    [
      [1, 0],
      [0, 1],
      [-1, 0],
      [0, -1],
    ] as const
  )[quarter];
  // Turned about its own corner, then put back into the box.
  const back: Point2 = [quarter === 1 ? h : quarter === 2 ? w : 0, quarter === 2 ? h : quarter === 3 ? w : 0];
  const [a, b, cc, d] = [scale * c * flip, scale * s * flip, -scale * s, scale * c];
  const mirror: Point2 = mirrored ? [c * w, s * w] : [0, 0];
  const e = corner[0] + back[0] + shift[0] + mirror[0];
  const f = corner[1] + back[1] + shift[1] + mirror[1];
  const name = sheet.node.newXObject("Old", form.ref);
  sheet.pushOperators(pushGraphicsState(), concatTransformationMatrix(a, b, cc, d, e, f));
  sheet.pushOperators(drawObject(name), popGraphicsState());
  const place = ([x, y]: Point2): Point2 => {
    const [u, v] = [x - box.x, y - box.y];
    return [a * u + cc * v + e, b * u + d * v + f];
  };
  return { bytes: await doc.save(), place };
}

/** What one page offers for laying it on another. The engine takes the bytes it is given: it gets a copy. */
export const contentOf = (bytes: Uint8Array, page = 1): Promise<IssueContent> =>
  withPlan(bytes.slice(), async (plan) => {
    const { texts } = await readPage(plan, page);
    const linework = await readLinework(plan, page);
    return { linework, grids: findGrid(linework, texts), texts };
  });
