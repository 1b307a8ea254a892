import { elevationAt } from "../geometry/plane.ts";
import type { Point2 } from "../geometry/point.ts";
import { locate } from "../geometry/polygon.ts";
import type { Tag } from "../job/fields.ts";
import { toInches } from "../units/length.ts";
import { type Inches, inches } from "../units/quantity.ts";
import type { Reason } from "./finding.ts";
import { type Missing, type Reading, reason } from "./reading.ts";
import type { DeckArea, Scene } from "./scene.ts";
import { asGiven, basisWords, written } from "./words.ts";

/** Elevation of an element's axis at a tag, and how far it may be off. */
export interface AxisElevation {
  readonly z: Inches;
  readonly tolerance: Inches;
}

/**
 * Reads an elevation tag into the elevation of the axis above the project datum: datum, then basis (half the height up
 * from the bottom or down from the top). `what` names the tag in the reasons: "Tag at vertex 2 of R-14".
 */
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
  const half = { centre: 0, top: -halfHeight, bottom: halfHeight }[tag.basis];
  const axis = counted.value.start + counted.value.sign * toInches(tag.length) + half;
  const plusMinus = tag.plusMinus ?? job.settings.job.tolerances.tags;
  const tolerance = toInches(plusMinus);
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
  return { known: true, value: { z: inches(axis), tolerance }, explain };
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
  const start = elevationAt(deck.value.face!.plane, at);
  const text = `Below the lowest surface of ${deck.value.area.label}, which is there at`;
  const explain = () => reason(text, { value: written(start, system), quantity: { is: "start", in: start } });
  return { known: true, value: { start, sign: -1 }, explain };
}

/** "Tag at vertex 2 of R-14" within a sentence. */
const theTag = (what: string): string => what.replace(/^Tag/, "the tag");

/** The one deck area with a known surface over a point of the plan. Several, or none, and the tag cannot be read. */
function onlyDeckOver(scene: Scene, root: string, at: Point2): Reading<DeckArea> {
  const over = scene.frame(root).areas.filter((deck) => locate(deck.polygon, at) !== "outside");
  const [deck, second] = over;
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
  if (!deck.face) return { known: false, missing: deck.missing, explain: () => deck.reason };
  return { known: true, value: deck, explain: () => deck.reason };
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
