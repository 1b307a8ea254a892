import { type IntervalSet, unite } from "../geometry/interval-set.ts";
import type { Element } from "../job/elements/element.ts";
import type { Id } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";
import type { SettledAs } from "../job/storey-outline.ts";
import { inches } from "../units/quantity.ts";
import { coverage, type Span } from "./coverage.ts";
import { shareUnder } from "./deck-share.ts";
import type { Stretch } from "./finding.ts";
import { checkKindOf } from "./kinds/kinds.ts";
import type { PlanEnds } from "./piece.ts";
import { type Scene, sceneOf } from "./scene.ts";

/** A deck that is the next one above an element, and what it is there. One area parted by storeys above may be there as roof and as floor. */
export interface DeckAbove {
  readonly areaId: Id;
  readonly is: SettledAs;
  /** Whether that follows from the outlines of storeys above. */
  readonly fromOutline: boolean;
  /** From where to where along the element; empty for what has no length. */
  readonly stretches: readonly Stretch[];
}

/** The decks next above an element, in order of station; those of a box in the order of the job. None where its elevation or scale is not known. */
export function decksAbove(scene: Scene, id: Id, element: Element): readonly DeckAbove[] {
  const kind = checkKindOf(element);
  if (kind.findings) return [];
  const { pieces, root } = kind.shape(scene, element, id);
  const frame = scene.frame(root ?? "");
  const found = new Map<string, { deck: Omit<DeckAbove, "stretches">; stations: IntervalSet }>();
  for (const piece of pieces) {
    const most = Number.POSITIVE_INFINITY;
    const ends: PlanEnds = { x0: most, y0: most, x1: -most, y1: -most };
    piece.widen(ends);
    const numbers = frame.footprints.query({ min: [ends.x0, ends.y0, 0], max: [ends.x1, ends.y1, 0] }, inches(1));
    const spans = numbers.map((n): Span => {
      const deck = frame.areas[n]!;
      return { deck, under: shareUnder(piece, deck).under };
    });
    for (const { deck, from, to } of coverage(piece, spans)) {
      if (!deck) continue;
      const { is, follows } = deck.classification;
      const key = `${deck.id}/${is}`;
      const known = found.get(key);
      const stations = unite(known?.stations ?? [], [[from, to]]);
      found.set(key, { deck: { areaId: deck.id, is, fromOutline: follows !== undefined }, stations });
    }
  }
  const start = ({ stations }: { readonly stations: IntervalSet }): number => stations[0]?.[0] ?? 0;
  return [...found.values()]
    .sort((a, b) => start(a) - start(b))
    .map(({ deck, stations }) => ({
      ...deck,
      stretches: stations.filter(([from, to]) => to > from).map(([fromIn, toIn]) => ({ fromIn, toIn })),
    }));
}

/** The decks above an element of a job in which storeys above part some deck; none in any other, where every area is what it is recorded as. */
export function decksAboveParted(job: Job, id: Id): readonly DeckAbove[] {
  const element = job.elements[id];
  const isParted = Object.values(job.areas).some(({ classification }) => classification.is === "from-outline");
  return element && isParted ? decksAbove(sceneOf(job), id, element) : [];
}
