import { overlap } from "../geometry/overlap.ts";
import { partPolygon } from "../geometry/part-polygon.ts";
import type { Point2 } from "../geometry/point.ts";
import { boundingBox, type Polygon, ringProblems } from "../geometry/polygon.ts";
import { applyTo } from "../geometry/similarity.ts";
import { meanWidth } from "../geometry/split-polygon.ts";
import type { Id } from "../job/fields.ts";
import { type Registration, sheetToBuilding } from "../job/registration.ts";
import type { Area, Job } from "../job/schema.ts";
import { makesOf, outlinesOf, type SettledAs, type StoreyOutline } from "../job/storey-outline.ts";
import { toInches } from "../units/length.ts";
import { type Inches, inches } from "../units/quantity.ts";
import type { DeckClassification } from "./deck-classification.ts";
import type { Reason } from "./finding.ts";
import { type Missing, reason } from "./reading.ts";
import { STANDING_WORDS, written } from "./words.ts";

/** A part of an area's plan with what it is. */
export interface AreaPart {
  /** Tells it from the others of its area: "" where it is the whole of it, else such as "roof-1". */
  readonly name: string;
  /** Building space. */
  readonly polygon: Polygon;
  readonly classification: DeckClassification;
  /** How far its outline may be off in plan, each way, from registration: that of the outlines that cut it counts too. */
  readonly planTolerance: Inches;
}

/** An outline of a storey that can be laid over the area. */
interface Placed {
  readonly outline: StoreyOutline;
  readonly polygon: Polygon;
  readonly worst: Inches;
  readonly makes: SettledAs;
}

/** Strips narrower than this come from rounding, whatever the tolerances, inches. */
const LEAST_STRIP_IN = 1e-3;

/**
 * What an area is, part by part. Recorded directly, it is one part. Where it follows from outlines of the storey above: floor where an
 * outline that makes it one lies over it, not settled under those of which nobody has settled what they are, roof everywhere else. An
 * outline that cannot be laid over the area might cover any of it, so what no other makes a floor is not settled either.
 *
 * Tracing leaves strips. One no wider than the plan tolerances of both outlines together is never a floor; cut off from the roof it is not
 * settled. `polygon` is the outline of the area in building space and sound.
 */
export function areaParts(job: Job, area: Area, polygon: Polygon, registered: Registration): readonly AreaPart[] {
  const { classification: own } = area;
  if (own.is !== "from-outline") {
    const { is, reason: why, by } = own;
    return [{ name: "", polygon, classification: { is, reason: why, by }, planTolerance: registered.worst }];
  }
  const { settings, sheets, viewports, storeyOutlines } = job;
  const from = [settings, sheets, viewports, ...own.outlines.map((id) => storeyOutlines[id])];
  const known = parted.get(area);
  if (known && known.from.length === from.length && known.from.every((one, i) => one === from[i])) return known.parts;
  const parts = partedByOutlines(job, area, polygon, registered);
  parted.set(area, { from, parts });
  return parts;
}

/** The parts of an area, and the records they were worked out from: clipping takes its time, and most edits touch none of these. */
const parted = new WeakMap<Area, { readonly from: readonly unknown[]; readonly parts: readonly AreaPart[] }>();

