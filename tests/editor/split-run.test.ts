import { describe, expect, it } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import { joinRuns, meetingRuns, splitRun } from "../../src/editor/edits/split-run.ts";
import type { Edit } from "../../src/job/edit.ts";
import type { Element } from "../../src/job/elements/element.ts";
import type { Job } from "../../src/job/schema.ts";
import type { Result } from "../../src/units/problem.ts";
import { facts, inchJob, roof, run, tag, withParts } from "../check/inch-job.ts";
import { applyChecked } from "../job/apply-checked.ts";

const jobWith = (elements: Record<string, Element>): Job => withParts(inchJob(), { a: roof(144) }, elements);
const done = (job: Job, edit: Result<Edit>): Job => {
  if (!edit.ok) throw new Error(JSON.stringify(edit.problems));
  return applyChecked(job, edit.value);
};
const problem = (edit: Result<Edit>): string | undefined => (edit.ok ? undefined : edit.problems[0]?.code);
const path = (job: Job, id: string) => {
  const element = job.elements[id]!;
  return "vertices" in element ? element.vertices.map(({ at }) => at) : [];
};

/** Along an L, its last leg a little too high. */
const bent = run([
  [10, 10, 130],
  [200, 10, 130],
  [200, 200, 143],
]);
const entry = (label: string, x: number, y: number, of: string): Element => ({
  kind: "entry",
  label,
  viewport: "v1",
  at: [x, y],
  run: of,
  enclosure: { is: "not-recorded" },
  conductor: null,
  insulation: null,
  protection: { is: "not-recorded" },
  fastened: null,
  beforePulling: null,
});

describe("splitting a run", () => {
  it("leaves the first part its label, gives the second its own, and every finding as it was, part by part", () => {
    const job = jobWith({ e1: bent });
    const after = done(job, splitRun(job, "e1", 1, "e2"));
    expect(path(after, "e1")).toEqual([
      [10, 10],
      [200, 10],
    ]);
    expect(path(after, "e2")).toEqual([
      [200, 10],
      [200, 200],
    ]);
    expect(after.elements.e2!.label).toBe("R-2");
    const [whole] = checkJob(job).findings;
    const parts = checkJob(after).findings;
    expect(parts.map(({ element, verdict }) => [element, verdict])).toEqual([
      ["R-1", "clear"],
      ["R-2", "too-close"],
    ]);
    expect(Math.min(...parts.map(({ leastIn }) => leastIn!))).toBeCloseTo(whole!.leastIn!, 9);
  });

  it("takes the entries at its far end along, and joining brings them back", () => {
    const job = jobWith({ e1: bent, n1: entry("E-1", 10, 10, "e1"), n2: entry("E-2", 200, 200, "e1") });
    const after = done(job, splitRun(job, "e1", 1, "e2"));
    expect([after.elements.n1, after.elements.n2]).toMatchObject([{ run: "e1" }, { run: "e2" }]);
    expect(done(after, joinRuns(after, "e1", "e2"))).toEqual(job);
  });

  it("is refused at an end, at a vertex that has its elevation from its neighbours, and for what is no run", () => {
    const job = jobWith({
      e1: bent,
      e2: run(
        [
          [10, 300, 130],
          [100, 300, null],
          [200, 300, 130],
        ],
        { label: "R-2" },
      ),
    });
    expect([0, 2, 7].map((vertex) => problem(splitRun(job, "e1", vertex, "n")))).toEqual([
      "edit.not-inside",
      "edit.not-inside",
      "edit.not-inside",
    ]);
    expect(problem(splitRun(job, "e2", 1, "n"))).toBe("edit.split-untagged");
    expect(problem(splitRun(job, "e9", 1, "n"))).toBe("edit.no-such-record");
  });
});

describe("joining runs", () => {
  const second = (vertices: Parameters<typeof run>[0], more: Parameters<typeof run>[1] = {}) =>
    run(vertices, { label: "R-2", ...more });

  it("is the opposite of splitting", () => {
    const job = jobWith({ e1: bent });
    const split = done(job, splitRun(job, "e1", 1, "e2"));
    expect(done(split, joinRuns(split, "e1", "e2"))).toEqual(job);
    expect(meetingRuns(split, "e1")).toEqual(["e2"]);
    expect(meetingRuns(job, "e1")).toEqual([]);
  });

  it.each<[string, [number, number, number][], [number, number][]]>([
    [
      "end to end",
      [
        [300, 50, 130],
        [200, 200, 143],
      ],
      [
        [10, 10],
        [200, 10],
        [200, 200],
        [300, 50],
      ],
    ],
    [
      "end to start",
      [
        [200, 200, 143],
        [300, 50, 130],
      ],
      [
        [10, 10],
        [200, 10],
        [200, 200],
        [300, 50],
      ],
    ],
    [
      "start to end",
      [
        [5, 90, 130],
        [10, 10, 130],
      ],
      [
        [5, 90],
        [10, 10],
        [200, 10],
        [200, 200],
      ],
    ],
    [
      "start to start",
      [
        [10, 10, 130],
        [5, 90, 130],
      ],
      [
        [5, 90],
        [10, 10],
        [200, 10],
        [200, 200],
      ],
    ],
  ])("turns either as needed, %s", (_, vertices, joined) => {
    const job = jobWith({ e1: bent, e2: second(vertices) });
    const after = done(job, joinRuns(job, "e1", "e2"));
    expect(path(after, "e1")).toEqual(joined);
    expect(after.elements.e2).toBeUndefined();
  });

  it("takes the tag that only one of them has at the place", () => {
    const job = jobWith({
      e1: bent,
      e2: second([
        [200, 200, null],
        [300, 200, 140],
      ]),
    });
    const joined = done(job, joinRuns(job, "e1", "e2")).elements.e1!;
    expect("vertices" in joined && joined.vertices[2]!.tag).toEqual(tag(143));
  });

  it("is refused where they do not meet, or differ in wiring, facts or tags", () => {
    const onward: [number, number, number][] = [
      [200, 200, 143],
      [300, 200, 143],
    ];
    const cases: [Element, string][] = [
      [
        second([
          [201, 200, 143],
          [300, 200, 143],
        ]),
        "edit.ends-apart",
      ],
      [second(onward, { wiring: { type: "rmc", tradeSize: "3/4", outsideDiameter: null } }), "edit.not-alike"],
      [second(onward, { facts: facts({ steelFittings: true }) }), "edit.not-alike"],
      [
        second([
          [200, 200, 142],
          [300, 200, 143],
        ]),
        "edit.not-alike",
      ],
    ];
    for (const [other, code] of cases)
      expect(problem(joinRuns(jobWith({ e1: bent, e2: other }), "e1", "e2"))).toBe(code);
    expect(problem(joinRuns(jobWith({ e1: bent }), "e1", "e1"))).toBe("edit.ends-apart");
  });
});
