import type { Point2 } from "../geometry/point.ts";
import type { Ring } from "../geometry/polygon.ts";

/** What a place of the drawing is: an end or corner of a line, a crossing of two, a middle, the foot of a perpendicular, a place on a line. */
export type DrawnPlaceKind = "end" | "intersection" | "mid" | "perpendicular" | "along";

/** A place of the drawing near the pointer, sheet space. */
export interface DrawnPlace {
  readonly at: Point2;
  readonly kind: DrawnPlaceKind;
}

/** Why following a line stopped: nothing goes on; several lines do; a clip or the page's edge cuts it; it came round; it took too many steps. */
export type DrawnStop = "end" | "branch" | "cut" | "closed" | "limit";

/** A way that leaves a followed line. Sheet space. */
export interface DrawnBranch {
  /** Where it leaves. */
  readonly at: Point2;
  /** A place farther along its first stretch. */
  readonly towards: Point2;
  /** The number of the line it begins with, for `goAlong`. */
  readonly segment: number;
}

/** A line of the drawing, followed from a place. Sheet space. */
export interface DrawnRun {
  /** In order; of a closed line the first is not repeated. */
  readonly vertices: readonly Point2[];
  readonly closed: boolean;
  /** The breaks that were taken to be crossed. */
  readonly bridged: readonly { readonly from: Point2; readonly to: Point2 }[];
  /** Why it stops at the first vertex and at the last. */
  readonly stops: readonly [DrawnStop, DrawnStop];
  /** Where other lines leave it: on its way, and at its ends where several lines go on. */
  readonly branches: readonly DrawnBranch[];
}

/** The closed region round a place, or why there is none: nothing closes, only the sheet's border does, the place lies on a line, the lines are too many to be sure. */
export type DrawnRegion =
  | { readonly found: true; readonly outline: Ring; readonly openings: number }
  | { readonly found: false; readonly why: "open" | "frame" | "on-a-line" | "too-dense" };

/** The lines that are drawn on a sheet, as far as tools ask about them. Places and distances in sheet space. */
export interface DrawnLines {
  /** The best place within `reach`; `from` is the last point put, where perpendiculars start. */
  place(at: Point2, reach: number, from: Point2 | undefined): DrawnPlace | null;
  /** The line within `reach` of a place, followed both ways; null where there is none. */
  follow(at: Point2, reach: number): DrawnRun | null;
  /** The line a branch begins, followed from where it leaves on; its first vertex is that place. */
  goAlong(branch: DrawnBranch): DrawnRun;
  region(at: Point2): DrawnRegion;
}
