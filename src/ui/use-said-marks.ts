import { useMemo } from "react";
import type { ScreenMark } from "../canvas/screen-mark.ts";
import { drawSaid } from "../editor/said/draw-said.ts";
import { useSession } from "./desk-context.ts";

const NONE: readonly ScreenMark[] = [];

/** What the drawing says, marked at its texts: drawn again when that changes, and not with every move of the pointer. */
export function useSaidMarks(): readonly ScreenMark[] {
  const job = useSession((state) => state.job);
  const sheet = useSession((state) => state.sheet);
  const stage = useSession((state) => state.stage);
  const words = useSession((state) => state.words);
  const assumed = useSession((state) => state.assumed);
  const said = useSession((state) => state.said);
  const pixel = useSession((state) => state.pixel);
  return useMemo(() => {
    const picture = drawSaid({ job, sheet, stage, words, assumed, said, pixel });
    return picture.length === 0 ? NONE : [{ key: "said", picture }];
  }, [job, sheet, stage, words, assumed, said, pixel]);
}
