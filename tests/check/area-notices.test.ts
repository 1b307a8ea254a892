import { describe, expect, it } from "vitest";
import { checkMessages } from "../../src/check/messages.ts";
import type { Area, AreaShape, FoldLine, Job } from "../../src/job/schema.ts";
import type { Problem } from "../../src/units/problem.ts";
import { check, inch, inchJob, rectangle, roof } from "./inch-job.ts";

const notices = (areas: Record<string, Area>, base: Job = inchJob()): readonly Problem[] =>
  check(areas, {}, base).notices;
const words = ({ code, params, where }: Problem): string => checkMessages[code]!(params, where);
const a = (x0: number, y0: number, x1: number, y1: number, more: Partial<Area> = {}): Area =>
  roof(144, { label: "A", outline: rectangle(x0, y0, x1, y1), ...more });
const b = (x0: number, y0: number, x1: number, y1: number, more: Partial<Area> = {}): Area =>
  roof(144, { label: "B", outline: rectangle(x0, y0, x1, y1), ...more });

describe("gaps between neighbouring areas", () => {
  it("are told with their place and size", () => {
    const [gap, ...rest] = notices({ a: a(0, 0, 300, 400), b: b(304, 100, 600, 500) });
    expect(rest).toEqual([]);
    expect(gap).toMatchObject({
      code: "area.gap",
      where: "areas/a",
      params: { a: "A", b: "B", width: `4"`, length: `25'-0"` },
    });
    // Corner 3 of A is (300, 400): the middle of the strip, (302, 250), is nearer to it than to any other.
    expect(gap!.params).toMatchObject({ corner: 3, sheet: "s1", x: 302, y: 250 });
    expect(words(gap!)).toContain(`a strip about 4" wide and 25'-0" long near corner 3 of A lies under neither`);
  });

  it.each<[string, Record<string, Area>]>([
    ["they meet", { a: a(0, 0, 300, 400), b: b(300, 0, 600, 400) }],
    ["they lie farther apart than neighbours do", { a: a(0, 0, 300, 400), b: b(313, 0, 600, 400) }],
    ["they miss each other by what tracing does", { a: a(0, 0, 300, 400), b: b(300.1, 0, 600, 400) }],
    ["they face each other over less than a foot", { a: a(0, 0, 300, 400), b: b(304, 390, 600, 500) }],
    ["they only share a corner", { a: a(0, 0, 300, 400), b: b(304, 404, 600, 600) }],
    [
      "another area fills the strip",
      {
        a: a(0, 0, 300, 400),
        b: b(304, 0, 600, 400),
        c: roof(144, { label: "C", outline: rectangle(300, 0, 304, 400) }),
      },
    ],
    [
      "one lies over the other",
      { a: a(0, 0, 300, 400), b: b(4, 4, 296, 396, { classification: { is: "floor-above", reason: "", by: "" } }) },
    ],
  ])("are none where %s", (_, areas) => {
    expect(notices(areas).filter(({ code }) => code === "area.gap")).toEqual([]);
  });

  it("are told where one is wedge-shaped, and round what fills a hole", () => {
    const wedge = roof(144, {
      label: "B",
      outline: [
        [300, 0],
        [600, 0],
        [600, 400],
        [306, 400],
      ],
    });
    expect(notices({ a: a(0, 0, 300, 400), b: wedge }).map(({ code, params }) => [code, params.width])).toEqual([
      ["area.gap", `3"`],
    ]);
    const ring = a(0, 0, 600, 600, { holes: [rectangle(200, 200, 400, 400)] });
    const [gap] = notices({ a: ring, b: b(203, 203, 397, 397) });
    expect(gap).toMatchObject({ code: "area.gap", params: { width: `3"` } });
  });

  it("count the tolerance of the plan, each outline's", () => {
    const job = inchJob();
    const loose = {
      ...job,
      settings: { job: { ...job.settings.job, tolerances: { ...job.settings.job.tolerances, plan: inch(2) } } },
    };
    const areas = { a: a(0, 0, 300, 400), b: b(303, 0, 600, 400) };
    expect(notices(areas).length).toBe(1);
    expect(notices(areas, loose)).toEqual([]);
  });
});

