import type { Result } from "../../units/problem.ts";
import { MM_PER_INCH } from "../../units/quantity.ts";
import { readPages } from "../write/page-tree.ts";
import { asResult } from "../write/pdf-failure.ts";
import { readTolerantly } from "../write/pdf-file.ts";
import { isDict, nameOf, numberOf, type PdfDict, type PdfObject } from "../write/pdf-object.ts";
import { textOf } from "../write/text-string.ts";

/** A region of a page with a measure of its own (ISO 32000-1, 12.9: viewport and measure dictionaries). */
export interface FoundViewport {
  /** 1 for the first page. */
  readonly page: number;
  readonly name: string;
  /** Sheet space: least x, least y, greatest x, greatest y. */
  readonly box: readonly [number, number, number, number];
  readonly measure: FoundMeasure | undefined;
}

/** What a viewport says about its scale. A claim of the file, like a scale note: shown, compared, never silently trusted. */
export interface FoundMeasure {
  /** "rectilinear" is a linear scale; a "geographic" one is not, and nothing else is said of it. */
  readonly kind: "rectilinear" | "geographic" | "other";
  /** The scale as the file words it, "" where it does not. */
  readonly text: string;
  /** Units of length along x for each user space unit, and the file's name for that unit. */
  readonly perUnit: number | undefined;
  readonly unit: string;
  /** Building length per paper length; undefined where the unit is not a known length, or x and y differ. */
  readonly ratio: number | undefined;
}

/** Inches in the units a measure may name (ISO 32000-1, table 263 leaves the labels free; these are the usual ones). */
const INCHES: Readonly<Record<string, number>> = {
  in: 1,
  '"': 1,
  ft: 12,
  "'": 12,
  yd: 36,
  mi: 63360,
  mm: 1 / MM_PER_INCH,
  cm: 10 / MM_PER_INCH,
  m: 1000 / MM_PER_INCH,
  km: 1e6 / MM_PER_INCH,
};

type Lookup = (o: PdfObject | undefined) => PdfObject;

/** Every viewport of every page. A damaged index is worked around. Problems as `inspectPdf` gives them. */
export const readViewports = (file: Uint8Array, password?: string): Result<readonly FoundViewport[]> =>
  asResult(() =>
    readTolerantly(file, password, (pdf) =>
      readPages(pdf.catalog(), pdf.resolve).flatMap(({ dict }, i) => {
        const list = pdf.resolve(dict.get("VP"));
        const userUnit = numberOf(pdf.resolve(dict.get("UserUnit"))) ?? 1;
        return (Array.isArray(list) ? list : []).flatMap((entry) => {
          const found = viewport(pdf.resolve(entry), i + 1, userUnit, pdf.resolve);
          return found ? [found] : [];
        });
      }),
    ),
  );

function viewport(entry: PdfObject, page: number, userUnit: number, resolve: Lookup): FoundViewport | undefined {
  if (!isDict(entry)) return undefined;
  const corners = resolve(entry.get("BBox"));
  const [x0, y0, x1, y1] = Array.isArray(corners) ? corners.map((o) => numberOf(resolve(o))) : [];
  if (x0 === undefined || y0 === undefined || x1 === undefined || y1 === undefined) return undefined;
  const measure = resolve(entry.get("Measure"));
  return {
    page,
    name: textOf(resolve(entry.get("Name"))).trim(),
    box: [Math.min(x0, x1), Math.min(y0, y1), Math.max(x0, x1), Math.max(y0, y1)],
    measure: isDict(measure) ? readMeasure(measure, userUnit, resolve) : undefined,
  };
}

function readMeasure(measure: PdfDict, userUnit: number, resolve: Lookup): FoundMeasure {
  const subtype = nameOf(resolve(measure.get("Subtype"))) ?? "RL";
  const kind = subtype === "RL" ? "rectilinear" : subtype === "GEO" ? "geographic" : "other";
  const text = textOf(resolve(measure.get("R"))).trim();
  if (kind !== "rectilinear") return { kind, text, perUnit: undefined, unit: "", ratio: undefined };
  const x = firstFormat(measure.get("X"), resolve);
  const y = measure.has("Y") ? firstFormat(measure.get("Y"), resolve) : x;
  const same = x !== undefined && y !== undefined && x.factor === y.factor && x.unit === y.unit;
  const inches = x && INCHES[x.unit];
  return {
    kind,
    text,
    perUnit: x?.factor,
    unit: x?.unit ?? "",
    ratio: same && inches !== undefined && x.factor > 0 ? (x.factor * inches * 72) / userUnit : undefined,
  };
}

/** The first number format of an array: what one user space unit is worth, in which unit. */
function firstFormat(o: PdfObject | undefined, resolve: Lookup): { factor: number; unit: string } | undefined {
  const list = resolve(o);
  const first = Array.isArray(list) ? resolve(list[0]) : null;
  if (!isDict(first)) return undefined;
  const factor = numberOf(resolve(first.get("C")));
  return factor === undefined
    ? undefined
    : {
        factor,
        unit: textOf(resolve(first.get("U")))
          .trim()
          .toLowerCase(),
      };
}
