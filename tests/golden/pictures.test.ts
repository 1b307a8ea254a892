import { describe, it } from "vitest";
import { VERDICTS } from "../../src/check/finding.ts";
import { hangingRoom } from "../../src/check/hanging-room.ts";
import { sectionAt } from "../../src/check/section-at.ts";
import { legendPicture } from "../../src/issue/legend-picture.ts";
import { marksOf } from "../../src/issue/marks-of.ts";
import { placePicture } from "../../src/issue/place-picture.ts";
import { profilePicture } from "../../src/issue/profile/profile-picture.ts";
import { sectionPicture } from "../../src/issue/profile/section-picture.ts";
import { reportPages } from "../../src/issue/report/report-pages.ts";
import { roomMapMarks } from "../../src/issue/room-map-marks.ts";
import { symbolOf } from "../../src/issue/symbols.ts";
import { radians } from "../../src/units/quantity.ts";
import { sampleJob, sampleProfile, sampleResult } from "../issue/sample-job.ts";
import { expectGolden, pictureSvg } from "./golden.ts";

const job = sampleJob();
const result = sampleResult();

describe("golden pictures", () => {
  it("symbols of every verdict, in a row", () => {
    const row = VERDICTS.flatMap((verdict, i) =>
      placePicture(symbolOf(verdict), { scale: 40, angle: radians(0), dx: 30 + i * 60, dy: 30 }),
    );
    expectGolden("symbols.svg", pictureSvg(row, [0, 0, 60 * VERDICTS.length, 60]));
  });

  it("the legend", () => {
    const { picture, width, height } = legendPicture({ frame: true });
    expectGolden("legend.svg", pictureSvg(picture, [0, 0, width, height]));
  });

  it.each(["roof-sheet", "wiring-sheet"])("the marks on the %s", (sheet) => {
    const marks = marksOf(job, result, { quiet: true }).filter((mark) => mark.sheet === sheet);
    expectGolden(
      `marks-${sheet}.svg`,
      pictureSvg(
        marks.flatMap(({ picture }) => picture),
        job.sheets[sheet]!.view,
      ),
    );
  });

  it("the room map of the roof sheet, with a ceiling that leaves no room under a part of it", () => {
    const marks = roomMapMarks(job, hangingRoom(job), "roof-sheet", {
      wiring: "EMT 3/4",
      ceiling: { value: 13.75, unit: "ft" },
    });
    expectGolden(
      "room-map.svg",
      pictureSvg(
        marks.flatMap(({ picture }) => picture),
        job.sheets["roof-sheet"]!.view,
      ),
    );
  });

  it("the profile of a run", () => {
    const { picture } = profilePicture(sampleProfile("r-1"), { width: 500, height: 180 });
    expectGolden("profile.svg", pictureSvg(picture, [0, 0, 500, 180]));
  });

  it("a section through a run under a slope", () => {
    const section = sectionAt(job, "r-1", 60);
    if (!section) throw new Error("no section");
    expectGolden("section.svg", pictureSvg(sectionPicture(section, 190, 170), [0, 0, 190, 170]));
  });

  it("the first pages of the report", () => {
    const facts = { now: new Date("2026-11-25T10:00:00Z"), author: "P. Ternhill" };
    const { size, pages, stretches } = reportPages(job, result, facts);
    for (const n of [0, 1])
      expectGolden(`report-${n + 1}.svg`, pictureSvg(pages[n] ?? [], [0, 0, size[0], size[1]], stretches[n]));
  });
});
