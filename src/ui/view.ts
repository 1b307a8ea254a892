import { createStore } from "zustand/vanilla";
import type { Verdict } from "../check/finding.ts";
import type { Point2 } from "../geometry/point.ts";
import type { RoomMapChoice } from "../issue/room-map-marks.ts";
import type { IssueChoice } from "./host.ts";

/** What is open and shown on the desk: nothing of it belongs to the job. */
export interface ViewState {
  /** Whether the stage in hand has its drawer open. */
  readonly drawer: boolean;
  readonly finder: boolean;
  /** Labels are being looked for. */
  readonly labels: boolean;
  /** Verdicts that the findings list leaves out. */
  readonly hidden: readonly Verdict[];
  /** A place to be marked on the sheet while the profile is being read, sheet space. */
  readonly profileSpot: { readonly sheet: string; readonly at: Point2 } | null;
  /** What was chosen at the Issue stage, kept while the desk is open. */
  readonly issue: Omit<IssueChoice, "sheets"> & { readonly left: readonly string[] };
  /** What is known of the lines of a sheet's drawing: the one shown last. */
  readonly lines: { readonly sheet: string; readonly is: "reading" | "there" | "partial" | "none" | "stopped" } | null;
  /** How often somebody asked for them after they were not read. */
  readonly linesAsked: number;
  /** The size the sheet shows the room for, and the ceiling it has to stay above, counted as the deck areas are; null while it shows none. */
  readonly roomMap: RoomMapChoice | null;
  /** The viewport whose grid is being compared with that of the sheet it is to lie on; null while none is. */
  readonly byGrid: string | null;
  /** What is open of a sheet's issues: choosing and laying a new one, or comparing it with the one before, from a mark on. */
  readonly issues:
    | { readonly is: "lay"; readonly sheet: string }
    | { readonly is: "compare"; readonly sheet: string; readonly begin: string | undefined }
    | null;
  /** The hidden layers of the drawing of each sheet that somebody chose layers for, by sheet; of another the file's own choice holds. */
  readonly layers: Readonly<Record<string, readonly string[]>>;
  /** The drawing is greyed so that the marks stand out. */
  readonly faded: boolean;
  /** A finger that aims or drags a point: where it is and where the point goes, CSS pixels of the sheet's host, and the topmost mark there. */
  readonly finger: { readonly at: Point2; readonly goes: Point2; readonly mark: string | null } | null;
  /** The section through any run is shown where the pointer or the crosshair is on it. */
  readonly sections: boolean;
  /** Read out by screen readers; replaced to be read again. */
  readonly said: string;
}

/** The state of the view, and what brings a place of the sheet into sight. */
export interface View {
  readonly store: ReturnType<typeof createViewStore>;
  /** Brings a place of the shown sheet into view, `closer` near enough to read what stands there; set by the sheet while it is there. */
  goTo: (at: Point2, closer?: boolean) => void;
  fit: () => void;
  /** Fits again what was fitted and not moved since: the room for it has changed. */
  refit: () => void;
  focusSheet: () => void;
  /** Takes the focus to the field of the tool in hand; false while there is none. */
  focusTyped: () => boolean;
  zoom: (factor: number) => void;
}

/** The state of a view, to begin with. */
const createViewStore = () =>
  createStore<ViewState>(() => ({
    drawer: true,
    finder: false,
    labels: false,
    hidden: [],
    profileSpot: null,
    issue: { author: "", report: "with", form: "annotations", copy: "none", left: [] },
    lines: null,
    linesAsked: 0,
    roomMap: null,
    byGrid: null,
    issues: null,
    layers: {},
    faded: false,
    sections: false,
    finger: null,
    said: "",
  }));

/** A view with nothing open but the drawer. */
export const createView = (): View => ({
  store: createViewStore(),
  goTo: () => undefined,
  fit: () => undefined,
  refit: () => undefined,
  focusSheet: () => undefined,
  focusTyped: () => false,
  zoom: () => undefined,
});
