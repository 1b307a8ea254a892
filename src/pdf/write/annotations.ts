import type { Colour, Picture } from "../../geometry/picture.ts";
import type { Point2 } from "../../geometry/point.ts";
import { type AppearanceMaker, type Box, boundsOf } from "./appearance.ts";
import type { Increment } from "./increment.ts";
import {
  dict,
  isDict,
  name,
  type PdfArray,
  type PdfDict,
  type PdfObject,
  type PdfRef,
  PdfString,
} from "./pdf-object.ts";
import { formatNumber } from "./serialize.ts";
import { dateString, latin, textOf, textString } from "./text-string.ts";

/** Kinds of annotation that are written (ISO 32000-2, 12.5.6). */
export type AnnotationSubtype = "PolyLine" | "Polygon" | "Square" | "Stamp" | "FreeText" | "Line";

/** One mark on a page. All coordinates are in sheet space. */
export interface AnnotationSpec {
  readonly subtype: AnnotationSubtype;
  /** Unique among the marks of a page; issuing again recognises earlier marks by it. */
  readonly name: string;
  /** What a viewer shows in its list and in the note. */
  readonly contents: string;
  readonly author: string;
  readonly subject: string;
  /** Day and time written as made and changed. */
  readonly modified: Date;
  /** Id of the layer it is on. */
  readonly layer: string;
  /** Least box of the mark; it grows to hold the picture. Of a Square: the square itself; of a FreeText: its words. */
  readonly rect: Box;
  /** For PolyLine, Polygon and (the first two) Line; of a FreeText the line of its leader, from what it shows to: two or three points. */
  readonly vertices?: readonly Point2[];
  readonly colour?: Colour;
  /** Inside of Square and Polygon; background of FreeText. */
  readonly interior?: Colour;
  /** Line width in sheet units. */
  readonly width?: number;
  /** Recorded for viewers that redraw the mark; the picture carries its own opacity. */
  readonly opacity?: number;
  /** Name of a mark of the same page, given before this one, that this one belongs to: readers move and list them together. */
  readonly partOf?: string;
  /** What is seen, drawn exactly where its coordinates say. */
  readonly picture: Picture;
}

type Extra = (spec: AnnotationSpec, box: Box) => Readonly<Record<string, PdfObject | undefined>>;

const components = (colour: Colour | undefined): PdfArray | undefined => colour && [colour.r, colour.g, colour.b];
const vertices = (spec: AnnotationSpec): PdfArray => (spec.vertices ?? []).flat();

/** How far the least box lies inside the one that holds everything drawn: left, bottom, right, top. Undefined where it is that box. */
const inset = ({ rect: [a0, b0, a1, b1] }: AnnotationSpec, [x0, y0, x1, y1]: Box): PdfArray | undefined => {
  const by = [a0 - x0, b0 - y0, x1 - a1, y1 - b1].map((one) => Math.max(0, one));
  return by.some((one) => one > 0) ? by : undefined;
};

/** What each kind says beside the common entries. */
const EXTRAS: Record<AnnotationSubtype, Extra> = {
  PolyLine: (spec) => ({ Vertices: vertices(spec), C: components(spec.colour) }),
  Polygon: (spec) => ({ Vertices: vertices(spec), C: components(spec.colour), IC: components(spec.interior) }),
  Square: (spec, box) => ({ RD: inset(spec, box), C: components(spec.colour), IC: components(spec.interior) }),
  Stamp: (spec) => ({ C: components(spec.colour) }),
  Line: (spec) => ({ L: vertices(spec).slice(0, 4), C: components(spec.colour) }),
  FreeText: (spec, box) => {
    const { r, g, b } = spec.colour ?? { r: 0, g: 0, b: 0 };
    const colour = [r, g, b].map((v) => formatNumber(v, 4)).join(" ");
    const size = spec.picture.find((item) => item.type === "text")?.size ?? 10;
    const look = `${colour} rg /Helv ${formatNumber(size, 2)} Tf`;
    // Words with a leader (ISO 32000-2, 12.5.6.6): its line, and what ends it at what it shows to.
    const leader = spec.vertices
      ? { IT: name("FreeTextCallout"), CL: vertices(spec), LE: name("ClosedArrow"), RD: inset(spec, box) }
      : {};
    return { DA: new PdfString(latin(look)), C: components(spec.interior), ...leader };
  },
};

/** Writes one annotation with its appearance and answers its reference. `whole` is the annotation it is a part of. */
export const addAnnotation = (
  increment: Increment,
  maker: AppearanceMaker,
  spec: AnnotationSpec,
  page: PdfRef,
  group: PdfRef | undefined,
  whole?: PdfRef,
): PdfRef => {
  const box = boundsOf(spec.picture, spec.rect, maker);
  const date = dateString(spec.modified);
  const made = dict({
    Type: name("Annot"),
    Subtype: name(spec.subtype),
    Rect: [...box],
    P: page,
    NM: textString(spec.name),
    Contents: textString(spec.contents),
    T: textString(spec.author),
    Subj: textString(spec.subject),
    M: date,
    CreationDate: date,
    F: 4, // printed
    CA: spec.opacity,
    BS: dict({ Type: name("Border"), W: spec.width ?? 0, S: name("S") }),
    ...EXTRAS[spec.subtype](spec, box),
    OC: group,
    AP: dict({ N: maker.form(spec.picture, box) }),
    // A group (ISO 32000-2, 12.5.6.2): the reader takes the parts for one mark.
    IRT: whole,
    RT: whole && name("Group"),
  });
  return increment.add(made);
};

/** The annotations of a page as an array of its own: the page's may be shared with other pages. */
export const annotationsOf = (increment: Increment, page: PdfDict): PdfArray => {
  const found = increment.resolve(page.get("Annots"));
  return Array.isArray(found) ? [...found] : [];
};

/** The array without the annotations whose name is to go. */
export const withoutNamed = (increment: Increment, annotations: PdfArray, gone: (nm: string) => boolean): PdfArray =>
  annotations.filter((o) => {
    const found = increment.resolve(o);
    const nm = isDict(found) ? found.get("NM") : undefined;
    return nm === undefined || !gone(textOf(increment.resolve(nm)));
  });
