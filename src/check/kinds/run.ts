import { distance2, lerp2, type Point2, type Point3 } from "../../geometry/point.ts";
import { mapBy } from "../../geometry/similarity.ts";
import type { Run } from "../../job/elements/run.ts";
import { findRacewayKind, findRacewaySize } from "../../trade/raceways.ts";
import { toInches } from "../../units/length.ts";
import { type Inches, inches } from "../../units/quantity.ts";
import type { Reason } from "../finding.ts";
import { type Piece, roundPiece } from "../piece.ts";
import { type Missing, type Reading, reason } from "../reading.ts";
import type { Scene } from "../scene.ts";
import { type AxisElevation, axisAtTag, loweredTagText, tagElevation } from "../tag-elevation.ts";
import { asGiven, sourceText, written } from "../words.ts";
import { recordedFact } from "./facts.ts";
import type { CheckKind, ElementShape, Gap } from "./kind.ts";

/** Runs: a round piece for every segment between two vertices whose elevations are known. */
export const runKind: CheckKind<Run> = {
  shape(scene, run) {
    const size = outsideDiameter(run, scene.system);
    const registered = scene.registration(run.viewport);
    const elementClass = findRacewayKind(run.wiring.type)?.elementClass ?? "raceway";
    if (!registered.ok || !size.known || run.vertices.length < 2) {
      const missing = !registered.ok
        ? [
            {
              text: `${run.label}: its viewport has no scale or is not registered`,
              remedy: { kind: "record-fact", text: "Set the scale of its viewport." },
            } as const,
          ]
        : !size.known
          ? size.missing
          : [
              {
                text: `${run.label} has one point only`,
                remedy: { kind: "record-fact", text: "Trace it again, with at least two points." },
              } as const,
            ];
      const sheetLengths = run.vertices.slice(1).map((v, i) => distance2(run.vertices[i]!.at, v.at));
      const total = sheetLengths.reduce((a, b) => a + b, 0);
      return {
        elementClass,
        root: registered.ok ? registered.value.root : undefined,
        pieces: [],
        gaps: [{ from: 0, to: 0, missing }],
        reasonsAt: () => (size.known ? [size.explain()] : []),
        sheetAt: () =>
          along(
            run.vertices.map((v) => v.at),
            sheetLengths,
            total / 2,
          ),
        planTolerance: 0,
        loweredTags: () => [],
      };
    }
    return placed(
      scene,
      run,
      size.value,
      size.explain,
      registered.value.root,
      mapBy(registered.value.sim),
      registered.value.worst,
      elementClass,
    );
  },
  fact(_scene, run, name) {
    if (name === "wiring.kind")
      return { known: true, value: run.wiring.type, from: `the type recorded for ${run.label}` };
    return recordedFact(run.facts, run.label, name);
  },
};

