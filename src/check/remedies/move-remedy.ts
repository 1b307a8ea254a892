import { elevationAt } from "../../geometry/plane.ts";
import type { Point2 } from "../../geometry/point.ts";
import { applyTo, invert, type Similarity } from "../../geometry/similarity.ts";
import { tagsOf } from "../../job/elements/element.ts";
import type { Sheet } from "../../job/schema.ts";
import { MM_PER_INCH } from "../../units/quantity.ts";
import { type DeckArea, hasSurface } from "../deck-area.ts";
import { isQuiet, type Remedy } from "../finding.ts";
import type { PieceOutline } from "../piece.ts";
import type { Scene } from "../scene.ts";
import { clearanceText } from "../words.ts";
import { leastShifts, type PlanBody, type Side } from "./least-shift.ts";
import { type Case, remedySettles } from "./recheck.ts";

/** The farthest a remedy moves anything sideways, inches: 10 ft. Beyond it the answer is another route. Our own choice. */
const FARTHEST_MOVE_IN = 120;
/** How many ways out are checked again before none is offered. */
const MOST_TRIES = 8;

/**
 * The shortest move of the whole element, its elevations kept, out of reach of the one roof that its one finding speaks of; to a step a
 * tape can hold (1/16 in. or 1 mm). Offered only where the element, checked again at its new place, is clear or not governed
 * everywhere: another roof that is too close there, or no outlined deck at all, rules the place out. Where storeys above part the
 * deck in several roofs, the ways out of each of them are tried.
 *
 * Out of reach means the distance in plan that leaves the required clearance from the roof's edge, tolerances included. It is exact for a
 * level deck with level wiring; where either slopes, the height the two have in common counts, and the move may be longer than the very least.
 */
export function moveRemedy(about: Case): Remedy | undefined {
  const { scene, element, findings, finding } = about;
  if (findings.filter(({ verdict }) => !isQuiet(verdict)).length > 1) return undefined;
  const [areaId, second] = finding.areas;
  const shape = about.subject.shape();
  const registered = scene.registration(element.viewport);
  if (areaId === undefined || second !== undefined || !registered.ok || shape.gaps.length > 0) return undefined;
  // A tag counted from the deck means another elevation under another deck.
  if (tagsOf(element).some(({ tag }) => tag?.datum.from === "below-deck")) return undefined;
  const frame = scene.frame(registered.value.root);
  const decks = frame.areas.filter((area) => area.id === areaId && area.classification.is !== "floor-above");
  if (!decks.every(hasSurface) || frame.areas.length < 2) return undefined;

  // Curves lie within the corners they stand beside.
  const outlines = shape.pieces.filter(({ curve }) => !curve).map((piece) => piece.outline());
  const body = bodyOf(outlines);
  const tolerance = Math.max(...shape.pieces.map((piece) => piece.tolerance));
  const required = scene.required + (shape.standOut?.by ?? 0);
  const step = scene.system === "metric" ? 1 / MM_PER_INCH : 1 / 16;
  const moves = decks.flatMap((deck) => {
    const slack = tolerance + deck.tolerance;
    const plan = scene.planTolerance + deck.planTolerance + shape.planTolerance;
    const apart = Math.max(...outlines.map((outline) => leastApart(required, outline, deck, slack, plan)));
    if (!(apart > 0)) return [];
    return leastShifts(body, deck.polygon, apart, FARTHEST_MOVE_IN, MOST_TRIES).flatMap((shift) =>
      inSteps(shift, step),
    );
  });
  for (const { byIn, by } of moves.sort((a, b) => a.byIn - b.byIn)) {
    const shift = toSheet(registered.value.sim, by);
    const sheet = scene.job.sheets[finding.sheet];
    const way = sheet ? wayWords(shift, sheet, byIn, scene) : "";
    const text = `Move ${element.label} sideways by ${clearanceText(byIn, scene.system)}${way}, out of reach of ${decks[0]!.area.label}.`;
    const remedy: Remedy = { kind: "move", text, byIn, shift };
    if (byIn <= FARTHEST_MOVE_IN && remedySettles(about, remedy)) return remedy;
  }
  return undefined;
}

/** A shift as long as a tape can hold, and one step longer where the way out turns a corner that the first stops short of. */
function inSteps([x, y]: Point2, step: number): { byIn: number; by: Point2 }[] {
  const length = Math.hypot(x, y);
  const steps = Math.max(1, Math.ceil(length / step - 1e-7));
  return [steps, steps + 1].map((n) => {
    const by = n * step;
    return { byIn: by, by: [(x / length) * by, (y / length) * by] };
  });
}

/** How far in plan from the edge of the deck the outline of a piece has to be, inches; 0 where its elevation alone is enough. */
function leastApart(required: number, outline: PieceOutline, deck: DeckArea, slack: number, plan: number): number {
  const levels = deck.faces.flatMap(({ polygon, plane }) => polygon.outline.map((at) => elevationAt(plane, at)));
  const height = Math.max(0, Math.min(...levels) - outline.high, outline.low - Math.max(...levels));
  const asked = required + outline.standsOut;
  /** Least the clearance may be at that distance, as the check counts it: each tolerance in the direction of the least distance. */
  const left = (apart: number): number => {
    const reach = Math.hypot(apart, height);
    return reach > 0 ? reach - (height * slack + apart * plan) / reach : -slack;
  };
  if (left(0) >= asked) return 0;
  // At `high` it is enough: the reach is at least that, and the tolerances together take no more than their sum.
  let [low, high] = [0, asked + slack + plan];
  while (high - low > 1e-9) {
    const middle = (low + high) / 2;
    if (left(middle) < asked) low = middle;
    else high = middle;
  }
  return high;
}

function bodyOf(outlines: readonly PieceOutline[]): PlanBody {
  const corners = outlines.flatMap((outline) => outline.corners);
  const sides = outlines.flatMap(({ corners: own }) =>
    (own.length > 2 ? own : own.slice(1)).map((to, i): Side => [own.at(own.length > 2 ? i - 1 : i)!, to]),
  );
  return { corners: distinct(corners), sides };
}

/** Corners that two pieces share once. */
const distinct = (corners: readonly Point2[]): Point2[] => [
  ...new Map(corners.map((corner) => [`${corner[0]} ${corner[1]}`, corner])).values(),
];

/** A move in building space as one in sheet space. */
function toSheet(sim: Similarity, by: Point2): Point2 {
  const back = invert(sim);
  const [x, y] = applyTo(back, by);
  const [x0, y0] = applyTo(back, [0, 0]);
  return [x - x0, y - y0];
}

/** Which way a shift goes on the sheet as it is displayed: " to the right", or how much to the right and how much up. */
function wayWords(shift: Point2, sheet: Sheet, byIn: number, { system }: Scene): string {
  // A page is turned clockwise when displayed.
  const turned: Record<Sheet["rotate"], Point2> = {
    0: shift,
    90: [shift[1], -shift[0]],
    180: [-shift[0], -shift[1]],
    270: [-shift[1], shift[0]],
  };
  const [x, y] = turned[sheet.rotate];
  const length = Math.hypot(x, y);
  const parts = [
    { part: x / length, words: x > 0 ? "to the right" : "to the left" },
    { part: y / length, words: y > 0 ? "up" : "down" },
  ].filter(({ part }) => Math.abs(part) > 1e-6);
  const [only, second] = parts;
  if (only && !second) return ` ${only.words} on the sheet`;
  const each = parts.map(({ part, words }) => `${clearanceText(Math.abs(part) * byIn, system)} ${words}`);
  return ` (${each.join(" and ")} on the sheet)`;
}
