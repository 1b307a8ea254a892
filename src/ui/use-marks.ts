import { useEffect, useMemo, useState } from "react";
import type { ScreenMark } from "../canvas/screen-mark.ts";
import type { CheckResult } from "../check/finding.ts";
import type { Stage } from "../editor/stage.ts";
import type { Mark, MarkLayer } from "../issue/mark.ts";
import { marksOf } from "../issue/marks-of.ts";
import type { Job } from "../job/schema.ts";
import type { TextRun } from "../pdf/read/plan-contents.ts";
import { useDesk, useSession } from "./desk-context.ts";
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
const NO_WORDS: readonly TextRun[] = [];

/** The marks of a sheet by layer; those of another stage of the work are faint. */
export function useMarks(sheetId: string | null): Layers {
  const job = useSession((state) => state.job);
  const result = useSession((state) => state.result);
  const stage = useSession((state) => state.stage);
  // The issued sheet keeps off the same words: what is seen here is what is issued.
  const words = usePageContents(sheetId)?.texts ?? NO_WORDS;
  const isLarge = Object.keys(job.elements).length + Object.keys(job.areas).length > AT_ONCE;
  const drawn = useDrawnElsewhere(isLarge ? sheetId : null, words);
  const marks = useMemo(() => {
    if (sheetId === null) return [];
    if (!isLarge) return marksOf(job, result ?? undefined, { sheets: new Set([sheetId]), words: { [sheetId]: words } });
    return drawn?.sheet === sheetId ? upToDate(drawn, job, result, sheetId) : [];
  }, [job, result, sheetId, words, isLarge, drawn]);
  return useMemo(() => {
    const layer = (name: MarkLayer): ScreenMark[] =>
      marks
        .filter((mark) => mark.layer === name)
        .map(({ key, picture, hit }) => ({ key, picture, hit, faint: faint[stage].includes(name) }));
    return Object.fromEntries(LAYERS.map((name) => [name, layer(name)])) as unknown as Layers;
  }, [marks, stage]);
}

/** Marks of a sheet and the job they show. */
interface Drawn {
  readonly sheet: string;
  readonly job: Job;
  readonly marks: readonly Mark[];
}

/** The marks of a sheet of a large job as they come from the background; undefined until the first ones are there. */
function useDrawnElsewhere(sheetId: string | null, words: readonly TextRun[]): Drawn | undefined {
  const { host, session } = useDesk();
  const result = useSession((state) => state.result);
  const checking = useSession((state) => state.checking);
  const stopped = useSession((state) => state.stopped);
  const [drawn, setDrawn] = useState<Drawn>();
  useEffect(() => {
    if (sheetId === null || checking || stopped || !result) return;
    let wanted = true;
    // The check is done, so the background has this very job.
    const { job } = session.getState();
    void host.marks(sheetId, words).then((marks) => wanted && setDrawn({ sheet: sheetId, job, marks }));
    return () => {
      wanted = false;
    };
  }, [host, session, sheetId, words, result, checking, stopped]);
  return drawn;
}

/** The marks with whatever changed since they were drawn done anew: few records, so at once. Labels find their final places later. */
function upToDate(drawn: Drawn, job: Job, result: CheckResult | null, sheetId: string): readonly Mark[] {
  const tables = ["elements", "areas", "storeyOutlines", "notes"] as const;
  const changed = (table: (typeof tables)[number]): string[] => {
    const [before, now] = [drawn.job[table] as Record<string, unknown>, job[table] as Record<string, unknown>];
    if (before === now) return [];
    return [...new Set([...Object.keys(before), ...Object.keys(now)])].filter((id) => before[id] !== now[id]);
  };
  const [elements, areas] = [changed("elements"), changed("areas")];
  const [storeys, notes] = [changed("storeyOutlines"), changed("notes")];
  if (elements.length + areas.length + storeys.length + notes.length === 0) return drawn.marks;
  const only = <T>(table: Readonly<Record<string, T>>, ids: readonly string[]): Record<string, T> =>
    Object.fromEntries(ids.flatMap((id) => (table[id] === undefined ? [] : [[id, table[id]]])));
  const part: Job = {
    ...job,
    elements: only(job.elements, elements),
    areas: only(job.areas, areas),
    storeyOutlines: only(job.storeyOutlines, storeys),
    notes: only(job.notes, notes),
  };
  const about = new Set([...elements, ...areas, ...storeys, ...notes]);
  const said = result && { ...result, findings: result.findings.filter(({ elementId }) => about.has(elementId)) };
  const kept = drawn.marks.filter(({ key }) => !about.has(key.split(/[:@]/)[1] ?? ""));
  return [...kept, ...marksOf(part, said ?? undefined, { sheets: new Set([sheetId]) })];
}