function placed(
  scene: Scene,
  run: Run,
  diameter: Inches,
  sizeReason: () => Reason,
  root: string,
  toBuilding: (at: Point2) => Point2,
  planTolerance: number,
  elementClass: ElementShape["elementClass"],
): ElementShape {
  const radius = inches(diameter / 2);
  const plan = run.vertices.map((v) => toBuilding(v.at));
  const read = run.vertices.map((v, i) =>
    v.tag ? (axisAtTag(scene, root, plan[i]!, v.tag, radius) ?? UNREAD) : undefined,
  );
  const levels = read.every(isLevel) ? read : axisLevels(plan, read);
  /** The tags with what led to their elevations, for reasons. */
  const readTags = (): (Reading<AxisElevation> | undefined)[] =>
    run.vertices.map((v, i) =>
      v.tag ? tagElevation(scene, root, plan[i]!, v.tag, radius, `Tag at vertex ${i + 1} of ${run.label}`) : undefined,
    );
  const pointAt = (i: number): Point3 | undefined => {
    const level = levels[i];
    return level && [plan[i]![0], plan[i]![1], level.z];
  };
  const pieces: Piece[] = [];
  const gaps: Gap[] = [];
  const stations = [0];
  let p = pointAt(0);
  for (let i = 0; i + 1 < plan.length; i++) {
    const q = pointAt(i + 1);
    const from = stations[i]!;
    if (p && q) {
      const tolerance = Math.max(levels[i]!.tolerance, levels[i + 1]!.tolerance);
      const piece = roundPiece(p, q, radius, from, inches(tolerance));
      stations.push(piece.to);
      pieces.push(piece);
    } else {
      stations.push(from + distance2(plan[i]!, plan[i + 1]!));
      gaps.push({ from, to: stations[i + 1]!, missing: missingAround(run, readTags(), i) });
    }
    p = q;
  }
  return {
    elementClass,
    root,
    pieces,
    gaps,
    reasonsAt: (station) => [sizeReason(), ...tagsAround(readTags(), stations, station).map((tag) => tag.explain())],
    sheetAt: (station) => sheetAtStation(run, stations, station),
    planTolerance,
    loweredTags: (by) =>
      run.vertices.flatMap((v, i) => (v.tag ? [`${loweredTagText(v.tag, by, scene.system)} at vertex ${i + 1}`] : [])),
  };
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
        levels[n] = { z: inches(a.z + (b.z - a.z) * t), tolerance: inches(Math.max(a.tolerance, b.tolerance)) };
      }
    }
    i = j;
  }
  return levels;
}

/** What is missing for the segment after vertex i: the unreadable tags around it, else a tag at the nearest end of the run. */
function missingAround(
  run: Run,
  readings: readonly (Reading<AxisElevation> | undefined)[],
  i: number,
): readonly Missing[] {
  const before = readings.slice(0, i + 1).findLast((r) => r !== undefined);
  const after = readings.slice(i + 1).find((r) => r !== undefined);
  const unread = [before, after].flatMap((r) => (r && !r.known ? r.missing : []));
  if (unread.length > 0) return unread;
  if (!before && !after) {
    const text = `${run.label} has no elevation tags`;
    return [{ text, remedy: { kind: "record-fact", text: `Give ${run.label} an elevation tag at both ends.` } }];
  }
  const vertex = after ? 1 : run.vertices.length;
  return [
    {
      text: `${run.label} has no elevation tag at vertex ${vertex}`,
      remedy: { kind: "record-fact", text: `Give ${run.label} an elevation tag at vertex ${vertex}.` },
    },
  ];
}

function outsideDiameter(run: Run, system: "imperial" | "metric"): Reading<Inches> {
  const { type, tradeSize, outsideDiameter: own } = run.wiring;
  const kind = findRacewayKind(type);
  const name = `${tradeSize} ${kind?.short ?? type}`;
  if (own) {
    return {
      known: true,
      value: toInches(own),
      explain: () =>
        reason(`Outside diameter of ${run.label}, ${name}`, {
          value: asGiven(own, system),
          quantity: { is: "diameter", in: toInches(own) },
          source: `as recorded for ${run.label}`,
        }),
    };
  }
  const row = findRacewaySize(type, tradeSize);
  if (row) {
    return {
      known: true,
      value: row.outside.value,
      explain: () =>
        reason(`Outside diameter of ${name}`, {
          value: written(row.outside.value, system),
          quantity: { is: "diameter", in: row.outside.value },
          source: sourceText(row.outside.source),
        }),
    };
  }
  const text = `${run.label}: the outside diameter of ${name} is not in the tables`;
  return {
    known: false,
    missing: [
      {
        text,
        remedy: {
          kind: "record-fact",
          text: `Choose a type and trade size for ${run.label}, or record its outside diameter.`,
        },
      },
    ],
    explain: () => reason(text),
  };
}

function sheetAtStation(run: Run, stations: readonly number[], station: number): Point2 {
  const last = stations.length - 1;
  let i = 0;
  while (i < last - 1 && station > stations[i + 1]!) i++;
  const span = stations[i + 1]! - stations[i]!;
  const t = span > 0 ? Math.min(1, Math.max(0, (station - stations[i]!) / span)) : 0;
  return lerp2(run.vertices[i]!.at, run.vertices[i + 1]!.at, t);
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
