import type { Edit } from "../job/edit.ts";
import { type Element, namedBy } from "../job/elements/element.ts";
import type { Id } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";
import { checkKindOf } from "./kinds/kinds.ts";
import type { Scene } from "./scene.ts";

/** An element before and after; undefined where it does not exist. */
export interface ElementChange {
  readonly id: Id;
  readonly before: Element | undefined;
  readonly after: Element | undefined;
}

/** The elements that differ between two tables: those the edit names, where it is known, else all that are not the same objects. */
export function changesBetween(before: Job["elements"], after: Job["elements"], edit?: Edit): ElementChange[] {
  if (before === after) return [];
  const ids = edit
    ? new Set(edit.changes.flatMap(({ table, id }) => (table === "elements" ? [id] : [])))
    : new Set([...Object.keys(after), ...Object.keys(before)]);
  const changes: ElementChange[] = [];
  for (const id of ids) if (before[id] !== after[id]) changes.push({ id, before: before[id], after: after[id] });
  return changes;
}

/** Which elements depend on others, kept up to date from edit to edit, so that an edit need not go through all of them. */
export class Dependents {
  /** Elements whose kind says that runs near them bear on them, by viewport. */
  private readonly placed = new Map<Id, Map<Id, Element>>();
  /** Id of an element to the ids of those that name it. */
  private readonly naming = new Map<Id, Set<Id>>();

  constructor(elements: Job["elements"]) {
    for (const [id, element] of Object.entries(elements)) this.add(id, element);
  }

  /**
   * Ids of the elements whose findings these changes may alter: those changed (those taken out too), those that a changed run was
   * traced up to, or now is, and those that name one that changed. `scene` is that of the job afterwards.
   */
  touchedBy(scene: Scene, changes: readonly ElementChange[]): ReadonlySet<Id> {
    for (const { id, before, after } of changes) {
      if (before) this.remove(id, before);
      if (after) this.add(id, after);
    }
    const touched = new Set(changes.map(({ id }) => id));
    for (const { id, before, after } of changes) {
      for (const naming of this.naming.get(id) ?? []) touched.add(naming);
      for (const run of [before, after]) if (run && "vertices" in run) this.addPlacedNear(scene, run, touched);
    }
    return touched;
  }

  private add(id: Id, element: Element): void {
    for (const named of namedBy(element)) entryOf(this.naming, named.id, () => new Set<Id>()).add(id);
    if (checkKindOf(element).reach)
      entryOf(this.placed, element.viewport, () => new Map<Id, Element>()).set(id, element);
  }

  private remove(id: Id, element: Element): void {
    for (const named of namedBy(element)) this.naming.get(named.id)?.delete(id);
    this.placed.get(element.viewport)?.delete(id);
  }

  private addPlacedNear(scene: Scene, run: Extract<Element, { vertices: unknown }>, touched: Set<Id>): void {
    for (const [id, element] of this.placed.get(run.viewport) ?? []) {
      if (touched.has(id) || !("at" in element)) continue;
      const reach = checkKindOf(element).reach?.(scene, element) ?? 0;
      const [x, y] = element.at;
      if (run.vertices.some(({ at }) => Math.hypot(at[0] - x, at[1] - y) <= reach)) touched.add(id);
    }
  }
}

function entryOf<K, V>(map: Map<K, V>, key: K, make: () => V): V {
  const found = map.get(key);
  if (found !== undefined) return found;
  const made = make();
  map.set(key, made);
  return made;
}
