import { mapBy, type Similarity } from "../../geometry/similarity.ts";
import { forLinesAlong } from "./lines-along.ts";
import { chosen, type LineStyle, type Linework } from "./linework.ts";
import { endOf, lengthOf, startOf } from "./segment-geometry.ts";

/** So many lines of each pen are looked at, evenly from all it draws. */
const LOOKED_AT = 240;
/** A pen that draws so much of what another drew is the same pen, whatever it looks like now. */
const SAME_PEN = 0.3;
/** Widths this alike are one, as a ratio. */
const SAME_WIDTH = 1.1;

/**
 * Which pens of two issues draw the same things: of each style of the old linework the styles of the new one that count as it, and the other way
 * round, as lists of flags. A raceway drawn anew over a joist is then seen, although a line was there before; a set plotted in other colours is
 * still the same set. Pens that look alike are one.
 */
export function partnerStyles(
  old: Linework,
  fresh: Linework,
  sim: Similarity,
  within: number,
): { readonly ofOld: readonly Uint8Array[]; readonly ofNew: readonly Uint8Array[] } {
  const ofOld = old.styles.map(() => new Uint8Array(fresh.styles.length));
  const ofNew = fresh.styles.map(() => new Uint8Array(old.styles.length));
  const pair = (o: number, n: number) => {
    ofOld[o]![n] = 1;
    ofNew[n]![o] = 1;
  };
  old.styles.forEach((style, o) => {
    fresh.styles.forEach((other, n) => {
      if (looksLike(style, other, sim.scale)) pair(o, n);
    });
  });
  const map = mapBy(sim);
  const seen = chosen(fresh, { without: 0 });
  samples(old).forEach((segments, o) => {
    let length = 0;
    const drawn = new Float64Array(fresh.styles.length);
    for (const segment of segments) {
      const [a, b] = [map(startOf(old, segment)), map(endOf(old, segment))];
      length += lengthOf(old, segment) * sim.scale;
      forLinesAlong(fresh, a, b, { counts: seen, within, bridge: 0 }, (from, to, each) => {
        drawn[fresh.style[each]!]! += to - from;
      });
    }
    drawn.forEach((sum, n) => {
      if (length > 0 && sum >= SAME_PEN * length) pair(o, n);
    });
  });
  return { ofOld, ofNew };
}

function looksLike(a: LineStyle, b: LineStyle, scale: number): boolean {
  if (a.stroke !== b.stroke || a.fill !== b.fill || a.dash.length !== b.dash.length) return false;
  const alike = (x: number, y: number) => (x === y ? true : Math.max(x, y) <= SAME_WIDTH * Math.min(x, y));
  return alike(a.width * scale, b.width) && a.dash.every((each, i) => alike(each * scale, b.dash[i]!));
}

/** Segments of each style, evenly from all there are of it that have a length. */
function samples(linework: Linework): number[][] {
  const counts = chosen(linework, { without: 0 });
  const all = linework.styles.map((): number[] => []);
  for (let i = 0; i < linework.count; i++) if (counts(i) && lengthOf(linework, i) > 0) all[linework.style[i]!]!.push(i);
  return all.map((list) => {
    const step = Math.max(1, Math.floor(list.length / LOOKED_AT));
    return list.filter((_, i) => i % step === 0);
  });
}
