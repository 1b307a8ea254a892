import { intersection } from "polyclip-ts";
import { describe, expect, it } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import type { Finding } from "../../src/check/finding.ts";
import { stationToSheet } from "../../src/check/run-profile.ts";
import type { PathItem, Picture, TextItem } from "../../src/geometry/picture.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import { cornersOfWords, WORDS_WEIGHT } from "../../src/issue/drawing-words.ts";
import { findingMark } from "../../src/issue/finding-mark.ts";
import { VERDICT_INK } from "../../src/issue/inks.ts";
import { legendMark } from "../../src/issue/legend-picture.ts";
import { marksOf } from "../../src/issue/marks-of.ts";
import { Occupancy } from "../../src/issue/occupancy.ts";
import { pictureBounds } from "../../src/issue/place-picture.ts";
import { readableAlong, type SheetFrame, sheetFrame } from "../../src/issue/sheet-frame.ts";
import { TakenRoom } from "../../src/issue/taken-room.ts";
import type { Job } from "../../src/job/schema.ts";
import { applyMatrix } from "../../src/pdf/read/matrix.ts";
import { displayTransform } from "../../src/pdf/read/page-geometry.ts";
import type { TextRun } from "../../src/pdf/read/plan-contents.ts";
import { radians, sheetUnits } from "../../src/units/quantity.ts";
import { sampleJob, sampleResult } from "./sample-job.ts";

const job = sampleJob();
const result = sampleResult();
const texts = (picture: Picture): TextItem[] => picture.filter((item): item is TextItem => item.type === "text");
const paths = (picture: Picture): PathItem[] => picture.filter((item): item is PathItem => item.type === "path");

/** The same job with its wiring sheet turned and its user unit changed. */
function turned(rotate: 0 | 90 | 180 | 270, userUnit = 1): Job {
  const sheet = job.sheets["wiring-sheet"]!;
  return { ...job, sheets: { ...job.sheets, "wiring-sheet": { ...sheet, rotate, userUnit } } };
}

