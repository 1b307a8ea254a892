import { distance2, lerp2, type Point2, type Point3 } from "../../geometry/point.ts";
import type { Tag } from "../../job/fields.ts";
import { type Inches, inches } from "../../units/quantity.ts";
import { barPiece, type RectangularSection } from "../bar-piece.ts";
import type { Reason } from "../finding.ts";
import { doubtBetween, doubtOf } from "../level-doubt.ts";
import { type Piece, roundPiece } from "../piece.ts";
import type { Missing, Reading } from "../reading.ts";
import type { Scene } from "../scene.ts";
import { type AxisElevation, axisAtTag, loweredTagText, tagElevation } from "../tag-elevation.ts";
import { bendPieces } from "./bend-pieces.ts";
import type { ElementShape, Gap, StandOut } from "./kind.ts";

/** Cross-section of a raceway or cable: round, or rectangular with its width level. */
export type Section = { readonly diameter: Inches } | RectangularSection;

/** Height of a section, from its bottom to its top. */
export const heightOf = (section: Section): Inches => ("diameter" in section ? section.diameter : section.height);

/** What is traced along vertices with tags: a run, or a raceway of a rack. Places are in building space, but for those of the vertices. */
export interface Traced {
  readonly label: string;
  readonly root: string;
  readonly elementClass: ElementShape["elementClass"];
  readonly vertices: readonly { readonly at: Point2; readonly tag: Tag | null }[];
  /** The vertices in plan: where tags are read and stations counted. */
  readonly plan: readonly Point2[];
  /** The axis in plan, where it is not on the vertices, and its places on the sheet. */
  readonly axis?: { readonly plan: readonly Point2[]; readonly sheet: readonly Point2[] };
  readonly section: Section;
  /** What the tags are called in reasons: K-1 for a raceway of that rack. */
  readonly tagged: string;
  /** How much higher the axis lies than the tag says of what it names, by its basis; for a raceway that is not the one the tags name. */
  readonly over?: (tag: Tag) => number;
  /** That step of a tag's reason. */
  readonly overReason?: (tag: Tag, reading: Reason) => Reason;
  readonly bendRadius?: Inches | undefined;
  readonly standOut?: StandOut | undefined;
  /** What could not be found out about it besides its place; withholds a verdict for all of it. */
  readonly missing: readonly Missing[];
  /** How its section was found, and what it is taken for. */
  readonly reasons: () => readonly Reason[];
  readonly planTolerance: number;
}

/** The shape of something traced: a piece for every segment between two vertices whose elevations are known. */
export function tracedShape(scene: Scene, traced: Traced): ElementShape {
  const { label, root, vertices, plan, section, over } = traced;
  const half = heightOf(section) / 2;
  const axis = traced.axis?.plan ?? plan;
  const read: (AxisElevation | typeof UNREAD | undefined)[] = [];
  let isTagged = true;
  for (let i = 0; i < vertices.length; i++) {
    const { tag } = vertices[i]!;
    const level = tag ? (axisAtTag(scene, root, plan[i]!, tag, half) ?? UNREAD) : undefined;
    isTagged &&= isLevel(level);
    read.push(tag && over && isLevel(level) ? { ...level, z: inches(level.z + over(tag)) } : level);
  }
  const levels = isTagged ? (read as readonly AxisElevation[]) : axisLevels(plan, read);
  const points: (Point3 | undefined)[] = [];
  for (let i = 0; i < axis.length; i++) {
    const level = levels[i];
    points.push(level && [axis[i]![0], axis[i]![1], level.z]);
  }
  const pieces: Piece[] = [];
  const gaps: Gap[] = [];
  const stations = [0];
  let ahead: Point2 = firstWay(axis);
  for (let i = 0; i + 1 < axis.length; i++) {
    const p = points[i];
    const q = points[i + 1];
    const from = stations[i]!;
    if (p && q) {
      const doubt = doubtOf(levels[i]!, levels[i + 1]!);
      const piece =
        "diameter" in section
          ? roundPiece(p, q, inches(half), from, doubt)
          : barPiece(p, q, section, ahead, from, doubt);
      if (p[0] !== q[0] || p[1] !== q[1]) ahead = [q[0] - p[0], q[1] - p[1]];
      stations.push(piece.to);
      pieces.push(piece);
    } else {
      stations.push(from + distance2(axis[i]!, axis[i + 1]!));
      gaps.push({
        from,
        to: stations[i + 1]!,
        missing: missingTags(label, vertices.length, readTags(scene, traced), i),
      });
    }
  }
  if (traced.bendRadius !== undefined && "diameter" in section)
    pieces.push(...bendPieces(points, stations, levels, traced.bendRadius, inches(half)));
  if (traced.missing.length > 0) gaps.push({ from: 0, to: stations.at(-1)!, missing: traced.missing });
  return new TracedShape(scene, traced, pieces, gaps, stations);
}

