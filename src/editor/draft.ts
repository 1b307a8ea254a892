import { circleSteps, lineSteps } from "../geometry/path-steps.ts";
import type { Colour, PathStep, Picture, PictureItem } from "../geometry/picture.ts";
import type { Point2 } from "../geometry/point.ts";
import { radians } from "../units/quantity.ts";

/** Ink of what is not done yet (blue of the palette of M. Okabe and K. Ito, 2008), and of the ground under handles. */
export const DRAFT_INK: Colour = { r: 0, g: 114 / 255, b: 178 / 255 };
/** Opacity of what only says where something is. */
const FAINT = 0.45;
const GROUND: Colour = { r: 1, g: 1, b: 1 };

/** Lines and handles of half-done things. Sizes are in pixels of the view, places in sheet space. */
export class DraftPen {
  readonly #pixel: number;
  constructor(pixel: number) {
    this.#pixel = pixel;
  }

  /** A line through points; nothing for fewer than two. */
  line(
    points: readonly Point2[],
    style: { readonly closed?: boolean; readonly dashed?: boolean; readonly faint?: boolean } = {},
  ): Picture {
    if (points.length < 2) return [];
    const dash = style.dashed ? { dash: [6 * this.#pixel, 4 * this.#pixel] } : {};
    return [
      {
        type: "path",
        steps: lineSteps(points, style.closed),
        stroke: DRAFT_INK,
        width: 2 * this.#pixel,
        ...dash,
        ...(style.faint ? { opacity: FAINT } : {}),
      },
    ];
  }

  /** A small square at each point, filled where it is the chosen one. */
  handles(points: readonly Point2[], chosen?: number): Picture {
    const half = 4 * this.#pixel;
    return points.map(([x, y], i): PictureItem => {
      const steps: PathStep[] = [
        ["M", x - half, y - half],
        ["L", x + half, y - half],
        ["L", x + half, y + half],
        ["L", x - half, y + half],
        ["Z"],
      ];
      return {
        type: "path",
        steps,
        stroke: DRAFT_INK,
        width: 1.5 * this.#pixel,
        fill: i === chosen ? DRAFT_INK : GROUND,
      };
    });
  }

  /** A small line of text, its baseline along `along`. */
  text(text: string, at: Point2, along: Point2): Picture {
    const angle = radians(Math.atan2(along[1], along[0]));
    const size = 12 * this.#pixel;
    return [{ type: "text", text, at, size, angle, align: "start", face: "condensed", fill: DRAFT_INK }];
  }

  /** Two crossing hairs that leave their middle free. */
  cross([x, y]: Point2, size: number): Picture {
    const [inner, outer] = [3 * this.#pixel, size * this.#pixel];
    const arm = (dx: number, dy: number): PathStep[] => [
      ["M", x + dx * inner, y + dy * inner],
      ["L", x + dx * outer, y + dy * outer],
    ];
    const steps = [...arm(1, 0), ...arm(-1, 0), ...arm(0, 1), ...arm(0, -1)];
    return [{ type: "path", steps, stroke: DRAFT_INK, width: 1.5 * this.#pixel }];
  }

  /** A ring round a place that attracts. */
  ring(at: Point2, radius: number): Picture {
    return [
      { type: "path", steps: circleSteps(at, radius * this.#pixel), stroke: DRAFT_INK, width: 1.5 * this.#pixel },
    ];
  }

  /** A line with an arrow head at its end. */
  arrow(from: Point2, to: Point2): Picture {
    const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
    const length = Math.hypot(dx, dy);
    if (length === 0) return [];
    const [ux, uy] = [(dx / length) * 10 * this.#pixel, (dy / length) * 10 * this.#pixel];
    const wing = (side: 1 | -1): Point2 => [to[0] - ux - side * uy * 0.5, to[1] - uy + side * ux * 0.5];
    return [...this.line([from, to]), ...this.line([wing(1), to, wing(-1)])];
  }
}
