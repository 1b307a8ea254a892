import type { Face } from "../geometry/face.ts";
import { slopeAngle } from "../geometry/plane.ts";
import type { Point2 } from "../geometry/point.ts";
import { runsIn } from "../job/elements/element.ts";
import type { Id } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";
import type { SettledAs } from "../job/storey-outline.ts";
import { covers } from "../rules/scope.ts";
import { findRacewayKind, racewayKinds } from "../trade/raceways.ts";
import { toInches } from "../units/length.ts";
import { type Inches, inches } from "../units/quantity.ts";
import { type DeckArea, surfaceAt } from "./deck-area.ts";
import { sectionOf } from "./kinds/section.ts";
import { heightOf } from "./kinds/traced.ts";
import { makeScene, type Scene } from "./scene.ts";

/** A size of wiring that heights are worked out for. */
export interface HungWiring {
  /** As the trade says it: `EMT 3/4`. */
  readonly label: string;
  readonly type: string;
  readonly outside: Inches;
}

/** How far below the deck one size has to hang, straight down as a tape measures, to its top, centre and bottom. Not rounded. */
export interface Drops {
  readonly wiring: HungWiring;
  readonly top: Inches;
  readonly centre: Inches;
  readonly bottom: Inches;
}

/** What can be said of hanging wiring under one deck area. */
export type AreaRoom = {
  readonly id: Id;
  readonly label: string;
  /** What this part of the area is, where storeys above part it; the label says so too. */
  readonly part?: SettledAs;
} & (
  | { readonly is: "room"; readonly room: Room }
  | { readonly is: "not-known"; readonly missing: readonly string[] }
  /** The rule set does not speak of this deck. */
  | { readonly is: "outside-the-rule" }
  | { readonly is: "floor-above" | "not-settled"; readonly reason: string }
);

/** Room under a roof whose lowest surface is known. */
export interface Room {
  /** Slope of the deck where it is steepest, degrees; 0 for a level one. */
  readonly slopeDeg: number;
  /** Vertical drop that the top of anything needs, tolerance of placing included. */
  readonly topDrop: Inches;
  readonly drops: readonly Drops[];
  /**
   * What the elevations below lie lower than the drops alone would put them: the deck's own tolerance, and what being off in
   * plan comes to on its slope. From the deck itself nobody needs it.
   */
  readonly deckSlack: Inches;
  /** Corners of the outline, then those where faces of the deck meet, building space, with the elevation of the lowest surface above the project datum. */
  readonly corners: readonly { readonly at: Point2; readonly deck: Inches }[];
  /** Where faces of the deck end or meet, as pairs of places among the corners; empty for a deck of one plane. Along each the elevation changes evenly. */
  readonly edges: readonly (readonly [number, number])[];
  /** The lowest surface, piece by piece, and the root of the frame it lies in. */
  readonly faces: readonly Face[];
  readonly root: Id;
  /** The storey whose floor elevations are counted from, and its elevation; null counts from the project datum. */
  readonly storey: { readonly name: string; readonly floor: Inches } | null;
}

/**
 * How high wiring may hang under every deck area of a job, by area label. An element at these heights is clear, and under a deck of
 * one plane exactly so: its distance square to the deck, less every tolerance, is the clearance. Sizes are those of the job's runs, or those of EMT up to 2 where it
 * has none. Empty where the rule set is not known here.
 */
export function hangingRoom(job: Job, wiring = hungWiring(job)): readonly AreaRoom[] {
  const scene = makeScene(job);
  if (!scene.rules) return [];
  const roots = new Set(
    Object.values(job.areas).flatMap((area) => {
      const registered = scene.registration(area.viewport);
      return registered.ok ? [registered.value.root] : [];
    }),
  );
  const placed = new Map<Id, { readonly root: Id; readonly deck: DeckArea }[]>();
  for (const each of [...roots].flatMap((root) => scene.frame(root).areas.map((deck) => ({ root, deck })))) {
    const parts = placed.get(each.deck.id);
    if (parts) parts.push(each);
    else placed.set(each.deck.id, [each]);
  }
  return Object.entries(job.areas)
    .flatMap(
      ([id, { label }]): AreaRoom[] =>
        placed.get(id)?.map(({ root, deck }) => roomUnder(scene, root, deck, wiring)) ?? [
          { id, label, is: "not-known", missing: ["the scale of its viewport"] },
        ],
    )
    .sort((a, b) => (a.label < b.label ? -1 : a.label > b.label ? 1 : 0));
}

const PART_WORDS: Readonly<Record<SettledAs, string>> = {
  roof: "where it is a roof",
  "floor-above": "where there is a floor above",
  "not-settled": "where it is not settled",
};

