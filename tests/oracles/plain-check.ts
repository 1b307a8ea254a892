import type { Finding, Verdict } from "../../src/check/finding.ts";
import {
  between,
  blockToSurface,
  far,
  heightOf,
  isInside,
  type Place,
  type PlainBlock,
  type PlainSurface,
  placeToSurface,
  type Rings,
  type Spot,
  stickToSurface,
  toRim,
} from "./plain-distance.ts";

/*
 * What the check has to say of a scene, worked out plainly from the scene itself: every element against every area, no index, no search
 * radius. Where an answer hangs on less than the slack below, both are admitted; everything else is asked for exactly.
 * The rule is that of the editions from 2011 on for a tubing that no exception speaks of, under a fluted steel deck. One file of over 500 lines because it
 * is to be read from top to bottom as one calculation.
 */
const SLACK = 1e-6;

export interface PlainArea {
  readonly id: string;
  readonly rings: Rings;
  /** The planes its lowest surface is made of, which fill the rings; undefined where its elevation is not recorded. */
  readonly surfaces: readonly PlainSurface[] | undefined;
  readonly is: "roof" | "floor-above" | "not-settled";
  readonly depth: number;
  /** How thick the deck and what lies on it are together; absent where that is not recorded. */
  readonly buildUp?: number;
}
export interface PlainRun {
  readonly id: string;
  readonly points: readonly Place[];
  readonly radius: number;
  /** How far couplings, which may sit anywhere along it, stand out beyond the tube. */
  readonly standsOut?: number;
  /** Radius of its bends; the corners as traced count too. */
  readonly bend?: number;
}
/** A level straight raceway of rectangular section, seen as the block it fills. */
export interface PlainBar {
  readonly id: string;
  readonly from: Place;
  readonly to: Place;
  readonly width: number;
  readonly height: number;
}
export interface PlainBox {
  readonly id: string;
  readonly block: PlainBlock;
}
export interface PlainScene {
  readonly kind: string;
  readonly required: number;
  readonly areas: readonly PlainArea[];
  readonly runs: readonly PlainRun[];
  readonly boxes: readonly PlainBox[];
  readonly bars: readonly PlainBar[];
}

/** A part of an element that lies over or beside the same areas all along: two places, or one and the same. */
interface Part {
  readonly from: Place;
  readonly to: Place;
  /** False where it is too short, or too near to a rim, to say what it lies under. */
  readonly sure: boolean;
  readonly under: ReadonlySet<PlainArea>;
  readonly reachOut: number;
}

/** The areas next above an element; undefined for none. */
type Next = ReadonlyMap<PlainArea | undefined, "yes" | "maybe">;

/** What is known of an element against one area: everything that it could be, given the slack. */
interface Outcome {
  readonly area: PlainArea;
  readonly verdicts: ReadonlySet<Verdict>;
  readonly least: readonly [number, number];
  readonly nextAbove: "yes" | "maybe" | "no";
  /** Whether it may lie both above the deck and below its lowest surface. */
  readonly both: boolean;
  /** For what passes through: every verdict it comes to, where none of them hangs on the slack. */
  readonly all?: ReadonlySet<Verdict> | undefined;
  /** Lies well above it: how far from it is not told. */
  readonly wellAbove?: true;
}

/** The plane over a place of an area, or the nearest one. */
export function planeOver(surfaces: readonly PlainSurface[], spot: Spot): PlainSurface {
  const within = surfaces.find(({ rings }) => isInside(rings, spot));
  if (within || surfaces.length === 1) return within ?? surfaces[0]!;
  return surfaces.reduce((best, each) => (toRim(each.rings, spot) < toRim(best.rings, spot) ? each : best));
}
const heightAt = (area: PlainArea, spot: Spot): number => heightOf(planeOver(area.surfaces!, spot), spot);

