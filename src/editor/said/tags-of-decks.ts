import { distance2, type Point2 } from "../../geometry/point.ts";
import { locate } from "../../geometry/polygon.ts";
import type { Id } from "../../job/fields.ts";
import { sheetToBuilding } from "../../job/registration.ts";
import type { Area, AreaShape, Job } from "../../job/schema.ts";
import { type Length, toInches } from "../../units/length.ts";
import { setElevation } from "../edits/areas.ts";
import { setStorey } from "../edits/storeys.ts";
import type { DrawnTag } from "./drawn-words.ts";
import { distanceToPlace, endsOf, middleOf } from "./near-text.ts";
import { readAsDeck } from "./read-tag.ts";
import { sameElevation, sameLength } from "./same-elevation.ts";
import type { Assumed, Lacking, Meaning, Read } from "./suggestion.ts";

/** A spot belongs to a tag within so many heights of its text. */
const SPOT_REACH = 6;
/** A tag on a slope speaks of a place within so many heights of its text: of its marker, or of the grid line it names. */
const SLOPE_REACH = 6;

type DeckRead = Extract<Read, { is: "deck" }>;

/** What a tag may mean for the decks it stands in: the level of one, the spot it stands at, the point a slope counts from. */
export function meaningsForDecks(job: Job, sheet: Id, tag: DrawnTag, assumed: Assumed): readonly Meaning[] {
  const at = middleOf(tag.run);
  return Object.entries(job.areas).flatMap(([id, area]) => {
    const on = job.viewports[area.viewport]?.sheet;
    if (on !== sheet || locate(area, at) === "outside") return [];
    const read = readAsDeck(job, tag, area.viewport, assumed);
    return read ? meaningsIn(job, id, area, tag, read) : [];
  });
}

function meaningsIn(job: Job, id: Id, area: Area, tag: DrawnTag, read: DeckRead): readonly Meaning[] {
  const { shape } = area.elevation;
  if (shape.is === "level") return whole(job, id, area, read, shape.at, (at) => ({ is: "level", at }));
  if (shape.is === "slope") return onSlope(job, id, area, tag, read, shape);
  const near = shape.spots
    .map(({ at }, i) => ({ i, far: distanceToPlace(tag.run, at) }))
    .filter(({ far }) => far <= SPOT_REACH * tag.run.height)
    .sort((a, b) => a.far - b.far)[0];
  if (!near) return [];
  const { elevation } = shape.spots[near.i]!;
  const others = shape.spots.some((spot, i) => i !== near.i && spot.elevation !== null);
  // All spots are of one surface: that of the others stays.
  if (others && read.basis !== null && read.basis !== area.elevation.basis) return [];
  return whole(job, id, area, read, elevation, (at) => ({
    ...shape,
    spots: shape.spots.map((spot, i) => (i === near.i ? { ...spot, elevation: at } : spot)),
  })).map((meaning) => ({ ...meaning, target: { is: "area", id, spot: near.i } }));
}

/** The meaning of a tag for the one elevation of a deck, or for one of its spots. */
function whole(
  job: Job,
  id: Id,
  { elevation }: Area,
  read: DeckRead,
  present: Length | null,
  shape: (at: Length) => AreaShape,
): readonly Meaning[] {
  const { length, basis, datum } = read;
  // Elevations of two surfaces of one deck may both be true: nothing is compared.
  if (present !== null && basis !== null && basis !== elevation.basis) return [];
  const same = present !== null && sameElevation(job, read, { length: present, datum: elevation.datum });
  const lacks: Lacking[] = [
    ...(basis === null ? (["deckBasis"] as const) : []),
    ...(datum === null ? (["datum"] as const) : []),
  ];
  return [
    {
      target: { is: "area", id, spot: null },
      read,
      recorded: present && { is: "deck", length: present, basis: elevation.basis, datum: elevation.datum },
      stands: same ? "same" : present ? "other" : "open",
      lacks,
      accept:
        basis === null || datum === null || same
          ? null
          : (job) => setElevation(job, id, { basis, datum, shape: shape(length) }),
    },
  ];
}

