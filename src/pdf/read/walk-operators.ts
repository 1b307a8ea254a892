import { sheetUnits } from "../../units/quantity.ts";
import { OPERATOR, PATH_STEP } from "./engine-operators.ts";
import { cubicAt, piecesOf } from "./flatten-curve.ts";
import type { LineworkGatherer, SheetBox } from "./gather-linework.ts";
import type { TextGatherer } from "./gather-text.ts";
import { FLATNESS_PT, SEGMENT } from "./linework.ts";
import { chain, IDENTITY, type Matrix } from "./matrix.ts";
import type { PageGeometry } from "./page-geometry.ts";

/** What ISO 32000-2, 8.4 calls the graphics state, as far as lines go. A state is replaced, never changed, where it is saved. */
interface State {
  matrix: Matrix;
  box: SheetBox;
  stroke: string;
  fill: string;
  width: number;
  dash: readonly number[];
  /** Styles worked out for this state, by whether it strokes (1) and fills (2); -1 for not yet. */
  places: [number, number, number, number];
  /** The layer those are for. */
  placesOf: Layer;
}

interface Group {
  readonly type?: string;
  readonly id?: string;
  readonly ids?: readonly string[];
}

interface Layer {
  readonly id: string | null;
  readonly shown: boolean;
}

const NO_LAYER: Layer = { id: null, shown: true };
const NO_PLACES = [-1, -1, -1, -1] as const;
const PATTERN = "pattern";

const STROKES = new Set<number>([
  OPERATOR.stroke,
  OPERATOR.closeStroke,
  OPERATOR.fillStroke,
  OPERATOR.eoFillStroke,
  OPERATOR.closeFillStroke,
  OPERATOR.closeEOFillStroke,
]);
const FILLS = new Set<number>([
  OPERATOR.fill,
  OPERATOR.eoFill,
  OPERATOR.fillStroke,
  OPERATOR.eoFillStroke,
  OPERATOR.closeFillStroke,
  OPERATOR.closeEOFillStroke,
]);

/** Who is told what the operators of a page draw. */
export interface OperatorTargets {
  readonly lines: LineworkGatherer;
  /** Left out where the text is not wanted. */
  readonly text?: TextGatherer | undefined;
  /** Whether the file shows an optional content group, as the engine names it, to begin with. */
  readonly isShown: (group: unknown) => boolean;
}

/**
 * A function that takes the operators of a page's list one after the other, keeps the graphics state (ISO 32000-2, 8.4), and
 * hands on what is drawn and written, in sheet space. What makes a mask is not seen and not handed on.
 */
