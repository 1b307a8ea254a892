import { getDocument, PDFWorker } from "pdfjs-dist";
import EngineCore from "pdfjs-dist/build/pdf.worker.min.mjs?worker";
import type { RenderingState } from "../../src/canvas/drawing-layer.ts";
import { PageRenderer } from "../../src/canvas/page-renderer.ts";
import type { OpenedPlan, PixelRegion, RenderRequest } from "../../src/canvas/page-renderer-protocol.ts";
import type { ScreenMark } from "../../src/canvas/screen-mark.ts";
import { type SheetPointer, SheetView } from "../../src/canvas/sheet-view.ts";
import { startDrawingWorker } from "../../src/canvas/start-drawing-worker.ts";
import type { PictureItem } from "../../src/geometry/picture.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import { radians } from "../../src/units/quantity.ts";
import { type FrameTimes, frameTimes, gestureStep } from "./frame-times.ts";
import { markCrowd } from "./mark-crowd.ts";

/** What the tests do with a sheet view in a browser, from outside the page. */
const host = document.getElementById("host")!;
const workers: Worker[] = [];
const lost: { message: string; final: boolean }[] = [];
const states: RenderingState[] = [];
const pointers: SheetPointer[] = [];
const errors: string[] = [];
const answer: { drag: "taken" | "pan" } = { drag: "pan" };
const hearing: { pointer: (event: SheetPointer) => void } = { pointer: () => undefined };
let lastState = 0;
/** The view box of the page shown, sheet space. */
let shown: readonly [number, number, number, number] = [0, 0, 612, 792];

const renderer = new PageRenderer({
  onLost: ({ message, final }) => lost.push({ message, final }),
  startWorker: () => {
    const worker = startDrawingWorker();
    workers.push(worker);
    return worker;
  },
});
const view = new SheetView(host, renderer, {
  onPointer: (event) => {
    pointers.push(event);
    hearing.pointer(event);
    return answer.drag;
  },
  onRendering: (state) => {
    lastState = performance.now();
    states.push(state);
  },
  onError: (error) => errors.push(String(error)),
});

const bytesOf = async (path: string): Promise<ArrayBuffer> => (await fetch(path)).arrayBuffer();

const open = async (path: string, password?: string) =>
  renderer.open(await bytesOf(path), { name: path, ...(password === undefined ? {} : { password }) });

/** Opens a drawing and shows a page of it, sharp. */
const show = async (path: string, page = 1): Promise<OpenedPlan> => {
  const opened = await open(path);
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  states.length = 0;
  const geometry = opened.value.pages.find((each) => each.page === page)!;
  shown = geometry.view;
  view.showPage(opened.value.handle, geometry);
  await settled();
  return opened.value;
};

/** Resolves when the pictures shown are sharp and have been for a moment. */
const settled = async (): Promise<void> => {
  // A zoom or a move counts as over a moment after its last step.
  await new Promise((resolve) => setTimeout(resolve, 180));
  return new Promise((resolve) => {
    const look = setInterval(() => {
      if (states.at(-1)?.phase !== "done" || performance.now() - lastState < 250) return;
      clearInterval(look);
      resolve();
    }, 20);
  });
};

const pixelsOf = async (request: RenderRequest): Promise<Uint8ClampedArray> => {
  const { bitmap } = await renderer.render(request);
  const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
  const context = canvas.getContext("2d", { willReadFrequently: true })!;
  context.drawImage(bitmap, 0, 0);
  bitmap.close();
  return context.getImageData(0, 0, canvas.width, canvas.height).data;
};

/** Two pictures of the same request, a while apart: how many colour values differ, and how many are dark. */
const compare = async (request: RenderRequest, pause: number): Promise<{ differ: number; dark: number }> => {
  const before = await pixelsOf(request);
  await new Promise((resolve) => setTimeout(resolve, pause));
  const after = await pixelsOf(request);
  let [differ, dark] = [0, 0];
  for (let i = 0; i < before.length; i++) {
    if (before[i] !== after[i]) differ++;
    if (after[i]! < 128) dark++;
  }
  return { differ, dark };
};

/** Reads one pixel of a picture, so that no drawing is left for later. */
const force = (picture: CanvasImageSource): void => {
  const context = new OffscreenCanvas(1, 1).getContext("2d", { willReadFrequently: true })!;
  context.drawImage(picture, 0, 0);
  context.getImageData(0, 0, 1, 1);
};

