import { mapBy } from "../../geometry/similarity.ts";
import type { Run } from "../../job/elements/run.ts";
import { findRacewayKind } from "../../trade/raceways.ts";
import { besidesTube } from "./besides-tube.ts";
import { recordedFact } from "./facts.ts";
import type { CheckKind } from "./kind.ts";
import { sectionOf } from "./section.ts";
import { tracedShape, unplacedShape } from "./traced.ts";

/** Runs: a piece for every segment between two vertices whose elevations are known. */
export const runKind: CheckKind<Run> = {
  shape(scene, run) {
    const { label, vertices, wiring } = run;
    const section = sectionOf(label, wiring, scene.system);
    const registered = scene.registration(run.viewport);
    const elementClass = findRacewayKind(wiring.type)?.elementClass ?? "raceway";
    if (!registered.ok || !section.known || vertices.length < 2) {
      const missing = !registered.ok ? [noScale(label)] : !section.known ? section.missing : [onePoint(label)];
      const root = registered.ok ? registered.value.root : undefined;
      return unplacedShape(vertices, root, elementClass, missing, () => (section.known ? [section.explain()] : []));
    }
    const { root, sim, worst } = registered.value;
    const toBuilding = mapBy(sim);
    const { standOut, bendRadius, missing, reasons } = besidesTube(run, section.value, scene.system);
    return tracedShape(scene, {
      label,
      root,
      elementClass,
      vertices,
      plan: vertices.map((vertex) => toBuilding(vertex.at)),
      section: section.value,
      tagged: label,
      standOut,
      bendRadius,
      missing,
      reasons: () => [section.explain(), ...reasons()],
      planTolerance: worst,
    });
  },
  fact(_scene, run, name) {
    if (name === "wiring.kind")
      return { known: true, value: run.wiring.type, from: `the type recorded for ${run.label}` };
    return recordedFact(run.facts, run.label, name);
  },
};

/** What is missing where a viewport has no scale, and where only one point was traced. */
export const noScale = (label: string) =>
  ({
    text: `${label}: its viewport has no scale or is not registered`,
    remedy: { kind: "record-fact", text: "Set the scale of its viewport." },
  }) as const;
export const onePoint = (label: string) =>
  ({
    text: `${label} has one point only`,
    remedy: { kind: "record-fact", text: "Trace it again, with at least two points." },
  }) as const;
