import { inches } from "../units/quantity.ts";
import type { SourcedInches } from "./sources.ts";

/**
 * An outlet, junction or device box by its outside sizes. `depth` runs from the cover to the back: it is the height
 * where the cover faces down, and a plan dimension where the cover faces sideways.
 */
export interface BoxKind {
  readonly id: string;
  readonly label: string;
  readonly shape: "rectangular" | "octagon";
  readonly length: SourcedInches;
  readonly width: SourcedInches;
  readonly depth: SourcedInches;
}

const memory = (n: number): SourcedInches => ({ value: inches(n), source: "from-memory" });
const box = (
  id: string,
  label: string,
  shape: BoxKind["shape"],
  length: number,
  width: number,
  depth: number,
): BoxKind => ({ id, label, shape, length: memory(length), width: memory(width), depth: memory(depth) });

/** Every box kind with sizes of its own. A box of any other size carries its own three lengths. */
export const boxKinds: readonly BoxKind[] = [
  box("4sq-1-1/2", '4" square box, 1 1/2" deep', "rectangular", 4, 4, 1.5),
  box("4sq-2-1/8", '4" square box, 2 1/8" deep', "rectangular", 4, 4, 2.125),
  box("4-11/16sq-1-1/2", '4 11/16" square box, 1 1/2" deep', "rectangular", 4.6875, 4.6875, 1.5),
  box("4-11/16sq-2-1/8", '4 11/16" square box, 2 1/8" deep', "rectangular", 4.6875, 4.6875, 2.125),
  box("4oct-1-1/2", '4" octagon box, 1 1/2" deep', "octagon", 4, 4, 1.5),
  box("4oct-2-1/8", '4" octagon box, 2 1/8" deep', "octagon", 4, 4, 2.125),
  box("device-2-1/2", 'Device box, 3" x 2", 2 1/2" deep', "rectangular", 3, 2, 2.5),
  box("device-2-3/4", 'Device box, 3" x 2", 2 3/4" deep', "rectangular", 3, 2, 2.75),
  box("device-3-1/2", 'Device box, 3" x 2", 3 1/2" deep', "rectangular", 3, 2, 3.5),
];

/** The box kind with this id, or undefined. */
export const findBoxKind = (id: string): BoxKind | undefined => boxKinds.find((kind) => kind.id === id);
