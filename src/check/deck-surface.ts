import { type Plane, planeFromSlope, planeLevel, slopeAngle } from "../geometry/plane.ts";
import type { Point2 } from "../geometry/point.ts";
import type { Triple } from "../geometry/triangulation.ts";
import type { Area, Job } from "../job/schema.ts";
import { type DeckProfile, findDeckProfile } from "../trade/decks.ts";
import { type Length, toInches, type UnitSystem } from "../units/length.ts";
import { type Inches, inches } from "../units/quantity.ts";
import type { Reason } from "./finding.ts";
import { type Missing, type Reading, reason } from "./reading.ts";
import { spotSteps, spotsReason } from "./spot-reasons.ts";
import { type SpotSurface, spotSurface } from "./spot-surface.ts";
import { asGiven, deckBasisWords, sourceText, written } from "./words.ts";

/** The lowest surface of a deck: where it is, and how far its elevation may be off. */
export interface DeckSurface {
  readonly surface: { readonly is: "level-or-slope"; readonly plane: Plane } | SpotSurface;
  /** How far the elevation may be off, each way. */
  readonly tolerance: Inches;
  /** How it comes about at a point of the plan, by the three spots whose plane it lies in there, counted from 0; absent where no spots are given. */
  readonly explainAt?: (at: Point2, spots: Triple) => Reason;
}

/** Depth of an area's deck above its lowest surface: its own, else the table's; undefined where neither says. */
export function deckDepth(area: Area): Inches | undefined {
  return area.deck.depth ? toInches(area.deck.depth) : findDeckProfile(area.deck.profile)?.depth?.value;
}

const lacks = (area: Area, what: string): Missing => ({
  text: `${area.label}: ${what}`,
  remedy: { kind: "record-fact", text: `Record for ${area.label}: ${what}.` },
});

/** A step of an explanation, put into words when somebody asks. */
type Step = () => Reason;

/**
 * The lowest surface of an area's deck, converted from the surface whose elevation is given, step by step.
 * `toBuilding` takes a point of the area's sheet to the plan of the building. What is not recorded is named, not guessed.
 */
export function deckSurface(job: Job, area: Area, toBuilding: (at: Point2) => Point2): Reading<DeckSurface> {
  const { system, tolerances } = job.settings.job;
  const { elevation } = area;
  const missing: Missing[] = [];
  const steps: Step[] = [];

  let datum = 0;
  if (elevation.datum.from === "storey") {
    const storey = job.storeys[elevation.datum.storey];
    if (storey) {
      datum = toInches(storey.floor);
      steps.push(() =>
        reason(`Counted from the finished floor of ${storey.name}`, {
          value: asGiven(storey.floor, system),
          quantity: { is: "start", in: datum },
        }),
      );
    } else missing.push(lacks(area, "the storey its elevation is counted from"));
  }
  const drop = dropToLowest(area, system, steps, missing);
  const shift = datum - drop;
  const surface = (given: Length): number => toInches(given) + shift;

  let plane: Plane | undefined;
  let spotted: SpotSurface | undefined;
  let ofSpots: readonly Reason[] = [];
  /** The lowest surface where one elevation is given for it. */
  let at: number | undefined;
  const { shape } = elevation;
  switch (shape.is) {
    case "level":
      if (shape.at) {
        const given = shape.at;
        steps.unshift(() =>
          reason(`Elevation given to ${deckBasisWords[elevation.basis]}, level`, {
            value: asGiven(given, system),
            quantity: { is: "given", in: toInches(given) },
          }),
        );
        at = surface(given);
        plane = planeLevel(inches(at));
      } else missing.push(lacks(area, `the elevation of its ${deckBasisWords[elevation.basis]}`));
      break;
    case "slope": {
      const from = toBuilding(shape.point);
      const to = toBuilding(shape.towards);
      const downhill: Point2 = [to[0] - from[0], to[1] - from[1]];
      if (!shape.at)
        missing.push(
          lacks(area, `the elevation of its ${deckBasisWords[elevation.basis]} at the point the slope starts from`),
        );
      else if (downhill[0] === 0 && downhill[1] === 0 && shape.rise > 0)
        missing.push(lacks(area, "the direction in which it falls"));
      else {
        const given = shape.at;
        const { rise, text } = shape;
        steps.unshift(
          () =>
            reason(`Elevation given to ${deckBasisWords[elevation.basis]} at one point`, {
              value: asGiven(given, system),
              quantity: { is: "given", in: toInches(given) },
            }),
          () =>
            reason("Falls from that point by", {
              value: text || `${rise} per unit of run`,
              quantity: { is: "fall", in: rise },
            }),
        );
        at = surface(given);
        plane = planeFromSlope(from, inches(at), shape.rise, downhill);
      }
      break;
    }
    case "spots": {
      const read = spotSurface(area, shape, surface, toBuilding);
      missing.push(...read.missing);
      spotted = read.surface;
      ofSpots = spotSteps(area, shape, system);
    }
  }
  const said = (): Reason[] => steps.map((step) => step());
  const found: DeckSurface["surface"] | undefined = plane ? { is: "level-or-slope", plane } : spotted;
  if (missing.length > 0 || !found) {
    return {
      known: false,
      missing,
      explain: () => reason(`Lowest surface of ${area.label} is not known`, {}, [...ofSpots, ...said()]),
    };
  }
  const tolerance = toInches(elevation.plusMinus ?? tolerances.decks);
  if (tolerance > 0)
    steps.push(() =>
      reason("The elevation may be off by, each way", {
        value: asGiven(elevation.plusMinus ?? tolerances.decks, system),
        quantity: { is: "tolerance", in: tolerance },
      }),
    );
  return {
    known: true,
    value: {
      surface: found,
      tolerance: inches(tolerance),
      ...(shape.is === "spots" && found.is !== "level-or-slope"
        ? { explainAt: (at, spots) => spotsReason(area, shape, found, at, spots, system, said()) }
        : {}),
    },
    explain: () =>
      reason(
        `Lowest surface of the deck of ${area.label}`,
        { value: surfaceText(found, system), ...(at === undefined ? {} : { quantity: { is: "lowest", in: at } }) },
        [...ofSpots, ...said()],
      ),
  };
}