describe("marksOf", () => {
  const marks = marksOf(job, result, { quiet: true });

  it("gives every mark a key of its own, the same each time", () => {
    const keys = marks.map(({ key }) => key);
    expect(new Set(keys).size).toBe(keys.length);
    expect(JSON.stringify(marksOf(job, result, { quiet: true }))).toBe(JSON.stringify(marks));
    expect(keys).toContain("area:roof-a");
    expect(keys).toContain("element:r-1");
    expect(keys).toContain("finding:r-1:too-close");
  });

  it("does not depend on the order in which the job holds its records", () => {
    const turnedRound = <T>(table: Record<string, T>) => Object.fromEntries(Object.entries(table).reverse());
    const other: Job = {
      ...job,
      sheets: turnedRound(job.sheets),
      viewports: turnedRound(job.viewports),
      areas: turnedRound(job.areas),
      elements: turnedRound(job.elements),
    };
    expect(JSON.stringify(marksOf(other, result, { quiet: true }))).toBe(JSON.stringify(marks));
  });

  it("marks quiet findings only when asked", () => {
    const loud = marksOf(job, result).filter(({ layer }) => layer === "findings");
    expect(loud.map(({ key }) => key).sort()).toEqual(
      result.findings
        .filter(({ number }) => number !== null)
        .map(({ elementId, verdict }) => `finding:${elementId}:${verdict}`)
        .sort(),
    );
  });

  it("draws areas below wiring and wiring below findings", () => {
    const order = { areas: 0, wiring: 1, notes: 2, findings: 3 };
    for (const sheet of Object.keys(job.sheets)) {
      const layers = marks.filter((mark) => mark.sheet === sheet).map(({ layer }) => order[layer]);
      expect(layers).toEqual([...layers].sort());
    }
  });

  it("shows an area on a sheet registered to its own, where the shared points put it", () => {
    const elsewhere = marks.find(({ key }) => key === "area:roof-a@ceiling")!;
    expect(elsewhere.sheet).toBe("wiring-sheet");
    // Both sheets have one scale, and the shared points lie 40 units apart.
    const expected = job.areas["roof-a"]!.outline.map(([x, y]) => [x + 40, y]);
    elsewhere.annotation.vertices!.forEach(([x, y], i) => {
      expect(x).toBeCloseTo(expected[i]![0]!, 6);
      expect(y).toBeCloseTo(expected[i]![1]!, 6);
    });
    expect(marks.filter(({ key }) => key.startsWith("area:roof-a@"))).toHaveLength(1);
  });

  it("ends the lines of an area from another sheet where the part it is seen in ends, and leaves them out of parts beside it", () => {
    // The area lies from 190 to 490 and 150 to 510 on the ceiling sheet; a part of it is another plan.
    const part = { ...job.viewports.ceiling!, region: [300, 300, 600, 600] as [number, number, number, number] };
    const seen = (viewports: Job["viewports"]) =>
      marksOf({ ...job, viewports: { ...job.viewports, ...viewports } }, result).filter(({ key }) =>
        key.startsWith("area:roof-a@"),
      );
    const points = (mark: { picture: Picture }) =>
      paths(mark.picture)[0]!.steps.map((step) => step.slice(1).map((n) => Number((n as number).toFixed(6))));
    const [inPart, ...more] = seen({ ceiling: part });
    expect(more).toEqual([]);
    expect(points(inPart!)).toEqual([
      [490, 300],
      [490, 510],
      [300, 510],
    ]);
    expect(inPart!.annotation.vertices).toHaveLength(4);
    for (const [x, y] of inPart!.annotation.vertices!) {
      expect(x >= 300 && x <= 490.000001).toBe(true);
      expect(y >= 300 && y <= 510.000001).toBe(true);
    }
    const detail = { ...part, registration: null, scale: { stated: null, measured: null, use: null } };
    const [beside] = seen({ detail });
    // Round the three sides that lie beside the part: its upper right corner is cut away.
    expect(points(beside!)).toEqual([
      [190, 150],
      [490, 150],
      [490, 300],
      [300, 510],
      [190, 510],
      [190, 150],
    ]);
    expect(seen({ ceiling: { ...part, region: [700, 600, 800, 700] } })).toEqual([]);
  });

  it("draws a stretch from the place of its first station to that of its last, around the corner between", () => {
    const finding = result.findings.find(({ element }) => element === "R-1") as Finding;
    const strong = paths(marks.find(({ key }) => key === "element:r-1")!.picture).filter(
      ({ stroke }) => stroke === VERDICT_INK["too-close"],
    );
    expect(strong).toHaveLength(finding.stretches.length);
    finding.stretches.forEach(({ fromIn, toIn }, i) => {
      const steps = strong[i]!.steps.map((step) => [step[1], step[2]] as unknown as Point2);
      expect(steps[0]).toEqual(stationToSheet(job, "r-1", fromIn));
      expect(steps.at(-1)).toEqual(stationToSheet(job, "r-1", toIn));
    });
    // 380 in. of the second stretch lie before the vertex at (460, 200), which is 320 in. along: the line turns there.
    expect(strong[1]!.steps.length).toBeGreaterThanOrEqual(2);
  });

  it("draws a run as wide as its tube where that can be seen: 2 in. EMT is 2.197 in. across (ANSI C80.3)", () => {
    const scaled = (ratio: number): Job => {
      const ceiling = job.viewports.ceiling!;
      const scale = { ...ceiling.scale, stated: { text: "", ratio } };
      return { ...job, viewports: { ...job.viewports, ceiling: { ...ceiling, scale, registration: null } } };
    };
    const band = (ratio: number) =>
      paths(marksOf(scaled(ratio), undefined).find(({ key }) => key === "element:r-2")!.picture)[0]!;
    expect(band(12).width).toBeCloseTo((2.197 / 12) * 72, 9);
    expect(band(12).opacity).toBeLessThan(0.5);
    expect(band(480).width).toBe(1.6);
  });

  it("looks for room beside the words of the drawing, whichever way they run", () => {
    const name = (words?: TextRun) => {
      const some = marksOf(job, undefined, words ? { words: { "roof-sheet": [words] } } : {});
      return texts(some.find(({ key }) => key === "area:roof-b")!.picture).find(({ text }) => text === "Roof B")!;
    };
    const [x, y] = name().at;
    const line = { text: "W12 x 19", width: sheetUnits(80), height: sheetUnits(14) };
    const level = name({ ...line, at: [x - 40, y], angle: radians(0) });
    const upright = name({ ...line, at: [x + 5, y - 40], angle: radians(Math.PI / 2) });
    const beside = name({ ...line, at: [x + 100, y - 40], angle: radians(Math.PI / 2) });
    expect(level.at).not.toEqual([x, y]);
    expect(upright.at).not.toEqual([x, y]);
    expect(beside.at).toEqual([x, y]);
  });

  it("works before a check, without a scale, and for one sheet alone", () => {
    const ceiling = job.viewports.ceiling!;
    const bare: Job = {
      ...job,
      viewports: {
        ...job.viewports,
        ceiling: { ...ceiling, registration: null, scale: { stated: null, measured: null, use: null } },
      },
    };
    const alone = marksOf(bare, undefined, { sheets: new Set(["wiring-sheet"]) });
    expect(alone.map(({ key }) => key)).toEqual(
      Object.keys(job.elements)
        .sort()
        .map((id) => `element:${id}`),
    );
    expect(alone.every(({ sheet }) => sheet === "wiring-sheet")).toBe(true);
  });

  it("agrees with the check on what it found", () => {
    const checked = checkJob(job);
    const found = marksOf(job, checked).filter(({ layer }) => layer === "findings");
    expect(found).toHaveLength(checked.findings.filter(({ number }) => number !== null).length);
    expect(found.length).toBeGreaterThan(0);
  });
});

