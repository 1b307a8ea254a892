import { expect, it } from "vitest";
import { lacks } from "../../src/editor/lacks.ts";
import { apply, editOf } from "../../src/job/edit.ts";
import type { Element } from "../../src/job/elements/element.ts";
import type { Job } from "../../src/job/schema.ts";
import { buildingJob } from "../bench/check-job.bench.ts";
import { seeded } from "../geometry/random-scenes.ts";

/** A job of which nobody knows how it came about: its elements are counted one by one. */
const unknown = (job: Job): Job => ({ ...job, elements: { ...job.elements } });

it("counts after every edit what it counts in the whole job", () => {
  const random = seeded(23);
  let job = buildingJob(2, 2, 30, 2);
  for (let n = 0; n < 120; n++) {
    const ids = Object.keys(job.elements);
    const id = ids[Math.floor(random() * ids.length)]!;
    const run = job.elements[id] as Extract<Element, { kind: "run" }>;
    const untagged = { ...run, vertices: run.vertices.map((vertex) => ({ ...vertex, tag: null })) };
    const sizeless = { ...run, wiring: { ...run.wiring, outsideDiameter: null, tradeSize: "?" } };
    const after = [untagged, sizeless, null, run, { ...run, label: `${run.label}a` }][Math.floor(random() * 5)]!;
    const edited = apply(job, editOf(job, "Edit", [{ table: "elements", id, after }]));
    // Half of the time the edit is taken back again, as undo does.
    const next =
      random() < 0.5 ? edited : apply(edited, editOf(edited, "Back", [{ table: "elements", id, after: run }]));
    const found = lacks(next, null);
    expect(found).toEqual(lacks(unknown(next), null));
    const tagless = Object.keys(next.elements).filter((one) =>
      (next.elements[one] as typeof run).vertices.every(({ tag }) => tag === null),
    );
    expect([...(found.find(({ code }) => code === "elements-without-tag")?.ids ?? [])].sort()).toEqual(tagless.sort());
    job = next;
  }
});