function surfaceText(surface: DeckSurface["surface"], system: UnitSystem): string {
  if (surface.is === "folded") return "folded between its spots";
  const { plane } = surface;
  const slope = slopeAngle(plane);
  return slope === 0 ? written(plane.c, system) : `sloped ${((slope * 180) / Math.PI).toFixed(2)}°`;
}

/** How far the lowest surface lies below the surface whose elevation is given, with a step for each layer. */
function dropToLowest(area: Area, system: UnitSystem, steps: Step[], missing: Missing[]): number {
  const { basis, layers } = area.elevation;
  if (basis === "bottom-of-deck") {
    steps.push(() => reason("The bottom of the deck is its lowest surface"));
    return 0;
  }
  if (basis === "top-of-steel") {
    steps.push(() => reason("The deck bears on the steel: top of steel is the lowest surface of the deck"));
    return 0;
  }
  let drop = 0;
  if (basis === "top-of-slab" || basis === "top-of-roofing") {
    if (layers.length === 0)
      missing.push(lacks(area, `the thicknesses between its ${deckBasisWords[basis]} and the top of its deck`));
    for (const layer of layers) {
      const { name, thickness } = layer;
      if (thickness) {
        drop += toInches(thickness);
        steps.push(() =>
          reason(`Less ${name || "a layer"}`, {
            value: asGiven(thickness, system),
            quantity: { is: "less", in: toInches(thickness) },
          }),
        );
      } else missing.push(lacks(area, `the thickness of ${name || "a layer"}`));
    }
  }
  const depth = deckDepth(area);
  if (depth === undefined) missing.push(lacks(area, "the depth of its deck"));
  else {
    drop += depth;
    steps.push(() => depthReason(area, findDeckProfile(area.deck.profile), system));
  }
  return drop;
}

function depthReason(area: Area, profile: DeckProfile | undefined, system: UnitSystem): Reason {
  if (area.deck.depth)
    return reason("Less the depth of the deck", {
      value: asGiven(area.deck.depth, system),
      quantity: { is: "less", in: toInches(area.deck.depth) },
      source: `as recorded for ${area.label}`,
    });
  return reason("Less the depth of the deck", {
    value: profile?.depth ? written(profile.depth.value, system) : "",
    ...(profile?.depth ? { quantity: { is: "less", in: profile.depth.value } } : {}),
    source: profile?.depth ? `${profile.label}; ${sourceText(profile.depth.source)}` : "",
  });
}