const settingOn = (frame: SheetFrame, cell: number) => ({
  frame,
  occupancy: new Occupancy(frame.view, cell),
  taken: new TakenRoom(40 * frame.point),
  system: "imperial" as const,
});

/** The area two outlines share, as a library for clipping polygons has it. */
const sharedArea = (a: readonly Point2[], b: readonly Point2[]): number =>
  intersection([a.map(([x, y]): [number, number] => [x, y])], [b.map(([x, y]): [number, number] => [x, y])])
    .flat()
    .reduce((sum, ring) => sum + Math.abs(ringArea(ring)), 0);
const ringArea = (ring: readonly (readonly number[])[]): number =>
  ring.reduce((sum, [x, y], i) => {
    const [u, v] = ring[(i + 1) % ring.length]!;
    return sum + (x! * v! - u! * y!) / 2;
  }, 0);

/** What a symbol and its number cover: the rectangle of the plate behind them. */
const plateOf = (picture: Picture): Point2[] => {
  const [x0, y0, x1, y1] = pictureBounds(picture.slice(2))!;
  return [[x0, y0], [x1, y0], [x1, y1], [x0, y1]]; // biome-ignore format: one rectangle
};

describe("symbols on a page", () => {
  it.each([0, 90, 180, 270] as const)("stand upright when the page turns by %d degrees", (rotate) => {
    const marks = marksOf(turned(rotate), result).filter(({ layer }) => layer === "findings");
    for (const { picture } of marks) {
      for (const { angle } of texts(picture)) expect(angle).toBeCloseTo((rotate * Math.PI) / 180, 12);
    }
  });

  it("are 5 mm on paper whatever the user unit", () => {
    for (const userUnit of [1, 2, 0.5]) {
      const frame = sheetFrame({ view: [0, 0, 1000, 1000], rotate: 0, userUnit });
      const setting = settingOn(frame, frame.point);
      const mark = findingMark({ ...result.findings[0]!, number: null, at: [500, 500] }, "k", setting);
      const [x0, , x1] = pictureBounds(mark.picture.slice(4))!;
      const millimetres = ((x1 - x0) * userUnit * 25.4) / 72;
      expect(millimetres).toBeGreaterThan(4.9);
      expect(millimetres).toBeLessThan(5.6);
    }
  });

  it("keep off each other and on the page, with a spot every 3/4 in. and at the very edge", () => {
    const frame = sheetFrame({ view: [0, 0, 600, 400], rotate: 0, userUnit: 1 });
    const setting = settingOn(frame, 3);
    const spots: Point2[] = [
      [0, 0],
      [600, 400],
    ];
    for (let x = 54; x < 600; x += 54) for (let y = 54; y < 400; y += 54) spots.push([x, y]);
    const plates = spots.map((at, i) => {
      const mark = findingMark({ ...result.findings[0]!, number: i + 1, at }, `k${i}`, setting);
      return pictureBounds(mark.picture.slice(2))!;
    });
    plates.forEach((a, i) => {
      expect(a[0] >= 0 && a[1] >= 0 && a[2] <= 600 && a[3] <= 400, `plate ${i} on the page`).toBe(true);
      for (const b of plates.slice(i + 1)) {
        const over = Math.min(a[2], b[2]) - Math.max(a[0], b[0]);
        const up = Math.min(a[3], b[3]) - Math.max(a[1], b[1]);
        expect(over > 0.5 && up > 0.5, `plate ${i}`).toBe(false);
      }
    });
  });

  it.each([0, 90, 180, 270] as const)(
    "cover neither each other nor words, turned ones too, with eighty at one spot on a page turned by %d",
    (rotate) => {
      const frame = sheetFrame({ view: [0, 0, 1200, 900], rotate, userUnit: 1 });
      const setting = settingOn(frame, 3);
      const words: TextRun[] = Array.from({ length: 24 }, (_, i) => {
        const [around, off] = [(i * Math.PI) / 6, i % 2 ? 55 : 140];
        const at: Point2 = [600 + off * Math.cos(around), 450 + off * Math.sin(around)];
        return { text: "JOIST", at, angle: radians(i * 0.4), width: sheetUnits(45), height: sheetUnits(9) };
      });
      for (const one of words) {
        setting.occupancy.addBox(cornersOfWords(one), WORDS_WEIGHT);
        setting.taken.add(cornersOfWords(one));
      }
      const plates = Array.from({ length: 80 }, (_, i) =>
        plateOf(findingMark({ ...result.findings[0]!, number: i + 1, at: [600, 450] }, `k${i}`, setting).picture),
      );
      plates.forEach((plate, i) => {
        const covered = [...words.map(cornersOfWords), ...plates.slice(i + 1)];
        expect(covered.filter((other) => sharedArea(plate, other) > 0.05).length, `plate ${i + 1}`).toBe(0);
      });
    },
  );

  it("are still set on a page too small for them", () => {
    const frame = sheetFrame({ view: [0, 0, 20, 20], rotate: 0, userUnit: 1 });
    const setting = settingOn(frame, 3);
    expect(findingMark({ ...result.findings[0]!, at: [10, 10] }, "k", setting).picture.length).toBeGreaterThan(3);
  });
});