function partedByOutlines(job: Job, area: Area, polygon: Polygon, registered: Registration): AreaPart[] {
  const { classification: own } = area;
  const missing: Missing[] = [];
  const placed: Placed[] = [];
  for (const id of outlinesOf(own)) {
    const found = place(job, id, area, registered);
    if ("remedy" in found) missing.push(found);
    else placed.push(found);
  }
  if (outlinesOf(own).length === 0) missing.push(noneNamed(area));
  const worst = inches(placed.reduce<number>((most, one) => Math.max(most, one.worst), registered.worst));
  const strip = Math.max(LEAST_STRIP_IN, 2 * toInches(job.settings.job.tolerances.plan) + worst + registered.worst);

  const polygonsOf = (makes: SettledAs) => placed.filter((one) => one.makes === makes).map((one) => one.polygon);
  const isStrip = (part: Polygon): boolean => meanWidth(part) <= strip && meanWidth(polygon) > strip;
  const { first, second: open, rest } = partPolygon(polygon, polygonsOf("floor-above"), polygonsOf("not-settled"));
  const floor = first.filter((part) => !isStrip(part));
  const cut = floor.length + open.length > 0;
  const strips = cut ? rest.filter(isStrip) : [];
  // A strip of floor stays with its neighbours: a roof, where nothing else says otherwise.
  const roofs = cut ? [...rest.filter((part) => !strips.includes(part)), ...first.filter(isStrip)] : [polygon];

  const parts = (name: string, polygons: readonly Polygon[], classify: (part: Polygon) => DeckClassification) =>
    polygons.map((part, i): AreaPart => {
      const whole = !cut && polygons.length === 1;
      return {
        name: whole ? "" : `${name}-${i + 1}`,
        polygon: part,
        classification: classify(part),
        planTolerance: worst,
      };
    });
  const as = (is: SettledAs, part: Polygon, lacking: readonly Missing[]): DeckClassification => ({
    is,
    reason: reasonText(job, area, placed, part, is),
    by: own.by,
    follows: () => placed.map((one) => outlineReason(job, one, part, is)),
    ...(lacking.length === 0 ? {} : { missing: lacking }),
  });
  return [
    ...parts("roof", roofs, (part) => as(missing.length > 0 ? "not-settled" : "roof", part, missing)),
    ...parts("strip", strips, (part) => as("not-settled", part, [...missing, stripMissing(job, area, part, strip)])),
    ...parts("open", open, (part) => {
      const over = placed.filter((one) => one.makes === "not-settled" && covers(one, part));
      return as("not-settled", part, [...missing, ...over.map(({ outline }) => standingMissing(outline))]);
    }),
    ...parts("floor", floor, (part) => as("floor-above", part, [])),
  ];
}

function covers({ polygon }: Placed, part: Polygon): boolean {
  const [a, b] = [boundingBox(polygon.outline), boundingBox(part.outline)];
  if (a.min[0] >= b.max[0] || b.min[0] >= a.max[0] || a.min[1] >= b.max[1] || b.min[1] >= a.max[1]) return false;
  return overlap(polygon, part).area > 0;
}

/** The outline in the plan of the area's frame, or why it cannot be laid there. */
function place(job: Job, id: Id, area: Area, own: Registration): Placed | Missing {
  const outline = job.storeyOutlines[id];
  if (!outline) return noneNamed(area);
  const { label } = outline;
  if ([outline.outline, ...outline.holes].some((ring) => ringProblems(ring).length > 0))
    return {
      text: `${label}: an outline that does not cross itself`,
      remedy: { kind: "outline", text: `Draw the outline of ${label} again, so that it does not cross itself.` },
    };
  const name = viewportName(job, outline);
  const registered = sheetToBuilding(job, outline.viewport);
  if (!registered.ok) {
    const scale = registered.problems.some(({ code }) => code === "registration.no-scale");
    return scale
      ? {
          text: `${label}: the scale of ${name}`,
          remedy: {
            kind: "settle",
            text: `Set the scale of ${name}, so that ${label} can be laid over ${area.label}.`,
          },
        }
      : unregistered(job, outline, area);
  }
  if (registered.value.root !== own.root) return unregistered(job, outline, area);
  const { sim, worst } = registered.value;
  const toBuilding = (ring: readonly Point2[]): Point2[] => ring.map((at) => applyTo(sim, at));
  return {
    outline,
    polygon: { outline: toBuilding(outline.outline), holes: outline.holes.map(toBuilding) },
    worst,
    makes: makesOf(outline),
  };
}

const viewportName = (job: Job, { viewport }: { readonly viewport: Id }): string => {
  const found = job.viewports[viewport];
  return found?.name || job.sheets[found?.sheet ?? ""]?.title || "its sheet";
};

