import fc from "fast-check";
import { expect, it } from "vitest";
import { checkJob, createChecker } from "../../src/check/check-job.ts";
import type { CheckResult } from "../../src/check/finding.ts";
import { byLabel } from "../../src/check/finding-order.ts";
import { apply, type Edit, editOf } from "../../src/job/edit.ts";
import type { Element } from "../../src/job/elements/element.ts";
import type { Job } from "../../src/job/schema.ts";
import { buildingJob } from "../bench/check-job.bench.ts";
import { box, run, tag } from "./inch-job.ts";

const SEED = 1176;

/** Runs of a building, with boxes on some of their vertices: what a run is changes what is said of its box. */
function jobWithBoxes(): Job {
  const job = buildingJob(3, 2, 24, 3);
  const elements: Record<string, Element> = { ...job.elements };
  Object.values(job.elements).forEach((element, i) => {
    if (!("vertices" in element) || i % 3 > 0) return;
    const [x, y] = element.vertices[1]!.at;
    elements[`b${i}`] = box(x, y, tag(143), { label: `B-${i}`, viewport: "v" });
  });
  return { ...job, elements };
}

/** One step of editing: what is done to the nth element of the job as it then is. */
const steps = fc.array(
  fc.record({
    nth: fc.nat(1000),
    does: fc.constantFrom("move", "take out", "rename", "rmc", "one point", "add"),
    told: fc.boolean(),
  }),
  { minLength: 1, maxLength: 12 },
);

function editFor(job: Job, nth: number, does: string): Edit {
  const ids = Object.keys(job.elements);
  const id = ids[nth % ids.length]!;
  const element = job.elements[id]!;
  const to = (after: Element | null, of = id): Edit => editOf(job, does, [{ table: "elements", id: of, after }]);
  if (does === "take out" && ids.length > 2) return to(null);
  if (does === "rename") return to({ ...element, label: `R-${nth}` });
  if (does === "add")
    return to(
      run(
        [
          [nth, 40, 141],
          [nth + 90, 40, 143],
        ],
        { label: `N-${nth}`, viewport: "v" },
      ),
      `n${nth}`,
    );
  if (!("wiring" in element)) return to({ ...element });
  if (does === "rmc") return to({ ...element, wiring: { ...element.wiring, type: "rmc" } });
  if (does === "one point") return to({ ...element, vertices: element.vertices.slice(0, 1) });
  return to({
    ...element,
    vertices: element.vertices.map((v, i) => (i === 1 ? { ...v, at: [v.at[0] + 5, v.at[1]] as [number, number] } : v)),
  });
}

it("after any edits, told or not, gives what a check of the whole job gives, reasons and all", () => {
  const start = jobWithBoxes();
  fc.assert(
    fc.property(steps, (list) => {
      const checker = createChecker();
      checker(start);
      let job = start;
      for (const { nth, does, told } of list) {
        const edit = editFor(job, nth, does);
        job = apply(job, edit);
        const answer = checker(job, told ? edit : undefined);
        const whole = checkJob(job);
        expect(answer.counts).toEqual(whole.counts);
        expect(answer.notices).toEqual(whole.notices);
        expect(said(answer)).toEqual(said(whole));
      }
    }),
    { seed: SEED, numRuns: 12 },
  );
}, 60_000);

/** A finding as text, reasons and all. */
const said = ({ findings }: CheckResult) =>
  findings.map(({ number, elementId, verdict, leastIn, stretches, reasons }) =>
    JSON.stringify({ number, elementId, verdict, leastIn, stretches, reasons }),
  );

it("after a check that was left half way, gives what a check of the whole job gives, and what was said before still stands", () => {
  fc.assert(
    fc.property(steps, fc.array(fc.nat(80), { minLength: 12, maxLength: 12 }), (list, rests) => {
      const checker = createChecker();
      let job = jobWithBoxes();
      let held = checker(job);
      let heldJob = job;
      list.forEach(({ nth, does, told }, i) => {
        const edit = editFor(job, nth, does);
        job = apply(job, edit);
        const half = checker.inSteps(job, told ? edit : undefined);
        let ended = false;
        for (let rest = rests[i]!; rest > 0 && !ended; rest--) {
          const step = half.next();
          if (step.done) ended = true;
          else expect(step.value.done).toBeLessThanOrEqual(step.value.total);
        }
        half.return(undefined as never);
        if (i % 2 === 0) return;
        expect(said(held)).toEqual(said(checkJob(heldJob)));
        // Explained only after later checks were left: an explanation once read is kept.
        held = checker(job);
        heldJob = job;
        expect(held.counts).toEqual(checkJob(job).counts);
      });
    }),
    { seed: SEED, numRuns: 12 },
  );
}, 60_000);

it("rests after every element, and comes to the same", () => {
  const job = jobWithBoxes();
  const steps = createChecker().inSteps(job);
  const seen: number[] = [];
  for (let step = steps.next(); ; step = steps.next()) {
    if (step.done) {
      expect(said(step.value)).toEqual(said(checkJob(job)));
      break;
    }
    expect(step.value.total).toBe(Object.keys(job.elements).length);
    seen.push(step.value.done);
  }
  expect(seen).toEqual(Object.keys(job.elements).map((_, i) => i + 1));
});

it("orders labels by their words and the values of their numbers, as taking them apart would", () => {
  const parts = (text: string): readonly string[] => text.match(/\d+|\D+/g) ?? [];
  const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
  const slowly = (a: string, b: string): number => {
    const [x, y] = [parts(a), parts(b)];
    for (let i = 0; i < Math.min(x.length, y.length); i++) {
      const [p, q] = [x[i]!, y[i]!];
      const order = /^\d/.test(p) && /^\d/.test(q) ? Number(p) - Number(q) || compare(p, q) : compare(p, q);
      if (order !== 0) return order;
    }
    return x.length - y.length;
  };
  const label = fc.string({ unit: fc.constantFrom(..."0129 -aR"), maxLength: 6 });
  fc.assert(
    fc.property(label, label, (a, b) => Math.sign(byLabel(a, b)) === Math.sign(slowly(a, b))),
    { seed: SEED, numRuns: 5000 },
  );
});