describe("sheetFrame", () => {
  it.each([0, 90, 180, 270] as const)(
    "agrees with the page's own transform on right and up, turned by %d",
    (rotate) => {
      const sheet = { view: [0, 0, 300, 200] as const, rotate, userUnit: 2 };
      const frame = sheetFrame({ ...sheet, view: [...sheet.view] });
      const shown = displayTransform({ ...sheet, page: 1 });
      const moved = (by: Point2) => {
        const [a, b] = [applyMatrix(shown, [100, 100]), applyMatrix(shown, [100 + by[0], 100 + by[1]])];
        return [b[0] - a[0], b[1] - a[1]];
      };
      // Displayed pixels at a scale of 1 are printer's points of paper, y down.
      expect(moved(frame.shift(7, 0))[0]).toBeCloseTo(7, 9);
      expect(moved(frame.shift(7, 0))[1]).toBeCloseTo(0, 9);
      expect(moved(frame.shift(0, 7))[1]).toBeCloseTo(-7, 9);
    },
  );
});

describe("readableAlong", () => {
  it.each([
    [0, [1, 0], 0],
    [0, [-1, 0], 0],
    [0, [0, 1], 90],
    [0, [-1, 1], -45],
    [0, [-1, -1], 45],
    [0, [0, -1], 90],
    [90, [0, 1], 90],
    [90, [0, -1], 90],
    [180, [1, 0], 180],
    [270, [0, 1], -90],
  ] as const)("on a page turned by %d, along %s, reads at %d degrees", (rotate, [x, y], degrees) => {
    const frame = sheetFrame({ view: [0, 0, 10, 10], rotate, userUnit: 1 });
    const angle = (readableAlong(frame, [0, 0], [x, y]) * 180) / Math.PI;
    expect((((angle - degrees) % 360) + 360) % 360).toBeCloseTo(0, 9);
  });
});

describe("the legend on a sheet", () => {
  it("stands upright with its lower left corner as displayed where it was put", () => {
    const legend = legendMark(turned(90), "wiring-sheet", [500, 300])!;
    // Displayed clockwise by 90 degrees, right is up the sheet and up is to the sheet's left.
    const [x0, y0, x1] = pictureBounds(legend.picture)!;
    expect(x1).toBeCloseTo(500.4, 0);
    expect(y0).toBeCloseTo(299.6, 0);
    expect(x0).toBeLessThan(400);
    expect(legendMark(job, "no-such-sheet", [0, 0])).toBeUndefined();
  });
});
