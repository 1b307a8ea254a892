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
  if (!tag) return unknown(`${what}: no elevation tag`, `Give ${what.replace(/^Tag/, "the tag")}.`);
  const given = toInches(tag.length);
  const steps: Reason[] = [];
  let z: number;
  let tolerance = toInches(tag.plusMinus ?? job.settings.job.tolerances.tags);
  switch (tag.datum.from) {
    case "project":
      z = given;
      steps.push(reason("Counted from the project datum"));
      break;
    case "storey": {
      const storey = job.storeys[tag.datum.storey];
      if (!storey)
        return unknown(
          `${what}: counted from a storey that is not in the job`,
          `Choose a storey for ${what.replace(/^Tag/, "the tag")}.`,
        );
      z = toInches(storey.floor) + given;
      steps.push(
        reason(`Above the finished floor of ${storey.name}, whose elevation is`, {
          value: asGiven(storey.floor, system),
        }),
      );
      break;
    }
    case "below-deck": {
      const deck = onlyDeckOver(scene, root, at);
      if (!deck.known) return deck;
      z = elevationAt(deck.value.face!.plane, at) - given;
      tolerance = inches(tolerance);
      steps.push(
        reason(`Below the lowest surface of ${deck.value.area.label}, which is there at`, {
          value: written(elevationAt(deck.value.face!.plane, at), system),
        }),
      );
    }
  }
  const { axis, step } = toAxis(z, tag.basis, halfHeight, system);
  if (step) steps.push(step);
  if (tolerance > 0)
    steps.push(
      reason("The tag may be off by, each way", {
        value: asGiven(tag.plusMinus ?? job.settings.job.tolerances.tags, system),
      }),
    );
  return {
    known: true,
    value: { z: inches(axis), tolerance },
    reason: reason(
      `${what}: ${asGiven(tag.length, system)} to ${basisWords[tag.basis]}`,
      { value: `axis at ${written(axis, system)}`, source: "elevation tag" },
      steps,
    ),
  };
}

function toAxis(
  z: number,
  basis: Tag["basis"],
  half: number,
  system: "imperial" | "metric",
): { axis: number; step?: Reason } {
  if (basis === "centre") return { axis: z };
  const value = written(half, system);
  return basis === "top"
    ? { axis: z - half, step: reason("Tagged to the top: less half the height", { value }) }
    : { axis: z + half, step: reason("Tagged to the bottom: plus half the height", { value }) };
}

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
  if (!deck.face) return { known: false, missing: deck.missing, reason: deck.reason };
  return { known: true, value: deck, reason: deck.reason };
}

function unknown(text: string, remedy: string): { known: false; missing: Missing[]; reason: Reason } {
  return { known: false, missing: [{ text, remedy: { kind: "record-fact", text: remedy } }], reason: reason(text) };
}

/** The text of a tag after the element is lowered by `by` inches: a below-deck tag grows, any other shrinks. */
export function loweredTagText(tag: Tag, by: number, system: "imperial" | "metric"): string {
  const now = toInches(tag.length);
  const then = tag.datum.from === "below-deck" ? now + by : now - by;
  return `${written(then, system)} ${basisWords[tag.basis]}`;
}
