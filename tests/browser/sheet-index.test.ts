import { beforeAll, expect, it } from "vitest";
import { drawLargeSet, largeSetPages, type SetPage } from "../pdf/read/large-set.ts";
import { seriousFaults } from "./serious-faults.ts";
import { standingDesk } from "./standing-desk.ts";

const standing = standingDesk({ test: 240_000, act: 60_000 });

const PAGES = largeSetPages(200);
/** Reading takes its time, above all beside other work. */
const SOON = { timeout: 30_000 };
const rows = () => standing.opened.page.locator(".sheet-row");
const row = (page: number) => standing.opened.page.locator(`.sheet-row[data-page="${page}"]`);
const dialog = () => standing.opened.page.getByRole("dialog");
const bar = () => dialog().locator(".work-bar");
const chosenCount = () => standing.opened.page.locator('.sheet-row[aria-selected="true"]').count();
/** What the page has asked of its drawing worker so far, in order: what, and of which page. */
const asked = (): Promise<(readonly [string, number | undefined])[]> =>
  standing.opened.page.evaluate(() => (window as never as { asked: [string, number | undefined][] }).asked);

beforeAll(async () => {
  // Writes down what is asked of the drawing worker, and lets each reading of the index begin a little later, as on a slow machine.
  await standing.opened.page.addInitScript(() => {
    const log: [string, number | undefined][] = [];
    (window as never as { asked: unknown }).asked = log;
    const post = Worker.prototype.postMessage;
    Worker.prototype.postMessage = function (this: Worker, ...sent: unknown[]) {
      const { name, ask } = sent[0] as { name?: string; ask?: { page?: number } };
      if (name !== undefined) log.push([name, ask?.page]);
      const send = () => post.apply(this, sent as never);
      if (name === "entry" || name === "survey") setTimeout(send, 25);
      else send();
    };
  });
  await standing.opened.page.reload();
  // Where the pointer rests on no sheet: one it rests on is looked at closer.
  await standing.opened.page.mouse.move(2, 2);
  const buffer = Buffer.from(await drawLargeSet(PAGES));
  const open = standing.opened.page.getByRole("button", { name: "Open drawings" });
  const [chooser] = await Promise.all([standing.opened.page.waitForEvent("filechooser"), open.press("Enter")]);
  await chooser.setFiles({ name: "woolgate-mill.pdf", mimeType: "application/pdf", buffer });
}, 180_000);

/** What the index is to say of a page, by what its drawing script says of it. */
function factsOf({ rotate, size, is, marks, layers }: SetPage): string {
  const papers: Readonly<Record<string, string>> = {
    "2592x1728": "ARCH D, 36 × 24 in.",
    "2448x1584": "ANSI D, 34 × 22 in.",
    "2384x1684": "A1, 33.1 × 23.4 in.",
    "2000x1400": "27.8 × 19.4 in.",
  };
  const kinds = { drawing: "drawing", picture: "picture only", mixed: "drawing and picture", "no-lines": "no lines" };
  return [
    papers[size.join("x")],
    ...(rotate === 0 ? [] : [`turned ${rotate}°`]),
    kinds[is],
    ...(marks > 0 ? [`${marks} annotations`] : []),
    ...(layers.length > 0 ? [layers.length === 1 ? "1 layer" : `${layers.length} layers`] : []),
  ].join(" · ");
}

it("lists all sheets at once and reads those in sight first; nothing is drawn", async () => {
  await expect.poll(() => rows().count(), SOON).toBe(200);
  await expect.poll(() => row(1).locator(".sheet-number").textContent(), SOON).toBe(PAGES[0]!.number);
  await bar().waitFor();
  await bar().getByRole("button", { name: "Stop" }).press("Enter");
  await dialog().locator(".notice", { hasText: "not read yet" }).waitFor();
  const calls = await asked();
  expect(calls.filter(([name]) => name === "entry")[0]).toEqual(["entry", 1]);
  expect(calls.filter(([name]) => name === "render")).toEqual([]);
});

it("after Stop reads what comes into sight, and no more", async () => {
  await row(200).scrollIntoViewIfNeeded();
  await expect.poll(() => row(200).locator(".sheet-facts").textContent(), SOON).toBe(factsOf(PAGES[199]!));
  // Far from both ends nothing was read.
  expect(await row(110).locator(".sheet-number").textContent()).toBe("…");
});

