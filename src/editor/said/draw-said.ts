import type { Colour, PathStep, Picture, PictureItem } from "../../geometry/picture.ts";
import { distance2, type Point2 } from "../../geometry/point.ts";
import type { Job } from "../../job/schema.ts";
import { DRAFT_INK } from "../draft.ts";
import { nearestOn } from "../near.ts";
import type { SessionState } from "../session.ts";
import type { DrawnText } from "./drawn-words.ts";
import { placesOf } from "./near-text.ts";
import { inHand, type Seen, saidOf } from "./said-of.ts";
import type { Suggestion, Target } from "./suggestion.ts";

/** What contradicts the job is drawn in the ink of words. */
const CONTRADICTS: Colour = { r: 0.137, g: 0.13, b: 0.122 };
/** From the letters to the marks beside them, in heights of the text; and how far the marks reach along it. */
const [CLEAR, REACH] = [0.35, 0.9];

/**
 * What the drawing says that the stage is about: two corners round each text, which leave the text itself free. What contradicts the job has a
 * second pair outside the first; what is recorded already, and what nothing near could mean, is faint. The one in hand is closed, with a line to
 * what it means. Sheet space.
 */
export function drawSaid(state: Seen & Pick<SessionState, "pixel">): Picture {
  const chosen = inHand(state);
  const { pixel, job } = state;
  return saidOf(state).flatMap((one) => (one === chosen ? drawChosen(one, pixel, job) : drawOne(one, pixel)));
}

function drawOne({ run, state }: Suggestion, pixel: number): Picture {
  const faint = state === "agrees" || state === "loose" ? 0.3 : 0.8;
  const corners = (out: number): PictureItem => ({
    type: "path",
    steps: cornerSteps(run, out),
    stroke: state === "disagrees" ? CONTRADICTS : DRAFT_INK,
    width: Math.min(1.25 * pixel, 0.2 * run.height),
    opacity: faint,
  });
  return state === "disagrees" ? [corners(0), corners(0.3 * run.height)] : [corners(0)];
}

function drawChosen({ run, at, state, meanings }: Suggestion, pixel: number, job: Job): Picture {
  const stroke = state === "disagrees" ? CONTRADICTS : DRAFT_INK;
  const width = 2 * pixel;
  const frame: PictureItem = { type: "path", steps: frameSteps(run), stroke, width };
  return [
    frame,
    ...meanings.flatMap(({ target }): Picture => {
      const to = placeOf(job, target, at);
      const from = to && outOf(run, at, to);
      if (!to || !from) return [];
      const steps: PathStep[] = [
        ["M", from[0], from[1]],
        ["L", to[0], to[1]],
      ];
      return [{ type: "path", steps, stroke, width, dash: [4 * pixel, 3 * pixel], opacity: 0.8 }];
    }),
  ];
}

/** The rectangle of a text with room round it: lower left, lower right, upper right, upper left, as it is read. */
function boxOf({ at, angle, width, height }: DrawnText, out: number): readonly Point2[] {
  const room = CLEAR * height + out;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const place = (along: number, up: number): Point2 => [at[0] + along * c - up * s, at[1] + along * s + up * c];
  const [left, right, low, high] = [-room, width + room, -0.2 * height - room, 0.75 * height + room];
  return [place(left, low), place(right, low), place(right, high), place(left, high)];
}

/** The lower left corner and the upper right one. */
function cornerSteps(run: DrawnText, out: number): PathStep[] {
  const box = boxOf(run, out);
  const reach = REACH * run.height;
  const arm = (corner: number): PathStep[] => {
    const here = box[corner]!;
    const before = towards(here, box[(corner + 3) % 4]!, reach);
    const after = towards(here, box[(corner + 1) % 4]!, reach);
    return [
      ["M", before[0], before[1]],
      ["L", here[0], here[1]],
      ["L", after[0], after[1]],
    ];
  };
  return [...arm(0), ...arm(2)];
}

/** Where the way from the middle of a text to a place leaves the frame round the text; undefined where the place is inside it. */
function outOf(run: DrawnText, [x, y]: Point2, to: Point2): Point2 | undefined {
  const box = boxOf(run, 0);
  const [dx, dy] = [to[0] - x, to[1] - y];
  for (const [i, [ax, ay]] of box.entries()) {
    const [bx, by] = box[(i + 1) % 4]!;
    const [ex, ey] = [bx - ax, by - ay];
    const cross = dx * ey - dy * ex;
    if (cross === 0) continue;
    const along = ((ax - x) * ey - (ay - y) * ex) / cross;
    const across = ((ax - x) * dy - (ay - y) * dx) / cross;
    if (along > 0 && along < 1 && across >= 0 && across <= 1) return [x + dx * along, y + dy * along];
  }
  return undefined;
}

function frameSteps(run: DrawnText): PathStep[] {
  const [first, ...rest] = boxOf(run, 0);
  return [["M", first![0], first![1]], ...rest.map(([x, y]): PathStep => ["L", x, y]), ["Z"]];
}

function towards([x, y]: Point2, [tx, ty]: Point2, reach: number): Point2 {
  const long = Math.hypot(tx - x, ty - y);
  const part = Math.min(1, reach / long);
  return [x + (tx - x) * part, y + (ty - y) * part];
}

/** Where on the sheet a target is, as seen from a text: the vertex or spot, the nearest place of an element. */
function placeOf(job: Job, target: Target, from: Point2): Point2 | undefined {
  if (target.is === "area") {
    const { shape } = job.areas[target.id]?.elevation ?? {};
    return target.spot !== null && shape?.is === "spots" ? shape.spots[target.spot]?.at : undefined;
  }
  if (target.is === "storey") return undefined;
  const element = job.elements[target.id];
  if (!element) return undefined;
  const places = placesOf(element);
  if (target.vertex !== "all") return places[target.vertex];
  return nearestPlace(places, from);
}

function nearestPlace(places: readonly Point2[], from: Point2): Point2 {
  if (places.length === 1) return places[0]!;
  const feet = places.slice(1).map((b, i) => nearestOn({ a: places[i]!, b }, from));
  return feet.reduce((best, foot) => (distance2(foot, from) < distance2(best, from) ? foot : best));
}