describe("overlapping areas", () => {
  it("are told with their place and size, and how far the decks are apart", () => {
    const [one, ...rest] = notices({ a: a(0, 0, 300, 400), b: b(276, 100, 600, 500) });
    expect(rest).toEqual([]);
    expect(one).toMatchObject({
      code: "area.overlap",
      params: { across: `2'-0"`, up: `25'-0"`, corner: 3, sheet: "s1" },
    });
    const apart = roof(150, { label: "B", outline: rectangle(276, 100, 600, 500) });
    const [two] = notices({ a: a(0, 0, 300, 400), b: apart });
    expect(two).toMatchObject({ code: "area.overlap-elevations", params: { difference: 6 } });
    expect(words(two!)).toContain(`2'-0" by 25'-0" near corner 3 of A`);
  });
});

describe("folds of a deck through spots", () => {
  const shape = (
    spots: readonly (readonly [number, number, number])[],
    lines: readonly (readonly [number, number, FoldLine["kind"]])[],
  ): AreaShape => ({
    is: "spots",
    spots: spots.map(([x, y, z]) => ({ at: [x, y], elevation: inch(z) })),
    ...(lines.length > 0 ? { lines: lines.map(([p, q, kind]) => ({ between: [p, q] as const, kind })) } : {}),
  });
  const through = (
    spots: readonly (readonly [number, number, number])[],
    lines: readonly (readonly [number, number, FoldLine["kind"]])[] = [],
  ): Area => {
    const plain = a(0, 0, 600, 600);
    return { ...plain, elevation: { ...plain.elevation, shape: shape(spots, lines) } };
  };
  const WARPED = [
    [0, 0, 144],
    [600, 0, 150],
    [600, 600, 144],
    [0, 600, 150],
  ] as const;

  it("that were chosen without a record are told, with what the other way would come to", () => {
    const [chosen, ...rest] = notices({ a: through(WARPED) });
    expect(rest).toEqual([]);
    // The lower diagonal, at 144, was taken: along the other the middle would lie at 150.
    expect(chosen).toMatchObject({
      code: "area.folds-chosen",
      params: { count: 1, a: 1, b: 3, off: `6"`, way: "higher" },
    });
    expect(notices({ a: through(WARPED, [[1, 3, "valley"]]) })).toEqual([]);
    expect(notices({ a: through(WARPED, [[2, 4, "ridge"]]) })).toEqual([]);
  });

  it("are not told where spots lie in one plane, or where no other fold could be", () => {
    expect(notices({ a: through(WARPED.map(([x, y]) => [x, y, 144 + x / 48] as const)) })).toEqual([]);
    // A spot in the middle, higher: every line to it has to be one.
    expect(notices({ a: through([...WARPED.map(([x, y]) => [x, y, 144] as const), [300, 300, 160]]) })).toEqual([]);
  });

  it("that are recorded as what the elevations contradict are told", () => {
    const [wrong] = notices({ a: through(WARPED, [[1, 3, "ridge"]]) });
    expect(wrong).toMatchObject({ code: "area.fold-kind", params: { a: 1, b: 3, kind: "ridge", is: "rises" } });
    expect(notices({ a: through(WARPED, [[2, 4, "valley"]]) })[0]).toMatchObject({
      code: "area.fold-kind",
      params: { is: "falls away" },
    });
    expect(notices({ a: through(WARPED, [[2, 4, "edge"]]) })).toEqual([]);
  });

  it("that would be walls are told", () => {
    // A ridge end put 2" inside the gable instead of on it.
    const gable = [
      [0, 0, 144],
      [600, 0, 144],
      [600, 600, 144],
      [0, 600, 144],
      [2, 300, 200],
      [600, 300, 200],
    ] as const;
    const [steep] = notices({ a: through(gable, [[5, 6, "ridge"]]) });
    expect(steep).toMatchObject({ code: "area.steep", params: { spots: "spots 1, 4 and 5", degrees: 88 } });
  });
});
