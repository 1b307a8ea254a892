import { useMemo } from "react";
import { isQuiet, VERDICTS } from "../check/finding.ts";
import { lacks } from "../editor/lacks.ts";
import { STAGES, type Stage } from "../editor/stage.ts";
import { wordLack } from "../editor/words.ts";
import { useSession } from "./desk-context.ts";
import { counted } from "./words.ts";

/** How far a stage has come: whether it lacks nothing, and the line under its name. */
export interface StageState {
  readonly done: boolean;
  readonly words: string;
  /** Every lack in words, for the drawer. */
  readonly lacking: readonly string[];
}

/** How far every stage has come. */
export function useStages(): Readonly<Record<Stage, StageState>> {
  const job = useSession((state) => state.job);
  const result = useSession((state) => state.result);
  const stopped = useSession((state) => state.stopped);
  return useMemo(() => {
    const found = lacks(job, result, stopped);
    const state = (stage: Stage): StageState => {
      const lacking = found.filter((lack) => lack.stage === stage).map(wordLack);
      return { done: lacking.length === 0, words: lacking[0] ?? present(stage), lacking };
    };
    const present = (stage: Stage): string => {
      const count = (table: object) => Object.keys(table).length;
      const open = result ? VERDICTS.filter((v) => !isQuiet(v)).reduce((n, v) => n + result.counts[v], 0) : 0;
      const words: Readonly<Record<Stage, string>> = {
        sheet: counted(count(job.sheets), "sheet"),
        roof: counted(count(job.areas), "deck area"),
        wiring: counted(count(job.elements), "element"),
        check:
          open > 0 ? counted(open, "finding needs attention", "findings need attention") : "Nothing needs attention",
        issue: "Ready to issue",
      };
      return words[stage];
    };
    return Object.fromEntries(STAGES.map((stage) => [stage, state(stage)])) as Record<Stage, StageState>;
  }, [job, result, stopped]);
}
