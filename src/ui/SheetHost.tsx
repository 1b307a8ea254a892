import { useEffect, useRef, useState } from "react";
import { useStore } from "zustand";
import type { SheetPointer } from "../canvas/sheet-view.ts";
import { SheetView } from "../canvas/sheet-view.ts";
import type { Session } from "../editor/session.ts";
import type { Point2 } from "../geometry/point.ts";
import { sheetFrame } from "../issue/sheet-frame.ts";
import { useDesk, useHost, useSession } from "./desk-context.ts";
import { gathered } from "./gathered.ts";
import { magnification, magnified } from "./magnified.ts";
import { reportBug } from "./report-bug.ts";
import { selectedKeys } from "./selected-keys.ts";
import { keysForSheet } from "./sheet-keys.ts";
import { TouchLoupe } from "./TouchLoupe.tsx";
import { useDrawnLines } from "./use-drawn-lines.ts";
import { useHiddenLayers } from "./use-hidden-layers.ts";
import { useLikelySheets } from "./use-likely-sheets.ts";
import { useMarks } from "./use-marks.ts";
import { useNoteRoom } from "./use-note-room.ts";
import { useRoomMap } from "./use-room-map.ts";
import { useSaidMarks } from "./use-said-marks.ts";
import type { View } from "./view.ts";
import { wireView } from "./wire-view.ts";

/** How near counts as on something, CSS pixels, by kind of pointer. */
const REACH: Readonly<Record<string, number>> = { mouse: 7, pen: 9, touch: 16 };

/** The sheet: the drawing with the marks over it. Pointer and keyboard go to the session; what it shows is listed in the drawers too. */
export function SheetHost() {
  const { session, host, view } = useDesk();
  const element = useRef<HTMLDivElement>(null);
  const [sheetView, setSheetView] = useState<SheetView>();
  const [times, setTimes] = useState(1);
  const sheetId = useSession((state) => state.sheet);
  const sheet = useSession((state) => (state.sheet === null ? undefined : state.job.sheets[state.sheet]));
  const drawing = useHost((state) => (sheet ? state.drawings[sheet.file.sha256] : undefined));
  const handle = drawing?.is === "open" ? drawing.handle : undefined;

  useEffect(() => {
    if (!element.current) return;
    const made = new SheetView(element.current, host.renderer, {
      onPointer: (event) => {
        if (event.kind === "down") element.current?.focus({ preventScroll: true });
        const answer = answerPointer(session, event);
        const { aim } = session.getState();
        followFinger(view, event, made.sheetToScreen(event.at), made.sheetToScreen(aim?.at ?? event.at));
        return answer;
      },
      onView: () => {
        const { x0, y0, x1, y1 } = made.sheetInView();
        const { scale, origin } = made.view();
        setTimes(magnification(scale));
        // Where the page stands, for whoever drives the program from outside: pixels per 1/72 in. of paper, and its upper left corner.
        element.current?.setAttribute("data-view", `${scale} ${origin[0]} ${origin[1]}`);
        session.setView({ unitsPerPixel: made.unitsPerPixel(), centre: [(x0 + x1) / 2, (y0 + y1) / 2] });
      },
      onRendering: ({ phase }) => phase !== "first" && host.sheetSeen(),
      onError: (error) => {
        host.sheetSeen();
        reportBug(error);
      },
    });
    setSheetView(made);
    const unwire = wireView(view, made, element.current);
    return () => {
      unwire();
      made.destroy();
      setSheetView(undefined);
    };
  }, [host, session, view]);

  const geometry = drawing?.is === "open" ? drawing.pages.find(({ page }) => page === sheet?.page) : undefined;
  // biome-ignore lint/correctness/useExhaustiveDependencies: two sheets may be pages of one size of one file: the sheet's id tells them apart
  useEffect(() => {
    if (!sheetView) return;
    if (handle !== undefined && geometry) {
      sheetView.showPage(handle, geometry);
      view.fit();
    } else sheetView.clear();
  }, [sheetView, handle, geometry, sheetId, view]);

  useLikelySheets(sheetView, sheetId);

  const marks = useMarks(sheetId);
  useEffect(() => {
    if (handle !== undefined) sheetView?.setMarks("areas", marks.areas);
  }, [sheetView, marks.areas, handle]);
  useEffect(() => {
    if (handle !== undefined) sheetView?.setMarks("wiring", marks.wiring);
  }, [sheetView, marks.wiring, handle]);
  useEffect(() => {
    if (handle !== undefined) sheetView?.setMarks("notes", marks.notes);
  }, [sheetView, marks.notes, handle]);
  useNoteRoom(sheetId, marks);
  const room = useRoomMap(sheetId);
  useEffect(() => {
    if (handle !== undefined) sheetView?.setMarks("room", room);
  }, [sheetView, room, handle]);
  const selection = useSession((state) => state.selection);
  const said = useSaidMarks();
  useEffect(() => {
    if (handle !== undefined) sheetView?.setMarks("said", said);
  }, [sheetView, said, handle]);
  useEffect(() => {
    // What the findings are is in their marks already.
    const { result } = session.getState();
    if (!sheetView || handle === undefined || !sheet) return;
    const large = magnified(marks.findings, result, times);
    sheetView.setMarks("findings", gathered(large, result, times, sheetFrame(sheet), selectedKeys(selection)));
  }, [sheetView, session, marks.findings, handle, times, sheet, selection]);
  useEffect(() => sheetView?.setSelected(selectedKeys(selection)), [sheetView, selection]);
  useDraft(sheetView);
  useDrawnLines();
  useHiddenLayers(sheetView);
  const lines = useStore(view.store, (state) => state.lines);
  const drawer = useStore(view.store, (state) => state.drawer);
  const covered = `${selection !== null} ${drawer}`;
  // biome-ignore lint/correctness/useExhaustiveDependencies: what covers the sheet is the occasion
  useEffect(() => view.refit(), [covered, view]);

  return (
    <>
      <div
        ref={element}
        className="sheet-host"
        role="application"
        aria-label={sheet ? `Sheet ${sheet.title}` : "No sheet yet"}
        aria-describedby="sheet-help"
        data-lines={lines?.sheet === sheetId ? lines.is : "reading"}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the crosshair is moved with the arrow keys
        tabIndex={0}
        onKeyDown={(event) => keysForSheet(event, session, view)}
      >
        <span id="sheet-help" className="unseen">
          Arrow keys move the crosshair, Enter puts a point, Escape puts back what is half done, A takes up what is
          selected to be moved by arrow keys. F1 lists every act with its key.
        </span>
      </div>
      <TouchLoupe sheet={element} />
    </>
  );
}

