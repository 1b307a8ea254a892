import type { Viewport } from "../job/schema.ts";
import type { FoundGrid } from "../pdf/read/find-grid.ts";
import { gridsIn } from "./grid-offer.ts";

/** The lines of the grid found in a viewport that have a label, of several grids those of the one with most; empty where none has any. */
export function gridToKeep(viewport: Viewport, grids: readonly FoundGrid[]): NonNullable<Viewport["grid"]> {
  const labelled = gridsIn(viewport, grids).map(({ axes }) =>
    axes.flatMap(({ label, line: [a, b] }) =>
      label === null ? [] : [{ label, line: [[...a], [...b]] as [[number, number], [number, number]] }],
    ),
  );
  return labelled.reduce((most, lines) => (lines.length > most.length ? lines : most), []);
}
