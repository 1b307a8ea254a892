import { describe, expect, it } from "vitest";
import type { Entry } from "../../src/job/elements/entry.ts";
import type { Area } from "../../src/job/schema.ts";
import { findRuleSet } from "../../src/rules/rule-sets.ts";
import { findBoxKind } from "../../src/trade/boxes.ts";
import { findDeckProfile } from "../../src/trade/decks.ts";
import { findRacewayKind } from "../../src/trade/raceways.ts";
import { classificationChoices, concreteChoices, deckBasisChoices } from "../../src/ui/words.ts";
import { CEILING, FRAMING, SAMPLE_PDF } from "./desk.ts";
import { checkedByCommand, expectWholeSample } from "./expected-findings.ts";
import { expectIssuedFrom, expectMarks } from "./issued-file.ts";
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
const standing = standingDesk({ viewport: { width: 1600, height: 1000 }, test: 240_000 });

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
    await standing.desk.pick(standing.opened.page.getByRole("button", { name: "Open drawings" }), SAMPLE_PDF);
    await standing.desk.press(/^Add 2 pages/);
    await standing.desk.sheet.waitFor();
    await expect
      .poll(() => standing.opened.page.getByRole("listbox", { name: "Sheets" }).getByRole("option").count())
      .toBe(2);
  });

  it("names the job and says by whose decision the edition applies", async () => {
    await standing.desk.fill(standing.desk.drawer, "Name", SETTINGS.name);
    await standing.desk.choose(
      standing.desk.drawer,
      "Rule edition",
      exactly(`NFPA 70, ${findRuleSet(SETTINGS.edition)!.edition} edition`),
    );
    await standing.desk.fill(standing.desk.drawer, "By whose decision", SETTINGS.editionBy);
    await standing.desk.fill(standing.desk.drawer, "Tags", lengthText(SETTINGS.tolerances.tags));
    await standing.desk.fill(standing.desk.drawer, "Decks", lengthText(SETTINGS.tolerances.decks));
    await standing.desk.fill(standing.desk.drawer, "In plan", lengthText(SETTINGS.tolerances.plan));
  });

  it("sets one scale by two points and their distance, the other by a note found on the sheet", async () => {
    await standing.desk.openSheet(FRAMING);
    await standing.desk.press("Measure between two points", standing.desk.card);
    await standing.desk.click(FRAMING, [756, 232]);
    await standing.desk.click(FRAMING, [756, 1096]);
    await standing.desk.type(`96'-0"`);
    await expect.poll(() => standing.desk.card.locator(".card-tag").textContent()).toMatch(/1:9[56]|1\/8" = 1'-0"/);
    await standing.desk.choose(standing.desk.card, "AFF tags traced here count from", /Level 1/);
    await standing.desk.openSheet(CEILING);
    const note = CEILING_PLAN.scale.stated!.text;
    await standing.desk.press(note, standing.desk.card);
    await expect.poll(() => standing.desk.card.locator(".card-tag").textContent()).toBe(note);
    await standing.desk.choose(standing.desk.card, "AFF tags traced here count from", /Level 1/);
  });

  it("takes the stated scale too and shows how the two compare", async () => {
    await standing.desk.openSheet(FRAMING);
    const note = FRAMING_PLAN.scale.stated!.text;
    await standing.desk.fill(standing.desk.card, "As the sheet states it", note);
    await standing.desk.card.getByText(/agree within/).waitFor();
    await expect.poll(() => standing.desk.card.locator(".card-tag").textContent()).toBe(note);
  });

  it("registers the ceiling on the framing by its grid intersections, with a residual for each", async () => {
    const { pairs } = CEILING_PLAN.registration!;
    await standing.desk.openSheet(CEILING);
    await standing.desk.press("Pick shared points", standing.desk.card);
    for (const { label, here, there } of pairs) {
      await standing.desk.type(label);
      await standing.desk.clickClosely(CEILING, here);
      await expect.poll(() => standing.desk.sheet.getAttribute("aria-label")).toMatch(FRAMING.title);
      await standing.desk.clickClosely(FRAMING, there);
      await expect.poll(() => standing.desk.sheet.getAttribute("aria-label")).toMatch(CEILING.title);
    }
    await standing.desk.press("Done");
    await standing.desk.openSheet(CEILING);
    await expect
      .poll(() => standing.desk.card.locator(".shared tbody th").allTextContents())
      .toEqual(pairs.map(({ label }) => label));
  });

  it("outlines the deck areas", async () => {
    await standing.desk.openSheet(FRAMING);
    await standing.desk.stage("Roof");
    for (const { label, outline } of AREAS) {
      await standing.desk.press(/^Outline a deck area/, standing.desk.drawer);
      for (const corner of [...outline, outline[0]!]) await standing.desk.clickClosely(FRAMING, corner);
      await standing.desk.card.getByRole("heading", { name: /^A-\d+$/ }).waitFor();
      await standing.desk.fill(standing.desk.card, "Label on the sheet", label);
      await standing.desk.card.getByRole("heading", { name: label }).waitFor();
    }
  });

  it.each(AREAS.map((area) => [area.label, area] as const))(
    "says what the %s is and how it lies",
    async (label, area) => {
      await standing.opened.page.getByRole("listbox", { name: "Deck areas" }).getByText(label, { exact: true }).click();
      await standing.desk.card.getByRole("heading", { name: label }).waitFor();
      const { classification, deck, elevation } = area;
      await standing.desk.take(
        standing.desk.card,
        "Above the rooms below it",
        worded(classificationChoices, classification.is),
      );
      await standing.desk.fill(standing.desk.card, "Because", classification.reason);
      await standing.desk.fill(standing.desk.card, "Settled by", classification.by);
      await standing.desk.choose(standing.desk.card, "Profile", exactly(findDeckProfile(deck.profile)!.label));
      await standing.desk.take(
        standing.desk.card,
        "Concrete on the deck",
        worded(concreteChoices, deck.concreteCover.is),
      );
      if (deck.concreteCover.is === "thickness")
        await standing.desk.fill(standing.desk.card, /^Thickness, from/, lengthText(deck.concreteCover.thickness));
      await standing.desk.choose(standing.desk.card, "Given to", worded(deckBasisChoices, elevation.basis));
      await standing.desk.choose(standing.desk.card, "Counted from", /Level 1/);
      if (elevation.plusMinus)
        await standing.desk.fill(standing.desk.card, "May be off, each way", lengthText(elevation.plusMinus));
      await lies(elevation.shape);
      await expect
        .poll(() => standing.desk.card.locator(".card-tag").textContent())
        .toMatch(/^Lowest surface (\d|sloped)/);
    },
  );

  /** Says how a deck lies: by its elevation, or by a point, the way down and the slope. */
  async function lies(shape: Area["elevation"]["shape"]): Promise<void> {
    if (shape.is === "spots") throw new Error("the sample has no deck by spots");
    if (shape.is === "level") return standing.desk.fill(standing.desk.card, "Elevation", lengthText(shape.at!));
    await standing.desk.take(standing.desk.card, "It lies", "Sloped");
    await standing.desk.clickClosely(FRAMING, shape.point);
    await standing.desk.type(lengthText(shape.at!));
    await standing.desk.clickClosely(FRAMING, shape.towards);
    await standing.desk.type(shape.text);
  }

  it("traces every run, vertex by vertex with its tag", async () => {
    await standing.desk.openSheet(CEILING);
    await standing.desk.stage("Wiring");
    await standing.desk.press(/^Trace a run/, standing.desk.drawer);
    for (const { label, wiring, vertices } of RUNS) {
      await standing.desk.choose(
        standing.desk.drawer,
        "Next run",
        new RegExp(`^${findRacewayKind(wiring.type)!.short}`),
      );
      await standing.desk.choose(standing.desk.drawer, "Size", exactly(wiring.tradeSize));
      for (const { at, tag } of vertices) {
        await standing.desk.clickClosely(CEILING, at);
        if (tag) await standing.desk.type(tagText(tag));
      }
      await standing.desk.press("Done");
      await standing.desk.card.getByRole("heading", { name: label, exact: true }).waitFor();
    }
    await standing.desk.press("Leave");
  });

  it("places the boxes and the fitting", async () => {
    for (const { label, at, item, tag } of BOXES) {
      await standing.desk.press(/^Place boxes/, standing.desk.drawer);
      await standing.desk.type(tagText(tag!));
      await standing.desk.clickClosely(CEILING, at);
      await standing.desk.press("Leave");
      await standing.desk.card.getByRole("heading", { name: label, exact: true }).waitFor();
      await standing.desk.choose(standing.desk.card, "Box", exactly(findBoxKind(item)!.label));
    }
    for (const { label, at, tradeSize, tag, rotationDeg } of FITTINGS) {
      await standing.desk.press(/^Place fittings/, standing.desk.drawer);
      await standing.desk.type(tagText(tag!));
      await standing.desk.clickClosely(CEILING, at);
      await standing.desk.press("Leave");
      await standing.desk.card.getByRole("heading", { name: label, exact: true }).waitFor();
      await standing.desk.choose(standing.desk.card, "Trade size", exactly(tradeSize));
      await standing.desk.fill(standing.desk.card, "Turned by", `${rotationDeg}`);
    }
  });

  it("records the facts that are known of them", async () => {
    for (const element of [...RUNS, ...BOXES, ...FITTINGS])
      for (const { question, answer } of factsOf(element)) {
        await standing.opened.page
          .getByRole("listbox", { name: "Wiring" })
          .getByText(element.label, { exact: true })
          .click();
        await standing.desk.card.getByRole("heading", { name: element.label, exact: true }).waitFor();
        await standing.desk.take(standing.desk.card, question, answer);
      }
  });

  it("places the conductor entries at the ends of their runs, and records what protects them", async () => {
    for (const entry of ENTRIES) {
      const { label, run, enclosure, conductor, insulation, protection } = entry;
      await standing.desk.press(/^Place conductor entries/, standing.desk.drawer);
      await standing.desk.type(`${conductor} AWG ${insulation}`);
      await standing.desk.clickClosely(CEILING, entry.at);
      await standing.desk.press("Leave");
      await standing.desk.card.getByRole("heading", { name: label, exact: true }).waitFor();
      // The run that ends there came along by itself.
      const ends = run!.toUpperCase();
      await standing.desk.card.locator(".row", { hasText: "Run" }).getByText(ends, { exact: true }).first().waitFor();
      await standing.desk.choose(standing.desk.card, "Enters", "Something else");
      if (enclosure.is === "words")
        await standing.desk.fill(standing.desk.card, /^Cabinet, enclosure/, enclosure.words);
      await standing.desk.choose(standing.desk.card, "By", exactly(protectionWords(entry)));
      if (protection.is === "method")
        await standing.desk.fill(standing.desk.card, /temperature rating/, `${protection.ratingC} °C`);
      await standing.desk.take(standing.desk.card, /locknut/, entry.fastened ? "Yes" : "No");
      await standing.desk.take(
        standing.desk.card,
        /before the conductors are pulled/,
        entry.beforePulling ? "Yes" : "No",
      );
    }
  });

  it("has said all that the sample's job says, and arrives at every finding its arithmetic expects", async () => {
    await standing.desk.stage("Issue");
    const saved = await standing.desk.download(() => standing.desk.press("Save the job file", standing.desk.drawer));
    expectSampleJob(await jobInFile(saved.bytes), BY_HAND_POINTS);
    const { bytes } = await standing.desk.download(() => standing.desk.press("JSON", standing.desk.drawer));
    const findings = new TextDecoder().decode(bytes);
    expectWholeSample(findings, BY_HAND);
    expect(findings).toBe(await checkedByCommand(saved.bytes));
  });

  it("leads from a finding to its spot, its reasons and a remedy that settles it", async () => {
    await standing.desk.stage("Check");
    await standing.opened.page.getByRole("listbox", { name: "Findings" }).getByRole("option", { name: /R-2/ }).click();
    await standing.desk.card.getByText("Too close", { exact: true }).waitFor();
    await standing.desk.press("Apply", standing.desk.card);
    await expect
      .poll(() =>
        standing.opened.page
          .getByRole("listbox", { name: "Findings" })
          .getByRole("option", { name: /R-2/ })
          .textContent(),
      )
      .toMatch(/Clear/);
    await standing.desk.sheet.focus();
    await standing.opened.page.keyboard.press("Control+z");
    await expect
      .poll(() =>
        standing.opened.page
          .getByRole("listbox", { name: "Findings" })
          .getByRole("option", { name: /R-2/ })
          .textContent(),
      )
      .toMatch(/Too close/);
  });

  it("issues the sheets: the drawing's own bytes untouched in front, the marks where the problems are", async () => {
    await standing.desk.stage("Issue");
    await standing.desk.fill(standing.desk.drawer, "Author of the marks", "A. Reviewer");
    const { name, bytes } = await standing.desk.download(() => standing.desk.press(/^Issue$/, standing.desk.drawer));
    expect(name).toMatch(/\.pdf$/);
    expectIssuedFrom(SAMPLE_PDF, bytes);
    expectMarks(bytes);
  });

  it("asked nobody outside for anything, and nothing went wrong on the way", () => {
    expect(standing.opened.problems).toEqual([]);
  });
});
