import type { Job } from "../job/schema.ts";
import { UNLOCKED } from "./lock.ts";
import type { SessionState } from "./session.ts";
import { firstSheet, firstViewport } from "./sheet-order.ts";
import type { ToolState } from "./tools/tool-state.ts";

/** The tool that is in hand while none was started. */
export const STANDING: ToolState = { tool: "edit", moving: null };

/** The state over a job in which nothing has been done yet. */
export function fresh(job: Job): SessionState {
  const sheet = firstSheet(job);
  return {
    job,
    undo: [],
    redo: [],
    stage: "sheet",
    sheet,
    viewport: firstViewport(job, sheet),
    pixel: 1,
    selection: null,
    drawn: null,
    room: null,
    toDrawing: false,
    lock: UNLOCKED,
    words: null,
    assumed: {},
    said: null,
    tool: STANDING,
    crosshair: null,
    aim: null,
    preview: null,
    result: null,
    checking: false,
    stopped: false,
    busy: false,
    prompt: "",
    asks: [],
    notice: null,
  };
}