/** Milliseconds from asking for a page that nobody has drawn yet to its picture in the view. */
const timeView = async (path: string, page: number): Promise<{ ms: number; scale: number }> => {
  const opened = await open(path);
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  states.length = 0;
  const start = performance.now();
  view.showPage(opened.value.handle, opened.value.pages.find((each) => each.page === page)!);
  while (states.at(-1)?.phase !== "done") await new Promise((resolve) => setTimeout(resolve, 0));
  force(host.querySelector<HTMLCanvasElement>("canvas[data-part=base]")!);
  const ms = performance.now() - start;
  await renderer.close(opened.value.handle);
  return { ms, scale: view.view().scale * devicePixelRatio };
};

const core = new PDFWorker({ port: new EngineCore() as unknown as null });

/** A page of a file, opened with nothing but pdf.js, until it is closed. */
const barePage = async (path: string, page: number) => {
  const data = new Uint8Array(await bytesOf(path));
  const task = getDocument({
    data,
    worker: core,
    verbosity: 0,
    useSystemFonts: false,
    standardFontDataUrl: new URL("pdfjs/standard_fonts/", document.baseURI).href,
  });
  return { proxy: await (await task.promise).getPage(page), close: () => task.destroy() };
};

/** Pixels of a part of a page as nothing but pdf.js draws it, on the kind of canvas the view draws on. */
const bareRegion = async (path: string, scale: number, region: PixelRegion): Promise<Uint8ClampedArray> => {
  const { proxy, close } = await barePage(path, 1);
  const viewport = proxy.getViewport({ scale, offsetX: -region.x, offsetY: -region.y });
  const canvas = new OffscreenCanvas(region.width, region.height);
  await proxy.render({ canvas: canvas as unknown as HTMLCanvasElement, viewport }).promise;
  const { data: pixels } = canvas
    .getContext("2d", { willReadFrequently: true })!
    .getImageData(0, 0, canvas.width, canvas.height);
  await close();
  return pixels;
};

/** The sharp picture in the view, beside what nothing but pdf.js draws of its part of the page. */
const compareSharp = async (path: string): Promise<{ differ: number; dark: number; region: PixelRegion }> => {
  const sharp = host.querySelector<HTMLCanvasElement>("canvas[data-part=sharp]")!;
  const { width, height } = sharp;
  const at = new DOMMatrix(getComputedStyle(sharp).transform);
  const [left, top] = view.view().origin;
  const region = {
    x: Math.round((at.e - left) * devicePixelRatio),
    y: Math.round((at.f - top) * devicePixelRatio),
    width,
    height,
  };
  const copy = new OffscreenCanvas(width, height).getContext("2d", { willReadFrequently: true })!;
  copy.drawImage(sharp, 0, 0);
  const seen = copy.getImageData(0, 0, width, height).data;
  const bare = await bareRegion(path, view.view().scale * devicePixelRatio, region);
  let [differ, dark] = [0, 0];
  for (let i = 0; i < bare.length; i++) {
    if (seen[i] !== bare[i]) differ++;
    if (bare[i]! < 128) dark++;
  }
  return { differ, dark, region };
};