const partsOfPiece = (p: Place, q: Place, areas: readonly PlainArea[]): Part[] => {
  const length = Math.hypot(q[0] - p[0], q[1] - p[1]);
  const ts = [0, 1];
  const along = ([x, y]: Spot): number => ((x - p[0]) * (q[0] - p[0]) + (y - p[1]) * (q[1] - p[1])) / length ** 2;
  if (length > 0)
    for (const { rings, surfaces } of areas)
      for (const ring of [...rings, ...(surfaces ?? []).flatMap((surface) => surface.rings)])
        ring.forEach((a, i) => {
          const b = ring[(i + 1) % ring.length]!;
          const side = ([x, y]: Spot): number => ((q[0] - p[0]) * (y - p[1]) - (q[1] - p[1]) * (x - p[0])) / length;
          const [sa, sb] = [side(a), side(b)];
          if (Math.abs(sa) < SLACK) ts.push(along(a));
          if (sa * sb < 0)
            ts.push(along([a[0] + ((b[0] - a[0]) * sa) / (sa - sb), a[1] + ((b[1] - a[1]) * sa) / (sa - sb)]));
        });
  const sorted = ts.filter((t) => t >= 0 && t <= 1).sort((a, b) => a - b);
  return sorted.slice(1).map((t1, i) => {
    const t0 = sorted[i]!;
    const [x, y] = between(p, q, (t0 + t1) / 2);
    const onRim = areas.some(({ rings }) => toRim(rings, [x, y]) < SLACK);
    return {
      from: between(p, q, t0),
      to: between(p, q, t1),
      sure: !onRim && (length === 0 || (t1 - t0) * length > 10 * SLACK),
      under: new Set(areas.filter(({ rings }) => isInside(rings, [x, y]))),
      reachOut: 0,
    };
  });
};

/** A box counts as lying under what its middle lies under; nearer to a rim than its own half diagonal, it may be either. */
const partOfBox = ({ centre, half }: PlainBlock, areas: readonly PlainArea[]): Part => {
  const spot: Spot = [centre[0], centre[1]];
  const reachOut = Math.hypot(half[0], half[1]);
  return {
    from: centre,
    to: centre,
    sure: areas.every(({ rings }) => toRim(rings, spot) > reachOut + SLACK),
    under: new Set(areas.filter(({ rings }) => isInside(rings, spot))),
    reachOut,
  };
};

/** The area next above a part, of those over it. Where two come into question within the slack, both. */
function nextAbove({ from, to, under }: Part, bottom: number): readonly PlainArea[] {
  const over = [...under];
  const unknown = over.filter((area) => !area.surfaces && area.is !== "floor-above");
  if (unknown.length > 0) return unknown;
  const spot: Spot = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  const known = over.filter((area) => area.surfaces).sort((a, b) => heightAt(a, spot) - heightAt(b, spot));
  const first = (slack: number) =>
    known.find((area) => heightAt(area, spot) + area.depth >= bottom + slack) ?? known[0] ?? over[0];
  return [...new Set([first(SLACK), first(-SLACK)])].filter((area) => area !== undefined);
}

const each = (...flags: readonly (readonly [sure: boolean, maybe: boolean])[]): boolean[][] =>
  flags.reduce<boolean[][]>(
    (all, [sure, maybe]) =>
      all.flatMap((one) =>
        sure === maybe
          ? [[...one, sure]]
          : [
              [...one, true],
              [...one, false],
            ],
      ),
    [[]],
  );

/** Greatest height of the element's axis (a box: its bottom) over a surface, and whether any of it lies below. */
interface Heights {
  /** Greatest height where it surely is under the area, and where it may be; minus infinity for nowhere. */
  readonly top: readonly [number, number];
  /** Least height, likewise; infinity for nowhere. */
  readonly low: readonly [number, number];
  /** The signed distance from what lies above: at least so far above, and at most. */
  readonly above: readonly [farthest: number, nearest: number];
}

function heights(parts: readonly Part[], area: PlainArea, { radius, radiusUp, axisBelow }: Section): Heights {
  const slope = Math.max(...area.surfaces!.map(({ gx, gy }) => Math.hypot(gx, gy)));
  const top: [number, number] = [-Infinity, -Infinity];
  const low: [number, number] = [Infinity, Infinity];
  let [farthest, nearest] = [Infinity, Infinity];
  for (const part of parts) {
    const surface = planeOver(area.surfaces!, [(part.from[0] + part.to[0]) / 2, (part.from[1] + part.to[1]) / 2]);
    const ends = [part.from, part.to].map((s) => s[2] - axisBelow - heightOf(surface, [s[0], s[1]]));
    const inside = part.under.has(area);
    // A box reaches out over what is higher and lower than the deck over its middle.
    const spread = slope * part.reachOut;
    const [least, most] = [Math.min(...ends), Math.max(...ends)];
    const steep = part.reachOut > 0 ? Math.hypot(slope, 1) : Math.hypot(surface.gx, surface.gy, 1);
    if (inside && part.sure) {
      top[0] = Math.max(top[0], most - spread);
      low[0] = Math.min(low[0], least);
      if (most - spread > SLACK) nearest = Math.min(nearest, -(most - spread + radius) / steep);
    }
    if (inside || !part.sure) {
      top[1] = Math.max(top[1], most + spread);
      low[1] = Math.min(low[1], least - spread);
      const up = most + spread;
      const least1 = part.reachOut > 0 ? 1 : steep;
      if (up > -SLACK) farthest = Math.min(farthest, -(up + radiusUp) / least1, -up / least1 - radius);
    }
  }
  return { top, low, above: [farthest, nearest] };
}

