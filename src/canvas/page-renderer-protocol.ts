import type { FoundGrid } from "../pdf/read/find-grid.ts";
import type { PackedLinework } from "../pdf/read/packed-linework.ts";
import type { PageGeometry } from "../pdf/read/page-geometry.ts";
import type { PageSurvey } from "../pdf/read/page-survey.ts";
import type { PageWords } from "../pdf/read/page-words.ts";
import type { PageContents, PlanLayer } from "../pdf/read/plan-contents.ts";
import type { SheetEntry } from "../pdf/read/sheet-index.ts";
import type { Problem, Result } from "../units/problem.ts";

/** A rectangle of the displayed page in pixels at the scale of a request; whole numbers, y down. */
export interface PixelRegion {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** What to draw: `scale` is pixels per 1/72 in. of paper, user unit included. */
export interface RenderRequest {
  readonly handle: number;
  readonly page: number;
  readonly scale: number;
  /** The whole page when left out. */
  readonly region?: PixelRegion;
  /** The layers not to draw, by id, all others being drawn; when left out, as the file has it. */
  readonly hiddenLayers?: readonly string[];
  /** Send coarse pictures of what is there while it is being drawn. */
  readonly sendUnfinished?: boolean;
}

/** A coarse picture of a whole page, to be shown until a sharp one is there. */
export interface CoarseRequest {
  readonly handle: number;
  readonly page: number;
  /** Pixels of its longer side. */
  readonly side: number;
}

/** A drawn page or part of one. */
export interface RenderedPage {
  readonly bitmap: ImageBitmap;
  readonly region: PixelRegion;
  /** True when the page asks for a colour transfer this way of drawing leaves out: the picture is close, not exact. */
  readonly approximate: boolean;
}

/** An opened drawing. */
export interface OpenedPlan {
  readonly handle: number;
  readonly pages: readonly PageGeometry[];
  readonly labels: readonly (string | null)[];
  readonly layers: readonly PlanLayer[];
  readonly warnings: readonly Problem[];
}

/** The vector paths of a page, the grids found in them, and what its text says. */
export interface SentLines {
  readonly linework: PackedLinework;
  readonly grids: readonly FoundGrid[];
  readonly words: PageWords;
}

/** What the page may ask of the worker; each answer is named beside it. */
export interface WorkerCalls {
  open: { ask: { handle: number; file: Blob; name?: string; password?: string }; answer: Result<OpenedPlan> };
  render: { ask: RenderRequest; answer: RenderedPage };
  coarse: { ask: CoarseRequest; answer: RenderedPage };
  contents: { ask: { handle: number; page: number }; answer: PageContents };
  entry: { ask: { handle: number; page: number }; answer: SheetEntry };
  survey: { ask: { handle: number; page: number }; answer: PageSurvey };
  lines: { ask: { handle: number; page: number }; answer: SentLines };
  close: { ask: { handle: number }; answer: null };
}
export type CallName = keyof WorkerCalls;

/** Page to worker. `assets` is the folder of pdf.js's fonts, character maps and decoders, absolute, ending in "/". */
export type ToWorker =
  | { readonly type: "start"; readonly assets: string }
  | {
      [N in CallName]: {
        readonly type: "call";
        readonly id: number;
        readonly name: N;
        readonly ask: WorkerCalls[N]["ask"];
      };
    }[CallName]
  | { readonly type: "cancel"; readonly id: number };

/** Worker to page. `stopped` means that the worker can do no more and has to be replaced. */
export type FromWorker =
  | { readonly type: "answer"; readonly id: number; readonly answer: unknown }
  | { readonly type: "progress"; readonly id: number; readonly done: number; readonly total: number }
  | { readonly type: "unfinished"; readonly id: number; readonly bitmap: ImageBitmap }
  | { readonly type: "cancelled"; readonly id: number }
  | { readonly type: "failed"; readonly id: number; readonly message: string }
  | { readonly type: "stopped"; readonly message: string };
