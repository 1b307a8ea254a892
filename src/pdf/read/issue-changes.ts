import type { Point2 } from "../../geometry/point.ts";
import { locate } from "../../geometry/polygon.ts";
import { mapBy, type Similarity } from "../../geometry/similarity.ts";
import { changedLine, distanceToPath, twoIssues } from "./changed-line.ts";
import { type ChangedText, type ComparedTexts, changedTexts } from "./changed-texts.ts";
import { type ComparedLines, type ComparisonProgress, compareLinework, type LinePieces } from "./compare-linework.ts";
import type { IssueContent } from "./issue-content.ts";

/** Something that lies on the old issue of a sheet: its lines in that sheet's space. */
export interface ThingOnSheet {
  readonly key: string;
  /** What it is traced along, each piece by its points; one point for what is placed. */
  readonly paths: readonly (readonly Point2[])[];
  /** An area: texts inside it are its own, and what stands beside its outline is not. */
  readonly encloses: boolean;
}

/** What the new issue shows otherwise where a thing lies. Things where it shows nothing else have none. */
export interface ThingChange {
  readonly key: string;
  readonly line: { readonly there: number; readonly movedPt: number | null } | null;
  readonly beside: boolean;
  readonly texts: readonly { readonly was: string | null; readonly now: string | null }[];
}

/** What differs between two issues of a sheet, line by line, text by text, and thing by thing. */
export interface IssueChanges {
  /** Whether one of the two has no lines: it is a picture, and nothing is compared. */
  readonly isPicture: boolean;
  readonly lines: ComparedLines;
  readonly texts: ComparedTexts;
  readonly things: readonly ThingChange[];
}

/** A path of which less is drawn was not traced on a drawn line. */
const TRACED = 0.25;
/** So much of its line is there when nothing is missing that tells. */
const ALL_THERE = 0.9;
/** So much drawn beside a thing is more than an end of something else, 1/72 in. of paper. */
const BESIDE_PT = 14;
/** How far from a thing a text may stand that speaks of it, 1/72 in. of paper. */
const NEXT_TO_PT = 40;

const NO_PIECES: LinePieces = { coords: new Float32Array(), of: new Uint32Array() };
const NOT_COMPARED: IssueChanges = {
  isPicture: true,
  lines: { both: NO_PIECES, oldOnly: NO_PIECES, newOnly: NO_PIECES },
  texts: { changed: [], both: [] },
  things: [],
};

/** Compares two issues of a sheet, and what lies on the old one with what the new one draws there. */
export function issueChanges(
  old: IssueContent,
  fresh: IssueContent,
  sim: Similarity,
  things: readonly ThingOnSheet[],
  onProgress?: ComparisonProgress,
): IssueChanges {
  if (old.linework.count === 0 || fresh.linework.count === 0) return NOT_COMPARED;
  const lines = compareLinework(old.linework, fresh.linework, sim, onProgress);
  const { userUnit } = fresh.linework;
  const texts = changedTexts(old.texts, fresh.texts, sim, userUnit);
  const issues = twoIssues(old.linework, fresh.linework, sim, lines);
  const spoken = textsOfThings(
    texts.changed.filter(({ tells }) => tells),
    things,
    sim,
    NEXT_TO_PT / userUnit,
  );
  const changes = things.flatMap(({ key, paths, encloses }): ThingChange[] => {
    const found = paths.map((path) => ({ ...changedLine(issues, path), length: lengthOf(path) }));
    const told = found.filter(({ drawn }) => drawn >= TRACED);
    const drawn = told.reduce((sum, each) => sum + each.drawn * each.length, 0);
    const there = drawn === 0 ? 1 : told.reduce((sum, each) => sum + each.there * each.drawn * each.length, 0) / drawn;
    const moved = told.flatMap(({ movedPt }) => (movedPt === null ? [] : [movedPt]));
    const line = there < ALL_THERE ? { there, movedPt: moved.length > 0 ? Math.max(...moved) : null } : null;
    const beside = !encloses && found.some(({ besidePt }) => besidePt >= BESIDE_PT);
    const own = spoken.get(key) ?? [];
    return line || beside || own.length > 0
      ? [{ key, line, beside, texts: own.map(({ was, now }) => ({ was, now })) }]
      : [];
  });
  return { isPicture: false, lines, texts, things: changes };
}

const lengthOf = (path: readonly Point2[]): number =>
  path.reduce((sum, [x, y], i) => (i === 0 ? 0 : sum + Math.hypot(x - path[i - 1]![0], y - path[i - 1]![1])), 0);

/** The texts that speak of each thing: of what is traced or placed, the nearest within reach; of areas, those that hold the text where no such thing does. */
function textsOfThings(
  texts: readonly ChangedText[],
  things: readonly ThingOnSheet[],
  sim: Similarity,
  reach: number,
): ReadonlyMap<string, readonly ChangedText[]> {
  const map = mapBy(sim);
  const placed = things.map(({ key, paths, encloses }) => ({
    key,
    encloses,
    paths: paths.map((path) => path.map(map)),
  }));
  const found = new Map<string, ChangedText[]>();
  const add = (key: string, text: ChangedText) => found.set(key, [...(found.get(key) ?? []), text]);
  for (const text of texts) {
    const near = placed
      .filter(({ encloses }) => !encloses)
      .map(({ key, paths }) => ({ key, off: Math.min(...paths.map((path) => distanceToPath(text.at, path))) }))
      .filter(({ off }) => off <= reach)
      .sort((a, b) => a.off - b.off);
    const [nearest] = near;
    if (nearest) for (const { key, off } of near) off <= nearest.off * 1.01 + 0.1 ? add(key, text) : undefined;
    else
      for (const { key, paths } of placed.filter(({ encloses }) => encloses))
        if (paths[0] && locate({ outline: paths[0].slice(0, -1), holes: [] }, text.at) !== "outside") add(key, text);
  }
  return found;
}