/** How far the surface stands out from what is looked at: round an axis, straight above it at most, and how far below it a box has its bottom. */
interface Section {
  readonly radius: number;
  readonly radiusUp: number;
  readonly axisBelow: number;
  readonly standsOut?: number;
  /** How much nearer than worked out here it may be taken to be. */
  readonly blur?: number;
}

/** What a clear distance, or one that is not, comes to; `blur` where it may be taken for less. */
const byDistance = (away: number, required: number, { standsOut = 0, blur = 0 }: Section): Set<Verdict> => {
  const close = (less: number): boolean[] => {
    const [sure, maybe] = [away - less < required - 3e-7, away - less - blur < required - 3e-8];
    return sure === maybe ? [sure] : [true, false];
  };
  const withCoupling = standsOut > 0 ? close(standsOut) : [false];
  return new Set(
    close(0).flatMap((tube) =>
      withCoupling.map((coupling): Verdict => (tube ? "too-close" : coupling ? "borderline" : "clear")),
    ),
  );
};

/** This much farther above a deck than it and what lies on it are thick, wiring under another deck is no matter of that deck. */
const ALLOWED = 12;

/** Whether all that is over an area lies well above it, and under other decks that are known and higher there. */
function isWellAbove(
  area: PlainArea,
  required: number,
  parts: readonly Part[],
  next: Next,
  section: Section,
): "yes" | "maybe" | "no" {
  const over = parts.filter(({ under }) => under.has(area));
  if (area.buildUp === undefined || over.length === 0 || next.get(area) === "yes") return "no";
  let sure = !next.has(area) && parts.every((part) => part.sure);
  const needed = area.buildUp + Math.max(ALLOWED, required);
  const steep = Math.max(...area.surfaces!.map(({ gx, gy }) => Math.hypot(gx, gy, 1)));
  for (const part of over) {
    for (const [x, y, z] of [part.from, part.to]) {
      const by = (z - section.axisBelow - heightAt(area, [x, y])) / steep - section.radius - needed;
      if (by < -SLACK) return "no";
      if (by < SLACK) sure = false;
    }
    const spot: Spot = [(part.from[0] + part.to[0]) / 2, (part.from[1] + part.to[1]) / 2];
    const bottom = Math.min(part.from[2], part.to[2]) - section.axisBelow - section.radius;
    for (const above of nextAbove(part, bottom)) {
      if (above === area || !above.surfaces) return "no";
      const higher = heightAt(above, spot) - heightAt(area, spot);
      if (higher < -SLACK) return "no";
      if (higher < SLACK) sure = false;
    }
  }
  return sure ? "yes" : "maybe";
}

function outcomeOf(
  area: PlainArea,
  required: number,
  parts: readonly Part[],
  next: Next,
  distance: (surface: PlainSurface) => number,
  section: Section,
): Outcome {
  const { top, low, above: signed } = heights(parts, area, section);
  const away = Math.min(...area.surfaces!.map(distance)) - section.radius;
  const deep = Math.max(area.depth, 1e-7);
  const verdicts = new Set<Verdict>();
  const wellAbove = isWellAbove(area, required, parts, next, section);
  if (wellAbove !== "no") {
    // Then it is only its edge that counts.
    for (const verdict of byDistance(away, required, section)) verdicts.add(verdict);
    if (wellAbove === "maybe") verdicts.add("cannot-tell");
    return { area, verdicts, least: [away, away], nextAbove: next.get(area) ?? "no", both: false, wellAbove: true };
  }
  const flags = each(
    [top[0] > deep + SLACK, top[1] > deep - SLACK],
    [low[0] < -SLACK, low[1] < SLACK],
    [top[0] > SLACK, top[1] > -SLACK],
  );
  for (const [above, below, dipped] of flags) {
    // What passes through is judged apart from the rest of the run, and the rest by itself: `passingVerdicts` says which come of that.
    if (above && below) for (const verdict of ["too-close", "cannot-tell", "concealed"] as const) verdicts.add(verdict);
    else if (above) verdicts.add("cannot-tell");
    else if (dipped) verdicts.add("concealed");
    else for (const verdict of byDistance(away, required, section)) verdicts.add(verdict);
  }
  let least: readonly [number, number] = [Math.min(away, signed[0]) - (section.blur ?? 0), Math.min(away, signed[1])];
  if (section.axisBelow > 0 && top[1] <= -SLACK && away < SLACK) {
    // A box through the surface, with its bottom below: by how far its top reaches above.
    const slope = Math.max(...area.surfaces!.map(({ gx, gy }) => Math.hypot(gx, gy, 1)));
    least = [Math.min(0, -(top[1] + section.radiusUp)), Math.min(0, -(top[0] + section.radiusUp) / slope)];
  }
  const both = flags.some(([above, below]) => above && below);
  return { area, verdicts, least, nextAbove: next.get(area) ?? "no", both };
}