const unregistered = (job: Job, outline: StoreyOutline, area: Area): Missing => ({
  text: `${outline.label}: how ${viewportName(job, outline)} lies on ${viewportName(job, area)}`,
  remedy: {
    kind: "settle",
    text: `Register ${viewportName(job, outline)} and ${viewportName(job, area)} on one another by two shared points, so that ${outline.label} can be laid over ${area.label}.`,
  },
});

const noneNamed = (area: Area): Missing => ({
  text: `${area.label}: the outline of the storey above it`,
  remedy: {
    kind: "settle",
    text: `Outline the storey above ${area.label} and let the outline speak for it, or say directly whether it is a roof.`,
  },
});

/** What is not settled about an outline. */
function standingMissing({ label, above }: StoreyOutline): Missing {
  if (above.is !== "other" || above.makes === "not-settled")
    return {
      text:
        above.is === "other"
          ? `${label}: whether what stands within it (${STANDING_WORDS[above.what]}) makes the deck below it a floor`
          : `${label}: what stands within it`,
      remedy: {
        kind: "settle",
        text: `Settle what stands within ${label} and whether it makes the deck below it a floor, and record why and by whose decision.`,
      },
    };
  return {
    text: `${label}: why what stands within it (${STANDING_WORDS[above.what]}) makes the deck below it a ${above.makes === "roof" ? "roof" : "floor"}, and by whose decision`,
    remedy: { kind: "settle", text: `Record for ${label} why it was settled so, and by whose decision.` },
  };
}

const stripMissing = (job: Job, area: Area, part: Polygon, width: number): Missing => ({
  text: `${area.label}: whether the strip beside the storey above, ${stripWidth(job, part)} wide, is roof or a matter of tracing (up to ${written(width, job.settings.job.system)} can be)`,
  remedy: {
    kind: "settle",
    text: `Trace ${area.label} and the storey above to the same edge if the storey stands on all of it there; else say directly what the strip is by an area of its own.`,
  },
});

const stripWidth = (job: Job, part: Polygon): string => {
  const step = job.settings.job.system === "metric" ? 1 / 25.4 : 1 / 8;
  return `about ${written(Math.max(step, Math.round(meanWidth(part) / step) * step), job.settings.job.system)}`;
};

/** Why a part is what it is, in one line. */
function reasonText(
  job: Job,
  { classification }: Area,
  placed: readonly Placed[],
  part: Polygon,
  is: SettledAs,
): string {
  const over = placed.filter((one) => (is === "roof" || one.makes === is) && (is === "roof" || covers(one, part)));
  const named = over.map(({ outline }) => `${outline.label}, traced on ${viewportName(job, outline)}`);
  const from = `By the outline of the storey above${named.length > 0 ? `: ${named.join("; ")}` : ""}`;
  return classification.reason.trim() === "" ? from : `${from}; ${classification.reason}`;
}

/** What an outline has to do with a part. */
function outlineReason(job: Job, one: Placed, part: Polygon, is: SettledAs): Reason {
  const { outline, makes } = one;
  const { label, above, by } = outline;
  const what =
    above.is === "not-recorded"
      ? "not recorded what stands there"
      : above.is === "occupied-storey"
        ? "an occupied storey"
        : `${STANDING_WORDS[above.what]}, ${MAKES_WORDS[makes]}`;
  // What would make it a floor and has not is a strip.
  const over =
    makes === "floor-above" && is !== makes ? "covers no more of it than tracing may be off" : "lies over it";
  const there = covers(one, part) ? over : "does not reach it";
  return reason(`${label} ${there}: ${what}, traced on ${viewportName(job, outline)}`, {
    value: outline.reason || "no reason recorded",
    source: by ? `decided by ${by}` : "",
  });
}

const MAKES_WORDS: Readonly<Record<SettledAs, string>> = {
  roof: "settled to leave the deck a roof",
  "floor-above": "settled to make the deck a floor",
  "not-settled": "not settled",
};
