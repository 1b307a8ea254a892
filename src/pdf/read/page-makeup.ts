import { OPERATOR } from "./engine-operators.ts";
import type { OpenPlan } from "./open-plan.ts";

/** What a page is made of, as far as it can be told whether it is a picture of a drawing. */
export interface PageMakeup {
  /** Large pictures, each covering at least `LARGE` of the page. */
  readonly largeImages: number;
  /** Whether the page is a picture with little or nothing drawn as lines: nothing can be read from such lines. */
  readonly isPicture: boolean;
}

/** Part of the page a picture must cover to count as large. */
export const LARGE = 0.25;
/** A page with fewer segments than this has little linework: a border and a stamp. */
export const FEW_SEGMENTS = 500;

/** Tells a picture of a drawing from a drawing. `segments` is how many the page's linework has. Stops with the signal's reason. */
export async function pageMakeup(
  plan: OpenPlan,
  page: number,
  segments: number,
  signal?: AbortSignal,
): Promise<PageMakeup> {
  signal?.throwIfAborted();
  const proxy = await plan.document.getPage(page);
  const list = await proxy.getOperatorList({ annotationMode: 0 });
  signal?.throwIfAborted();
  const largeImages = countLargeImages(list, proxy.view);
  return { largeImages, isPicture: largeImages > 0 && segments < FEW_SEGMENTS };
}

/** What of an engine's operator list is looked at here. */
export interface Operators {
  readonly fnArray: readonly number[];
  readonly argsArray: readonly unknown[];
}

/** How many pictures of a page cover at least `LARGE` of it. `view` is its crop box. */
export function countLargeImages({ fnArray, argsArray }: Operators, view: readonly number[]): number {
  const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] = view;
  const whole = Math.abs((x1 - x0) * (y1 - y0));
  const saved: number[] = [];
  // A picture covers the unit square under the map in force: all that matters is how much that map enlarges.
  let area = 1;
  let largeImages = 0;
  for (const [i, operator] of fnArray.entries()) {
    const args = argsArray[i] as readonly unknown[] | null;
    if (operator === OPERATOR.save) saved.push(area);
    else if (operator === OPERATOR.paintFormXObjectBegin) {
      saved.push(area);
      area *= enlarged(args?.[0] as ArrayLike<number> | null);
    } else if (operator === OPERATOR.restore || operator === OPERATOR.paintFormXObjectEnd) area = saved.pop() ?? area;
    else if (operator === OPERATOR.transform) area *= enlarged(args as ArrayLike<number> | null);
    else if (IMAGES.has(operator) && area >= LARGE * whole) largeImages++;
  }
  return largeImages;
}

const enlarged = (m: ArrayLike<number> | null): number => (m ? Math.abs(m[0]! * m[3]! - m[1]! * m[2]!) : 1);
const IMAGES = new Set<number>([
  OPERATOR.paintImageXObject,
  OPERATOR.paintInlineImageXObject,
  OPERATOR.paintImageMaskXObject,
]);
