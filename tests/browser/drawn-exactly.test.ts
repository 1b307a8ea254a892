import { expect, it } from "vitest";
import { CEILING, type Place } from "./desk.ts";
import { jobInFile } from "./sample-job.ts";
import { standingDesk } from "./standing-desk.ts";

const standing = standingDesk({ query: "?sample=riverside-workshop", viewport: { width: 1440, height: 900 } });

/** Types on the sheet as a person does: the first digit brings the field of the tool in hand, Enter gives the focus back. */
async function typeOnSheet(text: string): Promise<void> {
  const { page } = standing.opened;
  await page.keyboard.type(text);
  await page.keyboard.press("Enter");
  await expect.poll(() => page.evaluate(() => document.activeElement?.closest(".sheet-host") !== null)).toBe(true);
}
const prompt = () => standing.opened.page.locator(".prompt-words").textContent();

it("traces locked and by typed lengths, lays runs beside, copies along and measures, by pointer and keys", async () => {
  const { page } = standing.opened;
  const { desk } = standing;
  await desk.stage("Wiring");
  await desk.sheet.focus();
  await page.keyboard.press("t");
  await desk.click(CEILING, [1000, 900]);
  await page.keyboard.press("z");
  await expect.poll(prompt).toContain("Locked to right angles");
  await desk.pointAt(CEILING, [1150, 915]);
  await typeOnSheet(`20'-0`);
  await typeOnSheet(`10'-0" turn left`);
  await typeOnSheet(`14'-0" AFF centre`);
  await page.keyboard.press("Enter");
  await page.keyboard.press("Escape");
  await expect.poll(() => desk.card.getByRole("heading").first().textContent()).toBe("R-13");

  await page.keyboard.press("Shift+P");
  await expect.poll(prompt).toContain("point to the side");
  await typeOnSheet(`2 at 12"`);
  await expect.poll(prompt).toContain("2 runs beside");
  await desk.click(CEILING, [1100, 850]);
  await expect.poll(() => page.locator(".prompt").count()).toBe(0);

  await page.keyboard.press("b");
  await desk.click(CEILING, [1400, 700]);
  await page.keyboard.press("Escape");
  await page.keyboard.press("Shift+C");
  await expect.poll(prompt).toContain("along a line");
  await desk.click(CEILING, [1020, 900]);
  await expect.poll(prompt).toContain("type how far apart");
  await page.keyboard.press("Tab");
  await desk.type(`every 10'-0"`);
  await expect.poll(prompt).toContain("4 copies of");
  await page.keyboard.press("Enter");
  await expect.poll(() => page.locator(".prompt").count()).toBe(0);

  // The copies are selected: all of them go two feet down by one typed move.
  await page.keyboard.press("a");
  await expect.poll(prompt).toContain("type how far it goes");
  await typeOnSheet(`2'-0" down`);
  await expect.poll(() => page.locator(".prompt").count()).toBe(0);

  await page.keyboard.press("Shift+M");
  await desk.click(CEILING, [1500, 1000]);
  await desk.pointAt(CEILING, [1500, 1100]);
  await typeOnSheet(`8'-0" up`);
  await typeOnSheet(`6'-0" turn right`);
  await expect.poll(prompt).toContain(`6'-0", 14'-0" over 2 pieces; direction 0°, 90° to the right`);
  await page.keyboard.press("Escape");
  await page.keyboard.press("Escape");

  await desk.stage("Issue");
  const { bytes } = await desk.download(() => desk.press("Save the job file", desk.drawer));
  const elements = Object.values((await jobInFile(bytes)).elements);
  const labelled = (...labels: readonly string[]) => labels.map((label) => elements.find((one) => one.label === label));
  const runs = labelled("R-13", "R-14", "R-15").flatMap((one) => (one?.kind === "run" ? [one] : []));
  const [first, ...beside] = runs.map(({ vertices }) => vertices.map(({ at }): Place => at));
  expect(runs.map(({ vertices }) => vertices[2]?.tag?.length.value)).toEqual([168, 168, 168]);
  const [a, b, c] = first as [Place, Place, Place];
  expect([b[1], c[0]]).toEqual([a[1], b[0]]);
  const foot = (b[0] - a[0]) / 20;
  expect(c[1] - b[1]).toBeCloseTo(10 * foot, 6);
  for (const [k, line] of beside.entries()) {
    const [p, q, r] = line as [Place, Place, Place];
    const away = (k + 1) * foot;
    expect([a[1] - p[1], b[1] - q[1], q[0] - b[0], r[0] - c[0]].map((n) => Number((n / away).toFixed(6)))).toEqual([
      1, 1, 1, 1,
    ]);
  }
  const boxes = labelled("B-4", "B-5", "B-6", "B-7").flatMap((one) => (one?.kind === "box" ? [one.at] : []));
  expect(boxes.map(([x, y]) => [(x - a[0]) / foot, (y - a[1]) / foot].map((n) => Number(n.toFixed(6))))).toEqual([
    [0, -2],
    [10, -2],
    [20, -2],
    [20, 8],
  ]);
  expect(standing.opened.problems).toEqual([]);
});