/** Hands the pointer to the session, which says whether a drag is its own or moves the sheet. */
function answerPointer(session: Session, event: SheetPointer): "taken" | "pan" {
  if (event.button === 1 || event.button === 2) return "pan";
  return session.pointer({
    phase: event.kind === "hover-end" ? "leave" : event.kind,
    at: event.at,
    reach: (REACH[event.pointerType] ?? REACH.mouse!) * event.unitsPerPixel,
    mark: markOf(event.hit),
    shift: event.shift,
    alt: event.alt,
    ctrl: event.ctrl,
  });
}

/** A finger hides what it points at: while it aims or drags, the loupe shows it. Other pointers hide nothing. */
function followFinger(view: View, { kind, pointerType, button, hit }: SheetPointer, at: Point2, goes: Point2): void {
  const aims = pointerType === "touch" && (kind === "hold" || (kind === "move" && button === 0));
  if (aims) view.store.setState({ finger: { at, goes, mark: markOf(hit) } });
  else if (view.store.getState().finger) view.store.setState({ finger: null });
}

/** An area that is shown on another sheet too is the same area there. */
const markOf = (hit: SheetPointer["hit"]): string | null => hit[0]?.split("@")[0] ?? null;

/** The half-done thing, handles, crosshair, and the place the profile is being read at. */
function useDraft(sheetView: SheetView | undefined): void {
  const { session, view } = useDesk();
  const spot = useStore(view.store, (state) => state.profileSpot);
  useEffect(() => {
    if (!sheetView) return;
    const draw = () => {
      const picture = [...session.draft()];
      if (spot && spot.sheet === session.getState().sheet) {
        const pixel = sheetView.unitsPerPixel();
        const [x, y] = spot.at;
        const r = 7 * pixel;
        picture.push({
          type: "path",
          steps: [["M", x - r, y], ["L", x, y + r], ["L", x + r, y], ["L", x, y - r], ["Z"]],
          stroke: { r: 1, g: 1, b: 1 },
          width: 2 * pixel,
          fill: { r: 0.137, g: 0.13, b: 0.122 },
        });
      }
      sheetView.setMarks("draft", picture.length === 0 ? [] : [{ key: "draft", picture }]);
    };
    draw();
    return session.subscribe(draw);
  }, [session, sheetView, spot]);
}