const LOUD: ReadonlySet<Verdict> = new Set(["concealed", "too-close", "cannot-tell", "borderline"]);

/** One finding of each verdict: where there are several, at several places, that with the least distance. */
const leastOfEach = (found: readonly Finding[]): readonly Finding[] =>
  found.filter(
    (one, i) =>
      !found.some(
        (other, j) =>
          other.verdict === one.verdict &&
          j !== i &&
          ((other.leastIn ?? Infinity) < (one.leastIn ?? Infinity) || (other.leastIn === one.leastIn && j < i)),
      ),
  );

/** Everything in which the findings of one element disagree with the plain answer, in words; empty where they agree. */
function disagreements(
  scene: PlainScene,
  found: readonly Finding[],
  outcomes: readonly Outcome[],
  unknownNear: readonly { readonly area: PlainArea; readonly near: "yes" | "maybe" }[],
  next: Next,
  standsOut = 0,
): string[] {
  const wrong: string[] = [];
  const must = new Set<Verdict>();
  const may = new Set<Verdict>();
  const expect = (verdict: Verdict, how: "yes" | "maybe"): void => {
    may.add(verdict);
    if (how === "yes") must.add(verdict);
  };
  for (const { area, verdicts, nextAbove: above, all } of outcomes) {
    if (area.is === "roof" && all) for (const verdict of all) expect(verdict, "yes");
    else if (area.is === "roof") {
      for (const verdict of verdicts) if (LOUD.has(verdict)) expect(verdict, verdicts.size === 1 ? "yes" : "maybe");
    } else if (area.is === "not-settled") {
      if (above !== "no") expect("cannot-tell", above);
      else if (!verdicts.has("clear")) expect("cannot-tell", "yes");
      else if (verdicts.size > 1) expect("cannot-tell", "maybe");
    }
  }
  for (const { near } of unknownNear) expect("cannot-tell", near);
  const open = next.get(undefined);
  if (open) expect("cannot-tell", open);

  const said = new Set(found.map(({ verdict }) => verdict));
  for (const verdict of must) if (!said.has(verdict)) wrong.push(`not said: ${verdict}`);
  for (const verdict of said) if (LOUD.has(verdict) && !may.has(verdict)) wrong.push(`said: ${verdict}`);
  if (found.length === 0) wrong.push("no finding");
  const roofs = outcomes.filter(({ area }) => area.is === "roof");
  const [only] = said;
  if (said.size === 1 && only === "clear" && !roofs.some((o) => o.nextAbove !== "no" && o.verdicts.has("clear")))
    wrong.push("clear without a roof above that is far enough");
  if (
    only === "not-governed" &&
    roofs.some((o) => o.nextAbove === "yes" && o.verdicts.size === 1 && o.verdicts.has("clear"))
  )
    wrong.push("not governed under a roof");

  for (const finding of leastOfEach(found)) {
    const { verdict, leastIn, intervalIn } = finding;
    if (finding.requiredIn !== scene.required) wrong.push(`required ${finding.requiredIn}`);
    const own = verdict === "clear" ? roofs.filter((o) => !o.wellAbove) : roofs.filter((o) => o.verdicts.has(verdict));
    // Of those it surely speaks of the least; of those it may speak of nothing less.
    const sure = verdict === "clear" ? own : own.filter((o) => o.verdicts.size === 1);
    if (verdict === "not-governed") {
      if (leastIn !== null) wrong.push(`a distance of ${leastIn} where nothing governs`);
      continue;
    }
    if (verdict === "cannot-tell" || sure.length === 0) continue;
    const low = Math.min(...own.map((o) => o.least[0]));
    const high = Math.min(...sure.map((o) => o.least[1]));
    if (leastIn === null || leastIn < low - SLACK / 2 || leastIn > high + SLACK / 2)
      wrong.push(`least ${leastIn}, not between ${low} and ${high}`);
    if (
      leastIn !== null &&
      (!intervalIn || Math.abs(intervalIn[0] - leastIn + standsOut) + Math.abs(intervalIn[1] - leastIn) > SLACK)
    )
      wrong.push(`interval ${intervalIn} of ${leastIn} though nothing is in doubt`);
  }
  return wrong;
}

