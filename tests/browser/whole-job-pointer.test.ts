import { describe, expect, it } from "vitest";
import type { Entry } from "../../src/job/elements/entry.ts";
import type { Area } from "../../src/job/schema.ts";
import { findRuleSet } from "../../src/rules/rule-sets.ts";
import { findBoxKind } from "../../src/trade/boxes.ts";
import { findDeckProfile } from "../../src/trade/decks.ts";
import { findRacewayKind } from "../../src/trade/raceways.ts";
import { classificationChoices, concreteChoices, deckBasisChoices } from "../../src/ui/words.ts";
import { CEILING, type DeskHands, FRAMING, SAMPLE_PDF } from "./desk.ts";
import { checkedByCommand, expectWholeSample } from "./expected-findings.ts";
import { expectIssuedFrom, expectMarks } from "./issued-file.ts";
import type { OpenedPage } from "./open-page.ts";
import {
  AREAS,
  BOXES,
  CEILING_PLAN,
  ENTRIES,
  expectSampleJob,
  FITTINGS,
  FRAMING_PLAN,
  factsOf,
  jobInFile,
  lengthText,
  RUNS,
  SETTINGS,
  tagText,
} from "./sample-job.ts";
import { standingDesk } from "./standing-desk.ts";

// A person needs minutes for this; software drawing on a busy machine is not quick either.
let opened: OpenedPage;
let desk: DeskHands;
standingDesk(
  (...given) => {
    [opened, desk] = given;
  },
  { viewport: { width: 1600, height: 1000 }, test: 240_000 },
);

/** How near a pointer comes to a place: some hundredths of an inch in the building, and half as much as the deck falls. */
const BY_HAND = { distanceIn: 0.15, stationIn: 2.5 };
/** In points of the sheet. */
const BY_HAND_POINTS = 0.1;

/** The words of a choice. */
const worded = (choices: readonly { readonly id: string; readonly label: string }[], id: string): string =>
  choices.find((choice) => choice.id === id)!.label;
/** Words as they stand, from the first to the last. */
const exactly = (words: string): RegExp => new RegExp(`^${words.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&")}$`);
const protectionWords = ({ protection }: Entry): string =>
  protection.is === "method"
    ? findRuleSet(SETTINGS.edition)!.entry!.protections.find(({ id }) => id === protection.method)!.label
    : "None";

