import type { DrawnLines, DrawnRun } from "../editor/drawn-lines.ts";
import { closedRegion } from "../pdf/read/closed-region.ts";
import { type FollowedLine, followBranch, followLine } from "../pdf/read/follow-line.ts";
import type { Linework } from "../pdf/read/linework.ts";
import { snapTo } from "../pdf/read/snap-to.ts";
import { sheetUnits } from "../units/quantity.ts";

/** What tools may ask of a page's linework; null for a page that has none, which is then a picture. */
export function drawnLinesOf(linework: Linework): DrawnLines | null {
  if (linework.count === 0) return null;
  return {
    place(at, reach, from) {
      const snap = snapTo(linework, at, sheetUnits(reach), undefined, from ? { from } : {});
      return snap && { at: snap.at, kind: snap.kind };
    },
    follow(at, reach) {
      const line = followLine(linework, at, { reach: sheetUnits(reach), atTees: "straight" });
      return line && drawnRunOf(line);
    },
    goAlong: (branch) => drawnRunOf(followBranch(linework, branch, { reach: sheetUnits(0), atTees: "straight" })),
    region(at) {
      const region = closedRegion(linework, at);
      return region.found ? { found: true, outline: region.outline, openings: region.holes.length } : region;
    },
  };
}

/** A raceway goes on past what branches off it; the branches are shown. */
const drawnRunOf = ({ vertices, closed, bridged, ends, passed }: FollowedLine): DrawnRun => ({
  vertices,
  closed,
  bridged,
  stops: [ends[0].why, ends[1].why],
  branches: [...passed, ...ends[0].branches, ...(closed ? [] : ends[1].branches)],
});