const nextOf = (parts: readonly Part[], bottoms: readonly number[]): Next => {
  const next = new Map<PlainArea | undefined, "yes" | "maybe">();
  parts.forEach((part, i) => {
    const above = part.under.size === 0 ? [undefined] : nextAbove(part, bottoms[i]!);
    for (const area of above)
      if (part.sure && above.length === 1) next.set(area, "yes");
      else if (!next.has(area)) next.set(area, "maybe");
    // On a rim, or where too little of it lies there, none may be above, or any that is near.
    if (part.sure) return;
    for (const area of [undefined, ...part.under]) if (!next.has(area)) next.set(area, "maybe");
  });
  return next;
};

/** Whether areas without an elevation are above, or near in plan. */
function unknowns({ areas, required }: PlainScene, next: Next, inPlan: (flat: PlainSurface) => number) {
  return areas
    .filter((area) => !area.surfaces && area.is !== "floor-above")
    .flatMap((area) => {
      const beside = inPlan({ rings: area.rings, gx: 0, gy: 0, c: 0 });
      const near = beside < required - SLACK ? "yes" : beside < required + SLACK ? "maybe" : (next.get(area) ?? "no");
      return near === "no" ? [] : [{ area, near } as const];
    });
}

/** What is wrong with the findings of a run, by the plain answer; empty: nothing. */
export function wrongOfRun(scene: PlainScene, run: PlainRun, found: readonly Finding[]): string[] {
  const { points, radius, standsOut = 0, bend = 0 } = run;
  const pieces = points.slice(1).map((q, i) => ({ p: points[i]!, q }));
  // Areas on whose rim a part lies make it unsure for all of them: near is enough.
  const parts: Part[] = [];
  const bottoms: number[] = [];
  for (const { p, q } of pieces)
    for (const part of partsOfPiece(p, q, scene.areas)) {
      parts.push(
        part.sure
          ? part
          : {
              ...part,
              under: new Set(
                scene.areas.filter(
                  (area) =>
                    part.under.has(area) ||
                    toRim(area.rings, [part.from[0], part.from[1]]) < 20 * SLACK ||
                    toRim(area.rings, [part.to[0], part.to[1]]) < 20 * SLACK,
                ),
              ),
            },
      );
      bottoms.push(Math.min(p[2], q[2]) - radius);
    }
  const next = nextOf(parts, bottoms);
  const radiusUp = Math.max(
    ...pieces.map(({ p, q }) => {
      const plan = Math.hypot(q[0] - p[0], q[1] - p[1]);
      const rise = Math.abs(q[2] - p[2]);
      return plan > 0 ? Math.min((radius * far(p, q)) / plan, radius + rise) : radius;
    }),
  );
  const bends = bend > 0 ? points.slice(1, -1).flatMap((at, i) => bendAt(points[i]!, at, points[i + 2]!, bend)) : [];
  const distance = (surface: PlainSurface) =>
    Math.min(
      ...pieces.map((piece) => stickToSurface(piece, surface)),
      ...bends.map((at) => placeToSurface(at, surface)),
    );
  const section: Section = { radius, radiusUp, axisBelow: 0, standsOut, blur: bend > 0 ? BEND_BLUR : 0 };
  const outcomes = scene.areas
    .filter((area) => area.surfaces)
    .map((area) => outcomeOf(area, scene.required, parts, next, distance, section));
  const flat = (s: Place): Place => [s[0], s[1], 0];
  const inPlan = (surface: PlainSurface) =>
    Math.min(...pieces.map(({ p, q }) => stickToSurface({ p: flat(p), q: flat(q) }, surface))) - radius - standsOut;
  if (outcomes.some(({ area, both }) => area.is === "roof" && both)) {
    const told = outcomes.map((one): Outcome => {
      const all = one.area.is === "roof" && one.both ? passingVerdicts(scene, one.area, pieces, run) : undefined;
      return { ...one, all };
    });
    // Where a run is taken apart its bends are too, which nothing here says how.
    const isExact = bends.length === 0 && told.every(({ area, both, all }) => area.is !== "roof" || !both || all);
    return [
      ...wrongOfPassing(scene, pieces, radius, found, outcomes),
      ...(isExact ? disagreements(scene, found, told, unknowns(scene, next, inPlan), next, standsOut) : []),
    ];
  }
  return [
    ...disagreements(scene, found, outcomes, unknowns(scene, next, inPlan), next, standsOut),
    ...(bends.length > 0 ? [] : wrongStretches(scene, pieces, run, found, outcomes)),
  ];
}

/** A bend may be taken for the straight pieces that stand off it by no more than this, and is looked at here at so many places. */
const BEND_BLUR = 2e-3;
const BEND_PLACES = 240;

