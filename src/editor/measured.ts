import { centreThere, deckThere } from "../check/elevation-there.ts";
import { lengthOfLine } from "../geometry/along-line.ts";
import { distance2, type Point2 } from "../geometry/point.ts";
import { signedArea } from "../geometry/polygon.ts";
import type { Id } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";
import { formatLength } from "../units/format-length.ts";
import type { UnitSystem } from "../units/length.ts";
import { ok, type Result } from "../units/problem.ts";
import { type Inches, inches, MM_PER_INCH } from "../units/quantity.ts";
import { type Outline, outlineOf } from "./handles.ts";
import { nearestSegment, nearestVertex, placedOn } from "./near.ts";
import { sheetPerInch } from "./parse-position.ts";
import type { Picked } from "./selection.ts";

/** What lies between points of a plan, in the building. */
export interface Measured {
  /** Of the last piece, and of all of them. */
  readonly last: Inches;
  readonly total: Inches;
  readonly pieces: number;
  /** Direction of the last piece, degrees counter-clockwise from the right of the sheet as it is displayed: from 0 to less than 360. */
  readonly degrees: number;
  /** How much the last piece turns to the left of the one before, degrees; null where there is none before. */
  readonly turn: number | null;
}

/** Measures a line through two points or more, in sheet space, at the scale of a viewport. Problems: those of `sheetPerInch`. */
export function measured(job: Job, viewport: Id, points: readonly Point2[]): Result<Measured> {
  const perInch = sheetPerInch(job, viewport);
  if (!perInch.ok) return perInch;
  const [before, from, to] = [points.at(-3), points.at(-2)!, points.at(-1)!];
  const rotate = job.sheets[job.viewports[viewport]!.sheet]?.rotate ?? 0;
  const angle = angleOf(from, to);
  return ok({
    last: inches(distance2(from, to) / perInch.value),
    total: inches(lengthOfLine(points) / perInch.value),
    pieces: points.length - 1,
    degrees: within(angle - rotate, 0),
    turn: before ? within(angle - angleOf(before, from), -180) : null,
  });
}

const angleOf = (a: Point2, b: Point2): number => (Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI;

/** An angle in degrees as one from `low` to less than a whole turn more; what is nearly the upper end is the lower one. */
function within(degrees: number, low: number): number {
  const turn = (((degrees - low) % 360) + 360) % 360;
  return low + (turn > 360 - 1e-9 ? 0 : turn);
}

/** What a closed outline holds, and how long it is round. */
export interface Extent {
  readonly squareInches: number;
  readonly round: Inches;
}

/** Measures closed rings in sheet space, the first less the others. Problems: those of `sheetPerInch`. */
export function extentOf(job: Job, viewport: Id, rings: readonly (readonly Point2[])[]): Result<Extent> {
  const perInch = sheetPerInch(job, viewport);
  if (!perInch.ok) return perInch;
  const [first = [], ...holes] = rings;
  const size = (ring: readonly Point2[]) => Math.abs(signedArea(ring));
  const units = size(first) - holes.reduce((sum, hole) => sum + size(hole), 0);
  return ok({
    squareInches: units / perInch.value ** 2,
    round: inches(lengthOfLine([...first, ...first.slice(0, 1)]) / perInch.value),
  });
}

/** A length for the tape: to 1/16 in., or to the millimetre. */
export const lengthWords = (length: Inches, system: UnitSystem): string =>
  formatLength(length, system, { nearest: system === "metric" ? 1 : 1 / 16 });

/** `1240.5 sq ft`, or `115.24 m²`. */
export const areaWords = (squareInches: number, system: UnitSystem): string =>
  system === "metric"
    ? `${((squareInches * MM_PER_INCH * MM_PER_INCH) / 1e6).toFixed(2)} m²`
    : `${(squareInches / 144).toFixed(1)} sq ft`;

/** Degrees to a tenth, without a nought behind the point. */
export const degreesWords = (degrees: number): string => `${Number((Math.round(degrees * 10) / 10).toFixed(1)) % 360}°`;

/** The area of a selected outline, or the length of selected wiring in plan, in words; "" where it has neither or its plan no scale. */
export function sizeWords(job: Job, { table, id }: Picked): string {
  const record = job[table][id];
  if (!record || !("viewport" in record)) return "";
  const { strands }: Outline = outlineOf(table, record);
  const places = (closed: boolean) =>
    strands.filter((strand) => strand.joined && strand.closed === closed).map(({ knots }) => knots.map(({ at }) => at));
  const { system } = job.settings.job;
  const [rings, [line]] = [places(true), places(false)];
  if (rings.length > 0) {
    const extent = extentOf(job, record.viewport, rings);
    if (!extent.ok) return "";
    const { squareInches, round } = extent.value;
    return `${record.label}: ${areaWords(squareInches, system)}, ${lengthWords(round, system)} round.`;
  }
  const perInch = sheetPerInch(job, record.viewport);
  if (!line || !perInch.ok) return "";
  return `${record.label}: ${lengthWords(inches(lengthOfLine(line) / perInch.value), system)} in plan.`;
}

/** What has an elevation at a place: the centre of wiring, or the lowest surface of a deck. */
export interface Level {
  readonly label: string;
  readonly is: "centre" | "deck";
  /** Above the project datum. */
  readonly z: Inches;
}

/** A place this near to wiring, in sheet units, lies on it: that far what attracts a point brings it, but for rounding. */
const ON_WIRING = 0.01;

/** The elevation at a place in sheet space: of the wiring it lies on, else of the deck above it; undefined where that is not known. */
export function levelAt(job: Job, sheet: Id, viewport: Id, at: Point2): Level | undefined {
  const things = placedOn(job, sheet);
  const ofElement = ({ table }: { readonly table: string }) => table === "elements";
  const near = nearestSegment(things, at, ON_WIRING, ofElement) ?? nearestVertex(things, at, ON_WIRING, ofElement);
  if (near) {
    const z = centreThere(job, near.thing.id, at);
    if (z !== undefined) return { label: near.thing.record.label, is: "centre", z };
  }
  const deck = deckThere(job, viewport, at);
  return deck && { ...deck, is: "deck" };
}
