import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { CEILING, DeskHands, FRAMING, type Place, SAMPLE_PDF } from "./desk.ts";
import { expectSampleFindings } from "./expected-findings.ts";
import { expectIssuedFrom, inkAt } from "./issued-file.ts";
import { KeyHands } from "./key-hands.ts";
import { type OpenedPage, openPage } from "./open-page.ts";

vi.setConfig({ testTimeout: 240_000 });

let opened: OpenedPage;
/** Reads the desk; every act goes through the keys. */
let desk: DeskHands;
let keys: KeyHands;
beforeAll(async () => {
  opened = await openPage("", { width: 1280, height: 800 });
  opened.page.setDefaultTimeout(20_000);
  desk = new DeskHands(opened.page);
  keys = new KeyHands(opened.page);
  // A pointer would be a way round: it is taken away.
  const none = () => Promise.reject(new Error("this test has no pointer"));
  Object.assign(opened.page.mouse, { move: none, down: none, up: none, click: none, wheel: none });
}, 180_000);
afterAll(() => opened?.close());

const sample = JSON.parse(readFileSync("samples/riverside-workshop/job.json", "utf8"));
const RUNS = [
  { label: "R-1", type: "EMT", size: "3/4", tag: `15'-0" AFF centre` },
  { label: "R-2", type: "EMT", size: "1", tag: `14'-8" AFF centre` },
] as const;

/** Brings the focus into the card. */
const toCard = async () => {
  await keys.press("Alt+c");
  await within(".card");
};
const toSheet = async () => {
  await keys.press("Alt+s");
  await within(".sheet-host");
};
const within = (part: string) =>
  expect
    .poll(() => opened.page.evaluate((where) => document.activeElement?.closest(where) !== null, part), {
      timeout: 5_000,
    })
    .toBe(true);
/** Opens a stage; the focus goes to its drawer. */
const stage = async (n: number) => {
  await toSheet();
  await keys.press(`Alt+${n}`);
  await within(".drawer");
};

