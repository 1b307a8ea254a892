import {
  appendBezierCurve,
  beginText,
  closePath,
  endText,
  fill,
  fillEvenOdd,
  LineCapStyle,
  LineJoinStyle,
  lineTo,
  moveTo,
  type PDFFont,
  type PDFHexString,
  type PDFName,
  PDFOperator,
  PDFOperatorNames,
  type PDFPage,
  popGraphicsState,
  pushGraphicsState,
  setDashPattern,
  setFillingRgbColor,
  setFontAndSize,
  setGraphicsState,
  setLineCap,
  setLineJoin,
  setLineWidth,
  setStrokingRgbColor,
  setTextMatrix,
  showText,
  stroke,
} from "@cantoo/pdf-lib";
import type { FontFace, PathItem, PathStep, Picture, TextItem } from "../geometry/picture.ts";

/** The faces of a document under construction. */
export type EmbeddedFonts = Readonly<Record<FontFace, PDFFont>>;

/** Page resources made so far, so that each font and each opacity is listed once a page. */
const namesByPage = new WeakMap<PDFPage, Map<string, PDFName>>();

/**
 * Draws a picture on a fresh page; its space is the page's user space. `spaced`: a space follows every line of words, so that lines read one after the
 * other are not run together.
 */
export function drawPicture(page: PDFPage, picture: Picture, fonts: EmbeddedFonts, spaced = false): void {
  for (const item of picture) {
    page.pushOperators(
      pushGraphicsState(),
      ...opacity(page, item.opacity),
      ...(item.type === "text" ? textOperators(page, item, fonts, spaced) : pathOperators(item)),
      popGraphicsState(),
    );
  }
}

function nameFor(page: PDFPage, key: string, make: () => PDFName): PDFName {
  let names = namesByPage.get(page);
  if (!names) {
    names = new Map();
    namesByPage.set(page, names);
  }
  let name = names.get(key);
  if (!name) {
    name = make();
    names.set(key, name);
  }
  return name;
}

function opacity(page: PDFPage, value: number | undefined): PDFOperator[] {
  if (value === undefined || value >= 1) return [];
  const name = nameFor(page, `opacity ${value}`, () =>
    page.node.newExtGState("GS", page.doc.context.obj({ Type: "ExtGState", ca: value, CA: value })),
  );
  return [setGraphicsState(name)];
}

function textOperators(page: PDFPage, item: TextItem, fonts: EmbeddedFonts, spaced: boolean): PDFOperator[] {
  const font = fonts[item.face];
  const name = nameFor(page, `font ${item.face}`, () => page.node.newFontDictionary(font.name, font.ref));
  const width = item.align === "start" ? 0 : font.widthOfTextAtSize(item.text, item.size);
  const back = item.align === "middle" ? width / 2 : width;
  const [c, s] = [Math.cos(item.angle), Math.sin(item.angle)];
  return [
    beginText(),
    setFillingRgbColor(item.fill.r, item.fill.g, item.fill.b),
    setFontAndSize(name, item.size),
    setTextMatrix(c, s, -s, c, item.at[0] - back * c, item.at[1] - back * s),
    showText(encoded(font, spaced ? `${item.text} ` : item.text)),
    endText(),
  ];
}

/** Texts shaped before, by font: a report says most of its words many times. */
const shaped = new WeakMap<PDFFont, Map<string, PDFHexString>>();

function encoded(font: PDFFont, text: string): PDFHexString {
  const known = shaped.get(font) ?? new Map<string, PDFHexString>();
  shaped.set(font, known);
  const before = known.get(text);
  if (before) return before;
  const fresh = font.encodeText(text);
  known.set(text, fresh);
  return fresh;
}

function pathOperators(item: PathItem): PDFOperator[] {
  const operators: PDFOperator[] = [];
  if (item.stroke) {
    operators.push(
      setStrokingRgbColor(item.stroke.r, item.stroke.g, item.stroke.b),
      setLineWidth(item.width ?? 1),
      setLineCap(LineCapStyle.Round),
      setLineJoin(LineJoinStyle.Round),
    );
    if (item.dash) operators.push(setDashPattern([...item.dash], 0));
  }
  if (item.fill) operators.push(setFillingRgbColor(item.fill.r, item.fill.g, item.fill.b));
  operators.push(...item.steps.map(stepOperator), paint(item));
  return operators;
}

function stepOperator(step: PathStep): PDFOperator {
  switch (step[0]) {
    case "M":
      return moveTo(step[1], step[2]);
    case "L":
      return lineTo(step[1], step[2]);
    case "C":
      return appendBezierCurve(step[1], step[2], step[3], step[4], step[5], step[6]);
    case "Z":
      return closePath();
  }
}

function paint({ stroke: stroked, fill: filled, evenOdd }: PathItem): PDFOperator {
  if (stroked && filled) {
    return PDFOperator.of(evenOdd ? PDFOperatorNames.FillEvenOddAndStroke : PDFOperatorNames.FillNonZeroAndStroke);
  }
  if (filled) return evenOdd ? fillEvenOdd() : fill();
  return stroked ? stroke() : PDFOperator.of(PDFOperatorNames.EndPath);
}
