import { describe, expect, it } from "vitest";
import { applyTo } from "../../src/geometry/similarity.ts";
import { scaleReadings, sheetToBuilding } from "../../src/job/registration.ts";
import { emptyJob, type Job, type Viewport } from "../../src/job/schema.ts";
import { plainSheet, plainViewport } from "./plain-records.ts";

const jobWith = (sheets: Job["sheets"], viewports: Job["viewports"]): Job => ({
  ...emptyJob("J", "us-2023"),
  sheets,
  viewports,
});
const value = <T>(r: { ok: true; value: T } | { ok: false }): T => {
  if (!r.ok) throw new Error("not ok");
  return r.value;
};

describe("a viewport's own frame", () => {
  it.each([
    [0, [72, 144], [48, 96]],
    [90, [792 - 144, 72], [48, 96]],
    [180, [792 - 72, 612 - 144], [48, 96]],
    [270, [144, 612 - 72], [48, 96]],
  ] as const)("has x right and y up as the page is displayed at /Rotate %i", (rotate, at, building) => {
    // 1 in. right and 2 in. up of the lower left corner as displayed, at 1/4" = 1'-0" (48): 48 in. and 96 in.
    const job = jobWith({ s: plainSheet({ rotate }) }, { v: plainViewport("s", 48) });
    const { sim } = value(sheetToBuilding(job, "v"));
    const [x, y] = applyTo(sim, at);
    expect(x).toBeCloseTo(building[0], 9);
    expect(y).toBeCloseTo(building[1], 9);
  });

  it("counts a crop box that does not start at 0, and a user unit", () => {
    const job = jobWith({ s: plainSheet({ view: [100, 50, 892, 662], userUnit: 2 }) }, { v: plainViewport("s", 48) });
    const [x, y] = applyTo(value(sheetToBuilding(job, "v")).sim, [136, 50]);
    expect([x, y]).toEqual([expect.closeTo(48, 9), expect.closeTo(0, 9)]); // 36 units of 2/72 in. are 1 in. of paper
  });

  it("has none without a scale", () => {
    const got = sheetToBuilding(jobWith({ s: plainSheet() }, { v: plainViewport("s", null) }), "v");
    expect(!got.ok && got.problems[0]?.code).toBe("registration.no-scale");
  });
});

describe("two scales", () => {
  it("are compared when both are given", () => {
    const v = plainViewport("s", 48, {
      scale: {
        stated: { text: `1/4" = 1'-0"`, ratio: 48 },
        measured: { a: [0, 0], b: [720, 0], distance: { value: 48, unit: "ft" } },
        use: "stated",
      },
    });
    // 10 in. of paper measured as 48 ft = 576 in.: 57.6 in an inch, 20 % more than the note says.
    expect(scaleReadings(plainSheet(), v)).toEqual({
      stated: 48,
      measured: 57.6,
      disagreement: expect.closeTo(0.2, 12),
    });
  });
});

describe("registration by shared points", () => {
  const sheets = { roof: plainSheet(), ceiling: plainSheet({ rotate: 90 }) };
  const roof = plainViewport("roof", 96);
  // On the roof sheet grid A/1 is at (100, 100) and B/1 at (300, 100): 200 units at 96/72 in. are 266.67 in.
  // On the ceiling sheet, at 48, the same bay is 400 units long, and runs up the unrotated page.
  const pairs = (length: number) => [
    { label: "A/1", here: [500, 50] as const, there: [100, 100] as const },
    { label: "B/1", here: [500, 50 + length] as const, there: [300, 100] as const },
  ];
  const job = (ceiling: Partial<Viewport>, ratio: number | null = 48): Job =>
    jobWith(sheets, { roof, ceiling: plainViewport("ceiling", ratio, ceiling) });

  it("brings both sheets into one frame, at the viewport's own scale, with the residual", () => {
    const got = value(sheetToBuilding(job({ registration: { to: "roof", pairs: pairs(400) } }), "ceiling"));
    expect(got.root).toBe("roof");
    expect(got.rms).toBeCloseTo(0, 9);
    const base = value(sheetToBuilding(job({ registration: null }), "roof"));
    const a = applyTo(got.sim, [500, 450]);
    const b = applyTo(base.sim, [300, 100]);
    expect(Math.hypot(a[0] - b[0], a[1] - b[1])).toBeLessThan(1e-9);
  });

  it("shows a wrong pick as residual: 3 units too long at 48/72 in. are 2 in., 1 in. at each end", () => {
    const got = value(sheetToBuilding(job({ registration: { to: "roof", pairs: pairs(403) } }), "ceiling"));
    expect(got.residuals.map((r) => r.residual)).toEqual([expect.closeTo(1, 9), expect.closeTo(1, 9)]);
    expect(got.worst).toBeCloseTo(1, 9);
  });

  it("takes its scale from the shared points where the viewport has none", () => {
    const got = value(sheetToBuilding(job({ registration: { to: "roof", pairs: pairs(400) } }, null), "ceiling"));
    expect(got.sim.scale).toBeCloseTo(48 / 72, 12);
  });

  it("refuses one point, equal points, and a circle", () => {
    const code = (j: Job, v = "ceiling") => {
      const got = sheetToBuilding(j, v);
      return got.ok ? "ok" : got.problems[0]?.code;
    };
    expect(code(job({ registration: { to: "roof", pairs: pairs(400).slice(0, 1) } }))).toBe(
      "registration.too-few-pairs",
    );
    expect(code(job({ registration: { to: "roof", pairs: pairs(0) } }))).toBe("registration.equal-points");
    const circle = job({ registration: { to: "roof", pairs: pairs(400) } });
    const both = {
      ...circle,
      viewports: { ...circle.viewports, roof: { ...roof, registration: { to: "ceiling", pairs: pairs(400) } } },
    };
    expect(code(both)).toBe("registration.circle");
  });
});
