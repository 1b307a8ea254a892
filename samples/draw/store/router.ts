import type { ElementFacts } from "../../../src/job/fields.ts";
import { findRacewaySize } from "../../../src/trade/raceways.ts";
import { FOOT, type Plan } from "../plan-place.ts";
import { type DeckName, LEVEL_1, lowest, MEZZANINE, type PartName } from "./building.ts";
import { chanceFrom } from "./chance.ts";

/** An elevation tag as the drawing gives it, inches. */
export interface StoreTag {
  readonly basis: "bottom" | "centre" | "top";
  readonly from: "aff" | "mezzanine" | "project" | "below-deck";
  readonly inches: number;
  readonly plusMinus?: number;
}

/** A run as it is drawn and traced: its route in plan, inches, with a tag for each vertex that has one. */
export interface StoreRun {
  readonly label: string;
  readonly part: PartName;
  readonly route: readonly Plan[];
  readonly wiring: { readonly type: string; readonly size: string };
  /** Conductors and circuit, as written: `2#10, 1#10G  LA-5`. */
  readonly circuit: string;
  readonly tags: readonly (StoreTag | null)[];
  readonly facts: Partial<ElementFacts>;
  /** More words of the note: "IN FLUTE", "STEEL FITTINGS". */
  readonly remark: string;
  /** What it has besides a round tube, inches; absent where the drawing says nothing of it. */
  readonly more?: MoreOfRun;
}

/** What a note says of a run besides its size: sizes of a rectangular section, the radius of its bends, how far it hangs between its supports. */
export interface MoreOfRun {
  readonly section?: { readonly width: number; readonly height: number };
  readonly bends?: number;
  readonly droop?: number;
}

/** How a run hangs under a deck: `gap` is from its top to the deck at its tightest place, inches. */
export interface Hang {
  readonly deck: DeckName;
  readonly gap: number;
  /** `level`: one elevation, by the lowest deck on its way; `start`: by the deck at its first vertex only; `follow`: an elevation at each end. */
  readonly way?: "level" | "start" | "follow";
  readonly basis?: StoreTag["basis"];
  readonly from?: StoreTag["from"];
  /** What the elevation is rounded to, downwards. */
  readonly step?: number;
  readonly plusMinus?: number;
}

export interface RunSpec {
  /** Plan points in feet. */
  readonly feet: readonly (readonly [number, number])[];
  readonly size: string;
  readonly type?: string;
  readonly circuit: string;
  /** `aff`: one elevation for all of it; `affs`: one at each vertex. */
  readonly hang: Hang | { readonly aff: number } | { readonly affs: readonly number[] } | "not-given";
  readonly facts?: Partial<ElementFacts>;
  readonly remark?: string;
  readonly more?: MoreOfRun;
}

const FIRST = { sw: 101, se: 201, nw: 301, ne: 401 } as const;

/** Collects runs part by part: labels in order of each part, elevations worked out from the decks, variety from a seed. */
export class Router {
  readonly runs: StoreRun[] = [];
  readonly chance = chanceFrom(20_300);
  readonly #next: Record<PartName, number> = { ...FIRST };
  readonly #circuits = new Map<string, number>();

  /** The next circuits of a panel as written on a branch: `LA-1,3`. */
  circuit(panel: string, wires = "2#12, 1#12G"): string {
    const next = this.#circuits.get(panel) ?? 1;
    this.#circuits.set(panel, next + 2);
    return `${wires}  ${panel}-${next}`;
  }

  /** A number between two, to a step. */
  between(low: number, high: number, step: number): number {
    return low + Math.floor((this.chance() * (high - low)) / step) * step;
  }

  /** Mostly `usual` and more; now and then tight, or as near as makes it doubtful. */
  gap(usual: number): { gap: number; step: number } {
    const draw = this.chance();
    if (draw < 0.055) return { gap: this.between(0.375, 1, 0.125), step: 0.125 };
    if (draw < 0.095) return { gap: 1.5 + this.between(-0.125, 0.25, 0.125), step: 0.125 };
    return { gap: usual + this.between(0, 6, 0.5), step: 0.5 };
  }

  add(part: PartName, spec: RunSpec): StoreRun {
    const type = spec.type ?? "emt";
    const diameter = spec.more?.section?.height ?? findRacewaySize(type, spec.size)?.outside.value;
    if (diameter === undefined) throw new Error(`No size ${spec.size} of ${type}`);
    const route = spec.feet.map(([x, y]): Plan => [x * FOOT, y * FOOT]);
    const run: StoreRun = {
      label: `R-${this.#next[part]++}`,
      part,
      route,
      wiring: { type, size: spec.size },
      circuit: spec.circuit,
      tags: tagsFor(route, diameter / 2, spec.hang),
      facts: spec.facts ?? {},
      remark: spec.remark ?? "",
      ...(spec.more ? { more: spec.more } : {}),
    };
    this.runs.push(run);
    return run;
  }
}

function tagsFor(route: readonly Plan[], radius: number, hang: RunSpec["hang"]): (StoreTag | null)[] {
  const ends = (first: StoreTag | null, last: StoreTag | null): (StoreTag | null)[] =>
    route.map((_, i) => (i === 0 ? first : i === route.length - 1 ? last : null));
  if (hang === "not-given") return ends(null, null);
  if ("affs" in hang) return hang.affs.map((inches) => ({ basis: "centre", from: "aff", inches }));
  if ("aff" in hang) {
    const tag: StoreTag = { basis: "centre", from: "aff", inches: hang.aff };
    return ends(tag, tag);
  }
  const { deck, gap, way = "level", basis = "centre", from = "aff", step = 0.5, plusMinus } = hang;
  const below = gap + (basis === "top" ? 0 : basis === "centre" ? radius : 2 * radius);
  const zero = { aff: LEVEL_1, mezzanine: MEZZANINE, project: 0, "below-deck": 0 }[from];
  const tag = (deckAt: number): StoreTag => ({
    basis,
    from,
    inches: from === "below-deck" ? Math.ceil(below / step) * step : Math.floor((deckAt - below - zero) / step) * step,
    ...(plusMinus === undefined ? {} : { plusMinus }),
  });
  const [first, last] = [route[0]!, route.at(-1)!];
  if (way === "follow") return ends(tag(lowest(deck, first)), tag(lowest(deck, last)));
  const level = tag(way === "start" ? lowest(deck, first) : lowestAlong(deck, route));
  return ends(level, level);
}

/** The lowest deck met along a route, looked at every foot. */
function lowestAlong(deck: DeckName, route: readonly Plan[]): number {
  let least = Number.POSITIVE_INFINITY;
  route.slice(1).forEach((to, i) => {
    const from = route[i]!;
    const count = Math.max(1, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / FOOT));
    for (let k = 0; k <= count; k++) {
      const at: Plan = [from[0] + ((to[0] - from[0]) * k) / count, from[1] + ((to[1] - from[1]) * k) / count];
      least = Math.min(least, lowest(deck, at));
    }
  });
  return least;
}
