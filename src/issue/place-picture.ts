import type { PathStep, Picture, PictureItem } from "../geometry/picture.ts";
import type { Point2 } from "../geometry/point.ts";
import { applyTo, type Similarity } from "../geometry/similarity.ts";
import { radians } from "../units/quantity.ts";
import { textCorners } from "./text-width.ts";

/** The picture moved, turned and scaled; line widths, dashes and text sizes go with it. */
export function placePicture(picture: Picture, sim: Similarity): Picture {
  return picture.map((item) => placeItem(item, sim));
}

function placeItem(item: PictureItem, sim: Similarity): PictureItem {
  if (item.type === "text") {
    return {
      ...item,
      at: applyTo(sim, item.at),
      size: item.size * sim.scale,
      angle: radians(item.angle + sim.angle),
    };
  }
  return {
    ...item,
    steps: item.steps.map((step) => placeStep(step, sim)),
    ...(item.width === undefined ? {} : { width: item.width * sim.scale }),
    ...(item.dash === undefined ? {} : { dash: item.dash.map((length) => length * sim.scale) }),
  };
}

function placeStep(step: PathStep, sim: Similarity): PathStep {
  switch (step[0]) {
    case "Z":
      return step;
    case "C": {
      const [a, b] = applyTo(sim, [step[1], step[2]]);
      const [c, d] = applyTo(sim, [step[3], step[4]]);
      const [e, f] = applyTo(sim, [step[5], step[6]]);
      return ["C", a, b, c, d, e, f];
    }
    default: {
      const [x, y] = applyTo(sim, [step[1], step[2]]);
      return [step[0], x, y];
    }
  }
}

/**
 * A rectangle that holds everything the picture paints, line widths included; curves by their control points, so it may
 * be a little large. Undefined for an empty picture.
 */
export function pictureBounds(picture: Picture): readonly [number, number, number, number] | undefined {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  const take = ([x, y]: Point2, margin: number) => {
    x0 = Math.min(x0, x - margin);
    y0 = Math.min(y0, y - margin);
    x1 = Math.max(x1, x + margin);
    y1 = Math.max(y1, y + margin);
  };
  for (const item of picture) {
    if (item.type === "text") {
      for (const corner of textCorners(item)) take(corner, 0);
      continue;
    }
    const margin = item.stroke ? (item.width ?? 0) / 2 : 0;
    for (const step of item.steps) {
      for (let i = 1; i + 1 < step.length; i += 2) take([step[i] as number, step[i + 1] as number], margin);
    }
  }
  return x0 <= x1 ? [x0, y0, x1, y1] : undefined;
}
