import { useMemo } from "react";
import type { ScreenMark } from "../canvas/screen-mark.ts";
import type { Stage } from "../editor/stage.ts";
import type { MarkLayer } from "../issue/mark.ts";
import { marksOf } from "../issue/marks-of.ts";
import { useSession } from "./desk-context.ts";
import { usePageContents } from "./use-page-contents.ts";

type Layers = Readonly<Record<MarkLayer, readonly ScreenMark[]>>;
const LAYERS = ["areas", "wiring", "findings"] as const;

/** Which layers recede while a stage is in hand. */
const faint: Readonly<Record<Stage, readonly MarkLayer[]>> = {
  sheet: ["areas", "wiring", "findings"],
  roof: ["wiring", "findings"],
  wiring: ["areas"],
  check: ["areas"],
  issue: [],
};

/** The marks of a sheet by layer; those of another stage of the work are faint. */
export function useMarks(sheetId: string | null): Layers {
  const job = useSession((state) => state.job);
  const result = useSession((state) => state.result);
  const stage = useSession((state) => state.stage);
  // The issued sheet keeps off the same words: what is seen here is what is issued.
  const texts = usePageContents(sheetId)?.texts;
  const marks = useMemo(() => {
    if (sheetId === null) return [];
    const words = texts ? { words: { [sheetId]: texts } } : {};
    return marksOf(job, result ?? undefined, { sheets: new Set([sheetId]), ...words });
  }, [job, result, sheetId, texts]);
  return useMemo(() => {
    const layer = (name: MarkLayer): ScreenMark[] =>
      marks
        .filter((mark) => mark.layer === name)
        .map(({ key, picture, hit }) => ({ key, picture, hit, faint: faint[stage].includes(name) }));
    return Object.fromEntries(LAYERS.map((name) => [name, layer(name)])) as unknown as Layers;
  }, [marks, stage]);
}
