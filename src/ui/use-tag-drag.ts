import { useMemo, useRef, useState } from "react";
import { createChecker } from "../check/check-job.ts";
import type { CheckResult } from "../check/finding.ts";
import { raiseTag } from "../editor/edits/raise-tag.ts";
import type { ProfileScale } from "../issue/profile/profile-scale.ts";
import { apply, type Edit } from "../job/edit.ts";
import type { Id } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";
import { inches } from "../units/quantity.ts";
import { useDesk, useSession } from "./desk-context.ts";

/** A tag under somebody's hand: which, where the hand took it, and the scale it is moved on. */
interface Held {
  readonly vertex: number;
  /** Height of the hand when it took the tag, picture units. */
  readonly from: number;
  readonly scale: ProfileScale;
  readonly edit: Edit | null;
}

/** The job and its findings as a profile shows them, and what moves one of its tags. Heights in picture units, y up. */
export interface TagDrag {
  readonly job: Job;
  readonly result: CheckResult | null;
  /** The tag that is held, and the scale the picture keeps meanwhile. */
  readonly vertex: number | undefined;
  readonly scale: ProfileScale | undefined;
  readonly take: (vertex: number, y: number, scale: ProfileScale) => void;
  readonly move: (y: number) => void;
  /** Lets go: what was moved becomes one edit. */
  readonly drop: () => void;
  /** Puts the tag back where it was. */
  readonly cancel: () => void;
}

/** Lets a person move the tags of an element up and down, its check following; the job itself changes when the tag is let go. */
export function useTagDrag(id: Id): TagDrag {
  const { session } = useDesk();
  const job = useSession((state) => state.job);
  const result = useSession((state) => state.result);
  const [held, show] = useState<Held | null>(null);
  // What the hand did last, drawn already or not: letting go must not miss the last move.
  const now = useRef<Held | null>(null);
  const hold = (next: Held | null) => {
    now.current = next;
    show(next);
  };
  // The decks stay read while only the element changes.
  const checker = useMemo(() => createChecker(), []);
  const edit = held?.edit ?? null;
  const shown = useMemo(() => {
    const element = edit?.changes[0]?.after;
    if (edit === null || !element) return { job, result };
    // Only this element is looked at while it moves.
    const alone = { ...job, elements: { [id]: element } } as Job;
    return { job: apply(job, edit), result: checker(alone) };
  }, [job, result, edit, id, checker]);
  return {
    ...shown,
    vertex: held?.vertex,
    scale: held?.scale,
    take: (vertex, from, scale) => hold({ vertex, from, scale, edit: null }),
    move: (y) => {
      const { current } = now;
      if (!current) return;
      const raised = raiseTag(job, id, current.vertex, inches((y - current.from) / current.scale.up));
      if (raised.ok) hold({ ...current, edit: raised.value });
    },
    drop: () => {
      const moved = now.current?.edit;
      hold(null);
      if (moved) session.commit(moved);
    },
    cancel: () => hold(null),
  };
}
