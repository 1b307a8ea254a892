import type { Linework } from "./linework.ts";

/**
 * The linework of a page with these layers hidden (ids of `PlanLayer`) and all others shown: what tools offer follows what is seen. Lines on no layer
 * that can be named singly stay as the file shows them. The segments are shared, not copied.
 */
export function withHiddenLayers(linework: Linework, hidden: readonly string[]): Linework {
  const styles = linework.styles.map((style) =>
    style.layer === null ? style : { ...style, shown: !hidden.includes(style.layer) },
  );
  return { ...linework, styles };
}