export function walkOperators(
  { view, userUnit }: PageGeometry,
  { lines, text, isShown }: OperatorTargets,
): (operator: number, args: readonly unknown[] | null) => void {
  const flatness = FLATNESS_PT / userUnit;
  let state: State = {
    matrix: IDENTITY,
    box: view,
    stroke: "#000000",
    fill: "#000000",
    width: 1,
    dash: [],
    places: [...NO_PLACES],
    placesOf: NO_LAYER,
  };
  const saved: State[] = [];
  const marked: Layer[] = [];
  let layer = NO_LAYER;
  // Depth of groups that make a mask: what they draw is not seen.
  const groups: boolean[] = [];
  let masks = 0;
  let groupBox: ArrayLike<number> | null = null;
  let clipNext = false;

  const save = (): void => {
    saved.push({ ...state, places: [...state.places] });
    text?.save();
  };
  const restore = (): void => {
    state = saved.pop() ?? state;
    text?.restore();
  };
  const change = (part: Partial<State>): void => {
    state = { ...state, ...part, places: [...NO_PLACES] };
  };
  const enter = (next: Layer): void => {
    text?.part();
    marked.push(layer);
    layer = next;
  };
  const leave = (): void => {
    text?.part();
    layer = marked.pop() ?? NO_LAYER;
  };
  const transform = (matrix: ArrayLike<number>): void => {
    const [a = 1, b = 0, c = 0, d = 1, e = 0, f = 0] = Array.from(matrix);
    const next = chain([a, b, c, d, e, f], state.matrix);
    // A shift leaves widths as they are.
    if (a === 1 && b === 0 && c === 0 && d === 1) state = { ...state, matrix: next, places: [...state.places] };
    else change({ matrix: next });
  };
  const clipTo = (box: ArrayLike<number>): void => {
    const [x0, y0, x1, y1] = boxOf(state.matrix, box);
    const [a, b, c, d] = state.box;
    state = { ...state, box: [Math.max(a, x0), Math.max(b, y0), Math.min(c, x1), Math.min(d, y1)] };
  };
  const placeOf = (strokes: boolean, fills: boolean): number => {
    const which = Number(strokes) + 2 * Number(fills);
    if (state.placesOf !== layer) {
      state.places = [...NO_PLACES];
      state.placesOf = layer;
    }
    const known = state.places[which]!;
    if (known >= 0) return known;
    const m = state.matrix;
    // Under an uneven map a line has no one width: the root of the area factor stands for it.
    const scale = Math.sqrt(Math.abs(m[0] * m[3] - m[1] * m[2]));
    const place = lines.styleOf({
      layer: layer.id,
      shown: layer.shown,
      stroke: strokes ? state.stroke : null,
      fill: fills ? state.fill : null,
      width: sheetUnits(strokes ? rounded(state.width * scale) : 0),
      dash: strokes ? state.dash.map((length) => sheetUnits(rounded(length * scale))) : [],
    });
    state.places[which] = place;
    return place;
  };

  const path = (operator: number, data: Float32Array | null, bounds: ArrayLike<number> | null): void => {
    const strokes = STROKES.has(operator);
    const fills = FILLS.has(operator);
    if ((strokes || fills) && masks === 0 && data instanceof Float32Array)
      drawPath(data, strokes, fills, placeOf(strokes, fills));
    if (!clipNext) return;
    clipNext = false;
    // A clip with nothing in it leaves nothing to see.
    if (bounds) clipTo(bounds);
    else state = { ...state, box: [1, 1, 0, 0] };
  };

  const drawPath = (data: Float32Array, strokes: boolean, fills: boolean, style: number): void => {
    const [a, b, c, d, e, f] = state.matrix;
    const { box } = state;
    if (box[0] > box[2] || box[1] > box[3]) return;
    const edge = fills && !strokes ? SEGMENT.filled : 0;
    // Plain assignments: this is the innermost loop of reading a page.
    let x = 0;
    let y = 0;
    let startX = 0;
    let startY = 0;
    let open = false;
    const close = (): void => {
      if (open) lines.add(x, y, startX, startY, style, edge, box);
      x = startX;
      y = startY;
      open = false;
    };
    for (let k = 0; k < data.length; ) {
      const step = data[k++]!;
      if (step === PATH_STEP.close) {
        close();
        continue;
      }
      const last = k + (step === PATH_STEP.curve ? 4 : step === PATH_STEP.quadratic ? 2 : 0);
      const toX = a * data[last]! + c * data[last + 1]! + e;
      const toY = b * data[last]! + d * data[last + 1]! + f;
      if (step === PATH_STEP.move) {
        // A fill closes what was left open.
        if (fills) close();
        startX = toX;
        startY = toY;
        open = false;
        if (fills) lines.part();
      } else if (step === PATH_STEP.line) {
        lines.add(x, y, toX, toY, style, edge, box);
        open = true;
      } else {
        const at = step === PATH_STEP.curve ? k : last - 2;
        const [ux, uy] = [a * data[at]! + c * data[at + 1]! + e, b * data[at]! + d * data[at + 1]! + f];
        const far = step === PATH_STEP.curve ? k + 2 : at;
        let [vx, vy] = [a * data[far]! + c * data[far + 1]! + e, b * data[far]! + d * data[far + 1]! + f];
        let [px, py] = [ux, uy];
        if (step === PATH_STEP.quadratic) {
          [px, py] = [x + (2 / 3) * (ux - x), y + (2 / 3) * (uy - y)];
          [vx, vy] = [toX + (2 / 3) * (ux - toX), toY + (2 / 3) * (uy - toY)];
        }
        const pieces = piecesOf([x, y, px, py, vx, vy, toX, toY], flatness);
        let [fromX, fromY] = [x, y];
        for (let i = 1; i <= pieces; i++) {
          const [nextX, nextY] =
            i === pieces ? [toX, toY] : [cubicAt(x, px, vx, toX, i / pieces), cubicAt(y, py, vy, toY, i / pieces)];
          lines.add(fromX, fromY, nextX, nextY, style, edge | SEGMENT.curved, box);
          [fromX, fromY] = [nextX, nextY];
        }
        open = true;
      }
      x = toX;
      y = toY;
      k = last + 2;
    }
    if (fills) close();
    if (fills) lines.part();
  };

  return (operator, args) => {
    switch (operator) {
      case OPERATOR.constructPath: {
        const list = args as [number, [Float32Array | null], Float32Array | null];
        return path(list[0], list[1][0], list[2]);
      }
      case OPERATOR.save:
        return save();
      case OPERATOR.restore:
        return restore();
      case OPERATOR.transform:
        return transform(args as number[]);
      case OPERATOR.clip:
      case OPERATOR.eoClip:
        clipNext = true;
        return;
      case OPERATOR.setLineWidth:
        if (args?.[0] !== state.width) change({ width: Number(args?.[0]) || 0 });
        return;
      case OPERATOR.setDash:
        return change({ dash: dashOf(args?.[0]) });
      case OPERATOR.setStrokeRGBColor:
        if (args?.[0] !== state.stroke) change({ stroke: String(args?.[0]) });
        return;
      case OPERATOR.setFillRGBColor:
        if (args?.[0] !== state.fill) change({ fill: String(args?.[0]) });
        return;
      case OPERATOR.setStrokeColorN:
      case OPERATOR.setStrokeTransparent:
        return change({ stroke: PATTERN });
      case OPERATOR.setFillColorN:
      case OPERATOR.setFillTransparent:
        return change({ fill: PATTERN });
      case OPERATOR.setGState:
        for (const [key, value] of (args?.[0] ?? []) as [string, unknown][]) {
          if (key === "LW") change({ width: Number(value) || 0 });
          if (key === "D") change({ dash: dashOf((value as unknown[])[0]) });
          if (key === "Font") text?.take(OPERATOR.setFont, value as unknown[], state.matrix);
        }
        return;
      case OPERATOR.beginMarkedContent:
        return enter(layer);
      case OPERATOR.beginMarkedContentProps: {
        const group = args?.[0] === "OC" ? (args[1] as Group | null) : null;
        if (!group) return enter(layer);
        const id = group.id ?? (group.ids?.length === 1 ? group.ids[0]! : null);
        return enter({ id, shown: layer.shown && isShown(group) });
      }
      case OPERATOR.endMarkedContent:
        return leave();
      case OPERATOR.beginGroup: {
        const { bbox, smask } = (args?.[0] ?? {}) as { bbox?: ArrayLike<number> | null; smask?: unknown };
        groups.push(Boolean(smask));
        if (smask) masks++;
        groupBox = bbox ?? null;
        return;
      }
      case OPERATOR.endGroup:
        if (groups.pop()) masks--;
        return;
      case OPERATOR.paintFormXObjectBegin: {
        const [matrix, bbox] = args as [ArrayLike<number> | null, ArrayLike<number> | null];
        text?.enterForm();
        save();
        if (matrix) transform(matrix);
        const box = bbox ?? groupBox;
        groupBox = null;
        if (box) clipTo(box);
        return;
      }
      case OPERATOR.paintFormXObjectEnd:
        text?.leaveForm();
        return restore();
      case OPERATOR.paintImageMaskXObject:
      case OPERATOR.paintImageXObject:
        return text?.part();
      default:
        if (masks === 0) text?.take(operator, args, state.matrix);
    }
  };
}

/** The box of a box's corners under a map. */
function boxOf(
  [a, b, c, d, e, f]: Matrix,
  { 0: x0 = 0, 1: y0 = 0, 2: x1 = 0, 3: y1 = 0 }: ArrayLike<number>,
): SheetBox {
  const xs = [a * x0 + c * y0 + e, a * x1 + c * y0 + e, a * x0 + c * y1 + e, a * x1 + c * y1 + e];
  const ys = [b * x0 + d * y0 + f, b * x1 + d * y0 + f, b * x0 + d * y1 + f, b * x1 + d * y1 + f];
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}

const dashOf = (list: unknown): readonly number[] =>
  Array.isArray(list) && list.some((length) => length > 0) ? list.map(Number) : [];

/** Widths to a thousandth of a unit: one pen under two maps that differ by rounding is one style. */
const rounded = (n: number): number => Math.round(n * 1000) / 1000;
