import { getDocument, PDFWorker } from "pdfjs-dist";
import EngineCore from "pdfjs-dist/build/pdf.worker.min.mjs?worker";
import type { RenderingState } from "../../src/canvas/drawing-layer.ts";
import { PageRenderer, startDrawingWorker } from "../../src/canvas/page-renderer.ts";
import type { OpenedPlan, RenderRequest } from "../../src/canvas/page-renderer-protocol.ts";
import { type SheetPointer, SheetView } from "../../src/canvas/sheet-view.ts";

/** What the tests do with a sheet view in a browser, from outside the page. */
const host = document.getElementById("host")!;
const workers: Worker[] = [];
const lost: { message: string; final: boolean }[] = [];
const states: RenderingState[] = [];
const pointers: SheetPointer[] = [];
const errors: string[] = [];
const answer: { drag: "taken" | "pan" } = { drag: "pan" };
let lastState = 0;

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
  view.showPage(opened.value.handle, opened.value.pages.find((each) => each.page === page)!);
  await settled();
  return opened.value;
};

/** Resolves when the pictures shown are sharp and have been for a moment. */
const settled = (): Promise<void> =>
  new Promise((resolve) => {
    const look = setInterval(() => {
      if (states.at(-1)?.phase !== "done" || performance.now() - lastState < 250) return;
      clearInterval(look);
      resolve();
    }, 20);
  });

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

/** The same with nothing but pdf.js on a canvas of the page. */
const timeBare = async (path: string, page: number, scale: number): Promise<number> => {
  const data = new Uint8Array(await bytesOf(path));
  const task = getDocument({
    data,
    worker: core,
    verbosity: 0,
    useSystemFonts: false,
    standardFontDataUrl: new URL("pdfjs/standard_fonts/", document.baseURI).href,
  });
  const proxy = await (await task.promise).getPage(page);
  const start = performance.now();
  const viewport = proxy.getViewport({ scale });
  const canvas = document.createElement("canvas");
  canvas.width = Math.ceil(viewport.width);
  canvas.height = Math.ceil(viewport.height);
  await proxy.render({ canvas, viewport }).promise;
  force(canvas);
  const ms = performance.now() - start;
  await task.destroy();
  return ms;
};

/** Frame times of a pan in small steps, milliseconds. */
const timePan = async (steps: number): Promise<number[]> => {
  const times: number[] = [];
  const frame = () => new Promise<number>((resolve) => requestAnimationFrame(resolve));
  let before = await frame();
  for (let i = 0; i < steps; i++) {
    view.panBy(i % 60 < 30 ? 4 : -4, 2);
    const now = await frame();
    times.push(now - before);
    before = now;
  }
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
  timePan,
};
/** What `page.evaluate` finds as `desk`. */
export type CanvasDesk = typeof desk;
Object.assign(globalThis, { desk });
