import { AxeBuilder } from "@axe-core/playwright";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { DeskHands } from "./desk.ts";
import { type OpenedPage, openPage } from "./open-page.ts";

vi.setConfig({ testTimeout: 180_000, hookTimeout: 180_000 });

const SECOND = "samples/riverside-workshop/a-131-second-issue.pdf";

let opened: OpenedPage;
let desk: DeskHands;
const dialog = () => opened.page.getByRole("dialog");
const button = (name: string | RegExp) => dialog().getByRole("button", { name });
const faults = async () => {
  const { violations } = await new AxeBuilder({ page: opened.page }).include('[role="dialog"]').analyze();
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(" | ")}`);
};
const findings = async () => {
  await desk.stage("Check");
  const list = desk.drawer.getByRole("listbox").first();
  await list.waitFor();
  return (await list.textContent()) ?? "";
};

describe("a new issue of a sheet", () => {
  beforeAll(async () => {
    opened = await openPage("?sample=riverside-workshop", { width: 1280, height: 800 });
    desk = new DeskHands(opened.page);
    opened.page.setDefaultTimeout(40_000);
    await opened.page.locator('.sheet-host[data-lines="there"]').waitFor();
  });
  afterAll(() => opened?.close());

  it("is laid on the old one by a key, and says what changed before anything is done", async () => {
    await opened.page.keyboard.press("Alt+r");
    await expect.poll(() => dialog().getByRole("heading").textContent()).toMatch(/New issue of A-131/);
    expect(await faults()).toEqual([]);
    await desk.pick(button("Choose the PDF"), SECOND);
    await button("Replace the sheet").waitFor();
    const said = await dialog().textContent();
    expect(said).toContain("Laid by the grid lines both name");
    expect(said).toContain("2 marks under which something changed");
    expect(said).toMatch(/R-2\s*Text changed: .*14'-8" AFF → .*14'-2" AFF/);
    expect(said).toMatch(/R-7\s*About 4\d % of its drawn line has moved by about 3'-0"/);
    expect(await faults()).toEqual([]);
    // Leaving it changes nothing.
    await opened.page.keyboard.press("Escape");
    await expect.poll(() => dialog().count()).toBe(0);
    expect(await desk.sheet.getAttribute("aria-label")).toMatch(/A-131/);
    expect(await opened.page.getByRole("button", { name: /^Undo/ }).isDisabled()).toBe(true);
  });

  it("replaces the sheet in one step, and the findings stay as they were", async () => {
    const before = await findings();
    await desk.stage("Sheet");
    await desk.press(/^New issue of this sheet/, desk.drawer);
    // The file is at hand now.
    await button("A page of a-131-second-issue.pdf").click();
    await button("Replace the sheet").waitFor();
    await opened.page.keyboard.press("Enter");
    await expect.poll(() => dialog().count()).toBe(0);
    await opened.page.getByRole("button", { name: /^Undo: Replace A-131/ }).waitFor();
    expect(await findings()).toBe(before);
    await desk.stage("Sheet");
    await expect.poll(() => desk.drawer.locator(".looks li").count()).toBe(2);
  });

  it("shows old and new at a mark, and lets it be looked at", async () => {
    await desk.drawer.getByRole("button", { name: "Old and new at R-7" }).click();
    await dialog().locator(".pane").waitFor();
    await button("Looked at").waitFor();
    expect(await faults()).toEqual([]);
    await button("Looked at").click();
    await expect.poll(() => dialog().textContent()).toContain("1 mark under which something changed");
    await button("Close").click();
    await expect.poll(() => desk.drawer.locator(".looks li").count()).toBe(1);
    await desk.drawer.getByRole("button", { name: "Show R-2" }).click();
    await desk.card.getByRole("heading", { name: "R-2" }).waitFor();
    expect(await desk.card.textContent()).toContain("What is found below is of what was traced");
  });

  it("is taken back by Undo: the old issue is shown again", async () => {
    await opened.page.keyboard.press("Control+z");
    await opened.page.keyboard.press("Control+z");
    await desk.stage("Sheet");
    await expect.poll(() => desk.drawer.locator(".looks").count()).toBe(0);
    expect(await desk.drawer.getByRole("button", { name: /^Compare with the issue before/ }).count()).toBe(0);
  });

  it("can be laid by hand, by places that both issues show", async () => {
    await opened.page.keyboard.press("Alt+r");
    await button("A page of a-131-second-issue.pdf").click();
    await button("Point at shared places instead").click();
    const panes = dialog().locator(".pane");
    await expect.poll(() => panes.count()).toBe(2);
    expect(await faults()).toEqual([]);
    // By keys: the crosshair comes to the middle first, Enter puts the place, and the last one can be taken back.
    await panes.nth(0).focus();
    await opened.page.keyboard.press("ArrowRight");
    await opened.page.keyboard.press("+");
    await opened.page.keyboard.press("Enter");
    await expect.poll(() => dialog().textContent()).toContain("Now the same place on the new issue");
    await button("Take back the last place").click();
    await expect.poll(() => dialog().textContent()).toContain("No place yet");
    await panes.nth(0).focus();
    await opened.page.keyboard.press("0");
    // Grid crossings 1/A and 5/D as both show them: the second issue has everything 190 farther right.
    for (const [x, y] of [
      [300, 396],
      [2028, 1476],
    ] as const)
      for (const [pane, shift] of [
        [0, 0],
        [1, 190],
      ] as const) {
        const box = (await panes.nth(pane).boundingBox())!;
        const zoom = 0.96 * Math.min(box.width / 2592, box.height / 1728);
        await panes.nth(pane).click({
          position: {
            x: box.width / 2 + (x + shift - 1296) * zoom,
            y: box.height / 2 + (1728 - y - 864) * zoom,
          },
        });
      }
    await button("Lay it by these places").click();
    await button("Replace the sheet").waitFor();
    expect(await dialog().textContent()).toContain("Laid by the places you pointed at");
    await button("Replace the sheet").click();
    await expect.poll(() => dialog().count()).toBe(0);
    await desk.stage("Sheet");
    await desk.drawer.getByRole("button", { name: /^Compare with the issue before/ }).waitFor();
  });

  it("can be compared with the issue before in another session: that file is kept", async () => {
    await opened.page.getByText("Saved", { exact: true }).waitFor();
    await opened.page.reload();
    await opened.page.locator('.sheet-host[data-lines="there"]').waitFor();
    await opened.page.keyboard.press("Alt+u");
    await dialog().locator(".pane").waitFor();
    expect(await dialog().textContent()).toContain("Old and new issue of A-131");
    await button("Close").click();
    expect(opened.problems).toEqual([]);
  });
});
