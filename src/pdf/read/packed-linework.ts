import Flatbush from "flatbush";
import type { Linework } from "./linework.ts";

/** Linework as it goes from one thread to another: plain data, its numbers in buffers that are handed over, not copied. */
export interface PackedLinework extends Omit<Linework, "index"> {
  /** The data of the index of boxes. */
  readonly boxes: ArrayBuffer;
}

/** Linework ready to be sent. */
export const packLinework = ({ index, ...rest }: Linework): PackedLinework => ({
  ...rest,
  boxes: index.data as ArrayBuffer,
});

/** The buffers to hand over with it, each once: after that the linework is no use on the sending side. */
export const buffersOf = ({ coords, style, flags, pathStart, pathClosed, boxes }: PackedLinework): ArrayBuffer[] => [
  ...new Set([...[coords, style, flags, pathStart, pathClosed].map(({ buffer }) => buffer as ArrayBuffer), boxes]),
];

/** Linework as it was sent. */
export const unpackLinework = ({ boxes, ...rest }: PackedLinework): Linework => ({
  ...rest,
  index: Flatbush.from(boxes),
});
