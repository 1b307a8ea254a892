import type { Point2 } from "../../geometry/point.ts";
import { applyTo } from "../../geometry/similarity.ts";
import { runsIn } from "../../job/elements/element.ts";
import type { ElementFacts, Tag } from "../../job/fields.ts";
import type { ElementClass, Fact, FactName } from "../../rules/rule-set.ts";
import { findRacewayKind } from "../../trade/raceways.ts";
import { toInches } from "../../units/length.ts";
import { inches, radians } from "../../units/quantity.ts";
import { boxPiece } from "../piece.ts";
import type { Missing, Reading } from "../reading.ts";
import type { Scene } from "../scene.ts";
import { loweredTagText, tagElevation } from "../tag-elevation.ts";
import { recordedFact } from "./facts.ts";
import type { ElementShape } from "./kind.ts";

/** Outside sizes of something placed at one point, inches: along its own two plan axes, and its height. */
export interface Envelope {
  readonly along: number;
  readonly across: number;
  readonly height: number;
}

/** What boxes and fittings have in common: they stand at one point, turned about the vertical, with one tag. */
export interface PlacedElement {
  readonly label: string;
  readonly viewport: string;
  readonly at: Point2;
  readonly rotationDeg: number;
  readonly tag: Tag | null;
  readonly facts: ElementFacts;
}

/** How near a run's vertex must come to the edge of a box, in plan inches, to count as entering it. */
const ENTRY_REACH_IN = 3;

/** The shape of an element that is taken as a box around a point. */
export function placedShape(
  scene: Scene,
  element: PlacedElement,
  elementClass: ElementClass,
  size: Reading<Envelope>,
): ElementShape {
  const registered = scene.registration(element.viewport);
  const root = registered.ok ? registered.value.root : undefined;
  const missing: Missing[] = [];
  if (!registered.ok)
    missing.push({
      text: `${element.label}: its viewport has no scale or is not registered`,
      remedy: { kind: "record-fact", text: "Set the scale of its viewport." },
    });
  if (!size.known) missing.push(...size.missing);
  const explain = [size.explain];
  const pieces = [];
  if (registered.ok && size.known) {
    const [x, y] = applyTo(registered.value.sim, element.at);
    const { along, across, height } = size.value;
    const level = tagElevation(
      scene,
      registered.value.root,
      [x, y],
      element.tag,
      height / 2,
      `Tag of ${element.label}`,
    );
    explain.push(level.explain);
    if (level.known) {
      const rotation = radians(registered.value.sim.angle + (element.rotationDeg * Math.PI) / 180);
      pieces.push(
        boxPiece({ centre: [x, y, level.value.z], half: [along / 2, across / 2, height / 2], rotation }, level.value),
      );
    } else missing.push(...level.missing);
  }
  return {
    elementClass,
    root,
    pieces,
    gaps: missing.length > 0 ? [{ from: 0, to: 0, missing }] : [],
    reasonsAt: () => explain.map((step) => step()),
    sheetAt: () => element.at,
    planTolerance: registered.ok ? registered.value.worst : 0,
    loweredTags: (by) => (element.tag ? [loweredTagText(element.tag, by, scene.system)] : []),
  };
}

/** Facts of a placed element: what is recorded on it, and the kind of the runs traced up to it, by `placedReach`. */
export function placedFact(
  scene: Scene,
  element: PlacedElement,
  reach: number | undefined,
  name: FactName,
): Fact | undefined {
  const recorded = recordedFact(element.facts, element.label, name);
  if (name !== "wiring.kind" && (name !== "wiring.steelFittings" || recorded?.known)) return recorded;
  const runs = runsInto(scene, element, reach);
  if (name === "wiring.steelFittings") {
    // What is recorded of a run speaks for the boxes and fittings on it, where all runs up to here agree.
    const [first] = runs;
    if (!first || first.steelFittings === null || runs.some((run) => run.steelFittings !== first.steelFittings))
      return recorded;
    return { known: true, value: first.steelFittings, from: `recorded for ${runs.map((run) => run.label).join(", ")}` };
  }
  const types = [...new Set(runs.map((run) => run.type))];
  if (types.length === 0) return { known: true, value: "none", from: `no run is traced up to ${element.label}` };
  const names = types.map((type) => findRacewayKind(type)?.short ?? type).join(", ");
  const labels = runs.map((run) => run.label).join(", ");
  const value = types.length === 1 ? types[0]! : names;
  return { known: true, value, from: `${labels}, traced up to ${element.label}` };
}

/** How near in sheet units a run's vertex has to come to the middle of an element to be traced up to it; undefined without a scale. */
export function placedReach(scene: Scene, element: PlacedElement, size: Reading<Envelope>): number | undefined {
  const registered = scene.registration(element.viewport);
  if (!registered.ok) return undefined;
  const half = size.known ? Math.hypot(size.value.along, size.value.across) / 2 : 0;
  return (half + ENTRY_REACH_IN) / registered.value.sim.scale;
}

/** The runs of the same viewport with a vertex within reach of the element. */
function runsInto(
  scene: Scene,
  element: PlacedElement,
  reach: number | undefined,
): { label: string; type: string; steelFittings: boolean | null }[] {
  if (reach === undefined) return [];
  const found: { label: string; type: string; steelFittings: boolean | null }[] = [];
  for (const other of Object.values(scene.job.elements)) {
    if (!("vertices" in other) || other.viewport !== element.viewport) continue;
    if (other.vertices.some(({ at }) => Math.hypot(at[0] - element.at[0], at[1] - element.at[1]) <= reach))
      for (const { label, wiring, facts } of runsIn(other))
        found.push({ label, type: wiring.type, steelFittings: facts.steelFittings });
  }
  return found;
}

/** A length in inches, for envelopes. */
export const sizeIn = (length: Parameters<typeof toInches>[0]): number => inches(toInches(length));
