import { useEffect, useMemo, useRef, useState } from "react";
import type { ScreenMark } from "../canvas/screen-mark.ts";
import type { Stage } from "../editor/stage.ts";
import type { Mark, MarkLayer } from "../issue/mark.ts";
import { marksOf } from "../issue/marks-of.ts";
import type { Job } from "../job/schema.ts";
import type { TextRun } from "../pdf/read/plan-contents.ts";
import { useDesk, useSession } from "./desk-context.ts";
import { type DrawnMarks, drawnMarks, upToDate } from "./drawn-marks.ts";
import { usePageContents } from "./use-page-contents.ts";

type Layers = Readonly<Record<MarkLayer, readonly ScreenMark[]>>;
const LAYERS = ["areas", "wiring", "notes", "findings"] as const;

/** Which layers recede while a stage is in hand. */
const faint: Readonly<Record<Stage, readonly MarkLayer[]>> = {
  sheet: ["areas", "wiring", "findings"],
  roof: ["wiring", "findings"],
  wiring: ["areas"],
  check: ["areas"],
  issue: [],
};

/** A job of so many areas and elements is drawn at once; larger ones off the main thread. */
const AT_ONCE = 250;
/** After an edit all labels look for their places again when nothing has happened for so long, milliseconds. */
const PAUSE_MS = 400;
const NO_WORDS: readonly TextRun[] = [];

/** The marks of a sheet by layer; those of another stage of the work are faint. Marks and layers that are as they were are the same objects. */
export function useMarks(sheetId: string | null): Layers {
  const job = useSession((state) => state.job);
  const result = useSession((state) => state.result);
  const stage = useSession((state) => state.stage);
  // The issued sheet keeps off the same words: what is seen here is what is issued.
  const words = usePageContents(sheetId)?.texts ?? NO_WORDS;
  const isLarge = useIsLarge(job, sheetId);
  const drawn = useDrawnElsewhere(isLarge ? sheetId : null, words);
  const marks = useMemo(() => {
    if (sheetId === null) return [];
    if (!isLarge) return marksOf(job, result ?? undefined, { sheets: new Set([sheetId]), words: { [sheetId]: words } });
    return drawn?.sheet === sheetId ? upToDate(drawn, job, result) : [];
  }, [job, result, sheetId, words, isLarge, drawn]);
  const before = useRef<Layers | null>(null);
  return useMemo(() => {
    const lists = Object.fromEntries(LAYERS.map((name): [MarkLayer, ScreenMark[]] => [name, []]));
    for (const mark of marks) lists[mark.layer]?.push(screenMark(mark, faint[stage].includes(mark.layer)));
    const layers = Object.fromEntries(
      LAYERS.map((name) => {
        const [old, now] = [before.current?.[name], lists[name]!];
        return [name, old && old.length === now.length && old.every((mark, i) => mark === now[i]) ? old : now];
      }),
    ) as unknown as Layers;
    before.current = layers;
    return layers;
  }, [marks, stage]);
}

/** Whether a job is drawn off the main thread. Once it is, it is so until another sheet is shown: counting after each edit takes its time, too. */
function useIsLarge(job: Job, sheetId: string | null): boolean {
  const known = useRef({ sheetId, isLarge: false });
  if (known.current.sheetId !== sheetId) known.current = { sheetId, isLarge: false };
  const count = (table: object) => Object.keys(table).length;
  known.current.isLarge ||= count(job.elements) > AT_ONCE || count(job.areas) > AT_ONCE;
  return known.current.isLarge;
}

const onScreen = { plain: new WeakMap<Mark, ScreenMark>(), faint: new WeakMap<Mark, ScreenMark>() };

/** A mark as it is shown: the same object for the same mark. */
function screenMark(mark: Mark, isFaint: boolean): ScreenMark {
  const known = isFaint ? onScreen.faint : onScreen.plain;
  const old = known.get(mark);
  if (old) return old;
  const { key, picture, hit } = mark;
  const shown = { key, picture, hit, faint: isFaint };
  known.set(mark, shown);
  return shown;
}

/** The marks of a sheet of a large job as they come from the background; undefined until the first ones are there. */
function useDrawnElsewhere(sheetId: string | null, words: readonly TextRun[]): DrawnMarks | undefined {
  const { host, session } = useDesk();
  const result = useSession((state) => state.result);
  const checking = useSession((state) => state.checking);
  const stopped = useSession((state) => state.stopped);
  const [drawn, setDrawn] = useState<DrawnMarks>();
  const isFirst = drawn?.sheet !== sheetId;
  // biome-ignore lint/correctness/useExhaustiveDependencies: that first marks are there now is no occasion to ask again
  useEffect(() => {
    if (sheetId === null || checking || stopped || !result) return;
    let wanted = true;
    const ask = () => {
      // The check is done, so the background has this very job.
      const { job } = session.getState();
      void host.marks(sheetId, words).then((marks) => wanted && marks && setDrawn(drawnMarks(sheetId, job, marks)));
    };
    const timer = setTimeout(ask, isFirst ? 0 : PAUSE_MS);
    return () => {
      wanted = false;
      clearTimeout(timer);
    };
  }, [host, session, sheetId, words, result, checking, stopped]);
  return drawn;
}
