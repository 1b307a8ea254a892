import { describe, expect, it } from "vitest";
import { hangingRoom } from "../../src/check/hanging-room.ts";
import type { Picture, TextItem } from "../../src/geometry/picture.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import { roomMapMarks } from "../../src/issue/room-map-marks.ts";
import type { Area, Job } from "../../src/job/schema.ts";
import { inch, inchJob, roof, withParts } from "../check/inch-job.ts";
import { plainSheet, plainViewport } from "../job/plain-records.ts";

/** Falls 1/4 in. a foot towards +x from 160 over (0,0) to (600,600). */
const falling: Area = {
  ...roof(null),
  elevation: {
    ...roof(null).elevation,
    shape: { is: "slope", at: inch(160), point: [0, 300], towards: [600, 300], rise: 1 / 48, text: "" },
  },
};

/** No tolerances, and the same plan on a second sheet at half the scale, 100 to the right. */
function onTwoSheets(area: Area): Job {
  const base = inchJob();
  const none = { tags: inch(0), decks: inch(0), plan: inch(0) };
  const job: Job = {
    ...base,
    settings: { job: { ...base.settings.job, tolerances: none } },
    sheets: { ...base.sheets, s2: plainSheet({ title: "Roof plan", view: [0, 0, 1000, 1000] }) },
    viewports: {
      ...base.viewports,
      v2: plainViewport("s2", 144, {
        registration: {
          to: "v1",
          pairs: [
            { label: "A/1", here: [100, 0], there: [0, 0] },
            { label: "A/2", here: [400, 0], there: [600, 0] },
          ],
        },
      }),
    },
  };
  return withParts(job, { a: area }, {});
}

const texts = (picture: Picture): TextItem[] => picture.filter((item) => item.type === "text");
const marksOn = (sheet: string, area: Area, ceiling: number | null = null) => {
  const job = onTwoSheets(area);
  return roomMapMarks(job, hangingRoom(job), sheet, {
    wiring: "EMT 3/4",
    ceiling: ceiling === null ? null : inch(ceiling),
  });
};
/** The lines of a picture: two points each. */
const linesOf = (picture: Picture): [Point2, Point2][] =>
  picture.flatMap((item) =>
    item.type === "path" && item.steps.length === 2
      ? [item.steps.map(([, x, y]): Point2 => [x as number, y as number]) as [Point2, Point2]]
      : [],
  );

describe("the room map on a sheet", () => {
  it("has each line where it is in the building, with its number, on every sheet that shows the deck", () => {
    const DROP = 1.961 * Math.sqrt(1 + (1 / 48) ** 2);
    for (const [sheet, x] of [
      ["s1", (at: number) => at],
      ["s2", (at: number) => 100 + at / 2],
    ] as const) {
      const [mark, another] = marksOn(sheet, falling);
      expect(another).toBeUndefined();
      expect(mark?.key).toBe(sheet === "s1" ? "room:a@v1" : "room:a@v2");
      expect(texts(mark!.picture).map(({ text }) => text)).toEqual([
        `12'-2" AFF`,
        `12'-4" AFF`,
        `12'-6" AFF`,
        `12'-8" AFF`,
        `12'-10" AFF`,
        `13'-0" AFF`,
        `13'-2" AFF`,
      ]);
      const first = linesOf(mark!.picture)[0]!;
      for (const end of first) expect(end[0]).toBeCloseTo(x((160 - 146 - DROP) * 48), 6);
    }
  });

  it("says one elevation under a level deck, rounded to the safe side", () => {
    // 144 less 1.961: 142.039, down to the next 1/16 in.
    expect(texts(marksOn("s1", roof(144))[0]!.picture).map(({ text }) => text)).toEqual([`centre at most 11'-10" AFF`]);
  });

  it("says that elevations are counted from the project datum where no storey is told", () => {
    const job = onTwoSheets(roof(144));
    const bare: Job = { ...job, viewports: { ...job.viewports, v1: { ...job.viewports.v1!, storey: null } } };
    const [mark] = roomMapMarks(bare, hangingRoom(bare), "s1", { wiring: "EMT 3/4", ceiling: null });
    expect(texts(mark!.picture).map(({ text }) => text)).toEqual([`centre at most el. 11'-10"`]);
  });

  it("hatches where the wiring does not fit above the ceiling, and nowhere else", () => {
    const from = (160 - 150 - 1.961 * Math.sqrt(1 + (1 / 48) ** 2) - 0.461) * 48;
    const [plain] = marksOn("s1", falling);
    const [hatched] = marksOn("s1", falling, 150);
    const extra = linesOf(hatched!.picture).slice(0, -linesOf(plain!.picture).length);
    expect(extra.length).toBeGreaterThan(20);
    for (const [a, b] of extra) for (const [x] of [a, b]) expect(x).toBeGreaterThan(from - 1e-6);
  });

  it("draws nothing for a floor, an unknown deck, a size that is not hung, or a sheet elsewhere", () => {
    const floor: Area = { ...roof(144), classification: { is: "floor-above", reason: "", by: "" } };
    for (const area of [floor, roof(null)]) expect(marksOn("s1", area)).toEqual([]);
    const job = onTwoSheets(falling);
    const rooms = hangingRoom(job);
    expect(roomMapMarks(job, rooms, "s1", { wiring: "EMT 9", ceiling: null })).toEqual([]);
    expect(roomMapMarks(job, rooms, "s9", { wiring: "EMT 3/4", ceiling: null })).toEqual([]);
  });

  it("stays within the part of the sheet that its viewport holds", () => {
    const job = onTwoSheets(falling);
    const { v1 } = job.viewports;
    const cut: Job = { ...job, viewports: { ...job.viewports, v1: { ...v1!, region: [0, 100, 600, 200] } } };
    const [mark] = roomMapMarks(cut, hangingRoom(cut), "s1", { wiring: "EMT 3/4", ceiling: inch(150) });
    const ends = linesOf(mark!.picture).flat();
    expect(ends.length).toBeGreaterThan(10);
    for (const [, y] of ends) expect(y >= 100 - 1e-9 && y <= 200 + 1e-9).toBe(true);
  });
});