/** Places on the arc that touches both legs of a corner; a smaller one where a leg is too short for it. */
function bendAt(a: Place, b: Place, c: Place, radius: number): Place[] {
  const unit = (to: Place): Place => {
    const length = far(b, to);
    return [(to[0] - b[0]) / length, (to[1] - b[1]) / length, (to[2] - b[2]) / length];
  };
  if (far(a, b) === 0 || far(b, c) === 0) return [];
  const [u, v] = [unit(a), unit(c)];
  const cos = u[0] * v[0] + u[1] * v[1] + u[2] * v[2];
  // The angle within the corner; the arc touches the legs at radius / tan of half of it, and its middle is radius / sin of half of it away.
  const half = Math.acos(Math.min(1, Math.max(-1, cos))) / 2;
  if (Math.PI / 2 - half < 1e-6 || half < 1e-3) return [];
  const touch = Math.min(radius / Math.tan(half), far(a, b), far(b, c));
  const own = touch * Math.tan(half);
  const along = (way: Place, by: number): Place => [b[0] + way[0] * by, b[1] + way[1] * by, b[2] + way[2] * by];
  const towards: Place = [u[0] + v[0], u[1] + v[1], u[2] + v[2]];
  const size = Math.hypot(...towards);
  const middle = along([towards[0] / size, towards[1] / size, towards[2] / size], own / Math.sin(half));
  const [start, end] = [along(u, touch), along(v, touch)];
  return Array.from({ length: BEND_PLACES + 1 }, (_, i) => {
    // From the chord out to the arc, as seen from its middle.
    const on = between(start, end, i / BEND_PLACES);
    const off = own / far(middle, on);
    return between(middle, on, off);
  });
}

/** What is wrong with the findings of a level straight raceway of rectangular section. Under a deck by its axis, or by either of its sides. */
export function wrongOfBar(scene: PlainScene, bar: PlainBar, found: readonly Finding[]): string[] {
  const { from, to, width, height } = bar;
  const near = ([x, y]: Place, area: PlainArea): boolean => toRim(area.rings, [x, y]) < width;
  const parts = partsOfPiece(from, to, scene.areas).map((part): Part => {
    const middle = between(part.from, part.to, 0.5);
    const close = scene.areas.filter((area) => [part.from, middle, part.to].some((at) => near(at, area)));
    // On a deck that falls across it, its one side is farther down than its axis is.
    return close.length === 0
      ? { ...part, reachOut: width / 2 }
      : { ...part, sure: false, under: new Set([...part.under, ...close]), reachOut: width };
  });
  const next = nextOf(
    parts,
    parts.map(() => from[2] - height / 2),
  );
  const block: PlainBlock = {
    centre: between(from, to, 0.5),
    half: [far(from, to) / 2, width / 2, height / 2],
    turn: Math.atan2(to[1] - from[1], to[0] - from[0]),
  };
  const distance = (surface: PlainSurface) => blockToSurface(block, surface);
  const section: Section = { radius: 0, radiusUp: height, axisBelow: 0 };
  const outcomes = scene.areas
    .filter((area) => area.surfaces)
    .map((area): Outcome => {
      const one = outcomeOf(area, scene.required, parts, next, distance, section);
      // How far it reaches above a deck it touches is not worked out here.
      return one.least[0] > SLACK ? one : { ...one, least: [Number.NEGATIVE_INFINITY, one.least[1] + SLACK] };
    });
  if (outcomes.some(({ area, both }) => area.is === "roof" && both)) return [];
  const flat: PlainBlock = { ...block, centre: [block.centre[0], block.centre[1], 0] };
  const unknown = unknowns(scene, next, (surface) => blockToSurface(flat, surface));
  return disagreements(scene, found, outcomes, unknown, next);
}

/** This much sideways for each inch of rise is upright. */
const UPRIGHT = 0.1;

/**
 * The verdicts of a run against a roof it is both below and above, by its segments: those that cross the lowest surface, those wholly above the deck and
 * upright ones that lead on from them are one thing, the others another. Undefined where anything hangs on less than the slack.
 */
