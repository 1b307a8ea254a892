import type { Point2 } from "../../geometry/point.ts";
import { applyTo, invert } from "../../geometry/similarity.ts";
import { type Rack, racewayAsRun, racewayLabel, racewayOffset } from "../../job/elements/rack.ts";
import type { Tag } from "../../job/fields.ts";
import { findRacewayKind } from "../../trade/raceways.ts";
import type { Reason } from "../finding.ts";
import { type Missing, reason } from "../reading.ts";
import type { Scene } from "../scene.ts";
import { basisWords, written } from "../words.ts";
import { besidesTube } from "./besides-tube.ts";
import type { CheckKind, ElementShape } from "./kind.ts";
import { offsetAxis } from "./offset-axis.ts";
import { noScale, onePoint } from "./run.ts";
import { sectionOf } from "./section.ts";
import { heightOf, tracedShape, unplacedShape } from "./traced.ts";

/**
 * Racks: every raceway is checked by itself, at its place across the rack, its bottom at the elevation all of them bear at. As one thing a rack is its highest
 * raceway.
 */
export const rackKind: CheckKind<Rack> = {
  shape: (scene, rack) => racewayShape(scene, rack, highestOf(scene, rack)),
  members: (scene, rack) =>
    rack.raceways.map((_, i) => ({
      about: `${i + 1}`,
      element: racewayAsRun(rack, i),
      shape: () => racewayShape(scene, rack, i),
    })),
  fact: () => undefined,
};

/** Height of a raceway from its bottom to its top, or undefined where its size is not known. */
function heightIn(scene: Scene, rack: Rack, i: number): number | undefined {
  const section = sectionOf("", rack.raceways[i]!.wiring, scene.system);
  return section.known ? heightOf(section.value) : undefined;
}

/** The raceway that stands highest, the first of several; of those whose size is known. */
export function highestOf(scene: Scene, rack: Rack): number {
  let highest = 0;
  let most = heightIn(scene, rack, 0) ?? -1;
  for (let i = 1; i < rack.raceways.length; i++) {
    const height = heightIn(scene, rack, i) ?? -1;
    if (height <= most) continue;
    most = height;
    highest = i;
  }
  return highest;
}

function racewayShape(scene: Scene, rack: Rack, i: number): ElementShape {
  const run = racewayAsRun(rack, i);
  const { label, vertices, wiring } = run;
  const section = sectionOf(label, wiring, scene.system);
  const registered = scene.registration(rack.viewport);
  const elementClass = findRacewayKind(wiring.type)?.elementClass ?? "raceway";
  const across = racewayOffset(rack, i);
  const tags = vertices.flatMap(({ tag }) => tag ?? []);
  const largest = highestOf(scene, rack);
  const unknown = tags.every(({ basis }) => basis === "bottom")
    ? -1
    : rack.raceways.findIndex((_, n) => heightIn(scene, rack, n) === undefined);
  const missing: readonly Missing[] = !registered.ok
    ? [noScale(label)]
    : !section.known
      ? section.missing
      : vertices.length < 2
        ? [onePoint(rack.label)]
        : across === undefined
          ? [noPlace(label)]
          : unknown >= 0
            ? [noSize(rack, unknown)]
            : [];
  if (!registered.ok || !section.known || across === undefined || missing.length > 0) {
    const root = registered.ok ? registered.value.root : undefined;
    return unplacedShape(vertices, root, elementClass, missing, () => (section.known ? [section.explain()] : []));
  }
  const { root, sim, worst } = registered.value;
  const plan = vertices.map(({ at }) => applyTo(sim, at));
  const own = heightOf(section.value);
  const tallest = heightIn(scene, rack, largest) ?? own;
  const axis = offsetAxis(plan, across);
  const back = invert(sim);
  const { reasons, ...besides } = besidesTube(run, section.value, scene.system);
  return tracedShape(scene, {
    label,
    root,
    elementClass,
    vertices,
    plan,
    axis: { plan: axis, sheet: axis.map((at): Point2 => applyTo(back, at)) },
    section: section.value,
    tagged: rack.label,
    over: (tag) => overOf(tag, own, tallest),
    overReason: (tag, read) => overReason(scene, rack, largest, tag, overOf(tag, own, tallest), read),
    ...besides,
    reasons: () => [section.explain(), standing(scene, rack, i, largest), ...reasons()],
    planTolerance: worst,
  });
}

/** How much higher the axis of a raceway lies than its own centre or top would, were the tag its own: the tag names those of the largest, and all bear at one elevation. */
const overOf = ({ basis }: Tag, own: number, tallest: number): number =>
  ({ bottom: 0, centre: (own - tallest) / 2, top: own - tallest })[basis];

function overReason(scene: Scene, rack: Rack, largest: number, tag: Tag, over: number, read: Reason): Reason {
  if (over === 0 || read.quantity === undefined) return read;
  const axis = read.quantity.in + over;
  const text = `The tag is to the ${basisWords[tag.basis]} of ${racewayLabel(rack, largest)}, the largest; bearing beside it, this one lies lower`;
  const step = reason(text, { value: written(-over, scene.system), quantity: { is: "half-height", in: over } });
  return {
    ...read,
    value: `axis at ${written(axis, scene.system)}`,
    quantity: { ...read.quantity, in: axis },
    children: [...read.children, step],
  };
}

/** Which raceway stands highest, and so governs the rack. */
function standing(scene: Scene, rack: Rack, i: number, highest: number): Reason {
  const [own, tallest] = [heightIn(scene, rack, i), heightIn(scene, rack, highest)];
  const label = racewayLabel(rack, i);
  const count = rack.raceways.length;
  const many = count === 1 ? "the only raceway" : `the highest of ${count} raceways`;
  const unsure = rack.raceways.some((_, n) => heightIn(scene, rack, n) === undefined);
  const known = unsure ? ", as far as their sizes are known" : "";
  const text =
    i === highest
      ? `${label} is ${many} that bear on ${rack.label}${known}, and governs it`
      : own === tallest
        ? `${label} stands as high as ${racewayLabel(rack, highest)} on ${rack.label}${known}; both govern it`
        : `${racewayLabel(rack, highest)} is ${many} that bear on ${rack.label}${known}, and governs it; ${label} bears beside it`;
  return reason(text);
}

const noPlace = (label: string): Missing => ({
  text: `${label}: how far from the traced line it lies across the rack`,
  remedy: { kind: "record-fact", text: `Record how far from the traced line ${label} lies.` },
});

/** Where tags name the centre or top of the largest raceway, which one that is has to be known. */
const noSize = (rack: Rack, i: number): Missing => {
  const label = racewayLabel(rack, i);
  return {
    text: `${label}: its size, which decides what the tags of ${rack.label} name`,
    remedy: {
      kind: "record-fact",
      text: `Choose a type and trade size for ${label}, or tag ${rack.label} to the bottom of its raceways.`,
    },
  };
};