function roomUnder(scene: Scene, root: Id, deck: DeckArea, wiring: readonly HungWiring[]): AreaRoom {
  const { id, area, faces } = deck;
  const { is, reason, follows } = deck.classification;
  // Storeys above part one area into several: each says which part it is.
  const named = follows ? { id, label: `${area.label}, ${PART_WORDS[is]}`, part: is } : { id, label: area.label };
  if (is !== "roof") return { ...named, is, reason };
  const [first] = faces;
  // A surface is nowhere nearer, for a gap straight up, than its steepest face would be.
  const face =
    first && faces.reduce((steepest, each) => (each.steepness > steepest.steepness ? each : steepest), first);
  if (!face) return { ...named, is: "not-known", missing: deck.missing.map(({ text }) => text) };
  const governed = wiring.filter(({ type }) =>
    covers(scene.rules!, findRacewayKind(type)?.elementClass ?? "raceway", deck.deckClass),
  );
  if (governed.length === 0) return { ...named, is: "outside-the-rule" };
  const placing = toInches(scene.job.settings.job.tolerances.tags);
  const drops = governed.map((each): Drops => {
    const centre = (scene.required + each.outside / 2) * face.steepness + placing;
    return {
      wiring: each,
      top: inches(centre - each.outside / 2),
      centre: inches(centre),
      bottom: inches(centre + each.outside / 2),
    };
  });
  const steepness = Math.hypot(face.plane.gx, face.plane.gy);
  return {
    ...named,
    is: "room",
    room: {
      slopeDeg: (slopeAngle(face.plane) * 180) / Math.PI,
      topDrop: inches(scene.required * face.steepness + placing),
      drops,
      deckSlack: inches(deck.tolerance + steepness * (scene.planTolerance + deck.planTolerance)),
      ...cornersOf(deck),
      faces,
      root,
      storey: storeyOf(scene.job, deck),
    },
  };
}

/** The corners of the outline; of a folded deck those of its faces too, and the edges of these. */
function cornersOf(deck: DeckArea): Pick<Room, "corners" | "edges"> {
  const at = (point: Point2) => ({ at: point, deck: surfaceAt(deck, point) });
  if (deck.faces.length === 1) return { corners: deck.polygon.outline.map(at), edges: [] };
  const places = new Map<string, { readonly number: number; readonly point: Point2 }>();
  const numberOf = (point: Point2): number => {
    // Corners that two faces share differ by rounding.
    const key = point.map((n) => Math.round(n * 1e3)).join();
    const known = places.get(key) ?? { number: places.size, point };
    places.set(key, known);
    return known.number;
  };
  for (const point of deck.polygon.outline) numberOf(point);
  const edges = new Map<string, readonly [number, number]>();
  for (const { polygon } of deck.faces)
    for (const ring of [polygon.outline, ...polygon.holes])
      for (const [i, point] of ring.entries()) {
        const [a, b] = [numberOf(point), numberOf(ring[(i + 1) % ring.length]!)];
        if (a !== b) edges.set(`${Math.min(a, b)} ${Math.max(a, b)}`, [a, b]);
      }
  return { corners: [...places.values()].map(({ point }) => at(point)), edges: [...edges.values()] };
}

function storeyOf(job: Job, { area }: DeckArea): Room["storey"] {
  const { datum } = area.elevation;
  const id = datum.from === "storey" ? datum.storey : job.viewports[area.viewport]?.storey;
  const storey = id ? job.storeys[id] : undefined;
  return storey ? { name: storey.name, floor: toInches(storey.floor) } : null;
}

/** Every size among the job's runs once, kinds and sizes in the order of the tables; where it has none, those of EMT up to 2. */
export function hungWiring(job: Job): readonly HungWiring[] {
  const found = new Map<string, HungWiring>();
  for (const { wiring } of Object.values(job.elements).flatMap(runsIn)) {
    const { type, tradeSize } = wiring;
    const section = sectionOf("", wiring, job.settings.job.system);
    if (!section.known) continue;
    const outside = heightOf(section.value);
    const label = `${findRacewayKind(type)?.short ?? type} ${tradeSize}`.trim();
    found.set(`${label} ${outside}`, { label, type, outside });
  }
  const order = racewayKinds.map(({ id }) => id);
  const listed = [...found.values()].sort(
    (a, b) => order.indexOf(a.type) - order.indexOf(b.type) || a.outside - b.outside || (a.label < b.label ? -1 : 1),
  );
  return listed.length > 0 ? listed : USUAL;
}

const USUAL: readonly HungWiring[] = (findRacewayKind("emt")?.sizes ?? [])
  .slice(0, 6)
  .map(({ size, outside }) => ({ label: `EMT ${size}`, type: "emt", outside: outside.value }));
