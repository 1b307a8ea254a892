import type { Point2 } from "../../geometry/point.ts";
import type { ChangedText, TextPlace } from "../../pdf/read/changed-texts.ts";
import type { IssueChanges } from "../../pdf/read/issue-changes.ts";
import { applyMatrix, type Matrix } from "../../pdf/read/matrix.ts";

/** The three ways a line of the two-ink picture is drawn: each differs in dash and weight, so that it is told apart without colour. */
export const TWO_INKS = {
  both: { colour: "#8d877d", width: 0.8, dash: [] as number[] },
  oldOnly: { colour: "#d55e00", width: 2, dash: [7, 4] },
  newOnly: { colour: "#005c92", width: 2.4, dash: [] as number[] },
} as const;

/** The band under a mark, wide and pale. */
export const BAND = { colour: "rgb(230 159 0 / 38%)", width: 16 };

/** A mark under which the change is to be seen, in the space of the new sheet. */
export type BandPath = readonly Point2[];

/** What the picture is drawn of; all in the space of the new sheet, `to` takes it to pixels. */
export interface TwoInkContent {
  readonly changes: Pick<IssueChanges, "lines" | "texts">;
  readonly bands: readonly BandPath[];
}

/** Draws old and new on one picture: what both draw thin and grey, the old alone dashed, the new alone solid and heavy; texts that changed in frames of the same kind. */
export function drawTwoInks(
  context: CanvasRenderingContext2D,
  { changes, bands }: TwoInkContent,
  to: Matrix,
  size: { readonly width: number; readonly height: number },
): void {
  context.lineCap = "round";
  context.lineJoin = "round";
  context.setLineDash([]);
  context.strokeStyle = BAND.colour;
  context.lineWidth = BAND.width;
  for (const band of bands) {
    context.beginPath();
    band.forEach((at, i) => {
      const [x, y] = applyMatrix(to, at);
      if (i === 0) context.moveTo(x, y);
      context.lineTo(x + (band.length === 1 ? 0.01 : 0), y);
    });
    context.stroke();
  }
  context.lineCap = "butt";
  lines(context, changes.lines.both.coords, TWO_INKS.both, to, size);
  lines(context, changes.lines.oldOnly.coords, TWO_INKS.oldOnly, to, size);
  lines(context, changes.lines.newOnly.coords, TWO_INKS.newOnly, to, size);
  for (const same of changes.texts.both) plainText(context, same, to);
  // What tells comes last: it lies over the rest.
  for (const changed of changes.texts.changed) if (!changed.tells) text(context, changed, to);
  for (const changed of changes.texts.changed) if (changed.tells) text(context, changed, to);
  context.setLineDash([]);
}

interface Ink {
  readonly colour: string;
  readonly width: number;
  readonly dash: readonly number[];
}

function lines(
  context: CanvasRenderingContext2D,
  coords: Float32Array,
  { colour, width, dash }: Ink,
  [a, b, c, d, e, f]: Matrix,
  size: { readonly width: number; readonly height: number },
): void {
  context.strokeStyle = colour;
  context.lineWidth = width;
  context.setLineDash([...dash]);
  context.beginPath();
  for (let i = 0; i < coords.length; i += 4) {
    const [px, py, qx, qy] = [coords[i]!, coords[i + 1]!, coords[i + 2]!, coords[i + 3]!];
    const [x0, y0] = [a * px + c * py + e, b * px + d * py + f];
    const [x1, y1] = [a * qx + c * qy + e, b * qx + d * qy + f];
    if ((x0 < 0 && x1 < 0) || (y0 < 0 && y1 < 0)) continue;
    if ((x0 > size.width && x1 > size.width) || (y0 > size.height && y1 > size.height)) continue;
    context.moveTo(x0, y0);
    context.lineTo(x1, y1);
  }
  context.stroke();
}

/** Letters lower than this on the screen are only framed, pixels. */
const LEGIBLE = 7;

/** A text that changed. What a mark may rest on is written out at any size, as it was over as it is now; others are framed where they stand, and written there once they can be read. */
function text(context: CanvasRenderingContext2D, changed: ChangedText, to: Matrix): void {
  const { was, now, tells } = changed;
  const scale = Math.hypot(to[0], to[1]);
  const [x, y] = applyMatrix(to, changed.at);
  context.textBaseline = "middle";
  context.textAlign = "center";
  context.lineWidth = 1.5;
  const rows = [
    ...(was === null ? [] : [{ words: was, ink: TWO_INKS.oldOnly }]),
    ...(now === null ? [] : [{ words: now, ink: TWO_INKS.newOnly }]),
  ];
  const high = changed.height * scale;
  const written = tells || high >= LEGIBLE;
  const size = tells ? Math.max(12, high) : high;
  const turn = tells && high < LEGIBLE ? 0 : turnOf(changed, to);
  context.save();
  context.translate(x, y);
  context.rotate(turn);
  context.font = `${size}px 'Underside Sans', sans-serif`;
  rows.forEach(({ words, ink }, i) => {
    const row = (i - (rows.length - 1) / 2) * size * 1.7;
    const wide = (written ? context.measureText(words).width : changed.width * scale) + 0.7 * size;
    context.strokeStyle = ink.colour;
    context.setLineDash(ink === TWO_INKS.oldOnly ? [4, 3] : []);
    if (written) {
      context.fillStyle = "rgb(255 255 255 / 92%)";
      context.fillRect(-wide / 2, row - 0.75 * size, wide, 1.5 * size);
    }
    context.strokeRect(-wide / 2, row - 0.75 * size, wide, 1.5 * size);
    context.fillStyle = "#23211f";
    if (written) context.fillText(words, 0, row);
  });
  context.restore();
}

/** The way a text runs on the page as displayed, clockwise from the right. */
function turnOf({ angle }: TextPlace, to: Matrix): number {
  const [ex, ey] = [Math.cos(angle), Math.sin(angle)];
  return Math.atan2(to[1] * ex + to[3] * ey, to[0] * ex + to[2] * ey);
}

/** A text that both issues show, where it can be read. */
function plainText(context: CanvasRenderingContext2D, same: TextPlace & { readonly words: string }, to: Matrix): void {
  const high = same.height * Math.hypot(to[0], to[1]);
  if (high < LEGIBLE - 1) return;
  const [x, y] = applyMatrix(to, same.at);
  context.save();
  context.translate(x, y);
  context.rotate(turnOf(same, to));
  context.font = `${high}px 'Underside Sans', sans-serif`;
  context.textAlign = "center";
  context.textBaseline = "middle";
  context.fillStyle = "#66615b";
  context.fillText(same.words, 0, 0);
  context.restore();
}