describe("the whole job with a pointer, from two bare sheets to the issued file", () => {
  it("opens the drawing and takes both pages as sheets", async () => {
    await desk.pick(opened.page.getByRole("button", { name: "Open drawings" }), SAMPLE_PDF);
    await desk.press(/^Add 2 pages/);
    await desk.sheet.waitFor();
    await expect.poll(() => opened.page.getByRole("listbox", { name: "Sheets" }).getByRole("option").count()).toBe(2);
  });

  it("names the job and says by whose decision the edition applies", async () => {
    await desk.fill(desk.drawer, "Name", SETTINGS.name);
    await desk.choose(
      desk.drawer,
      "Rule edition",
      exactly(`NFPA 70, ${findRuleSet(SETTINGS.edition)!.edition} edition`),
    );
    await desk.fill(desk.drawer, "By whose decision", SETTINGS.editionBy);
    await desk.fill(desk.drawer, "Tags", lengthText(SETTINGS.tolerances.tags));
    await desk.fill(desk.drawer, "Decks", lengthText(SETTINGS.tolerances.decks));
    await desk.fill(desk.drawer, "In plan", lengthText(SETTINGS.tolerances.plan));
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
    const note = CEILING_PLAN.scale.stated!.text;
    await desk.press(note, desk.card);
    await expect.poll(() => desk.card.locator(".card-tag").textContent()).toBe(note);
    await desk.choose(desk.card, "AFF tags traced here count from", /Level 1/);
  });

  it("takes the stated scale too and shows how the two compare", async () => {
    await desk.openSheet(FRAMING);
    const note = FRAMING_PLAN.scale.stated!.text;
    await desk.fill(desk.card, "As the sheet states it", note);
    await desk.card.getByText(/agree within/).waitFor();
    await expect.poll(() => desk.card.locator(".card-tag").textContent()).toBe(note);
  });

  it("registers the ceiling on the framing by its grid intersections, with a residual for each", async () => {
    const { pairs } = CEILING_PLAN.registration!;
    await desk.openSheet(CEILING);
    await desk.press("Pick shared points", desk.card);
    for (const { label, here, there } of pairs) {
      await desk.type(label);
      await desk.clickClosely(CEILING, here);
      await expect.poll(() => desk.sheet.getAttribute("aria-label")).toMatch(FRAMING.title);
      await desk.clickClosely(FRAMING, there);
      await expect.poll(() => desk.sheet.getAttribute("aria-label")).toMatch(CEILING.title);
    }
    await desk.press("Done");
    await desk.openSheet(CEILING);
    await expect
      .poll(() => desk.card.locator(".shared tbody th").allTextContents())
      .toEqual(pairs.map(({ label }) => label));
  });

  it("outlines the deck areas", async () => {
    await desk.openSheet(FRAMING);
    await desk.stage("Roof");
    for (const { label, outline } of AREAS) {
      await desk.press(/^Outline a deck area/, desk.drawer);
      for (const corner of [...outline, outline[0]!]) await desk.clickClosely(FRAMING, corner);
      await desk.card.getByRole("heading", { name: /^A-\d+$/ }).waitFor();
      await desk.fill(desk.card, "Label on the sheet", label);
      await desk.card.getByRole("heading", { name: label }).waitFor();
    }
  });

  it.each(AREAS.map((area) => [area.label, area] as const))(
    "says what the %s is and how it lies",
    async (label, area) => {
      await opened.page.getByRole("listbox", { name: "Deck areas" }).getByText(label, { exact: true }).click();
      await desk.card.getByRole("heading", { name: label }).waitFor();
      const { classification, deck, elevation } = area;
      await desk.take(desk.card, "Above the rooms below it", worded(classificationChoices, classification.is));
      await desk.fill(desk.card, "Because", classification.reason);
      await desk.fill(desk.card, "Settled by", classification.by);
      await desk.choose(desk.card, "Profile", exactly(findDeckProfile(deck.profile)!.label));
      await desk.take(desk.card, "Concrete on the deck", worded(concreteChoices, deck.concreteCover.is));
      if (deck.concreteCover.is === "thickness")
        await desk.fill(desk.card, /^Thickness, from/, lengthText(deck.concreteCover.thickness));
      await desk.choose(desk.card, "Given to", worded(deckBasisChoices, elevation.basis));
      await desk.choose(desk.card, "Counted from", /Level 1/);
      if (elevation.plusMinus) await desk.fill(desk.card, "May be off, each way", lengthText(elevation.plusMinus));
      await lies(elevation.shape);
      await expect.poll(() => desk.card.locator(".card-tag").textContent()).toMatch(/^Lowest surface (\d|sloped)/);
    },
  );

  /** Says how a deck lies: by its elevation, or by a point, the way down and the slope. */
  async function lies(shape: Area["elevation"]["shape"]): Promise<void> {
    if (shape.is === "spots") throw new Error("the sample has no deck by spots");
    if (shape.is === "level") return desk.fill(desk.card, "Elevation", lengthText(shape.at!));
    await desk.take(desk.card, "It lies", "Sloped");
    await desk.clickClosely(FRAMING, shape.point);
    await desk.type(lengthText(shape.at!));
    await desk.clickClosely(FRAMING, shape.towards);
    await desk.type(shape.text);
  }

  it("traces every run, vertex by vertex with its tag", async () => {
    await desk.openSheet(CEILING);
    await desk.stage("Wiring");
    await desk.press(/^Trace a run/, desk.drawer);
    for (const { label, wiring, vertices } of RUNS) {
      await desk.choose(desk.drawer, "Next run", new RegExp(`^${findRacewayKind(wiring.type)!.short}`));
      await desk.choose(desk.drawer, "Size", exactly(wiring.tradeSize));
      for (const { at, tag } of vertices) {
        await desk.clickClosely(CEILING, at);
        if (tag) await desk.type(tagText(tag));
      }
      await desk.press("Done");
      await desk.card.getByRole("heading", { name: label, exact: true }).waitFor();
    }
    await desk.press("Leave");
  });

  it("places the boxes and the fitting", async () => {
    for (const { label, at, item, tag } of BOXES) {
      await desk.press(/^Place boxes/, desk.drawer);
      await desk.type(tagText(tag!));
      await desk.clickClosely(CEILING, at);
      await desk.press("Leave");
      await desk.card.getByRole("heading", { name: label, exact: true }).waitFor();
      await desk.choose(desk.card, "Box", exactly(findBoxKind(item)!.label));
    }
    for (const { label, at, tradeSize, tag, rotationDeg } of FITTINGS) {
      await desk.press(/^Place fittings/, desk.drawer);
      await desk.type(tagText(tag!));
      await desk.clickClosely(CEILING, at);
      await desk.press("Leave");
      await desk.card.getByRole("heading", { name: label, exact: true }).waitFor();
      await desk.choose(desk.card, "Trade size", exactly(tradeSize));
      await desk.fill(desk.card, "Turned by", `${rotationDeg}`);
    }
  });

  it("records the facts that are known of them", async () => {
    for (const element of [...RUNS, ...BOXES, ...FITTINGS])
      for (const { question, answer } of factsOf(element)) {
        await opened.page.getByRole("listbox", { name: "Wiring" }).getByText(element.label, { exact: true }).click();
        await desk.card.getByRole("heading", { name: element.label, exact: true }).waitFor();
        await desk.take(desk.card, question, answer);
      }
  });

  it("places the conductor entries at the ends of their runs, and records what protects them", async () => {
    for (const entry of ENTRIES) {
      const { label, run, enclosure, conductor, insulation, protection } = entry;
      await desk.press(/^Place conductor entries/, desk.drawer);
      await desk.type(`${conductor} AWG ${insulation}`);
      await desk.clickClosely(CEILING, entry.at);
      await desk.press("Leave");
      await desk.card.getByRole("heading", { name: label, exact: true }).waitFor();
      // The run that ends there came along by itself.
      const ends = run!.toUpperCase();
      await desk.card.locator(".row", { hasText: "Run" }).getByText(ends, { exact: true }).first().waitFor();
      await desk.choose(desk.card, "Enters", "Something else");
      if (enclosure.is === "words") await desk.fill(desk.card, /^Cabinet, enclosure/, enclosure.words);
      await desk.choose(desk.card, "By", exactly(protectionWords(entry)));
      if (protection.is === "method") await desk.fill(desk.card, /temperature rating/, `${protection.ratingC} °C`);
      await desk.take(desk.card, /locknut/, entry.fastened ? "Yes" : "No");
      await desk.take(desk.card, /before the conductors are pulled/, entry.beforePulling ? "Yes" : "No");
    }
  });

  it("has said all that the sample's job says, and arrives at every finding its arithmetic expects", async () => {
    await desk.stage("Issue");
    const saved = await desk.download(() => desk.press("Save the job file", desk.drawer));
    expectSampleJob(await jobInFile(saved.bytes), BY_HAND_POINTS);
    const { bytes } = await desk.download(() => desk.press("JSON", desk.drawer));
    const findings = new TextDecoder().decode(bytes);
    expectWholeSample(findings, BY_HAND);
    expect(findings).toBe(await checkedByCommand(saved.bytes));
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
    expectMarks(bytes);
  });

  it("asked nobody outside for anything, and nothing went wrong on the way", () => {
    expect(opened.problems).toEqual([]);
  });
});
