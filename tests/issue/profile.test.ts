import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import type { RunProfile } from "../../src/check/run-profile.ts";
import { runProfile } from "../../src/check/run-profile.ts";
import type { PathItem, Picture, TextItem } from "../../src/geometry/picture.ts";
import { ACCENT, VERDICT_INK } from "../../src/issue/inks.ts";
import { profilePicture } from "../../src/issue/profile/profile-picture.ts";
import { profileReading } from "../../src/issue/profile/profile-reading.ts";
import { profileScale } from "../../src/issue/profile/profile-scale.ts";
import { ticks } from "../../src/issue/profile/ruler.ts";
import { textCorners } from "../../src/issue/text-width.ts";
import type { Rack } from "../../src/job/elements/rack.ts";
import { NO_FACTS } from "../../src/job/fields.ts";
import { box, inchJob, roof, run, tag, withParts } from "../check/inch-job.ts";
import { expectGolden, pictureSvg } from "../golden/golden.ts";
import { sampleJob, sampleProfile } from "./sample-job.ts";

const profile = sampleProfile("r-1");
const SIZE = { width: 500, height: 180 };

describe("profileScale", () => {
  it("goes to the picture and back", () => {
    const scale = profileScale(profile, SIZE);
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 760, noNaN: true }),
        fc.double({ min: 100, max: 200, noNaN: true }),
        (station, z) => {
          const back = scale.toProfile(scale.toPicture({ station, z }));
          expect(back.station).toBeCloseTo(station, 6);
          expect(back.z).toBeCloseTo(z, 6);
        },
      ),
    );
  });

  it("shows the whole run and the deck's top inside the rulers, heights exaggerated as it states", () => {
    const scale = profileScale(profile, SIZE);
    expect(scale.toPicture({ station: profile.lengthIn, z: 160 })[0]).toBeLessThanOrEqual(scale.plot[2] + 1e-9);
    expect(scale.high).toBeGreaterThan(171.5);
    expect(scale.up / scale.along).toBeCloseTo(scale.exaggeration, 9);
    const said = profilePicture(profile, SIZE).picture.flatMap((item) => (item.type === "text" ? [item.text] : []));
    expect(said).toContain(`Heights drawn ${scale.exaggeration} times larger than lengths`);
  });

  it("keeps the deck readable beside a drop to the floor", () => {
    const drop: RunProfile = {
      ...profile,
      axis: [...profile.axis, { from: { station: 760, z: 160 }, to: { station: 872, z: 48 } }],
      lengthIn: 872,
    };
    expect(profileScale(drop, SIZE).low).toBeGreaterThan(130);
    const rise: RunProfile = {
      ...profile,
      axis: [{ from: { station: 0, z: 48 }, to: { station: 112, z: 160 } }],
    };
    for (const item of [drop, rise].flatMap((some) => profilePicture(some, SIZE).picture)) {
      if (item.type !== "path" || item.stroke !== ACCENT) continue;
      for (const step of item.steps) if (step[0] !== "Z") expect(step[2]).toBeGreaterThan(30);
    }
  });

  it.each([
    ["nothing known", { ...profile, axis: [], decks: [], lengthIn: 0 }],
    ["a short run", { ...profile, lengthIn: 2, axis: [{ from: { station: 0, z: 165 }, to: { station: 2, z: 165 } }] }],
  ])("works with %s", (_, some) => {
    const { picture, scale } = profilePicture(some, SIZE);
    expect(Number.isFinite(scale.along) && Number.isFinite(scale.up)).toBe(true);
    expect(JSON.stringify(picture)).not.toMatch(/null/);
  });
});

