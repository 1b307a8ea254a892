import { type RefObject, useEffect, useRef } from "react";
import { useStore } from "zustand";
import { drawLoupe } from "../canvas/draw-loupe.ts";
import { selectionOfMark } from "../editor/pick.ts";
import type { SessionState } from "../editor/session.ts";
import { useDesk, useSession } from "./desk-context.ts";
import { loupePlace } from "./loupe-place.ts";

/** The glass and the line under it, CSS pixels; the sheet is seen in it so many times as large. */
const GLASS = 132;
const LINE = 28;
const TIMES = 2;

/** What a finger hides while it aims or drags a point, above it: the sheet as it is drawn, the place the point will have, and why there. */
export function TouchLoupe({ sheet }: { readonly sheet: RefObject<HTMLElement | null> }) {
  const { view } = useDesk();
  const isAiming = useStore(view.store, (state) => state.finger !== null);
  return isAiming ? <Glass sheet={sheet} /> : null;
}

function Glass({ sheet }: { readonly sheet: RefObject<HTMLElement | null> }) {
  const { view } = useDesk();
  const finger = useStore(view.store, (state) => state.finger);
  const words = useSession((state) => wordsAt(state, finger?.mark ?? null));
  const canvas = useRef<HTMLCanvasElement>(null);
  const ratio = window.devicePixelRatio || 1;
  useEffect(() => {
    let frame = 0;
    // Marks and drafts are drawn a frame after what they show has changed: the glass follows every frame while it is there.
    const follow = () => {
      frame = requestAnimationFrame(follow);
      const at = view.store.getState().finger?.at;
      const host = sheet.current;
      if (!at || !host || !canvas.current) return;
      const { left, top } = host.getBoundingClientRect();
      drawLoupe(canvas.current, host, { about: [left + at[0], top + at[1]], side: GLASS, times: TIMES });
    };
    follow();
    return () => cancelAnimationFrame(frame);
  }, [view, sheet]);
  if (!finger || !sheet.current) return null;
  const { at, goes } = finger;
  const box = sheet.current.getBoundingClientRect();
  const [left, top] = loupePlace(
    [box.left + at[0], box.top + at[1]],
    { width: window.innerWidth, height: window.innerHeight },
    { width: GLASS, height: GLASS + LINE },
  );
  return (
    // What it shows is announced with the crosshair.
    <div className="loupe" style={{ left, top, width: GLASS }} aria-hidden="true">
      <canvas ref={canvas} width={GLASS * ratio} height={GLASS * ratio} style={{ width: GLASS, height: GLASS }} />
      <svg
        className="loupe-cross"
        viewBox={`${-GLASS / 2} ${-GLASS / 2} ${GLASS} ${GLASS}`}
        width={GLASS}
        height={GLASS}
        aria-hidden="true"
      >
        <path
          d="M-99 0H-9M9 0H99M0 -99V-9M0 9V99"
          transform={`translate(${(goes[0] - at[0]) * TIMES} ${(goes[1] - at[1]) * TIMES})`}
        />
      </svg>
      {words !== null && <span className="loupe-words">{words}</span>}
    </div>
  );
}

/** Why the point goes where it goes; without a tool in hand, what is there. */
function wordsAt({ aim, tool, busy, job }: SessionState, mark: string | null): string | null {
  if (aim?.why) return aim.why;
  if (mark === null || tool.tool !== "edit" || busy) return null;
  const found = selectionOfMark(mark, { job });
  if (found === null) return null;
  if ("finding" in found) return job.elements[found.finding.elementId]?.label ?? null;
  return "table" in found && found.table !== "viewports" ? (job[found.table][found.id]?.label ?? null) : null;
}