/** A class, not an object of closures: large jobs have tens of thousands of these, and few are ever asked for reasons. */
class TracedShape implements ElementShape {
  readonly elementClass: ElementShape["elementClass"];
  readonly root: string;
  readonly standOut?: StandOut;
  readonly planTolerance: number;

  constructor(
    private readonly scene: Scene,
    private readonly traced: Traced,
    readonly pieces: readonly Piece[],
    readonly gaps: readonly Gap[],
    private readonly stations: readonly number[],
  ) {
    this.elementClass = traced.elementClass;
    this.root = traced.root;
    this.planTolerance = traced.planTolerance;
    if (traced.standOut) this.standOut = traced.standOut;
  }

  reasonsAt(station?: number): readonly Reason[] {
    const tags = tagsAround(readTags(this.scene, this.traced), this.stations, station);
    return [...this.traced.reasons(), ...tags.map((tag) => tag.explain())];
  }

  sheetAt(station: number): Point2 {
    const { axis, vertices } = this.traced;
    return sheetAtStation((i) => axis?.sheet[i] ?? vertices[i]!.at, this.stations, station);
  }

  loweredTags(by: number): readonly string[] {
    return this.traced.vertices.flatMap(({ tag }, i) =>
      tag ? [`${loweredTagText(tag, by, this.scene.system)} at vertex ${i + 1}`] : [],
    );
  }
}

/** The tags with what led to their elevations, for reasons. */
function readTags(scene: Scene, traced: Traced): (Reading<AxisElevation> | undefined)[] {
  const { root, plan, section, overReason, tagged } = traced;
  const half = heightOf(section) / 2;
  return traced.vertices.map(({ tag }, i) => {
    if (!tag) return undefined;
    const reading = tagElevation(scene, root, plan[i]!, tag, half, `Tag at vertex ${i + 1} of ${tagged}`);
    if (!overReason || !reading.known) return reading;
    return { ...reading, explain: () => overReason(tag, reading.explain()) };
  });
}

/** The shape of something traced whose place or section is not known: nothing but what is missing, marked at its middle. */
export function unplacedShape(
  vertices: Traced["vertices"],
  root: string | undefined,
  elementClass: ElementShape["elementClass"],
  missing: readonly Missing[],
  reasons: () => readonly Reason[],
): ElementShape {
  const points = vertices.map(({ at }) => at);
  const lengths = points.slice(1).map((at, i) => distance2(points[i]!, at));
  return {
    elementClass,
    root,
    pieces: [],
    gaps: [{ from: 0, to: 0, missing }],
    reasonsAt: () => reasons(),
    sheetAt: () => along(points, lengths, lengths.reduce((a, b) => a + b, 0) / 2),
    planTolerance: 0,
    loweredTags: () => [],
  };
}

/** The direction of the first segment that has one; that of a run that goes straight up is the building's x. */
function firstWay(axis: readonly Point2[]): Point2 {
  for (let i = 0; i + 1 < axis.length; i++) {
    const [dx, dy] = [axis[i + 1]![0] - axis[i]![0], axis[i + 1]![1] - axis[i]![1]];
    if (dx !== 0 || dy !== 0) return [dx, dy];
  }
  return [1, 0];
}

