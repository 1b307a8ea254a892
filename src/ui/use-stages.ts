import { type CheckResult, isQuiet, VERDICTS } from "../check/finding.ts";
import { lacks } from "../editor/lacks.ts";
import { STAGES, type Stage } from "../editor/stage.ts";
import { wiringState } from "../editor/wiring-lacks.ts";
import { wordLack } from "../editor/words.ts";
import type { Job } from "../job/schema.ts";
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
  return stagesOf(job, result, stopped);
}

type Stages = Readonly<Record<Stage, StageState>>;
let last: { readonly of: readonly unknown[]; readonly stages: Stages } | undefined;

/** The same for every part of the screen that asks, so worked out once. */
function stagesOf(job: Job, result: CheckResult | null, stopped: boolean): Stages {
  if (last?.of[0] === job && last.of[1] === result && last.of[2] === stopped) return last.stages;
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
      wiring: counted(wiringState(job).count, "element"),
      check: open > 0 ? counted(open, "finding needs attention", "findings need attention") : "Nothing needs attention",
      issue: "Ready to issue",
    };
    return words[stage];
  };
  const stages = Object.fromEntries(STAGES.map((stage) => [stage, state(stage)])) as Record<Stage, StageState>;
  last = { of: [job, result, stopped], stages };
  return stages;
}
