import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { CEILING, DeskHands, FRAMING, type Place, SAMPLE_PDF } from "./desk.ts";
import { expectedFindings, expectSampleFindings } from "./expected-findings.ts";
import { expectIssuedFrom, inkAt } from "./issued-file.ts";
import { type OpenedPage, openPage } from "./open-page.ts";

// A person needs minutes for this; software drawing on a busy machine is not quick either.
vi.setConfig({ testTimeout: 240_000 });

let opened: OpenedPage;
let desk: DeskHands;
beforeAll(async () => {
  opened = await openPage("", { width: 1600, height: 1000 });
  desk = new DeskHands(opened.page);
  opened.page.setDefaultTimeout(20_000);
}, 180_000);
afterAll(() => opened?.close());

/** Outlines of the deck areas on the framing sheet, as the sample's own job has them. */
const sample = JSON.parse(readFileSync("samples/riverside-workshop/job.json", "utf8"));
const outlineOf = (id: string): Place[] => sample.areas[id].outline;

/** Elements as the ceiling sheet writes them: what is traced, in the order of tracing. */
const RUNS: readonly { label: string; type: string; size: string; tag: string }[] = [
  { label: "R-1", type: "EMT", size: "3/4", tag: `15'-0" AFF centre` },
  { label: "R-2", type: "EMT", size: "1", tag: `14'-8" AFF C.L.` },
  { label: "R-3", type: "EMT", size: "3/4", tag: `TOP 11'-10 1/2" AFF ± 0"` },
  { label: "R-6", type: "RMC", size: "1", tag: `top 14'-11 7/8" AFF` },
  { label: "R-10", type: "EMT", size: "3/4", tag: `top 11'-11 1/2" AFF` },
];

