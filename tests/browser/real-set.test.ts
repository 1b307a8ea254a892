import { existsSync, mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import type { Finding } from "../../src/check/finding.ts";
import { DeskHands, type Place, type TestSheet } from "./desk.ts";
import { expectIssuedFrom } from "./issued-file.ts";
import { type OpenedPage, openPage } from "./open-page.ts";

vi.setConfig({ testTimeout: 240_000 });

// A real set of drawings, outside the project: page 3 is a roof plan at 3/64" = 1'-0", page 4 a reflected ceiling plan at
// 3/16" = 1'-0", on one grid; both pages /Rotate 90, 42 x 30 in. All elevations here are invented.
const SET = "../shared/drawings/metal-building-set.pdf";
const view = [0, 0, 2160, 3024] as const;
const ROOF: TestSheet = { title: /page 3|A-110/, view, rotate: 90 };
const CEILING: TestSheet = { title: /page 4|A-150/, view, rotate: 90 };

/** A place by points from the left and from the top of the page as displayed; on a page turned by 90 that is sheet y and x. */
const at = (fromLeft: number, fromTop: number): Place => [fromTop, fromLeft];

// Grid lines as measured on pages drawn at 288 dpi by another program: 9 and 14 across, E and K down.
const GRIDS: readonly { here: Place; there: Place }[] = [
  { here: at(434.38, 831.38), there: at(1163.12, 1147.88) },
  { here: at(2290.62, 1776.38), there: at(1627.12, 1384.12) },
];
const ANNEX: readonly Place[] = [
  [1161.5, 1148],
  [1629, 1148],
  [1629, 1348],
  [1647.5, 1348],
  [1647.5, 1407],
  [1110, 1407],
  [1110, 1234],
  [1161.5, 1234],
].map(([x, y]) => at(x!, y!));
const HALL: readonly Place[] = [
  [419, 474],
  [2283, 474],
  [2283, 1148],
  [419, 1148],
].map(([x, y]) => at(x!, y!));

describe.skipIf(!existsSync(SET))("a real set, by pointer (skipped where it is not at hand)", () => {
  let opened: OpenedPage;
  let desk: DeskHands;
  let findings: Finding[];
  beforeAll(async () => {
    opened = await openPage("", { width: 1600, height: 1000 });
    desk = new DeskHands(opened.page);
    opened.page.setDefaultTimeout(30_000);
  }, 180_000);
  afterAll(() => opened?.close());

  it("takes two pages of eight, each with the scale its note states", async () => {
    await desk.pick(opened.page.getByRole("button", { name: "Open drawings" }), SET);
    for (const page of [3, 4]) await opened.page.getByText(new RegExp(`Page ${page}\\b`)).click();
    await desk.press(/^Add 2 pages/);
    await desk.sheet.waitFor();
    for (const [sheet, note] of [
      [ROOF, `3/64" = 1'-0"`],
      [CEILING, `3/16" = 1'-0"`],
    ] as const) {
      await desk.openSheet(sheet);
      await desk.press(note, desk.card);
      await expect.poll(() => desk.card.locator(".card-tag").textContent()).toBe(note);
      await desk.choose(desk.card, "AFF tags traced here count from", /Level 1/);
    }
  });

  it("registers the ceiling on the roof by two grid intersections, within a pixel's residual", async () => {
    await desk.openSheet(CEILING);
    await desk.press("Pick shared points", desk.card);
    for (const { here, there } of GRIDS) {
      await desk.click(CEILING, here);
      await expect.poll(() => desk.sheet.getAttribute("aria-label")).toMatch(ROOF.title);
      await desk.click(ROOF, there);
    }
    await desk.press("Done");
    await desk.openSheet(CEILING);
    await expect.poll(() => desk.card.locator(".shared tbody tr").count()).toBe(2);
  });

  it("outlines two roofs", async () => {
    await desk.openSheet(ROOF);
    await desk.stage("Roof");
    for (const [label, outline, elevation] of [
      ["Annex roof", ANNEX, `14'-0"`],
      ["Hall roof", HALL, `24'-0"`],
    ] as const) {
      await desk.press(/^Outline a deck area/, desk.drawer);
      for (const corner of [...outline, outline[0]!]) await desk.click(ROOF, corner);
      await desk.fill(desk.card, "Label on the sheet", label);
      await desk.card.getByRole("heading", { name: label }).waitFor();
      await desk.take(desk.card, "Above the rooms below it", "Roof");
      await desk.choose(desk.card, "Given to", "Bottom of deck");
      await desk.choose(desk.card, "Counted from", /Level 1/);
      await desk.fill(desk.card, "Elevation", elevation);
      await desk.choose(desk.card, "Profile", /Wide-rib/);
      await desk.take(desk.card, "Concrete on the deck", "None");
      await expect.poll(() => desk.card.locator(".card-tag").textContent()).toBe(`Lowest surface ${elevation}`);
    }
  });

  it("traces runs on the ceiling plan, which the roofs on the other sheet govern", async () => {
    await desk.openSheet(CEILING);
    await desk.stage("Wiring");
    await desk.press(/^Trace a run/, desk.drawer);
    await desk.choose(desk.drawer, "Next run", /^EMT/);
    await desk.choose(desk.drawer, "Size", /^3\/4$/);
    const runs: readonly [Place, Place, string][] = [
      [at(1950, 950), at(1950, 1500), `13'-10 1/2" AFF centre`],
      [at(560, 1500), at(1200, 1500), `12'-0" AFF centre`],
      [at(1100, 300), at(1100, 1100), `13'-11" AFF centre`],
    ];
    for (const [from, to, tag] of runs) {
      await desk.click(CEILING, from);
      await desk.type(tag);
      await desk.click(CEILING, to);
      await desk.type(tag);
      await desk.press("Done");
    }
    await desk.press("Leave");
  });

  it("finds what stands 1.04 in. under the annex roof, and what does not", async () => {
    await desk.stage("Issue");
    const { bytes } = await desk.download(() => desk.press("JSON", desk.drawer));
    findings = JSON.parse(new TextDecoder().decode(bytes)).findings;
    const byLabel = (label: string) => findings.find((finding) => finding.element === label)!;
    // 3/4 EMT, 0.922 in. across: 168 - 166.5 - 0.461 = 1.039 in.
    expect(byLabel("R-1")).toMatchObject({ verdict: "too-close", leastIn: expect.closeTo(1.039, 6) });
    expect(byLabel("R-2")).toMatchObject({ verdict: "clear", leastIn: expect.closeTo(168 - 144 - 0.461, 6) });
    // From the hall, ten feet up to its roof, into the annex: too close only beyond grid E.
    const third = byLabel("R-3");
    expect(third.verdict).toBe("too-close");
    const wall = ((831.38 - 300) / 13.5) * 12;
    expect(Math.abs(third.stretches[0]!.fromIn - wall)).toBeLessThan(12);
    expect(third.stretches[0]!.toIn).toBeGreaterThan(wall + 200);
  });

  it("issues the set: all eight pages of the drawing in front, untouched", async () => {
    await desk.fill(desk.drawer, "Author of the marks", "A. Reviewer");
    const { bytes } = await desk.download(() => desk.press(/^Issue$/, desk.drawer));
    expectIssuedFrom(SET, bytes);
    const keep = process.env.UNDERSIDE_KEEP_ISSUED;
    if (keep) writeFileSync(join(keep === "1" ? mkdtempSync(join(tmpdir(), "issued-")) : keep, "real-set.pdf"), bytes);
    expect(opened.problems).toEqual([]);
  });
});