/** How dark the coarse picture of the page got while the first sharp one was drawn: its dark colour values, look by look. */
const watchFirst = async (path: string): Promise<{ dark: number[]; left: number }> => {
  const opened = await open(path);
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  const dark: number[] = [];
  states.length = 0;
  view.showPage(opened.value.handle, opened.value.pages[0]!);
  await Promise.resolve();
  while (states.at(-1)?.phase !== "done") {
    const coarse = host.querySelector<HTMLCanvasElement>("canvas[data-part=coarse]");
    const data = coarse?.getContext("2d")?.getImageData(0, 0, coarse.width, coarse.height).data;
    if (data) dark.push(data.reduce((sum, value) => sum + (value < 200 ? 1 : 0), 0));
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
  return { dark, left: host.querySelectorAll("canvas[data-part=coarse]").length };
};

/** Whether a coarse picture is in the view at once when a page is shown that was expected. */
const showExpected = async (path: string): Promise<{ before: number; after: number }> => {
  const opened = await open(path);
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  const { handle, pages } = opened.value;
  const coarse = async () => {
    view.showPage(handle, pages[0]!);
    await Promise.resolve();
    return host.querySelectorAll("canvas[data-part=coarse]").length;
  };
  view.expectPages([{ handle, page: 1 }]);
  await new Promise((resolve) => setTimeout(resolve, 3500));
  const after = await coarse();
  await settled();
  const other = await open(path);
  if (!other.ok) throw new Error("not open");
  view.showPage(other.value.handle, other.value.pages[0]!);
  await Promise.resolve();
  const before = host.querySelectorAll("canvas[data-part=coarse]").length;
  await settled();
  return { before, after };
};

/** Bytes of all pictures in the view. */
const shownBytes = (): number =>
  [...host.querySelectorAll("canvas[data-part]")].reduce(
    (sum, canvas) => sum + 4 * (canvas as HTMLCanvasElement).width * (canvas as HTMLCanvasElement).height,
    0,
  );

/** The same with nothing but pdf.js on a canvas of the page. */
const timeBare = async (path: string, page: number, scale: number): Promise<number> => {
  const { proxy, close } = await barePage(path, page);
  const start = performance.now();
  const viewport = proxy.getViewport({ scale });
  const canvas = document.createElement("canvas");
  canvas.width = Math.ceil(viewport.width);
  canvas.height = Math.ceil(viewport.height);
  await proxy.render({ canvas, viewport }).promise;
  force(canvas);
  const ms = performance.now() - start;
  await close();
  return ms;
};

/** Strews marks over the page shown. */
const strew = (count: number, moved?: number): void => {
  const [x0, y0, x1, y1] = shown;
  const { wiring, findings } = markCrowd(count, { x0, y0, x1, y1 }, moved);
  view.setMarks("wiring", wiring);
  view.setMarks("findings", findings);
};

/** Frame times of a pan or a zoom about the middle, in small steps. */
const timeGesture = (kind: "pan" | "zoom", steps: number, rest: number): Promise<FrameTimes> =>
  frameTimes(
    (step) => {
      const { dx, dy, factor } = gestureStep(kind, step);
      if (factor !== 1) view.zoomBy(factor);
      else view.panBy(dx, dy);
    },
    steps,
    rest,
  );

/** A run with handles, one vertex of it at a place: what is drawn while that vertex is dragged. */
const draggedRun = (at: Point2): ScreenMark => {
  const [from, to] = [
    view.screenToSheet([innerWidth / 2 - 300, innerHeight / 2]),
    view.screenToSheet([innerWidth / 2 + 300, innerHeight / 2 + 40]),
  ];
  const pixel = view.unitsPerPixel();
  const stroke = { r: 0.1, g: 0.3, b: 0.6 };
  const handle = ([x, y]: Point2, r: number): PictureItem => ({
    type: "path",
    steps: [["M", x - r, y - r], ["L", x + r, y - r], ["L", x + r, y + r], ["L", x - r, y + r], ["Z"]],
    stroke,
    width: pixel,
    fill: { r: 1, g: 1, b: 1 },
  });
  return {
    key: "draft",
    picture: [
      {
        type: "path",
        steps: [
          ["M", ...from],
          ["L", ...at],
          ["L", ...to],
        ],
        stroke,
        width: 2 * pixel,
        dash: [6 * pixel, 4 * pixel],
      },
      ...[from, at, to].map((p) => handle(p, 5 * pixel)),
      {
        type: "text",
        text: "R-1",
        at: [at[0] + 8 * pixel, at[1]],
        size: 12 * pixel,
        angle: radians(0),
        align: "start",
        face: "regular",
        fill: stroke,
      },
    ],
  };
};

/** Frame times of dragging one vertex: pointer events to the view, the run being dragged as its draft. */
const timeDrag = async (steps: number, rest: number): Promise<FrameTimes> => {
  const target = host.firstElementChild!;
  const send = (type: string, x: number, y: number) =>
    target.dispatchEvent(
      new PointerEvent(type, {
        clientX: x,
        clientY: y,
        pointerId: 1,
        pointerType: "mouse",
        button: type === "pointermove" ? -1 : 0,
        buttons: 1,
        bubbles: true,
      }),
    );
  const before = { drag: answer.drag, hear: hearing.pointer };
  answer.drag = "taken";
  hearing.pointer = (event) => {
    if (event.kind === "move") view.setMarks("draft", [draggedRun(event.at)]);
  };
  const [x, y] = [innerWidth / 2, innerHeight / 2];
  send("pointerdown", x, y);
  const times = await frameTimes(
    (step) => send("pointermove", x + 120 * Math.sin(step / 9), y + 80 * Math.cos(step / 9)),
    steps,
    rest,
  );
  send("pointerup", x, y);
  view.setMarks("draft", []);
  answer.drag = before.drag;
  hearing.pointer = before.hear;
  return times;
};

const desk = {
  view,
  renderer,
  workers,
  lost,
  states,
  pointers,
  errors,
  answer,
  open,
  show,
  settled,
  pixelsOf,
  compare,
  timeView,
  timeBare,
  compareSharp,
  watchFirst,
  showExpected,
  shownBytes,
  strew,
  timeGesture,
  timeDrag,
};
/** What `page.evaluate` finds as `desk`. */
export type CanvasDesk = typeof desk;
Object.assign(globalThis, { desk });