describe("profilePicture", () => {
  const { picture, scale } = profilePicture(profile, SIZE);
  const paths = picture.filter((item): item is PathItem => item.type === "path");

  it("draws the wiring with its true thickness in the scale of heights", () => {
    const body = paths.find(({ fill }) => fill === ACCENT)!;
    const [top, , , bottom] = body.steps as [["M", number, number], unknown, unknown, ["L", number, number]];
    expect(top[2] - bottom[2]).toBeCloseTo(2 * 0.461 * scale.up, 3);
  });

  it("fills a stretch between its stations, from under the wiring up to the deck", () => {
    const fill = paths.find((item) => item.fill === VERDICT_INK["too-close"] && item.opacity === 0.3)!;
    const points = fill.steps.flatMap((step) =>
      step[0] === "Z" ? [] : [scale.toProfile([step[1] as number, step[2] as number])],
    );
    expect(Math.min(...points.map(({ station }) => station))).toBeCloseTo(230, 6);
    expect(Math.max(...points.map(({ station }) => station))).toBeCloseTo(307, 6);
    expect(Math.min(...points.map(({ z }) => z))).toBeCloseTo(165 + (0.5 * 230) / 320 - 0.461, 2);
    expect(points.some(({ station, z }) => Math.abs(station - 307) < 1e-6 && Math.abs(z - 166.3) < 1e-6)).toBe(true);
  });

  it("fills wiring in the flutes from the lowest surface of the deck to its top, and not up to a deck far above", () => {
    const fills = (underside: number) => {
      const level = (z: number) => ({ from: { station: 0, z }, to: { station: 100, z } });
      const some: RunProfile = {
        ...profile,
        lengthIn: 100,
        axis: [level(165)],
        decks: [{ ...profile.decks[0]!, underside: level(underside), limit: level(underside - 1.5) }],
        stretches: [{ fromIn: 20, toIn: 60, verdict: "concealed", number: 1 }],
      };
      const made = profilePicture(some, SIZE);
      const fill = made.picture.find(
        (item): item is PathItem => item.type === "path" && item.fill === VERDICT_INK.concealed && item.opacity === 0.3,
      )!;
      const zs = fill.steps.flatMap((step) =>
        step[0] === "Z" ? [] : [made.scale.toProfile([0, step[2] as number]).z],
      );
      return [Math.min(...zs), Math.max(...zs)];
    };
    const near = ([low, high]: number[], a: number, b: number) => {
      expect(low).toBeCloseTo(a, 6);
      expect(high).toBeCloseTo(b, 6);
    };
    near(fills(164), 164, 165.461);
    near(fills(165), 164.539, 165.461);
    near(fills(166.5), 164.539, 166.5);
    near(fills(190), 164.539, 165.461);
  });

  it("hatches stretches of different verdicts differently, so that grey print tells them apart", () => {
    const hatch = (verdict: "too-close" | "borderline") =>
      paths.filter((item) => item.stroke === VERDICT_INK[verdict] && item.width === 0.7 && item.opacity === 0.9);
    const lean = (item: PathItem) => {
      const [from, to] = item.steps as [["M", number, number], ["L", number, number]];
      return Math.sign((to[1] - from[1]) * (to[2] - from[2]));
    };
    expect(new Set(hatch("too-close").map(lean))).toEqual(new Set([1]));
    expect(new Set(hatch("borderline").map(lean))).toEqual(new Set([-1]));
  });

  it("draws limits dashed for roofs, none for the floor", () => {
    expect(paths.filter(({ dash, width }) => dash?.[0] === 6 && width === 0.9)).toHaveLength(2);
  });
});

