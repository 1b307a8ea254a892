import type { Picture } from "../geometry/picture.ts";
import type { Point2 } from "../geometry/point.ts";
import type { AnnotationSpec } from "../pdf/write/annotations.ts";
import type { SheetLink } from "../pdf/write/sheet-links.ts";
import type { Mark } from "./mark.ts";
import { pictureBounds } from "./place-picture.ts";
import { entryName, markName } from "./report/part.ts";
import type { SheetFrame } from "./sheet-frame.ts";

/** What the names of our annotations start with, so that issuing again knows them. */
export const MARK_NAME = "underside:";

/** Who issues a mark, and when. */
export interface Issuing {
  readonly author: string;
  readonly now: Date;
}

/**
 * A mark as annotations: one of its own kind, and behind it a text annotation for each label, grouped with it so that readers move
 * and list them together. Names are unique in the document and the same from one issue to the next.
 */
export function markAnnotations(mark: Mark, { author, now }: Issuing): AnnotationSpec[] {
  const { subtype, subject, contents, vertices, width, colour } = mark.annotation;
  const labels = mark.labels ?? [];
  const common = { author, modified: now, layer: mark.layer };
  const name = `${MARK_NAME}${mark.key}`;
  let at = mark.picture.length - labels.reduce((sum, { items }) => sum + items, 0);
  const own = mark.picture.slice(0, at);
  const made: AnnotationSpec[] = [
    {
      ...common,
      subtype,
      name,
      contents,
      subject,
      rect: leastBox(mark, own),
      ...(vertices ? { vertices } : {}),
      ...(width === undefined ? {} : { width }),
      colour,
      picture: own,
    },
  ];
  labels.forEach(({ text, items }, i) => {
    const picture = mark.picture.slice(at, at + items);
    at += items;
    if (picture.length === 0) return;
    const ink = picture.find((item) => item.type === "text")?.fill;
    made.push({
      ...common,
      subtype: "FreeText",
      name: `${name}#${i + 1}`,
      contents: text,
      subject: `${subject}, label`,
      rect: boxOf(picture),
      ...(ink ? { colour: ink } : {}),
      partOf: name,
      picture,
    });
  });
  return made;
}

/** Around a symbol, what of the sheet is shown to who comes from its entry in the report: points of paper. */
const SHOWN_AROUND = 130;

/** The number of a finding's symbol as a link to its entry in the report, which leads back to the symbol; nothing of other marks. The symbol itself stays the stamp's. */
export function markLinks(mark: Mark, { point }: SheetFrame): SheetLink[] {
  const number = mark.picture.at(-1);
  if (mark.finding === undefined || !number) return [];
  const [x0, y0, x1, y1] = boxOf(mark.picture);
  const by = SHOWN_AROUND * point;
  return [
    {
      name: `${MARK_NAME}link:${mark.finding}`,
      contents: `Finding ${mark.finding} in the report`,
      rect: boxOf([number]),
      shows: [x0 - by, y0 - by, x1 + by, y1 + by],
      to: entryName(mark.finding),
      called: markName(mark.finding),
      layer: mark.layer,
    },
  ];
}

/** Of a square the square itself, of words with a leader the words alone, else all that is drawn. */
function leastBox({ annotation: { subtype, vertices } }: Mark, own: Picture): AnnotationSpec["rect"] {
  if (subtype === "Square" && vertices) return boxAround(vertices);
  return boxOf(subtype === "FreeText" ? own.filter(({ type }) => type === "text") : own);
}

function boxAround(points: readonly Point2[]): AnnotationSpec["rect"] {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}

function boxOf(picture: Picture): AnnotationSpec["rect"] {
  const [x0, y0, x1, y1] = pictureBounds(picture) ?? [0, 0, 0, 0];
  return [x0, y0, x1, y1];
}
