import { type KeyboardEvent, type PointerEvent, useEffect, useLayoutEffect, useRef, useState } from "react";
import type { Point2 } from "../../geometry/point.ts";
import { applyMatrix, chain, invert, type Matrix } from "../../pdf/read/matrix.ts";
import { displaySize, displayTransform, type PageGeometry } from "../../pdf/read/page-geometry.ts";

/** What of a page a pane shows: the place at its middle, in displayed pixels at a scale of 1, and the scale. */
export interface PaneView {
  readonly middle: Point2;
  readonly zoom: number;
}

interface PaneProps {
  /** What a screen reader says it is. */
  readonly label: string;
  readonly geometry: PageGeometry;
  /** Draws what is seen; `to` takes sheet space to pixels of the pane. */
  readonly draw: (
    context: CanvasRenderingContext2D,
    to: Matrix,
    size: { readonly width: number; readonly height: number },
  ) => void;
  /** Places to be brought into view, sheet space; the whole page where there are none. */
  readonly focusOn?: readonly Point2[] | undefined;
  /** Told what is seen, whenever that changes. */
  readonly onView?: (view: PaneView, size: { readonly width: number; readonly height: number }) => void;
  /** A place was put, by a click or with the crosshair: sheet space, and how far the hand may be off. Without it the arrow keys move the view. */
  readonly onPoint?: (at: Point2, reach: number) => void;
}

const STEP = 1.4;
const NEAREST = 40;
/** A pointer that moves farther than this moves the view. */
const DRAG = 4;

