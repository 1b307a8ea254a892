/** Inches in a foot: plans are written in feet and drawn from inches. */
export const FOOT = 12;

/** A point in plan, inches from the first grid intersection, x east and y north. */
export type Plan = readonly [x: number, y: number];

/** Scale and place of a plan on its sheet: points a plan inch, and where the first grid intersection falls on the sheet as read. */
export interface PlanPlace {
  readonly pointsPerInch: number;
  readonly origin: readonly [x: number, y: number];
}

/** A plan point on the sheet as read. */
export const place = ({ pointsPerInch, origin }: PlanPlace, [x, y]: Plan): readonly [number, number] => [
  origin[0] + x * pointsPerInch,
  origin[1] + y * pointsPerInch,
];

/** A grid line by its name and where it lies, inches. */
export interface GridLine {
  readonly name: string;
  readonly at: number;
}

/** The grid of a building or of a part of it: lines across x, and across y, each from low to high. */
export interface Grid {
  readonly x: readonly GridLine[];
  readonly y: readonly GridLine[];
}

/** Every line of a grid between the outermost lines that cross it, each point put where `to` says. */
export function linesOfGrid<P>({ x, y }: Grid, to: (at: Plan) => P): { label: string; line: [P, P] }[] {
  const [west, east, south, north] = [x[0]!.at, x.at(-1)!.at, y[0]!.at, y.at(-1)!.at];
  return [
    ...x.map(({ name, at }) => ({ label: name, line: [to([at, south]), to([at, north])] as [P, P] })),
    ...y.map(({ name, at }) => ({ label: name, line: [to([west, at]), to([east, at])] as [P, P] })),
  ];
}

/** An upright rectangle by its low and high corners. */
export const rectangle = (x0: number, y0: number, x1: number, y1: number): readonly Plan[] => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];