describe("profileReading", () => {
  it("reads gap and room at a station, worked by hand", () => {
    // Halfway along Roof A: underside (170 + 166.3) / 2, axis 165 + 0.5 x 153.5 / 320, top 0.461 above it (level within 1e-5).
    const reading = profileReading(profile, 153.5);
    expect(reading.deck?.label).toBe("Roof A");
    expect(reading.undersideZ).toBeCloseTo(168.15, 9);
    expect(reading.topZ).toBeCloseTo(165 + (0.5 * 153.5) / 320 + 0.461, 4);
    expect(reading.gap).toBeCloseTo(168.15 - 165.2398 - 0.461, 3);
    expect(reading.room).toBeCloseTo(reading.gap! - 1.5, 9);
  });

  it("takes the lower of two decks over one station", () => {
    const [roof] = profile.decks;
    const low = {
      ...roof!,
      areaId: "low",
      label: "Canopy",
      underside: { from: { station: 100, z: 166 }, to: { station: 200, z: 166 } },
    };
    for (const decks of [
      [low, roof!],
      [roof!, low],
    ]) {
      expect(profileReading({ ...profile, decks }, 150).deck?.label).toBe("Canopy");
      expect(profileReading({ ...profile, decks }, 250).deck?.label).toBe("Roof A");
    }
  });

  it("has no limit under a floor, and stays within the run", () => {
    const end = profileReading(profile, 5000);
    expect(end.station).toBe(760);
    expect(end.deck?.label).toBe("Floor C");
    expect(end.room).toBeUndefined();
    expect(profileReading({ ...profile, axis: [] }, 10).gap).toBeUndefined();
  });

  it("agrees with the check: inside a stretch there is no room, at its least distance", () => {
    const job = sampleJob();
    const result = checkJob(job);
    const finding = result.findings.find(({ elementId, verdict }) => elementId === "r-1" && verdict === "too-close")!;
    const unrolled = runProfile(job, "r-1", result)!;
    expect(finding.stretches.length).toBeGreaterThan(0);
    for (const { fromIn, toIn } of finding.stretches) {
      const { room } = profileReading(unrolled, (fromIn + toIn) / 2);
      expect(room).toBeLessThan(0.01);
    }
  });
});

describe("ticks", () => {
  it("are round in both unit systems and far enough apart", () => {
    expect(ticks(160, 172, 2.5, "imperial")).toEqual([162, 165, 168, 171]);
    const metric = ticks(0, 40, 3, "metric").map((inches) => Math.round(inches * 25.4));
    expect(metric.slice(0, 4)).toEqual([0, 100, 200, 300]);
  });
});

describe("the profile of a rack", () => {
  const wiring = (tradeSize: string) => ({ type: "emt", tradeSize, outsideDiameter: null });
  const rack: Rack = {
    kind: "rack",
    label: "K-1",
    viewport: "v1",
    raceways: ["3/4", "2", "3/4", "1"].map((size) => ({ label: "", wiring: wiring(size), facts: NO_FACTS })),
    spacing: { is: "centres", apart: { value: 4, unit: "in" } },
    vertices: [
      { at: [100, 300], tag: tag(140, "bottom") },
      { at: [400, 300], tag: tag(141, "bottom") },
    ],
  };
  const job = withParts(inchJob(), { a: roof(144) }, { e1: rack });
  const drawn = runProfile(job, "e1", checkJob(job))!;

  it("shows the highest raceway, and each of the others as thick as it is, bearing beside it", () => {
    expect(drawn.label).toBe("K-1/2");
    expect(drawn.member).toBe("2");
    expect(drawn.radiusIn).toBeCloseTo(2.197 / 2, 9);
    expect(drawn.raceways?.map(({ label }) => label)).toEqual(["K-1/1", "K-1/2", "K-1/3", "K-1/4"]);
    // Outsides of EMT by ANSI C80.3; all bear at 140 in. at the start and 141 in. at the end.
    for (const [i, outside] of [0.922, 2.197, 0.922, 1.163].entries()) {
      const other = drawn.raceways![i]!;
      expect(other.radiusIn).toBeCloseTo(outside / 2, 9);
      expect(other.axis.map(({ from, to }) => [from.z, to.z].map((z) => z - outside / 2))[0]).toEqual([
        expect.closeTo(140, 9),
        expect.closeTo(141, 9),
      ]);
    }
  });

  it("has every raceway's own verdict, distance and stretches, those of its findings", () => {
    const { findings } = checkJob(job);
    for (const { member, verdict, leastIn, stretches } of drawn.raceways!) {
      const [own, another] = findings.filter(({ about }) => about === member);
      expect(another).toBeUndefined();
      expect({ verdict, leastIn }).toEqual({ verdict: own!.verdict, leastIn: own!.leastIn });
      expect(stretches.map(({ fromIn, toIn }) => ({ fromIn, toIn }))).toEqual(own!.stretches);
    }
    expect(drawn.raceways!.map(({ verdict }) => verdict)).toEqual(["clear", "too-close", "clear", "clear"]);
  });

  it("shows another raceway in full when it is asked for, with its own stretches", () => {
    const first = runProfile(job, "e1", checkJob(job), "1")!;
    expect(first.label).toBe("K-1/1");
    expect(first.radiusIn).toBeCloseTo(0.922 / 2, 9);
    expect(first.stretches).toEqual([]);
    expect(drawn.stretches.length).toBeGreaterThan(0);
    expect(runProfile(job, "e1", checkJob(job), "9")!.label).toBe("K-1/2");
  });

  it("brings stations of the others to those of the one shown, round a corner too", () => {
    const turning: Rack = {
      ...rack,
      vertices: [
        { at: [100, 300], tag: tag(143, "bottom") },
        { at: [300, 300], tag: null },
        { at: [300, 500], tag: tag(143, "bottom") },
      ],
    };
    const bent = withParts(inchJob(), { a: roof(144) }, { e1: turning });
    const { raceways, lengthIn } = runProfile(bent, "e1", checkJob(bent))!;
    // Turning left, the first raceway is inside, the last outside: lengths differ by 2 x 12 in. of offset, yet all are too close from end to end.
    for (const { stretches, axis } of raceways!) {
      expect(stretches.map(({ fromIn, toIn }) => [fromIn, toIn])).toEqual([[0, expect.closeTo(lengthIn, 6)]]);
      expect(axis.at(-1)?.to.station).toBeCloseTo(lengthIn, 6);
    }
  });

  it("names every raceway in a lane of its own, and says how many more there are where there is no room", () => {
    const { picture, scale } = profilePicture(drawn, { width: 500, height: 180 });
    const said = picture.flatMap((item) => (item.type === "text" ? [item.text] : []));
    expect(said).toEqual(expect.arrayContaining(["K-1/1", "K-1/2", "K-1/3", "K-1/4"]));
    expect(scale.lanes).toBe(4);
    const low = profilePicture(drawn, { width: 500, height: 140 });
    const told = low.picture.flatMap((item) => (item.type === "text" ? [item.text] : []));
    // The one that is too close stays; of the three clear ones none is worse.
    expect(told).toEqual(expect.arrayContaining(["K-1/2", "and 3 more, none of them worse"]));
    expect(told).not.toContain("K-1/1");
    expectGolden("profile-rack.svg", pictureSvg(picture, [0, 0, 500, 180]));
  });
});

