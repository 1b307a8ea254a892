import type { Point2 } from "../../geometry/point.ts";
import type { Element } from "../../job/elements/element.ts";
import type { Id } from "../../job/fields.ts";
import type { Job } from "../../job/schema.ts";
import type { DrawnNote, DrawnTag, DrawnText } from "./drawn-words.ts";
import { distanceFrom, distanceToElement, endsOf, placesOf } from "./near-text.ts";

/** The elements of a sheet that texts may speak of. */
export interface Speakable {
  readonly elements: readonly { readonly id: Id; readonly element: Element }[];
  readonly byLabel: ReadonlyMap<string, Id>;
  /** Whether the labels in the texts are those of the job: most texts stand nearest to the element they name. */
  readonly labelled: boolean;
}

/** What a text speaks of, the likeliest first, and whether that is beyond doubt: one thing, and nothing else near. */
export interface Tie {
  readonly ids: readonly Id[];
  readonly sure: boolean;
}

type Standing = Pick<DrawnTag | DrawnNote, "run" | "above" | "heads" | "line">;

/** How far a text may be from what it speaks of, in heights of the text; and from what it names by its label. */
const [REACH, NAMED_REACH] = [3, 14];
/** Another one less than so many times as far, and some more, makes it doubtful. */
const [DOUBTFUL, SLACK] = [1.5, 0.2];
/** How far the drawn line that a text is nearest to may lie off an element, in heights of the text: a line, a symbol round its place. */
const [ON_LINE, ON_SYMBOL] = [0.4, 1.3];
/** Labels count when so many of the texts that carry one stand nearest to what they name, and there are at least so many. */
const [MOSTLY, FEWEST] = [0.66, 2];
/** So many things are offered as what a text may mean. */
const MOST = 3;
const LABEL = /(?<![\w/.-])[A-Z]{1,3}-\d{1,4}[A-Z]?(?![\w/-])/g;

/** The elements of a sheet, and whether texts name them by their labels. `takes`: those a text may speak of at all. */
export function speakable(
  job: Job,
  sheet: Id,
  texts: readonly Standing[],
  takes: (element: Element) => boolean,
): Speakable {
  const elements = Object.entries(job.elements).flatMap(([id, element]) =>
    job.viewports[element.viewport]?.sheet === sheet ? [{ id, element }] : [],
  );
  const byLabel = new Map(elements.map(({ id, element }) => [element.label, id]));
  const spoken = elements.filter(({ element }) => takes(element));
  let [votes, right] = [0, 0];
  for (const { run } of texts) {
    const named = labelsIn(run.text)
      .map((label) => byLabel.get(label))
      .find((id) => id !== undefined);
    if (named === undefined) continue;
    votes++;
    if (nearestTo(run, spoken)[0]?.id === named) right++;
  }
  return { elements: spoken, byLabel, labelled: votes >= FEWEST && right >= MOSTLY * votes };
}

/** The labels of elements in a line of text: R-14, B-2. */
export const labelsIn = (text: string): readonly string[] => text.match(LABEL) ?? [];

/** The elements within reach of a text, nearest first. */
const nearestTo = (run: DrawnText, elements: Speakable["elements"]) =>
  elements
    .filter(({ element }) => mayBeNear(run, element))
    .map(({ id, element }) => ({ id, element, far: distanceToElement(run, element) }))
    .filter(({ far }) => far <= REACH * run.height)
    .sort((a, b) => a.far - b.far);

const boxes = new WeakMap<Element, readonly [number, number, number, number]>();

/** Whether the rectangle round an element comes within reach of a text at all: cheap, and most do not. */
function mayBeNear(run: DrawnText, element: Element): boolean {
  let box = boxes.get(element);
  if (!box) {
    const places = placesOf(element);
    const [xs, ys] = [places.map(([x]) => x), places.map(([, y]) => y)];
    box = [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
    boxes.set(element, box);
  }
  const reach = REACH * run.height + run.height;
  const [[ax, ay], [bx, by]] = endsOf(run);
  return (
    Math.max(ax, bx) + reach >= box[0] &&
    Math.min(ax, bx) - reach <= box[2] &&
    Math.max(ay, by) + reach >= box[1] &&
    Math.min(ay, by) - reach <= box[3]
  );
}

/** What a text speaks of: by the label it carries, where labels count; else by the drawn line it stands at; else by what is near. */
export function tie({ run, above, heads, line }: Standing, { elements, byLabel, labelled }: Speakable): Tie {
  const em = run.height;
  const near = nearestTo(run, elements);
  if (labelled) {
    const own = labelsIn(run.text);
    const labels = own.length > 0 ? own : heads && above !== null ? labelsIn(above) : [];
    const named = labels.map((label) => byLabel.get(label)).find((id) => id !== undefined);
    if (named !== undefined) {
      const one = elements.find(({ id }) => id === named);
      if (one && distanceToElement(run, one.element) <= NAMED_REACH * em) return { ids: [named], sure: true };
    }
    // It names something that is not traced.
    if (named === undefined && labels.length > 0) return { ids: [], sure: false };
  }
  if (line?.byLeader) {
    const on = elements.filter(({ element }) => passes(element, line.at, em)).map(({ id }) => id);
    return { ids: on.slice(0, MOST), sure: on.length === 1 };
  }
  const [best] = near;
  if (!best) return { ids: [], sure: false };
  const ids = near.filter(({ far }) => far <= DOUBTFUL * best.far + SLACK * em).map(({ id }) => id);
  // Where another drawn line is as near, or the nearest is one that nobody has traced, the text may speak of that.
  const stands = line !== null && !line.ambiguous && passes(best.element, line.at, em);
  return { ids: ids.slice(0, MOST), sure: ids.length === 1 && stands };
}

/** Whether an element goes through a place of the drawing, or has its symbol round it. */
const passes = (element: Element, at: Point2, em: number): boolean =>
  distanceFrom(at, element) <= ("vertices" in element ? ON_LINE : ON_SYMBOL) * em;
