import { paperInchesPerUnit, usedScale } from "../job/registration.ts";
import type { Job, Viewport } from "../job/schema.ts";
import { roundedScale } from "./cards/rounded-scale.ts";

/** The state of a viewport's scale in one line. */
export function scaleState(job: Job, viewport: Viewport): { readonly words: string; readonly lacks: boolean } {
  const sheet = job.sheets[viewport.sheet];
  const scale = sheet && usedScale(sheet, viewport);
  const on = viewport.registration ? job.viewports[viewport.registration.to]?.name : undefined;
  if (sheet && scale !== undefined) {
    const note = roundedScale(scale / paperInchesPerUnit(sheet));
    return { words: on === undefined ? note : `${note}, lies on ${on}`, lacks: false };
  }
  return on === undefined ? { words: "No scale yet", lacks: true } : { words: `Scale from ${on}`, lacks: false };
}
