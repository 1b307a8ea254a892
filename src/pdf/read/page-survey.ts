import { OPERATOR, PATH_STEP } from "./engine-operators.ts";
import type { OpenPlan } from "./open-plan.ts";
import { countLargeImages, FEW_SEGMENTS, type Operators } from "./page-makeup.ts";

/** What a page is: drawn with lines, a picture of a drawing, a picture with a drawing over it, or neither (text, or nothing). */
export type PageKind = "drawing" | "picture" | "mixed" | "no-lines";

/** What is on a page, as far as it can be told without working out its lines. */
export interface PageSurvey {
  readonly is: PageKind;
  /** Ids of the drawing's layers (`PlanLayer.id`) that something on the page belongs to, in the order of drawing. */
  readonly layers: readonly string[];
}

/**
 * Looks over a page once. What the engine keeps of the page is let go by the caller. Rejects with the signal's reason, and as the engine does when the
 * page cannot be read.
 */
export async function surveyPage(plan: OpenPlan, page: number, signal?: AbortSignal): Promise<PageSurvey> {
  signal?.throwIfAborted();
  const proxy = await plan.document.getPage(page);
  const list = await proxy.getOperatorList({ annotationMode: 0 });
  signal?.throwIfAborted();
  const lines = drawnLines(list, FEW_SEGMENTS);
  const isPicture = countLargeImages(list, proxy.view) > 0;
  const is = isPicture ? (lines < FEW_SEGMENTS ? "picture" : "mixed") : lines > 0 ? "drawing" : "no-lines";
  return { is, layers: layersIn(list) };
}

/** Lines and curves a page draws, clips left out; counted no farther than `enough`. */
function drawnLines({ fnArray, argsArray }: Operators, enough: number): number {
  let count = 0;
  for (let i = 0; i < fnArray.length && count < enough; i++) {
    if (fnArray[i] !== OPERATOR.constructPath) continue;
    const [painted, [data]] = argsArray[i] as [number, [Float32Array | null]];
    if (painted === OPERATOR.endPath || !data) continue;
    for (let k = 0; k < data.length; ) {
      const step = data[k]!;
      if (step !== PATH_STEP.move && step !== PATH_STEP.close) count++;
      k += 1 + NUMBERS[step]!;
    }
  }
  return count;
}

/** How many numbers follow each step of a path. */
const NUMBERS: Readonly<Record<number, number>> = {
  [PATH_STEP.move]: 2,
  [PATH_STEP.line]: 2,
  [PATH_STEP.curve]: 6,
  [PATH_STEP.quadratic]: 4,
  [PATH_STEP.close]: 0,
};

function layersIn({ fnArray, argsArray }: Operators): readonly string[] {
  const found = new Set<string>();
  for (const [i, operator] of fnArray.entries()) {
    if (operator !== OPERATOR.beginMarkedContentProps) continue;
    const [tag, group] = (argsArray[i] ?? []) as [string?, { id?: string | null; ids?: readonly string[] | null }?];
    if (tag !== "OC" || !group) continue;
    for (const id of group.ids ?? []) found.add(id);
    if (group.id && !group.ids) found.add(group.id);
  }
  return [...found];
}