it("says of every sheet its number and name, or that none was found, its size, how it is turned, what is on it", async () => {
  await dialog().getByRole("button", { name: "Read them" }).press("Enter");
  await bar().waitFor();
  await bar().waitFor({ state: "detached", timeout: 200_000 });
  const listed = await rows().evaluateAll((all) =>
    all.map((one) =>
      [".sheet-number", ".sheet-name", ".sheet-facts"].map((part) => one.querySelector(part)?.textContent),
    ),
  );
  expect(listed).toEqual(PAGES.map((page) => [page.number ?? "No sheet number found", page.name ?? "", factsOf(page)]));
  expect((await asked()).filter(([name]) => name === "render")).toEqual([]);
});

it("is read out with all of that", async () => {
  const page = PAGES[13]!;
  const said = `${page.number}, ${page.name}, page 14, ${factsOf(page).replaceAll(" · ", ", ")}`;
  expect(await row(14).getAttribute("aria-label")).toBe(said);
});

for (const colorScheme of ["light", "dark"] as const)
  it(`has nothing serious for assistive technology, ${colorScheme}`, async () => {
    await standing.opened.page.emulateMedia({ colorScheme, reducedMotion: "reduce" });
    expect(await seriousFaults(standing.opened.page)).toEqual([]);
  });

it("finds sheets by typing, any of several, by number or name", async () => {
  await standing.opened.page.getByRole("searchbox").fill("E-10, roof");
  const expected = PAGES.filter(({ number, name }) => number?.startsWith("E-10") || name?.includes("ROOF"));
  await expect.poll(() => rows().count(), SOON).toBe(expected.length);
  expect(expected.length).toBeGreaterThan(10);
  await expect.poll(() => dialog().getByText(`${expected.length} of 200 sheets`).count(), SOON).toBe(1);
});

it("is chosen from by the keyboard alone, looked at closer, and makes one step", async () => {
  const { keyboard } = standing.opened.page;
  await standing.opened.page.getByRole("searchbox").fill("carding loft");
  const found = PAGES.filter(({ name }) => name?.includes("CARDING LOFT"));
  await expect.poll(() => rows().count(), SOON).toBe(found.length);
  await standing.opened.page.getByRole("searchbox").focus();
  const inList = () => standing.opened.page.evaluate(() => document.activeElement?.closest(".sheet-row") !== null);
  for (let tabs = 0; tabs < 4 && !(await inList()); tabs++) await keyboard.press("Tab");
  await keyboard.press("Space");
  await keyboard.press("ArrowDown");
  await keyboard.press("Space");
  await expect.poll(chosenCount, SOON).toBe(2);
  const tall = await rows().evaluateAll((all) => all.map((one) => Math.round(one.getBoundingClientRect().height)));
  // A line between two rows is all that tells their heights apart.
  expect(Math.max(...tall) - Math.min(...tall)).toBeLessThanOrEqual(2);
  const second = found[1]!;
  const look = dialog().getByRole("region", { name: `Page ${second.page}, closer` });
  await look.getByText(second.number!).waitFor();
  await look.getByText("its title block").waitFor();
  // Only what is looked at is drawn.
  await expect
    .poll(async () => new Set((await asked()).filter(([name]) => name === "render").map(([, page]) => page)), SOON)
    .toEqual(new Set([found[0]!.page, second.page]));
  const add = () => standing.opened.page.evaluate(() => document.activeElement?.textContent);
  for (let tabs = 0; tabs < 4 && (await add()) !== "Add 2 pages"; tabs++) await keyboard.press("Tab");
  await keyboard.press("Enter");
  await dialog().waitFor({ state: "detached" });
  for (const { number } of found.slice(0, 2))
    await standing.opened.page.getByRole("listbox", { name: "Sheets" }).getByText(number!, { exact: true }).waitFor();
  await standing.desk.card.getByRole("heading", { name: found[0]!.number! }).waitFor();
  const undo = standing.opened.page.getByRole("button", { name: "Undo: Add 2 sheets" });
  await undo.click();
  await expect.poll(() => standing.opened.page.getByRole("listbox", { name: "Sheets" }).count(), SOON).toBe(0);
  expect(standing.opened.problems).toEqual([]);
});