/** How far down the slope a place lies from the point it counts from, sheet units. */
function alongSlope({ point, towards }: Extract<AreaShape, { is: "slope" }>, at: Point2): number {
  const long = distance2(point, towards);
  const [ux, uy] = [(towards[0] - point[0]) / long, (towards[1] - point[1]) / long];
  return (at[0] - point[0]) * ux + (at[1] - point[1]) * uy;
}

/**
 * The meaning of a tag on a slope. It speaks of some place about its text: where that may be level with the point the slope counts from, it can be
 * the elevation there; anywhere else it is only compared with what the slope comes to about there.
 */
function onSlope(
  job: Job,
  id: Id,
  area: Area,
  tag: DrawnTag,
  read: DeckRead,
  shape: Extract<AreaShape, { is: "slope" }>,
): readonly Meaning[] {
  const { basis, datum } = area.elevation;
  const reach = SLOPE_REACH * tag.run.height;
  const offs = endsOf(tag.run).map((end) => alongSlope(shape, end));
  const [low, high] = [Math.min(...offs) - reach, Math.max(...offs) + reach];
  const atPoint = low <= 0 && high >= 0;
  const [meaning] = atPoint ? whole(job, id, area, read, shape.at, (at) => ({ ...shape, at })) : [];
  if (shape.at === null || (read.basis !== null && read.basis !== basis)) return meaning ? [meaning] : [];
  const building = sheetToBuilding(job, area.viewport);
  if (!building.ok) return meaning ? [meaning] : [];
  const fall = shape.rise * building.value.sim.scale;
  const there = (off: number): number => toInches(shape.at!) - fall * off;
  const inches = (value: number): Length => ({ value: Number(value.toFixed(3)), unit: "in" });
  const [lowest, highest] = [there(high), there(low)];
  const nearest = inches(Math.min(highest, Math.max(lowest, aboveDatum(job, read, datum))));
  const same = sameElevation(job, read, { length: nearest, datum });
  const here = inches(there((low + high) / 2));
  const compared: Meaning = {
    target: { is: "area", id, spot: null },
    read,
    recorded: { is: "deck", length: here, basis, datum },
    stands: same ? "same" : "other",
    lacks: [],
    accept: null,
  };
  return [meaning && !same ? meaning : compared];
}

/** A length read, in inches above the datum of a deck; as it stands where it does not say what it counts from. */
function aboveDatum(job: Job, { length, datum }: DeckRead, to: Area["elevation"]["datum"]): number {
  const floor = (of: Area["elevation"]["datum"]): number => {
    const storey = of.from === "storey" ? job.storeys[of.storey] : undefined;
    return storey ? toInches(storey.floor) : 0;
  };
  return toInches(length) + (datum ? floor(datum) - floor(to) : 0);
}

/** What a tag means for the storey that its line names, or the line above. */
export function meaningsForStoreys(job: Job, tag: DrawnTag): readonly Meaning[] {
  if (tag.surface !== null || tag.from === "deck") return [];
  const line = `${tag.heads ? (tag.above ?? "") : ""} ${tag.run.text}`.toLowerCase();
  return Object.entries(job.storeys).flatMap(([id, { name, floor }]): Meaning[] => {
    const words = name.trim().toLowerCase();
    const at = line.indexOf(words);
    if (words === "" || at < 0 || /\w/.test(line[at - 1] ?? " ") || /\w/.test(line[at + words.length] ?? " "))
      return [];
    // Above its own floor a storey's floor is nothing.
    if (tag.from === "floor") return [];
    const length = { value: Number(tag.value.toFixed(6)), unit: "in" } as const;
    const same = sameLength(length, floor);
    return [
      {
        target: { is: "storey", id },
        read: { is: "floor", length },
        recorded: { is: "floor", length: floor },
        stands: same ? "same" : "other",
        lacks: [],
        accept: same ? null : (job) => setStorey(job, id, { floor: length }),
      },
    ];
  });
}