function passingVerdicts(
  { areas, required }: PlainScene,
  area: PlainArea,
  pieces: readonly { readonly p: Place; readonly q: Place }[],
  { radius, standsOut = 0 }: PlainRun,
): ReadonlySet<Verdict> | undefined {
  const marks = new Set<number>([0, area.depth, Math.max(area.depth, 1e-7)]);
  let isUnsure = false;
  const segments = pieces.map(({ p, q }) => {
    const spans: { low: number; high: number }[] = [];
    let goesOn = false;
    for (const part of partsOfPiece(p, q, areas)) {
      const [x, y] = between(part.from, part.to, 0.5);
      if (!part.sure && (part.under.has(area) || toRim(area.rings, [x, y]) < SLACK)) isUnsure = true;
      if (!part.under.has(area)) {
        goesOn = false;
        continue;
      }
      const plane = planeOver(area.surfaces!, [x, y]);
      const ends = [part.from, part.to].map((s) => s[2] - heightOf(plane, [s[0], s[1]]));
      const [low, high] = [Math.min(...ends), Math.max(...ends)];
      const last = spans.at(-1);
      if (goesOn && last) {
        last.low = Math.min(last.low, low);
        last.high = Math.max(last.high, high);
      } else spans.push({ low, high });
      goesOn = true;
    }
    for (const { low, high } of spans)
      for (const mark of marks) if (Math.abs(low - mark) < SLACK || Math.abs(high - mark) < SLACK) isUnsure = true;
    const rise = Math.abs(q[2] - p[2]);
    return {
      spans,
      crosses: spans.some(({ low, high }) => low < 0 && high >= 0),
      isAbove: spans.length > 0 && spans.every(({ low }) => low > area.depth),
      upright: rise > 0 && Math.hypot(q[0] - p[0], q[1] - p[1]) <= UPRIGHT * rise,
      away: Math.min(...area.surfaces!.map((surface) => stickToSurface({ p, q }, surface))) - radius,
    };
  });
  if (isUnsure) return undefined;
  const taken = segments.map((one) => one.crosses || one.isAbove);
  for (let round = 0; round < segments.length; round++)
    segments.forEach(({ upright }, i) => {
      const joins = [i - 1, i + 1].some((n) => taken[n] && segments[n]!.upright);
      if (upright && joins) taken[i] = true;
    });
  const verdicts = new Set<Verdict>();
  const crossing = segments.filter((one) => one.crosses);
  if (crossing.length > 0) verdicts.add(crossing.every(({ upright }) => upright) ? "cannot-tell" : "too-close");
  else if (taken.includes(true)) verdicts.add("cannot-tell");
  const rest = segments.filter((_, i) => !taken[i]);
  const spans = rest.flatMap((one) => one.spans);
  const away = Math.min(...rest.map((one) => one.away));
  if (Math.abs(away - required) < SLACK || Math.abs(away - standsOut - required) < SLACK) return undefined;
  if (spans.some(({ high }) => high > area.depth))
    verdicts.add(spans.some(({ low }) => low < 0) ? "too-close" : "cannot-tell");
  else if (spans.some(({ high }) => high > 0)) verdicts.add("concealed");
  else if (away < required) verdicts.add("too-close");
  else if (away - standsOut < required) verdicts.add("borderline");
  return verdicts;
}

/**
 * A run that goes through a roof is taken apart. Whatever is made of its parts: it is never clear, and all that is surely too near
 * to a roof lies in a stretch of one finding or another.
 */
function wrongOfPassing(
  scene: PlainScene,
  pieces: readonly { readonly p: Place; readonly q: Place }[],
  radius: number,
  found: readonly Finding[],
  outcomes: readonly Outcome[],
): string[] {
  const wrong: string[] = [];
  const roofs = outcomes.filter(({ area, verdicts }) => area.is === "roof" && !verdicts.has("clear"));
  const surely = roofs.filter(({ both, verdicts }) => both && verdicts.size === 1);
  if (surely.length > 0 && !found.some(({ verdict }) => verdict === "too-close" || verdict === "cannot-tell"))
    wrong.push("passes through a roof, and nobody is told");
  if (found.some(({ verdict }) => verdict === "clear") && surely.length > 0) wrong.push("clear through a roof");
  const keys = found.map(({ verdict, about }) => `${verdict}:${about}`);
  if (new Set(keys).size !== keys.length || keys.length === 0) wrong.push(`findings ${keys.join(", ")}`);
  const stretches = found.flatMap((finding) => finding.stretches);
  let start = 0;
  for (const { p, q } of pieces) {
    const length = far(p, q);
    for (let i = 0; i < 24 && length > 1e-4; i++) {
      const at = between(p, q, (i + 0.5) / 24);
      const s = start + (length * (i + 0.5)) / 24;
      const near = surely.some(({ area }) =>
        area.surfaces!.some((surface) => placeToSurface(at, surface) < scene.required + radius - SLACK),
      );
      const held = stretches.some(({ fromIn, toIn }) => fromIn - 1e-7 <= s && s <= toIn + 1e-7);
      if (near && !held) wrong.push(`not in a stretch at ${s}`);
    }
    start += length;
  }
  return wrong;
}