describe("the whole job with a pointer, from two bare sheets to the issued file", () => {
  it("opens the drawing and takes both pages as sheets", async () => {
    await desk.pick(opened.page.getByRole("button", { name: "Open drawings" }), SAMPLE_PDF);
    await desk.press(/^Add 2 pages/);
    await desk.sheet.waitFor();
    await expect.poll(() => opened.page.getByRole("listbox", { name: "Sheets" }).getByRole("option").count()).toBe(2);
  });

  it("names the job and says by whose decision the edition applies", async () => {
    await desk.fill(desk.drawer, "Name", "Riverside Workshop");
    await desk.choose(desk.drawer, "Rule edition", /2023 edition/);
    await desk.fill(desk.drawer, "By whose decision", "the invented town of Ellowmere");
    await desk.fill(desk.drawer, "Tags", `1/8"`);
    await desk.fill(desk.drawer, "Decks", `1/8"`);
  });

  it("sets one scale by two points and their distance, the other by a note found on the sheet", async () => {
    await desk.openSheet(FRAMING);
    await desk.press("Measure between two points", desk.card);
    await desk.click(FRAMING, [756, 232]);
    await desk.click(FRAMING, [756, 1096]);
    await desk.type(`96'-0"`);
    await expect.poll(() => desk.card.locator(".card-tag").textContent()).toMatch(/1:9[56]|1\/8" = 1'-0"/);
    await desk.choose(desk.card, "AFF tags traced here count from", /Level 1/);
    await desk.openSheet(CEILING);
    await desk.press(`1/4" = 1'-0"`, desk.card);
    await expect.poll(() => desk.card.locator(".card-tag").textContent()).toBe(`1/4" = 1'-0"`);
    await desk.choose(desk.card, "AFF tags traced here count from", /Level 1/);
  });

  it("takes the stated scale too and shows how the two compare", async () => {
    await desk.openSheet(FRAMING);
    await desk.fill(desk.card, "As the sheet states it", `1/8" = 1'-0"`);
    await desk.card.getByText(/agree within/).waitFor();
    await expect.poll(() => desk.card.locator(".card-tag").textContent()).toBe(`1/8" = 1'-0"`);
  });

  it("registers the ceiling on the framing by three grid intersections, with a residual for each", async () => {
    await desk.openSheet(CEILING);
    await desk.press("Pick shared points", desk.card);
    for (const { here, there } of sample.viewports["ceiling-plan"].registration.pairs.slice(0, 3)) {
      await desk.click(CEILING, here);
      await expect.poll(() => desk.sheet.getAttribute("aria-label")).toMatch(FRAMING.title);
      await desk.click(FRAMING, there);
    }
    await desk.press("Done");
    await desk.openSheet(CEILING);
    await expect.poll(() => desk.card.locator(".shared tbody tr").count()).toBe(3);
  });

  it("outlines the deck areas and says what each is and how high it lies", async () => {
    await desk.openSheet(FRAMING);
    await desk.stage("Roof");
    for (const id of ["hall-roof", "store-roof", "loft-floor"]) {
      await desk.press(/^Outline a deck area/, desk.drawer);
      const outline = outlineOf(id);
      for (const corner of [...outline, outline[0]!]) await desk.click(FRAMING, corner);
      const label = sample.areas[id].label;
      await desk.fill(desk.card, "Label on the sheet", label);
      await desk.card.getByRole("heading", { name: label }).waitFor();
    }
    const area = (label: string) => opened.page.getByRole("listbox", { name: "Deck areas" }).getByText(label).click();

    await area("Hall roof");
    await desk.take(desk.card, "Above the rooms below it", "Roof");
    await desk.fill(desk.card, "Because", "Nothing above it but roofing: S-201, detail 2");
    await desk.choose(desk.card, "Profile", /Wide-rib/);
    await desk.choose(desk.card, "Counted from", /Level 1/);
    await desk.take(desk.card, "Concrete on the deck", "None");
    await desk.take(desk.card, "It lies", "Sloped");
    await desk.click(FRAMING, [216, 556]);
    await desk.type(`16'-0"`);
    await desk.click(FRAMING, [756, 556]);
    await desk.type(`1/4" per foot`);
    await expect.poll(() => desk.card.locator(".card-tag").textContent()).toMatch(/sloped 1\.19/);

    await area("Store roof");
    await desk.take(desk.card, "Above the rooms below it", "Roof");
    await desk.choose(desk.card, "Given to", "Top of deck");
    await desk.choose(desk.card, "Counted from", /Level 1/);
    await desk.fill(desk.card, "Elevation", `12'-1 1/2"`);
    await desk.fill(desk.card, "May be off, each way", `0"`);
    await desk.choose(desk.card, "Profile", /Wide-rib/);
    await desk.take(desk.card, "Concrete on the deck", "None");
    await expect.poll(() => desk.card.locator(".card-tag").textContent()).toBe(`Lowest surface 12'-0"`);

    await area("Loft floor");
    await desk.take(desk.card, "Above the rooms below it", "Floor above");
    await desk.fill(desk.card, "Because", "The loft is above it: S-201, note 4");
    await desk.choose(desk.card, "Counted from", /Level 1/);
    await desk.fill(desk.card, "Elevation", `12'-0"`);
    await desk.choose(desk.card, "Profile", /Composite steel deck, 2"/);
  });

  it("traces runs with their tags", async () => {
    await desk.openSheet(CEILING);
    await desk.stage("Wiring");
    await desk.press(/^Trace a run/, desk.drawer);
    for (const run of RUNS) {
      await desk.choose(desk.drawer, "Next run", new RegExp(`^${run.type}`));
      await desk.choose(desk.drawer, "Size", new RegExp(`^${run.size}$`));
      const [from, to] = sample.elements[run.label.toLowerCase()].vertices.map((vertex: { at: Place }) => vertex.at);
      await desk.click(CEILING, from);
      await desk.type(run.tag);
      await desk.click(CEILING, to);
      await desk.type(run.tag);
      await desk.press("Done");
      await desk.fill(desk.card, "Label on the sheet", run.label);
      await desk.card.getByRole("heading", { name: run.label, exact: true }).waitFor();
    }
    await desk.press("Leave");
  });

  it("places a box and a fitting, and records a fact", async () => {
    await desk.press(/^Place boxes/, desk.drawer);
    await desk.click(CEILING, sample.elements["b-1"].at);
    await desk.press("Leave");
    await desk.choose(desk.card, "Box", /4" square box, 2 1\/8" deep/);
    await desk.fill(desk.card, "Elevation", `15'-3 3/4"`);
    await desk.take(desk.card, "Given to", "Top");

    await desk.press(/^Place fittings/, desk.drawer);
    await desk.click(CEILING, sample.elements["f-1"].at);
    await desk.press("Leave");
    await desk.choose(desk.card, "Trade size", /^1$/);
    await desk.fill(desk.card, "Elevation", `14'-8"`);
    await desk.take(desk.card, "Given to", "Centre");
    await desk.fill(desk.card, "Turned by", "90");

    await opened.page.getByRole("listbox", { name: "Wiring" }).getByText("R-6", { exact: true }).click();
    await desk.take(desk.card, /Fittings and boxes of steel/, "Yes");
  });

  it("places a conductor entry at the end of a run, and records what protects it", async () => {
    await desk.press(/^Place conductor entries/, desk.drawer);
    await desk.type("4 AWG THHN");
    await desk.click(CEILING, sample.elements["e-2"].at);
    await desk.press("Leave");
    // The run that ends there came along by itself.
    await desk.card.locator(".row", { hasText: "Run" }).getByText("R-6", { exact: true }).first().waitFor();
    await desk.fill(desk.card, "Label on the sheet", "E-2");
    await desk.choose(desk.card, "Enters", "Something else");
    await desk.fill(desk.card, /^Cabinet, enclosure/, "panel LP-2");
    await desk.choose(desk.card, "By", /insulating bushing/);
    await desk.fill(desk.card, /temperature rating/, "75");
    await desk.take(desk.card, /locknut/, "Yes");
    await desk.take(desk.card, /before the conductors are pulled/, "Yes");
    await desk.card.getByRole("button", { name: /Entry unprotected/ }).waitFor();
    await desk.fill(desk.card, /temperature rating/, "105 °C");
    await desk.card.getByRole("button", { name: /Clear/ }).waitFor();
  });

  it("arrives at the findings the sample's own arithmetic expects", async () => {
    await desk.stage("Issue");
    const { bytes } = await desk.download(() => desk.press("JSON", desk.drawer));
    expectSampleFindings(new TextDecoder().decode(bytes), [...RUNS.map(({ label }) => label), "B-1", "F-1", "E-2"]);
  });

  it("leads from a finding to its spot, its reasons and a remedy that settles it", async () => {
    await desk.stage("Check");
    await opened.page.getByRole("listbox", { name: "Findings" }).getByRole("option", { name: /R-2/ }).click();
    await desk.card.getByText("Too close", { exact: true }).waitFor();
    await desk.press("Apply", desk.card);
    await expect
      .poll(() =>
        opened.page.getByRole("listbox", { name: "Findings" }).getByRole("option", { name: /R-2/ }).textContent(),
      )
      .toMatch(/Clear/);
    await desk.sheet.focus();
    await opened.page.keyboard.press("Control+z");
    await expect
      .poll(() =>
        opened.page.getByRole("listbox", { name: "Findings" }).getByRole("option", { name: /R-2/ }).textContent(),
      )
      .toMatch(/Too close/);
  });

  it("issues the sheets: the drawing's own bytes untouched in front, the marks where the problems are", async () => {
    await desk.stage("Issue");
    await desk.fill(desk.drawer, "Author of the marks", "A. Reviewer");
    const { name, bytes } = await desk.download(() => desk.press(/^Issue$/, desk.drawer));
    expect(name).toMatch(/\.pdf$/);
    expectIssuedFrom(SAMPLE_PDF, bytes);
    // R-2 from its too-close end: the stretch is drawn along the wiring in the verdict's vermillion.
    const finding = expectedFindings().find(({ element }) => element === "R-2");
    expect(finding?.verdict).toBe("too-close");
    const ink = inkAt(bytes, 2, [948, 436], 1728);
    expect(ink).toContain("vermillion");
    expect(inkAt(readFileSync(SAMPLE_PDF), 2, [948, 436], 1728)).not.toContain("vermillion");
  });

  it("asked nobody outside for anything, and nothing went wrong on the way", () => {
    expect(opened.problems).toEqual([]);
  });
});
