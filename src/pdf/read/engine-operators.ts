/**
 * Numbers of the operators in a pdf.js operator list that say what is drawn where (its `OPS`). Kept here because the
 * engine is passed in and its two builds share nothing else; a test compares them with the installed engine.
 */
export const OPERATOR = {
  setLineWidth: 2,
  setDash: 6,
  setGState: 9,
  save: 10,
  restore: 11,
  transform: 12,
  stroke: 20,
  closeStroke: 21,
  fill: 22,
  eoFill: 23,
  fillStroke: 24,
  eoFillStroke: 25,
  closeFillStroke: 26,
  closeEOFillStroke: 27,
  endPath: 28,
  clip: 29,
  eoClip: 30,
  setStrokeColorN: 53,
  setFillColorN: 55,
  setStrokeRGBColor: 58,
  setFillRGBColor: 59,
  beginMarkedContent: 69,
  beginMarkedContentProps: 70,
  endMarkedContent: 71,
  paintFormXObjectBegin: 74,
  paintFormXObjectEnd: 75,
  beginGroup: 76,
  endGroup: 77,
  paintImageMaskXObject: 83,
  paintImageXObject: 85,
  paintInlineImageXObject: 86,
  constructPath: 91,
  setStrokeTransparent: 92,
  setFillTransparent: 93,
} as const;

/** Steps inside the data of a `constructPath` (pdf.js's `DrawOPS`), and how many numbers follow each. */
export const PATH_STEP = { move: 0, line: 1, curve: 2, quadratic: 3, close: 4 } as const;