/** Stretches as sets: what is surely too close lies in them, what surely is not does not. */
function wrongStretches(
  scene: PlainScene,
  pieces: readonly { readonly p: Place; readonly q: Place }[],
  { radius, standsOut = 0 }: PlainRun,
  found: readonly Finding[],
  outcomes: readonly Outcome[],
): string[] {
  const wrong: string[] = [];
  for (const { verdict } of leastOfEach(found)) {
    if (verdict !== "too-close" && verdict !== "concealed" && verdict !== "borderline") continue;
    const reach = scene.required + radius + (verdict === "borderline" ? standsOut : 0);
    const stretches = found.flatMap((finding) => (finding.verdict === verdict ? finding.stretches : []));
    const own = outcomes.filter(({ area, verdicts }) => area.is === "roof" && verdicts.has(verdict));
    const sure = own.filter(({ verdicts }) => verdicts.size === 1);
    let start = 0;
    for (const { p, q } of pieces) {
      const length = far(p, q);
      const ends = stretches.flatMap(({ fromIn, toIn }) => [fromIn, toIn, (fromIn + toIn) / 2]);
      const ts = [
        ...Array.from({ length: 24 }, (_, i) => (i + 0.5) / 24),
        ...ends
          .flatMap((s) => [s, s - 5e-4, s + 5e-4, s - 1e-5, s + 1e-5])
          .map((s) => (s - start) / length)
          .filter((t) => t > 0 && t < 1),
      ];
      for (const t of length > 1e-4 ? ts : []) {
        const at = between(p, q, t);
        const s = start + t * length;
        const held = stretches.some(({ fromIn, toIn }) => fromIn - 1e-7 <= s && s <= toIn + 1e-7);
        const dips = (o: Outcome, slack: number): boolean => {
          const h = at[2] - heightAt(o.area, [at[0], at[1]]);
          if (verdict !== "concealed" || h < slack || h > o.area.depth - slack) return false;
          return isInside(o.area.rings, [at[0], at[1]])
            ? slack < 0 || toRim(o.area.rings, [at[0], at[1]]) > slack
            : slack < 0 && toRim(o.area.rings, [at[0], at[1]]) < -slack;
        };
        const within = (o: Outcome, slack: number): boolean =>
          o.area.surfaces!.some((s) => placeToSurface(at, s) < reach - slack) || dips(o, slack);
        if (!held && sure.some((o) => within(o, SLACK))) wrong.push(`${verdict}: not in a stretch at ${s}`);
        if (held && !own.some((o) => within(o, -SLACK))) wrong.push(`${verdict}: in a stretch at ${s}`);
      }
      start += length;
    }
    for (const { fromIn, toIn } of stretches)
      if (!(fromIn > -1e-7 && toIn < start + 1e-7 && fromIn < toIn))
        wrong.push(`a stretch from ${fromIn} to ${toIn} of ${start}`);
  }
  return wrong;
}

/** What is wrong with the findings of a box or fitting. */
export function wrongOfBox(scene: PlainScene, { block }: PlainBox, found: readonly Finding[]): string[] {
  const part = partOfBox(block, scene.areas);
  const near = part.sure
    ? part
    : {
        ...part,
        under: new Set(
          scene.areas.filter(
            (area) => part.under.has(area) || toRim(area.rings, [part.from[0], part.from[1]]) < part.reachOut,
          ),
        ),
      };
  const next = nextOf([near], [block.centre[2] - block.half[2]]);
  const section: Section = { radius: 0, radiusUp: 2 * block.half[2], axisBelow: block.half[2] };
  const distance = (surface: PlainSurface) => blockToSurface(block, surface);
  const outcomes = scene.areas
    .filter((area) => area.surfaces)
    .map((area) => outcomeOf(area, scene.required, [near], next, distance, section));
  const flat: PlainBlock = { ...block, centre: [block.centre[0], block.centre[1], 0] };
  return disagreements(
    scene,
    found,
    outcomes,
    unknowns(scene, next, (surface) => blockToSurface(flat, surface)),
    next,
  );
}

/** What is wrong with all findings of a scene, each with its element. */
export function wrongOf(scene: PlainScene, findings: readonly Finding[]): string[] {
  // By its label: raceways of a rack have one element between them.
  const of = (id: string) => findings.filter(({ element }) => element === id);
  const named = (id: string, wrong: readonly string[]) => wrong.map((text) => `${id}: ${text}`);
  return [
    ...scene.runs.flatMap((run) => named(run.id, wrongOfRun(scene, run, of(run.id)))),
    ...scene.boxes.flatMap((box) => named(box.id, wrongOfBox(scene, box, of(box.id)))),
    ...scene.bars.flatMap((bar) => named(bar.id, wrongOfBar(scene, bar, of(bar.id)))),
  ];
}
