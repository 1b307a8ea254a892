import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import { VERDICTS, type Verdict } from "../../src/check/finding.ts";
import { hangingRoom } from "../../src/check/hanging-room.ts";
import { runProfile } from "../../src/check/run-profile.ts";
import type { Picture } from "../../src/geometry/picture.ts";
import { placePicture } from "../../src/issue/place-picture.ts";
import { profilePicture } from "../../src/issue/profile/profile-picture.ts";
import { roomMapMarks } from "../../src/issue/room-map-marks.ts";
import { symbolOf } from "../../src/issue/symbols.ts";
import type { Rack } from "../../src/job/elements/rack.ts";
import { NO_FACTS } from "../../src/job/fields.ts";
import { radians } from "../../src/units/quantity.ts";
import { box, inch, inchJob, roof, run, tag, withParts } from "../check/inch-job.ts";
import { sampleJob, sampleProfile } from "../issue/sample-job.ts";
import { Rasterizer } from "./raster.ts";

/** Pictures as they come out in pixels, each at two scales. */
let raster: Rasterizer;
beforeAll(async () => {
  raster = await Rasterizer.start();
}, 60_000);
afterAll(() => raster?.close());

/** A symbol 5 mm high is so many pixels on a screen of 72 to the inch, and on one with four times as many. */
const SIDE = (5 / 25.4) * 72;
const symbol = (verdict: Verdict): Picture =>
  placePicture(symbolOf(verdict), { scale: SIDE, angle: radians(0), dx: SIDE / 2 + 2, dy: SIDE / 2 + 2 });
const TILE = SIDE + 4;

/** A rack under a roof, one raceway of it too high, and a run up to a box that is too high as well. */
function wired() {
  const rack: Rack = {
    kind: "rack",
    label: "K-1",
    viewport: "v1",
    raceways: ["3/4", "2", "1"].map((tradeSize) => ({
      label: "",
      wiring: { type: "emt", tradeSize, outsideDiameter: null },
      facts: NO_FACTS,
    })),
    spacing: { is: "centres", apart: inch(4) },
    vertices: [
      { at: [100, 300], tag: tag(140, "bottom") },
      { at: [400, 300], tag: tag(141, "bottom") },
    ],
  };
  const boxed = run(
    [
      [100, 100, 138],
      [300, 100, 140],
    ],
    { couplings: { is: "table" } },
  );
  const elements = {
    k1: rack,
    e1: boxed,
    b1: box(296, 100, tag(142, "bottom")),
    b2: box(180, 100, tag(138, "bottom")),
  };
  const job = withParts(inchJob(), { a: roof(144) }, elements);
  return { job, result: checkJob(job) };
}

const SIZE = { width: 500, height: 200 };

describe.each([1, 4])("at %i times paper", (scale) => {
  it("every symbol", async () => {
    const row = VERDICTS.flatMap((verdict, i) =>
      placePicture(symbol(verdict), { scale: 1, angle: radians(0), dx: i * TILE, dy: 0 }),
    );
    await raster.expectGolden(`symbols-x${scale}`, row, { box: [0, 0, TILE * VERDICTS.length, TILE], scale });
  });
});

describe.each([1, 2])("at %i times paper", (scale) => {
  it("the profile of a run", async () => {
    const { picture } = profilePicture(sampleProfile("r-1"), SIZE);
    await raster.expectGolden(`profile-x${scale}`, picture, { box: [0, 0, SIZE.width, SIZE.height], scale });
  });

  it.each(["k1", "e1"])("the profile of a rack, and of a run with boxes and couplings: %s", async (id) => {
    const { job, result } = wired();
    const { picture } = profilePicture(runProfile(job, id, result)!, SIZE);
    await raster.expectGolden(`profile-${id}-x${scale}`, picture, { box: [0, 0, SIZE.width, SIZE.height], scale });
  });
});

describe.each([0.5, 1])("at %f times paper", (scale) => {
  it("the room map", async () => {
    const job = sampleJob();
    const choice = { wiring: "EMT 3/4", ceiling: { value: 13.75, unit: "ft" } } as const;
    const marks = roomMapMarks(job, hangingRoom(job), "roof-sheet", choice);
    const picture = marks.flatMap((mark) => mark.picture);
    await raster.expectGolden(`room-map-x${scale}`, picture, { box: [140, 140, 700, 520], scale });
  });
});

/** Half as dark as the lightest ink, orange, comes out in grey, of 255. */
const FAINT = 42;

it("symbols can be told from each other without colour, as small as they are on paper", async () => {
  const shot = { box: [0, 0, TILE, TILE], scale: 1, grey: true } as const;
  const drawn: { verdict: Verdict; png: Buffer }[] = [];
  for (const verdict of VERDICTS) drawn.push({ verdict, png: await raster.draw(symbol(verdict), shot) });
  const alike: string[] = [];
  for (const [i, one] of drawn.entries())
    for (const other of drawn.slice(i + 1)) {
      const { differ, inked } = (await raster.difference(one.png, other.png, { least: FAINT }))!;
      if (differ < inked / 4) alike.push(`${one.verdict} and ${other.verdict}: ${differ} of ${inked}`);
    }
  expect(alike).toEqual([]);
});