describe("the whole job by the keyboard alone", () => {
  it("opens the drawing and takes both pages as sheets", async () => {
    await opened.page.getByRole("heading", { name: "Underside" }).waitFor();
    await keys.tabTo(/^Open drawings/);
    const [chooser] = await Promise.all([opened.page.waitForEvent("filechooser"), keys.press("Enter")]);
    await chooser.setFiles(SAMPLE_PDF);
    await expect.poll(() => keys.focused()).toMatch(/^Add 2 pages/);
    await keys.press("Enter");
    await desk.shown();
  });

  it("says by whose decision the edition applies, and how far readings may be off", async () => {
    await stage(1);
    await keys.choose(/^Rule edition|Rule edition$/, "NFPA 70, 2023");
    await keys.fill(/^By whose decision/, "the invented town of Ellowmere");
    await keys.fill(/^Tags/, `1/8"`);
    await keys.fill(/^Decks/, `1/8"`);
  });

  it("measures the scale of one sheet and types that of the other", async () => {
    await stage(1);
    await keys.open(/^Sheets$/, "S-201");
    await toSheet();
    await keys.press("m");
    await keys.put([756, 232]);
    await keys.put([756, 1096]);
    await keys.type(`96'-0"`);
    await expect.poll(() => desk.card.locator(".card-tag").textContent()).toBe(`1/8" = 1'-0"`);
    await toCard();
    await keys.choose(/AFF tags traced here/, "Finished floor of Level 1");
    await stage(1);
    await keys.open(/^Sheets$/, "A-131");
    await toCard();
    await keys.fill(/^As the sheet states it/, `1/4" = 1'-0"`);
    await keys.choose(/AFF tags traced here/, "Finished floor of Level 1");
  });

  it("registers the ceiling on the framing", async () => {
    await toSheet();
    await keys.press("g");
    for (const { here, there } of sample.viewports["ceiling-plan"].registration.pairs.slice(0, 2)) {
      await expect.poll(() => desk.sheet.getAttribute("aria-label")).toMatch(CEILING.title);
      await keys.put(here);
      await expect.poll(() => desk.sheet.getAttribute("aria-label")).toMatch(FRAMING.title);
      await keys.put(there);
    }
    await keys.tabTo(/^Done/);
    await keys.press("Enter");
    await expect.poll(() => desk.card.locator(".shared tbody tr").count()).toBe(2);
  });

  it("outlines the hall roof and gives it its elevation and slope", async () => {
    await stage(1);
    await keys.open(/^Sheets$/, "S-201");
    await toSheet();
    await keys.press("o");
    for (const corner of sample.areas["hall-roof"].outline as Place[]) await keys.put(corner);
    await keys.press("Enter");
    await desk.card.getByRole("heading", { name: "A-1" }).waitFor();
    await toCard();
    await keys.take(/Above the rooms below it/, "Roof");
    await keys.fill(/^Because/, "Nothing above it but roofing: S-201, detail 2");
    await keys.choose(/Counted from/, "Finished floor of Level 1");
    await keys.choose(/Profile/, "Wide-rib");
    await keys.take(/Concrete on the deck/, "None");
    await toSheet();
    await keys.press("s");
    await keys.put([216, 556]);
    await keys.type(`16'-0"`);
    await keys.put([756, 556]);
    await keys.type(`1/4" per foot`);
    await expect.poll(() => desk.card.locator(".card-tag").textContent()).toMatch(/sloped 1\.19/);
  });

  it("traces two runs with their tags, and places a box with the crosshair", async () => {
    await stage(1);
    await keys.open(/^Sheets$/, "A-131");
    for (const run of RUNS) {
      const [from, to] = sample.elements[run.label.toLowerCase()].vertices.map((vertex: { at: Place }) => vertex.at);
      await toSheet();
      await keys.press("t");
      await keys.put(from);
      await keys.type(run.tag);
      await keys.put(to);
      await keys.type(run.tag);
      await keys.press("Enter");
      await desk.card.getByRole("heading", { name: run.label, exact: true }).waitFor();
      await keys.press("Escape");
      await toCard();
      await keys.choose(/Type/, run.type);
      await keys.choose(/Trade size/, run.size);
    }
    await toSheet();
    await keys.press("b");
    const [x, y] = sample.elements["b-1"].at as Place;
    await keys.put([x, y]);
    await keys.press("Escape");
    await desk.card.getByRole("heading", { name: "B-1" }).waitFor();
    await toCard();
    await keys.fill(/^Elevation/, `15'-3 3/4"`);
    await keys.take(/Given to/, "Top");
    await keys.choose(/deep\b.*Box|Box.*deep\b/, `4" square box, 2 1/8"`);
  });

  it("announces where the crosshair is, in the building", async () => {
    await toSheet();
    // While something is selected the arrow keys move it: nothing is.
    await keys.press("Escape");
    await desk.card.waitFor({ state: "detached" });
    const said = () => opened.page.locator("[data-live=crosshair]").textContent();
    await keys.press("ArrowRight");
    const before = await said();
    expect(before).toMatch(/'-.*" right, .*'-.*" up/);
    await keys.press("ArrowRight");
    await expect.poll(said).not.toBe(before);
  });

  it("reads the profile along the run", async () => {
    await stage(3);
    await keys.open(/^Wiring$/, "R-2");
    await keys.press("Alt+p");
    expect(await keys.focused()).toMatch(/Place along R-2/);
    await keys.press("End");
    const slider = opened.page.getByRole("slider");
    expect(await slider.getAttribute("aria-valuetext")).toMatch(/Station 30'-0".*too high/);
    await keys.press("Home");
    expect(await slider.getAttribute("aria-valuetext")).toMatch(/Station 0".*under the limit/);
  });

  it("arrives at the findings expected, announced as they come", async () => {
    await expect
      .poll(() => opened.page.locator("[data-live=check]").textContent())
      .toMatch(/Checked: 2 too close, 1 clear/);
    await stage(5);
    await keys.tabTo(/^JSON$/);
    const { bytes } = await desk.download(() => keys.press("Enter"));
    expectSampleFindings(new TextDecoder().decode(bytes), ["R-1", "R-2", "B-1"]);
  });

  it("issues the sheets", async () => {
    await stage(5);
    await keys.fill(/^Author of the marks/, "A. Reviewer");
    await keys.tabTo(/^Issue$/);
    const { bytes } = await desk.download(() => keys.press("Enter"));
    expectIssuedFrom(SAMPLE_PDF, bytes);
    expect(inkAt(bytes, 2, [948, 436], 1728)).toContain("vermillion");
  });

  it("finds any act by typing", async () => {
    await keys.press("F1");
    await opened.page.getByRole("dialog").waitFor();
    await opened.page.keyboard.type("stage roof");
    await keys.press("Enter");
    await opened.page.locator("#drawer-roof").waitFor();
  });

  it("went wrong nowhere", () => {
    expect(opened.problems).toEqual([]);
  });
});