describe("what stands on a run", () => {
  const wired = run(
    [
      [100, 300, 140],
      [300, 300, 140],
      [300, 300, 100],
    ],
    { couplings: { is: "table" } },
  );
  const at = (x: number, y: number, z: number, more = {}) => box(x, y, tag(z, "bottom"), { label: `B-${x}`, ...more });
  const job = withParts(
    inchJob(),
    { a: roof(144) },
    {
      e1: wired,
      on: at(180, 301, 140),
      beside: at(200, 312, 140),
      below: at(220, 300, 100),
      foot: at(300, 300, 96),
      unknown: box(240, 300, null),
    },
  );
  const result = checkJob(job);
  const drawn = runProfile(job, "e1", result)!;

  it("is shown at its station, in its true size, with its verdict; not what is a foot away, far below, or of no known elevation", () => {
    // A 4 in. square box 1-1/2 in. deep, cover down: 2 in. to either side of its middle, at 80 in. of the run.
    const finding = result.findings.find(({ elementId }) => elementId === "on")!;
    expect(drawn.boxes?.map(({ elementId }) => elementId)).toEqual(["on", "foot"]);
    expect(drawn.boxes![0]).toEqual({
      elementId: "on",
      label: "B-180",
      fromIn: expect.closeTo(78, 9),
      toIn: expect.closeTo(82, 9),
      low: 140,
      high: 141.5,
      verdict: finding.verdict,
      number: finding.number,
    });
    // At the foot of the drop, 40 in. below the corner at station 200.
    expect(drawn.boxes![1]).toMatchObject({ fromIn: expect.closeTo(238, 9), toIn: expect.closeTo(242, 9) });
  });

  it("is drawn as a rectangle of that size, and named beside what is written there already", () => {
    const { picture, scale } = profilePicture(drawn, SIZE);
    const rectangle = [
      scale.toPicture({ station: drawn.boxes![0]!.fromIn, z: 140 }),
      scale.toPicture({ station: drawn.boxes![0]!.toIn, z: 141.5 }),
    ];
    const outlines = picture.filter((item): item is PathItem => item.type === "path" && item.steps.length === 5);
    const [[x0, y0], [x1, y1]] = rectangle as [[number, number], [number, number]];
    const corners = [
      [x0, y0],
      [x1, y0],
      [x1, y1],
      [x0, y1],
    ];
    const same = ({ steps }: PathItem) =>
      corners.every(([x, y], i) => {
        const [, a, b] = steps[i] as ["L", number, number];
        return Math.abs(a - x!) < 1e-6 && Math.abs(b - y!) < 1e-6;
      });
    expect(outlines.filter(same).length).toBeGreaterThan(0);
    expect(wordsOverOthers(picture)).toEqual([]);
  });

  it("shows how far couplings reach along all of it, and says how much that is", () => {
    const { couplingIn } = drawn;
    expect(couplingIn).toBeGreaterThan(0.922);
    const { picture, scale } = profilePicture(drawn, SIZE);
    const dotted = picture.filter((item): item is PathItem => item.type === "path" && item.dash?.[0] === 0.1);
    const heights = dotted.map(({ steps }) => scale.toProfile([0, (steps[0] as ["M", number, number])[2]]).z);
    expect(Math.max(...heights)).toBeCloseTo(140 + couplingIn! / 2, 6);
    const said = picture.flatMap((item) => (item.type === "text" ? [item.text] : []));
    expect(said.join()).toMatch(/couplings .* across, anywhere/);
    expect(
      runProfile(
        withParts(
          inchJob(),
          { a: roof(144) },
          {
            e1: run([
              [0, 0, 1],
              [9, 0, 1],
            ]),
          },
        ),
        "e1",
        result,
      ),
    ).not.toHaveProperty("couplingIn");
  });
});

