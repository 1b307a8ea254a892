import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Run } from "../../src/job/elements/run.ts";
import { parseJobText } from "../../src/job/parse-job.ts";
import type { Place, TestSheet } from "./desk.ts";
import { jobInFile } from "./sample-job.ts";
import { standingDesk } from "./standing-desk.ts";

const standing = standingDesk({ viewport: { width: 1600, height: 1000 }, test: 240_000 });

/** A busy machine takes its time over a frame, milliseconds. */
const WAITING = { timeout: 20_000 };
const parsed = parseJobText(readFileSync("samples/fennick-lane-store/job.json", "utf8"));
if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
const STORE = parsed.value;
const POWER: TestSheet = { title: /E-121|page 4/, view: [0, 0, 2592, 1728], rotate: 0 };
/** Rows of lights, and a trunk over the checkouts; the job numbers its runs as they are followed, the drawing otherwise. */
const ROWS = ["r-101", "r-103", "r-107", "r-109", "r-111", "r-113"].map((id) => STORE.elements[id] as Run);

describe("the store, some of it from its drawing alone", () => {
  it("takes the scale from the scale bar, and the rows of lights as they are drawn", async () => {
    await standing.desk.pick(
      standing.opened.page.getByRole("button", { name: "Open drawings" }),
      "samples/fennick-lane-store/fennick-lane-store.pdf",
    );
    await standing.opened.page.getByText(/Page 4\b/).click();
    await standing.desk.press(/^Add 1 page/);
    await standing.desk.openSheet(POWER);
    await standing.opened.page.locator('.sheet-host[data-lines="there"]').waitFor();
    await standing.desk.press(/^Take 3\/16" = 1'-0": Scale bar/, standing.desk.card);
    await expect.poll(() => standing.desk.card.locator(".card-tag").textContent(), WAITING).toBe(`3/16" = 1'-0"`);
    await standing.desk.choose(standing.desk.card, "AFF tags traced here count from", /Level 1/);
    await standing.desk.stage("Wiring");
    await standing.opened.page.getByRole("button", { name: "Fit", exact: true }).click();
    for (const [i, { vertices }] of ROWS.entries()) {
      const [[ax, y], [bx]] = vertices.map(({ at }) => at) as unknown as readonly [Place, Place];
      await standing.desk.sheet.focus();
      await standing.desk.pointAt(POWER, [ax + (bx - ax) * 0.06, y]);
      await standing.opened.page.keyboard.press("w");
      await expect
        .poll(() => standing.opened.page.locator(".prompt [role=status]").textContent(), WAITING)
        .toMatch(/Followed 2 points/);
      await standing.opened.page.keyboard.press("Enter");
      await standing.desk.card.getByRole("heading", { name: `R-${i + 1}`, exact: true }).waitFor();
      await standing.opened.page.keyboard.press("Escape");
    }
  });

  it("takes no elevation before it is said what EL. is of; then all of them, each for its own row", async () => {
    expect(await standing.opened.page.getByRole("button", { name: /^Take all/ }).count()).toBe(0);
    await standing.desk.take(standing.desk.drawer, "An elevation of wiring is of its", "Centre");
    await standing.desk.press(/^Take all 6 elevations/, standing.desk.drawer);
    await standing.desk.stage("Issue");
    const job = await jobInFile(
      (await standing.desk.download(() => standing.desk.press("Save the job file", standing.desk.drawer))).bytes,
    );
    const storey = Object.keys(job.storeys)[0]!;
    for (const [i, row] of ROWS.entries()) {
      const mine = Object.values(job.elements).find(({ label }) => label === `R-${i + 1}`) as Run;
      const tag = { ...row.vertices[0]!.tag, datum: { from: "storey", storey } };
      expect(
        mine.vertices.map((vertex) => vertex.tag),
        row.label,
      ).toEqual([tag, tag]);
    }
    expect(Object.values(job.viewports)[0]!.scale).toMatchObject({
      use: "measured",
      measured: { source: "scale-bar" },
    });
    expect(standing.opened.problems).toEqual([]);
  });
});
