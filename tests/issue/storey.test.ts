import { describe, expect, it } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import type { PathItem } from "../../src/geometry/picture.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import { findingsJson } from "../../src/issue/findings-json.ts";
import { inset, storeyWords } from "../../src/issue/kinds/storey.ts";
import { marksOf } from "../../src/issue/marks-of.ts";
import type { Job } from "../../src/job/schema.ts";
import type { StoreyOutline } from "../../src/job/storey-outline.ts";
import { sampleJob } from "./sample-job.ts";

const outline: Point2[] = [
  [300, 100],
  [500, 100],
  [500, 250],
  [300, 250],
];
const storey = (above: StoreyOutline["above"]): StoreyOutline => ({
  label: "S-1",
  viewport: "framing",
  outline,
  holes: [],
  above,
  reason: "letter of 2 May",
  by: "K. Invented",
});
const withStorey = (above: StoreyOutline["above"]): Job => {
  const job = sampleJob();
  const { "roof-a": roof, ...others } = job.areas;
  return {
    ...job,
    storeyOutlines: { s1: storey(above) },
    areas: {
      ...others,
      "roof-a": { ...roof!, classification: { is: "from-outline", outlines: ["s1"], reason: "", by: "" } },
    },
  };
};
const OCCUPIED = { is: "occupied-storey" } as const;
const canopy = (makes: "roof" | "not-settled" | "floor-above") => ({ is: "other", what: "canopy", makes }) as const;
const ringsOf = (job: Job): PathItem[] =>
  marksOf(job, undefined)
    .find(({ key }) => key === "storey:s1")!
    .picture.filter((item): item is PathItem => item.type === "path" && item.stroke !== undefined);

describe("a storey above on the sheet", () => {
  it("lies on its own sheet and, fainter, on those registered to it, after the areas and before the wiring", () => {
    const marks = marksOf(withStorey(OCCUPIED), undefined);
    const own = marks.filter(({ key }) => key.startsWith("storey:"));
    expect(own.map(({ key, layer }) => [key, layer])).toEqual([
      ["storey:s1", "areas"],
      ["storey:s1@ceiling", "areas"],
    ]);
    const sheets = new Set(own.map(({ sheet }) => sheet));
    expect(sheets.size).toBe(2);
    for (const sheet of sheets) {
      const keys = marks.filter((mark) => mark.sheet === sheet).map(({ key }) => key.split(":")[0]);
      expect(keys.lastIndexOf("area")).toBeLessThan(keys.indexOf("storey"));
    }
    expect(own[0]!.annotation.contents).toBe("S-1: occupied storey above.");
    expect(own[1]!.annotation.contents).toBe("S-1: occupied storey above. Traced on another sheet.");
  });

  it("is told apart without colour: a floor a double line, a roof a single dashed one, what is not settled a double one in dashes", () => {
    const lines = (above: StoreyOutline["above"]) => {
      const rings = ringsOf(withStorey(above));
      return [rings.length, rings.every(({ dash }) => dash !== undefined)];
    };
    expect(lines(OCCUPIED)).toEqual([2, false]);
    expect(lines(canopy("floor-above"))).toEqual([2, false]);
    expect(lines(canopy("roof"))).toEqual([1, true]);
    expect(lines(canopy("not-settled"))).toEqual([2, true]);
    expect(lines({ is: "not-recorded" })).toEqual([2, true]);
  });

  it("says what stands there and what it makes of the deck", () => {
    expect(storeyWords(storey({ is: "not-recorded" }))).toBe("storey above not settled");
    expect(storeyWords(storey(canopy("roof")))).toBe("canopy: a roof below");
    expect(storeyWords({ ...storey(canopy("floor-above")), by: "" })).toBe("canopy: not settled");
  });
});

describe("a ring moved inwards", () => {
  it("keeps its distance to every edge, whichever way it runs", () => {
    const inner = [
      [302, 102],
      [498, 102],
      [498, 248],
      [302, 248],
    ];
    const near = (ring: Point2[], to: number[][]) =>
      ring.forEach(([x, y], i) => {
        expect(x).toBeCloseTo(to[i]![0]!, 9);
        expect(y).toBeCloseTo(to[i]![1]!, 9);
      });
    near(inset(outline, 2), inner);
    near(inset(outline.toReversed(), 2), inner.toReversed());
  });

  it("stays near its corner where that is sharp, and where the ring turns back", () => {
    const sharp: Point2[] = [
      [0, 0],
      [100, 1],
      [100, -1],
    ];
    for (const [i, [x, y]] of inset(sharp, 2).entries())
      expect(Math.hypot(x - sharp[i]![0], y - sharp[i]![1])).toBeLessThanOrEqual(8 + 1e-9);
    const back: Point2[] = [
      [0, 0],
      [10, 0],
      [0, 0],
    ];
    expect(inset(back, 2).flat().every(Number.isFinite)).toBe(true);
  });
});

it("the findings as JSON name the deck above, what it is there and what that rests on", () => {
  const job = withStorey(OCCUPIED);
  const { findings } = JSON.parse(findingsJson(job, checkJob(job))) as {
    findings: { element: string; decks: { area: string; is: string; from: string }[] }[];
  };
  const decks = findings.flatMap((finding) => finding.decks);
  expect(decks.map(({ is, from }) => `${is} ${from}`)).toContain("floor-above storey-outlines");
  expect(decks.map(({ is, from }) => `${is} ${from}`)).toContain("roof storey-outlines");
  expect(decks.map(({ from }) => from)).toContain("record");
});
