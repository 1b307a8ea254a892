import type { Point2 } from "../geometry/point.ts";
import { locate } from "../geometry/polygon.ts";
import type { Tag } from "../job/fields.ts";
import { toInches } from "../units/length.ts";
import { type Inches, inches } from "../units/quantity.ts";
import { type DeckArea, hasSurface, surfaceAt } from "./deck-area.ts";
import type { Reason } from "./finding.ts";
import type { CountedFrom, LevelDoubt } from "./level-doubt.ts";
import { type Missing, type Reading, reason } from "./reading.ts";
import type { Scene } from "./scene.ts";
import { asGiven, basisWords, written } from "./words.ts";

/** Elevation of an element's axis at a tag, and how far it may be off. */
export interface AxisElevation extends LevelDoubt {
  readonly z: Inches;
}

/**
 * The elevation of the axis above the project datum, by an elevation tag: datum, then basis (half the height up from the bottom or down
 * from the top). Undefined where the tag cannot be read; `tagElevation` then says what is missing.
 */
export function axisAtTag(
  scene: Scene,
  root: string,
  at: Point2,
  tag: Tag,
  halfHeight: number,
): AxisElevation | undefined {
  const { datum, basis } = tag;
  let start = 0;
  let counted: CountedFrom | undefined;
  if (datum.from === "storey") {
    const storey = scene.job.storeys[datum.storey];
    if (!storey) return undefined;
    start = toInches(storey.floor);
  } else if (datum.from === "below-deck") {
    const deck = onlyDeckOver(scene, root, at);
    if (!deck.known) return undefined;
    start = surfaceAt(deck.value, at);
    counted = { area: deck.value.id, tolerance: deck.value.tolerance };
  }
  const half = basis === "centre" ? 0 : basis === "top" ? -halfHeight : halfHeight;
  const way = datum.from === "below-deck" ? -1 : 1;
  const tolerance = toInches(tag.plusMinus ?? scene.job.settings.job.tolerances.tags);
  const z = inches(start + way * toInches(tag.length) + half);
  return counted ? { z, tolerance, counted } : { z, tolerance };
}

/** The same as a reading: with what led to it, or what is missing. `what` names the tag in the reasons: "Tag at vertex 2 of R-14". */
export function tagElevation(
  scene: Scene,
  root: string,
  at: Point2,
  tag: Tag | null,
  halfHeight: number,
  what: string,
): Reading<AxisElevation> {
  const { job, system } = scene;
  if (!tag) return unknown(`${what}: no elevation tag`, `Give ${theTag(what)}.`);
  const counted = countedFrom(scene, root, at, tag, what);
  if (!counted.known) return counted;
  const value = axisAtTag(scene, root, at, tag, halfHeight);
  if (!value) throw new Error(`${what} can be read, and yet its elevation is not known`);
  const { z: axis, tolerance } = value;
  const half = { centre: 0, top: -halfHeight, bottom: halfHeight }[tag.basis];
  const plusMinus = tag.plusMinus ?? job.settings.job.tolerances.tags;
  const explain = (): Reason => {
    const steps = [counted.explain()];
    if (half !== 0) {
      const step = half < 0 ? "Tagged to the top: less half the height" : "Tagged to the bottom: plus half the height";
      steps.push(reason(step, { value: written(halfHeight, system), quantity: { is: "half-height", in: half } }));
    }
    if (tolerance > 0)
      steps.push(
        reason("The tag may be off by, each way", {
          value: asGiven(plusMinus, system),
          quantity: { is: "tolerance", in: tolerance },
        }),
      );
    return reason(
      `${what}: ${asGiven(tag.length, system)} to ${basisWords[tag.basis]}`,
      {
        value: `axis at ${written(axis, system)}`,
        source: "elevation tag",
        quantity: { is: "axis", in: axis, given: counted.value.sign * toInches(tag.length) },
      },
      steps,
    );
  };
  return { known: true, value, explain };
}

/** What a tag is counted from: an elevation, and whether the tag's length goes up or down from it. */
function countedFrom(
  scene: Scene,
  root: string,
  at: Point2,
  { datum }: Tag,
  what: string,
): Reading<{ readonly start: number; readonly sign: 1 | -1 }> {
  const { system } = scene;
  if (datum.from === "project")
    return {
      known: true,
      value: { start: 0, sign: 1 },
      explain: () => reason("Counted from the project datum", { quantity: { is: "start", in: 0 } }),
    };
  if (datum.from === "storey") {
    const storey = scene.job.storeys[datum.storey];
    if (!storey)
      return unknown(`${what}: counted from a storey that is not in the job`, `Choose a storey for ${theTag(what)}.`);
    const value = asGiven(storey.floor, system);
    const start = toInches(storey.floor);
    const text = `Above the finished floor of ${storey.name}, whose elevation is`;
    return {
      known: true,
      value: { start, sign: 1 },
      explain: () => reason(text, { value, quantity: { is: "start", in: start } }),
    };
  }
  const deck = onlyDeckOver(scene, root, at);
  if (!deck.known) return deck;
  const start = surfaceAt(deck.value, at);
  const text = `Below the lowest surface of ${deck.value.area.label}, which is there at`;
  const explain = () => reason(text, { value: written(start, system), quantity: { is: "start", in: start } });
  return { known: true, value: { start, sign: -1 }, explain };
}

/** "Tag at vertex 2 of R-14" within a sentence. */
const theTag = (what: string): string => what.replace(/^Tag/, "the tag");

/** The one deck area with a known surface over a point of the plan. Several, or none, and the tag cannot be read. */
function onlyDeckOver(scene: Scene, root: string, at: Point2): Reading<DeckArea> {
  const frame = scene.frame(root);
  const spot = [at[0], at[1], 0] as const;
  const over = frame.footprints
    .query({ min: spot, max: spot }, inches(0))
    .map((n) => frame.areas[n]!)
    .filter((deck) => locate(deck.polygon, at) !== "outside");
  // Where two parts of one area meet, either has the surface of both there.
  const deck = over.find(hasSurface) ?? over[0];
  const second = over.find(({ id }) => id !== deck?.id);
  if (!deck)
    return unknown(
      "No deck area lies over this tag, which is counted from the deck",
      "Outline the deck area above it.",
    );
  if (second)
    return unknown(
      `Both ${deck.area.label} and ${second.area.label} lie over this tag, which is counted from the deck`,
      "Count the tag from a floor or the project datum.",
    );
  if (!hasSurface(deck)) return { known: false, missing: deck.missing, explain: () => deck.explain() };
  return { known: true, value: deck, explain: () => deck.explain() };
}

function unknown(text: string, remedy: string): { known: false; missing: Missing[]; explain: () => Reason } {
  return {
    known: false,
    missing: [{ text, remedy: { kind: "record-fact", text: remedy } }],
    explain: () => reason(text),
  };
}

/** The text of a tag after the element is lowered by `by` inches: a below-deck tag grows, any other shrinks. */
export function loweredTagText(tag: Tag, by: number, system: "imperial" | "metric"): string {
  const now = toInches(tag.length);
  const then = tag.datum.from === "below-deck" ? now + by : now - by;
  return `${written(then, system)} ${basisWords[tag.basis]}`;
}
