import type { Sheet, Viewport } from "../../src/job/schema.ts";

/** A sheet that is the first page of a file nobody has, upright. */
export const plainSheet = (more: Partial<Sheet> = {}): Sheet => ({
  title: "S",
  file: { sha256: "0".repeat(64), name: "s.pdf", bytes: 1 },
  page: 1,
  view: [0, 0, 792, 612],
  rotate: 0,
  userUnit: 1,
  ...more,
});

/** A viewport for a whole sheet, with the scale it states; null: with none. */
export const plainViewport = (sheet: string, ratio: number | null, more: Partial<Viewport> = {}): Viewport => ({
  sheet,
  name: "Plan",
  region: null,
  storey: null,
  scale: {
    stated: ratio === null ? null : { text: `1:${ratio}`, ratio },
    measured: null,
    use: ratio === null ? null : "stated",
  },
  registration: null,
  ...more,
});
