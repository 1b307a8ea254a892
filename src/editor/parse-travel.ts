import { turnedBy, unitAt, unitTowards } from "../geometry/direction.ts";
import type { Point2 } from "../geometry/point.ts";
import type { Id } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";
import { type Length, toInches, type UnitSystem } from "../units/length.ts";
import { parseLength, plainSigns } from "../units/parse-length.ts";
import { fail, ok, type Result } from "../units/problem.ts";
import { asDisplayed, sheetPerInch } from "./parse-position.ts";

/** How far on from the last point the next one goes, in the building, and which way. */
export interface Travel {
  readonly length: Length;
  readonly way: /** Where the pointer or the crosshair is. */
    | { readonly is: "pointed" }
    /** So many degrees counter-clockwise from the right of the sheet as it is displayed. */
    | { readonly is: "angle"; readonly degrees: number }
    /** So many degrees to the left of the last piece. */
    | { readonly is: "turn"; readonly degrees: number };
}

const DEGREES: Readonly<Record<string, number>> = { right: 0, up: 90, left: 180, down: 270 };
const NUMBER = String.raw`(-?\d+(?:\.\d+)?)\s*(?:°|deg|degrees)?`;

/** The ways to say which way, at the end of the text; the first that fits. */
const WAYS: readonly (readonly [form: RegExp, way: (found: RegExpExecArray) => Travel["way"]])[] = [
  [/\sstraight on$/, () => ({ is: "turn", degrees: 0 })],
  [
    new RegExp(String.raw`\sturn(?:ing)? (left|right)(?: (?:by )?${NUMBER})?$`),
    ([, side, by]) => ({ is: "turn", degrees: Number(by ?? 90) * (side === "left" ? 1 : -1) }),
  ],
  [new RegExp(String.raw`\sat ${NUMBER}$`), ([, degrees]) => ({ is: "angle", degrees: Number(degrees) })],
  [/\s(right|left|up|down)$/, ([, word]) => ({ is: "angle", degrees: DEGREES[word!]! })],
];

/**
 * Reads `12'-6"`, `3810 mm left`, `12'-6" at 45°`, `8' straight on`, `8' turn left`, `8' turn right 30°`: right, left, up and down as the sheet is
 * displayed. Null for text that is neither a bare length nor says which way, such as a tag. Problems: `travel.not-positive`, and those of
 * `parseLength`.
 */
export function parseTravel(text: string, system: UnitSystem): Result<Travel> | null {
  const plain = plainSigns(text);
  const said = WAYS.map(([form, way]) => ({ found: form.exec(plain), way })).find(({ found }) => found !== null);
  const rest = said ? plain.slice(0, said.found!.index) : plain;
  // A tolerance sign in front is of a tag.
  if (/^(?:±|\+\s*\/\s*-)/.test(rest)) return null;
  const length = parseLength(rest, system === "metric" ? "mm" : undefined);
  if (!length.ok) return said ? length : null;
  if (!(length.value.value > 0)) return fail("travel.not-positive", "", { text: text.trim() });
  return ok({ length: length.value, way: said ? said.way(said.found!) : { is: "pointed" } });
}

/** Where a line that is being drawn stands, in sheet space. */
export interface Standing {
  /** The points put so far, the last one last. */
  readonly points: readonly Point2[];
  /** Where the next one would go by pointer or crosshair, a lock included; null while neither is on the sheet. */
  readonly aim: Point2 | null;
}

/**
 * The place a travel leads to, in sheet space, at the scale of `viewport`. Problems: `position.no-start`, `travel.no-way` where nothing is pointed at,
 * `travel.no-piece` where there is no piece to turn from, and those of `sheetToBuilding` where there is no scale.
 */
export function placeOfTravel(
  job: Job,
  viewport: Id | null,
  { points, aim }: Standing,
  { length, way }: Travel,
): Result<Point2> {
  const last = points.at(-1);
  if (!last) return fail("position.no-start");
  const perInch = sheetPerInch(job, viewport);
  if (!perInch.ok) return perInch;
  const unit = wayOf(job, viewport, points, aim, way);
  if (!unit.ok) return unit;
  const far = toInches(length) * perInch.value;
  return ok([last[0] + unit.value[0] * far, last[1] + unit.value[1] * far]);
}

function wayOf(
  job: Job,
  viewport: Id | null,
  points: readonly Point2[],
  aim: Point2 | null,
  way: Travel["way"],
): Result<Point2> {
  const last = points.at(-1)!;
  if (way.is === "angle") {
    const sheet = job.viewports[viewport ?? ""]?.sheet ?? "";
    return ok(asDisplayed(unitAt(way.degrees), job.sheets[sheet]?.rotate ?? 0));
  }
  if (way.is === "pointed") {
    const unit = aim && unitTowards(last, aim);
    return unit ? ok(unit) : fail("travel.no-way");
  }
  // Two points at one place are a drop: the piece before it says where the line came from.
  const before = points.findLast(([x, y]) => x !== last[0] || y !== last[1]);
  const piece = before && unitTowards(before, last);
  return piece ? ok(turnedBy(unitAt(way.degrees), piece)) : fail("travel.no-piece");
}
