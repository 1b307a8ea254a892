import { distance2, type Point2 } from "../../geometry/point.ts";
import type { Element } from "../../job/elements/element.ts";
import { nearestOn } from "../near.ts";
import type { DrawnText } from "./drawn-words.ts";

/** How far letters reach below their baseline and above it, in heights of the text. */
const [BELOW, ABOVE] = [0.2, 0.8];
/** Sine up to which a line runs along a text. */
const ALONG = 0.05;
/** A line across a text counts as farther: so many times, and so many heights of the text more. */
const [ACROSS, MORE] = [2.5, 0.8];

/** Where an element lies, sheet space: the points it is traced by, or its one point. */
export const placesOf = (element: Element): readonly Point2[] =>
  "vertices" in element ? element.vertices.map(({ at }) => at) : [element.at];

/** The middle of a line of text, at half the height of its capitals. */
export function middleOf({ at, angle, width, height }: DrawnText): Point2 {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [at[0] + (c * width) / 2 - s * 0.35 * height, at[1] + (s * width) / 2 + c * 0.35 * height];
}

/** The two ends of a line of text, on its baseline. */
export const endsOf = ({ at, angle, width }: DrawnText): readonly [Point2, Point2] => [
  at,
  [at[0] + Math.cos(angle) * width, at[1] + Math.sin(angle) * width],
];

/** A place seen from a text: along its baseline from its start, and up from it. */
function seenFrom({ at, angle }: DrawnText, [x, y]: Point2): Point2 {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const [dx, dy] = [x - at[0], y - at[1]];
  return [dx * c + dy * s, dy * c - dx * s];
}

/** From a text to a place, sheet units; 0 inside the rectangle of its letters. */
export function distanceToPlace(text: DrawnText, place: Point2): number {
  const [along, up] = seenFrom(text, place);
  const { width, height } = text;
  return Math.hypot(Math.max(0, -along, along - width), Math.max(0, -BELOW * height - up, up - ABOVE * height));
}

/** From a text to a segment that runs along it, between them; else from its middle, and as if farther. */
function distanceToSegment(text: DrawnText, a: Point2, b: Point2): number {
  const [p, q] = [seenFrom(text, a), seenFrom(text, b)];
  const long = distance2(p, q);
  if (long === 0) return distanceToPlace(text, a);
  if (Math.abs(q[1] - p[1]) > ALONG * long) {
    const middle = middleOf(text);
    return ACROSS * distance2(middle, nearestOn({ a, b }, middle)) + MORE * text.height;
  }
  const [low, high] = [Math.min(p[0], q[0]), Math.max(p[0], q[0])];
  const beside = Math.max(0, low - text.width, -high);
  const up = (p[1] + q[1]) / 2;
  return Math.hypot(beside, Math.max(0, -BELOW * text.height - up, up - ABOVE * text.height));
}

/** How far an element lies from a text, sheet units; lines across the text count as farther than those along it. */
export function distanceToElement(text: DrawnText, element: Element): number {
  const places = placesOf(element);
  if (places.length === 1) return distanceToPlace(text, places[0]!);
  return Math.min(...places.slice(1).map((to, i) => distanceToSegment(text, places[i]!, to)));
}

/** From a place to the nearest point of an element, sheet units. */
export function distanceFrom(place: Point2, element: Element): number {
  const places = placesOf(element);
  if (places.length === 1) return distance2(places[0]!, place);
  return Math.min(...places.slice(1).map((b, i) => distance2(nearestOn({ a: places[i]!, b }, place), place)));
}