describe("a long run with much on it", () => {
  const stations = Array.from({ length: 60 }, (_, i) => i * 160);
  const crowded: RunProfile = {
    ...profile,
    lengthIn: 9600,
    axis: [{ from: { station: 0, z: 165 }, to: { station: 9600, z: 165 } }],
    vertices: stations.map((station, index) => ({ index, station, z: 165, tag: `13'-9" centre` })),
    stretches: stations.map((station, i) => ({
      fromIn: station,
      toIn: station + 20,
      verdict: i === 59 ? "concealed" : "borderline",
      number: i === 59 ? 1 : 2 + i,
    })),
    boxes: stations.map((station, i) => ({
      elementId: `b${i}`,
      label: `B-${i}`,
      fromIn: station,
      toIn: station + 4,
      low: 164,
      high: 166,
      verdict: "clear",
      number: null,
    })),
  };

  it("sets no words over others, and none smaller than 6.5 points", () => {
    for (const width of [300, 500, 1200]) {
      const { picture } = profilePicture(crowded, { width, height: 168 });
      expect(wordsOverOthers(picture)).toEqual([]);
      for (const item of picture) if (item.type === "text") expect(item.size).toBeGreaterThanOrEqual(6.5);
    }
  });

  it("keeps the worst finding's sign when there is no room for all, inside the picture", () => {
    const { picture } = profilePicture(crowded, SIZE);
    const signs = picture.filter((item): item is TextItem => item.type === "text" && item.size === 9);
    expect(signs.map(({ text }) => text)).toContain("1");
    expect(signs.length).toBeLessThan(60);
    for (const { at } of signs) expect(at[0] + 10).toBeLessThanOrEqual(SIZE.width);
  });
});

/** Texts whose box lies over that of another one. */
function wordsOverOthers(picture: Picture): string[] {
  const boxes = picture.flatMap((item) => {
    if (item.type !== "text") return [];
    const [a, , c] = textCorners(item);
    return [{ text: item.text, x0: a[0], y0: a[1], x1: c[0], y1: c[1] }];
  });
  return boxes.flatMap((one, i) =>
    boxes
      .slice(i + 1)
      .filter((other) => one.x0 < other.x1 && other.x0 < one.x1 && one.y0 < other.y1 && other.y0 < one.y1)
      .map((other) => `${one.text} over ${other.text}`),
  );
}