/** A page on a canvas that can be moved and magnified with pointer, wheel and keys. */
export function Pane({ label, geometry, draw, focusOn, onView, onPoint }: PaneProps) {
  const host = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const [size, setSize] = useState({ width: 0, height: 0 });
  const [view, setView] = useState<PaneView>();
  const [cross, setCross] = useState<Point2>();
  const drag = useRef<{ readonly from: Point2; readonly view: PaneView; moved: boolean } | null>(null);
  const page = displaySize(geometry);
  const fitted: PaneView = {
    middle: [page.width / 2, page.height / 2],
    // Before there is room for it nothing is drawn.
    zoom: size.width === 0 ? 1 : 0.96 * Math.min(size.width / page.width, size.height / page.height),
  };
  const present = view ?? fitted;
  const shown = displayTransform(geometry);
  const place: Matrix = [
    present.zoom,
    0,
    0,
    present.zoom,
    size.width / 2 - present.zoom * present.middle[0],
    size.height / 2 - present.zoom * present.middle[1],
  ];
  const to = chain(shown, place);

  useLayoutEffect(() => {
    const element = host.current;
    if (!element) return;
    const measure = () => setSize({ width: element.clientWidth, height: element.clientHeight });
    measure();
    const watch = new ResizeObserver(measure);
    watch.observe(element);
    return () => watch.disconnect();
  }, []);

  // biome-ignore lint/correctness/useExhaustiveDependencies: the places are the occasion; the page and the room for it are as they are then
  useEffect(() => {
    if (size.width === 0) return;
    if (!focusOn || focusOn.length === 0) return setView(undefined);
    const points = focusOn.map((at) => applyMatrix(shown, at));
    const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
    const [x0, x1, y0, y1] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
    // Room round it, so that what stands beside it is seen too.
    const room = 60;
    const zoom = Math.min(size.width / (x1 - x0 + 2 * room), size.height / (y1 - y0 + 2 * room), 4);
    setView({ middle: [(x0 + x1) / 2, (y0 + y1) / 2], zoom });
  }, [focusOn, size.width > 0]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: told of the view alone
  useEffect(() => {
    if (size.width > 0) onView?.(present, size);
  }, [present.zoom, present.middle[0], present.middle[1], size]);

  useEffect(() => {
    const element = canvas.current;
    if (!element || size.width === 0) return;
    const frame = requestAnimationFrame(() => {
      const ratio = window.devicePixelRatio || 1;
      const [w, h] = [Math.round(size.width * ratio), Math.round(size.height * ratio)];
      if (element.width !== w) element.width = w;
      if (element.height !== h) element.height = h;
      const context = element.getContext("2d");
      if (!context) return;
      context.setTransform(ratio, 0, 0, ratio, 0, 0);
      context.fillStyle = "#d9d4c8";
      context.fillRect(0, 0, size.width, size.height);
      const [x0, y0] = applyMatrix(place, [0, 0]);
      context.fillStyle = "#ffffff";
      context.fillRect(x0, y0, page.width * present.zoom, page.height * present.zoom);
      draw(context, to, size);
      if (cross && onPoint) drawCross(context, applyMatrix(to, cross), size);
    });
    return () => cancelAnimationFrame(frame);
  });

  useEffect(() => {
    const element = host.current;
    if (!element) return;
    const wheel = (event: WheelEvent) => {
      event.preventDefault();
      const box = element.getBoundingClientRect();
      zoomBy(1.0015 ** -event.deltaY, [event.clientX - box.left, event.clientY - box.top]);
    };
    element.addEventListener("wheel", wheel, { passive: false });
    return () => element.removeEventListener("wheel", wheel);
  });

  const zoomBy = (factor: number, at: Point2 = [size.width / 2, size.height / 2]) => {
    const zoom = Math.min(NEAREST, Math.max(0.5 * fitted.zoom, present.zoom * factor));
    const under = applyMatrix(invert(place), at);
    setView({
      zoom,
      middle: [under[0] - (at[0] - size.width / 2) / zoom, under[1] - (at[1] - size.height / 2) / zoom],
    });
  };
  const moveBy = (dx: number, dy: number) =>
    setView({ ...present, middle: [present.middle[0] + dx / present.zoom, present.middle[1] + dy / present.zoom] });
  const back = invert(to);
  const reach = 8 / Math.max(present.zoom * geometry.userUnit, 1e-9);

  const arrows: Readonly<Record<string, Point2>> = {
    ArrowLeft: [-1, 0],
    ArrowRight: [1, 0],
    ArrowUp: [0, -1],
    ArrowDown: [0, 1],
  };
  const keyed = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const way = arrows[event.key];
    const taken = () => {
      event.preventDefault();
      event.stopPropagation();
    };
    if (way && onPoint) {
      const step = event.shiftKey ? 40 : 8;
      const from = cross ? applyMatrix(to, cross) : ([size.width / 2, size.height / 2] as const);
      const next: Point2 = cross ? [from[0] + way[0] * step, from[1] + way[1] * step] : from;
      setCross(applyMatrix(back, next));
      // The crosshair stays in sight.
      if (next[0] < 20 || next[1] < 20 || next[0] > size.width - 20 || next[1] > size.height - 20)
        moveBy(way[0] * 60, way[1] * 60);
      return taken();
    }
    if (way) {
      moveBy(way[0] * 60, way[1] * 60);
      return taken();
    }
    if (event.key === "Enter" && onPoint && cross) {
      onPoint(cross, reach);
      return taken();
    }
    const around = cross && onPoint ? applyMatrix(to, cross) : undefined;
    if (event.key === "+" || event.key === "=") zoomBy(STEP, around);
    else if (event.key === "-") zoomBy(1 / STEP, around);
    else if (event.key === "0") setView(undefined);
    else return;
    taken();
  };

  const inPane = (event: PointerEvent): Point2 => {
    const box = event.currentTarget.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  };
  return (
    <div
      ref={host}
      className="pane"
      role="application"
      aria-label={label}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: the view is moved with the arrow keys
      tabIndex={0}
      onKeyDown={keyed}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        drag.current = { from: inPane(event), view: present, moved: false };
      }}
      onPointerMove={(event) => {
        const begun = drag.current;
        if (!begun) return;
        const [x, y] = inPane(event);
        const [dx, dy] = [x - begun.from[0], y - begun.from[1]];
        if (!begun.moved && Math.hypot(dx, dy) < DRAG) return;
        begun.moved = true;
        setView({
          ...begun.view,
          middle: [begun.view.middle[0] - dx / begun.view.zoom, begun.view.middle[1] - dy / begun.view.zoom],
        });
      }}
      onPointerUp={(event) => {
        const begun = drag.current;
        drag.current = null;
        if (begun && !begun.moved && onPoint) onPoint(applyMatrix(back, inPane(event)), reach);
      }}
    >
      <canvas ref={canvas} />
    </div>
  );
}

function drawCross(
  context: CanvasRenderingContext2D,
  [x, y]: Point2,
  { width, height }: { readonly width: number; readonly height: number },
): void {
  context.setLineDash([]);
  context.strokeStyle = "#23211f";
  context.lineWidth = 1;
  context.beginPath();
  context.moveTo(0, y);
  context.lineTo(width, y);
  context.moveTo(x, 0);
  context.lineTo(x, height);
  context.stroke();
}