/** A tag that is there and cannot be read: nothing is known on its account up to the next one on either side. */
const UNREAD = "unread";
const isLevel = (read: AxisElevation | typeof UNREAD | undefined): read is AxisElevation =>
  read !== undefined && read !== UNREAD;

/**
 * Elevations at all vertices: read at tags, linear in plan length between two tags, unknown before the first and after the last. `read` holds
 * what each tag says, nothing where there is no tag.
 */
function axisLevels(
  plan: readonly Point2[],
  read: readonly (AxisElevation | typeof UNREAD | undefined)[],
): (AxisElevation | undefined)[] {
  const levels = read.map((r) => (isLevel(r) ? r : undefined));
  let i = -1;
  for (let j = 0; j < read.length; j++) {
    if (read[j] === undefined) continue;
    const [a, b] = [levels[i], levels[j]];
    if (i >= 0 && j > i + 1 && a && b) {
      const lengths = plan.slice(i, j).map((p, n) => distance2(p, plan[i + n + 1]!));
      const total = lengths.reduce((sum, l) => sum + l, 0);
      let done = 0;
      for (let n = i + 1; n < j; n++) {
        done += lengths[n - 1 - i]!;
        const t = total > 0 ? done / total : (n - i) / (j - i);
        levels[n] = { z: inches(a.z + (b.z - a.z) * t), ...doubtBetween([a, b]) };
      }
    }
    i = j;
  }
  return levels;
}

/** What is missing for the segment after vertex i: the unreadable tags around it, else a tag at the nearest end of the run. */
function missingTags(
  label: string,
  count: number,
  readings: readonly (Reading<AxisElevation> | undefined)[],
  i: number,
): readonly Missing[] {
  const before = readings.slice(0, i + 1).findLast((r) => r !== undefined);
  const after = readings.slice(i + 1).find((r) => r !== undefined);
  const unread = [before, after].flatMap((r) => (r && !r.known ? r.missing : []));
  if (unread.length > 0) return unread;
  if (!before && !after) {
    const text = `${label} has no elevation tags`;
    return [{ text, remedy: { kind: "record-fact", text: `Give ${label} an elevation tag at both ends.` } }];
  }
  const vertex = after ? 1 : count;
  return [
    {
      text: `${label} has no elevation tag at vertex ${vertex}`,
      remedy: { kind: "record-fact", text: `Give ${label} an elevation tag at vertex ${vertex}.` },
    },
  ];
}

function sheetAtStation(pointOf: (vertex: number) => Point2, stations: readonly number[], station: number): Point2 {
  const last = stations.length - 1;
  let i = 0;
  while (i < last - 1 && station > stations[i + 1]!) i++;
  const span = stations[i + 1]! - stations[i]!;
  const t = span > 0 ? Math.min(1, Math.max(0, (station - stations[i]!) / span)) : 0;
  return lerp2(pointOf(i), pointOf(i + 1), t);
}

function along(points: readonly Point2[], lengths: readonly number[], distance: number): Point2 {
  let rest = distance;
  for (const [i, length] of lengths.entries()) {
    if (rest <= length && length > 0) return lerp2(points[i]!, points[i + 1]!, rest / length);
    rest -= length;
  }
  return points.at(-1) ?? [0, 0];
}

/** The tags a station's elevation was interpolated from: the next before and after it. All of them where no station is given. */
function tagsAround(
  readings: readonly (Reading<AxisElevation> | undefined)[],
  stations: readonly number[],
  station: number | undefined,
): Reading<AxisElevation>[] {
  if (station === undefined) return readings.filter((r) => r !== undefined);
  const after = readings.findIndex((r, i) => r && stations[i]! >= station - AT_VERTEX_IN);
  const before = readings.findLastIndex((r, i) => r && stations[i]! <= station + AT_VERTEX_IN);
  return [...new Set([before, after])].flatMap((i) => readings[i] ?? []);
}

/** A station this near to a vertex is at it, inches. */
const AT_VERTEX_IN = 1e-6;
