import { type Linework, SEGMENT } from "./linework.ts";
import type { PlanLayer } from "./plan-contents.ts";

/** How much linework a page has, counted in segments; a hatched letter counts under both. */
export interface LineworkCounts {
  readonly segments: number;
  readonly hatching: number;
  readonly letters: number;
  /** Edges of fills that are not stroked. */
  readonly fills: number;
  /** Whole circles. */
  readonly circles: number;
  /** In the order of the drawing's layers; what is on none comes last, under null. Layers without linework are left out. */
  readonly layers: readonly { readonly layer: string | null; readonly shown: boolean; readonly segments: number }[];
  /** True where the page holds more than was read. */
  readonly partial: boolean;
}

/** Counts the linework of a page. `layers` are those of the drawing. */
export function lineworkCounts(
  { count, flags, style, styles, arcs, partial }: Linework,
  layers: readonly PlanLayer[],
): LineworkCounts {
  const withBit = (bit: number): number => flags.reduce((sum, bits) => sum + Number((bits & bit) !== 0), 0);
  const ofStyle = new Uint32Array(styles.length);
  for (let segment = 0; segment < count; segment++) ofStyle[style[segment]!]!++;
  const ofLayer = new Map<string | null, number>();
  for (const [i, { layer }] of styles.entries()) ofLayer.set(layer, (ofLayer.get(layer) ?? 0) + ofStyle[i]!);
  const named = layers.flatMap(({ id, name, shown }) => {
    const segments = ofLayer.get(id) ?? 0;
    ofLayer.delete(id);
    return segments > 0 ? [{ layer: name, shown, segments }] : [];
  });
  const rest = [...ofLayer.values()].reduce((sum, segments) => sum + segments, 0);
  return {
    segments: count,
    hatching: withBit(SEGMENT.hatch),
    letters: withBit(SEGMENT.glyph),
    fills: withBit(SEGMENT.filled),
    circles: arcs.filter(({ full }) => full).length,
    layers: rest > 0 ? [...named, { layer: null, shown: true, segments: rest }] : named,
    partial,
  };
}
