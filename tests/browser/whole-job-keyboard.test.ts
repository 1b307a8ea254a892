import { beforeAll, describe, expect, it } from "vitest";
import type { Area } from "../../src/job/schema.ts";
import { findRuleSet } from "../../src/rules/rule-sets.ts";
import { findBoxKind } from "../../src/trade/boxes.ts";
import { findDeckProfile } from "../../src/trade/decks.ts";
import { findRacewayKind } from "../../src/trade/raceways.ts";
import { classificationChoices, concreteChoices, deckBasisChoices } from "../../src/ui/words.ts";
import { CEILING, FRAMING, SAMPLE_PDF } from "./desk.ts";
import { checkedByCommand, EXACT_IN, expectWholeSample } from "./expected-findings.ts";
import { expectIssuedFrom, expectMarks } from "./issued-file.ts";
import { KeyHands } from "./key-hands.ts";
import {
  AREAS,
  BOXES,
  CEILING_PLAN,
  ENTRIES,
  expectSampleJob,
  FITTINGS,
  factsOf,
  jobInFile,
  lengthText,
  RUNS,
  SETTINGS,
  tagText,
} from "./sample-job.ts";
import { standingDesk } from "./standing-desk.ts";

/** The keys do every act; the desk is only read. */
const standing = standingDesk({ test: 240_000 });
let keys: KeyHands;
beforeAll(() => {
  const { page } = standing.opened;
  keys = new KeyHands(page);
  // A pointer would be a way round: it is taken away.
  const none = () => Promise.reject(new Error("this test has no pointer"));
  Object.assign(page.mouse, { move: none, down: none, up: none, click: none, wheel: none });
});

/** The words of a choice. */
const worded = (choices: readonly { readonly id: string; readonly label: string }[], id: string): string =>
  choices.find((choice) => choice.id === id)!.label;

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
    .poll(() => standing.opened.page.evaluate((where) => document.activeElement?.closest(where) !== null, part), {
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
    await standing.opened.page.getByRole("heading", { name: "Underside" }).waitFor();
    await keys.tabTo(/^Open drawings/);
    const [chooser] = await Promise.all([standing.opened.page.waitForEvent("filechooser"), keys.press("Enter")]);
    await chooser.setFiles(SAMPLE_PDF);
    await expect.poll(() => keys.focused(), { timeout: 20_000 }).toMatch(/^Add 2 pages/);
    await keys.press("Enter");
    await standing.desk.shown();
  });

  it("says by whose decision the edition applies, and how far readings may be off", async () => {
    await stage(1);
    await keys.choose(/^Rule edition|Rule edition$/, "NFPA 70, 2023");
    await keys.fill(/^By whose decision/, SETTINGS.editionBy);
    await keys.fill(/^Tags/, lengthText(SETTINGS.tolerances.tags));
    await keys.fill(/^Decks/, lengthText(SETTINGS.tolerances.decks));
    await keys.fill(/^In plan/, lengthText(SETTINGS.tolerances.plan));
  });

  it("measures the scale of one sheet and types that of the other", async () => {
    await stage(1);
    await keys.open(/^Sheets$/, "S-201");
    await toSheet();
    await keys.press("m");
    await keys.put([756, 232]);
    await keys.put([756, 1096]);
    await keys.type(`96'-0"`);
    await expect.poll(() => standing.desk.card.locator(".card-tag").textContent()).toBe(`1/8" = 1'-0"`);
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
    for (const { here, there } of CEILING_PLAN.registration!.pairs.slice(0, 2)) {
      await expect.poll(() => standing.desk.sheet.getAttribute("aria-label")).toMatch(CEILING.title);
      await keys.put(here);
      await expect.poll(() => standing.desk.sheet.getAttribute("aria-label")).toMatch(FRAMING.title);
      await keys.put(there);
    }
    await keys.tabTo(/^Done/);
    await keys.press("Enter");
    await expect.poll(() => standing.desk.card.locator(".shared tbody tr").count()).toBe(2);
  });

  it.each(AREAS.map((area) => [area.label, area] as const))(
    "outlines the %s, and says what it is and how it lies",
    async (label, { outline, classification, deck, elevation }) => {
      await stage(1);
      await keys.open(/^Sheets$/, "S-201");
      await toSheet();
      await keys.press("o");
      for (const corner of outline) await keys.put(corner);
      await keys.press("Enter");
      await standing.desk.card.getByRole("heading", { name: /^A-\d+$/ }).waitFor();
      await toCard();
      await keys.take(/Above the rooms below it/, worded(classificationChoices, classification.is));
      await keys.fill(/^Because/, classification.reason);
      await keys.fill(/^Settled by/, classification.by);
      await keys.choose(/Given to/, worded(deckBasisChoices, elevation.basis));
      await keys.choose(/Counted from/, "Finished floor of Level 1");
      if (elevation.shape.is === "level") await keys.fill(/^Elevation/, lengthText(elevation.shape.at!));
      if (elevation.plusMinus) await keys.fill(/^May be off/, lengthText(elevation.plusMinus));
      await keys.choose(/Profile/, findDeckProfile(deck.profile)!.label);
      await keys.take(/Concrete on the deck/, worded(concreteChoices, deck.concreteCover.is));
      if (deck.concreteCover.is === "thickness")
        await keys.fill(/^Thickness, from/, lengthText(deck.concreteCover.thickness));
      await slopes(elevation.shape);
      await toCard();
      await keys.fill(/^Label on the sheet/, label);
      await standing.desk.card.getByRole("heading", { name: label, exact: true }).waitFor();
      await expect
        .poll(() => standing.desk.card.locator(".card-tag").textContent())
        .toMatch(/^Lowest surface (\d|sloped)/);
    },
  );

  /** Gives a sloped deck its point, the way down and the slope. */
  async function slopes(shape: Area["elevation"]["shape"]): Promise<void> {
    if (shape.is !== "slope") return;
    await toSheet();
    await keys.press("s");
    await keys.put(shape.point);
    await keys.type(lengthText(shape.at!));
    await keys.put(shape.towards);
    await keys.type(shape.text);
  }

  it.each(RUNS.map((run) => [run.label, run] as const))("traces %s with its tags", async (label, run) => {
    await stage(1);
    await keys.open(/^Sheets$/, "A-131");
    await toSheet();
    await keys.press("t");
    for (const { at, tag } of run.vertices) {
      await keys.put(at);
      if (tag) await keys.type(tagText(tag));
    }
    await keys.press("Enter");
    await standing.desk.card.getByRole("heading", { name: label, exact: true }).waitFor();
    await keys.press("Escape");
    await toCard();
    await keys.choose(/Type/, findRacewayKind(run.wiring.type)!.short);
    await keys.choose(/(Trade s|S)ize/, run.wiring.tradeSize);
    for (const { question, answer } of factsOf(run)) await keys.take(question, answer);
  });

  it.each(BOXES.map((box) => [box.label, box] as const))("places %s", async (label, box) => {
    await toSheet();
    await keys.press("b");
    await keys.type(tagText(box.tag!));
    await keys.put(box.at);
    await keys.press("Escape");
    await standing.desk.card.getByRole("heading", { name: label, exact: true }).waitFor();
    await toCard();
    await keys.choose(/deep\b.*Box|Box.*deep\b/, findBoxKind(box.item)!.label);
    for (const { question, answer } of factsOf(box)) await keys.take(question, answer);
  });

  it.each(FITTINGS.map((fitting) => [fitting.label, fitting] as const))("places %s", async (label, fitting) => {
    await toSheet();
    await keys.press("f");
    await keys.type(tagText(fitting.tag!));
    await keys.put(fitting.at);
    await keys.press("Escape");
    await standing.desk.card.getByRole("heading", { name: label, exact: true }).waitFor();
    await toCard();
    await keys.choose(/Trade size/, fitting.tradeSize);
    await keys.fill(/^Turned by/, `${fitting.rotationDeg}`);
    for (const { question, answer } of factsOf(fitting)) await keys.take(question, answer);
  });

  it.each(ENTRIES.map((entry) => [entry.label, entry] as const))(
    "places the conductor entry %s and records what protects it",
    async (label, { at, conductor, insulation, enclosure, protection, fastened, beforePulling }) => {
      await toSheet();
      await keys.press("c");
      await keys.type(`${conductor} AWG ${insulation}`);
      await keys.put(at);
      await keys.press("Escape");
      await standing.desk.card.getByRole("heading", { name: label, exact: true }).waitFor();
      await toCard();
      await keys.choose(/\bEnters\b/, "Something else");
      if (enclosure.is === "words") await keys.fill(/^Cabinet, enclosure/, enclosure.words);
      const { protections } = findRuleSet(SETTINGS.edition)!.entry!;
      const method =
        protection.is === "method" ? protections.find(({ id }) => id === protection.method)!.label : "None";
      await keys.choose(/\bBy$|^By\b/, method);
      if (protection.is === "method") await keys.fill(/temperature rating/, `${protection.ratingC} °C`);
      await keys.take(/locknut/, fastened ? "Yes" : "No");
      await keys.take(/before the conductors are pulled/, beforePulling ? "Yes" : "No");
    },
  );

  it("announces where the crosshair is, in the building", async () => {
    await toSheet();
    const last = await standing.desk.page.getByRole("button", { name: /^Undo/ }).getAttribute("aria-label");
    const said = () => standing.opened.page.locator("[data-live=crosshair]").textContent();
    await keys.press("ArrowRight");
    const before = await said();
    expect(before).toMatch(/'-.*" right, .*'-.*" up/);
    await keys.press("ArrowRight");
    await expect.poll(said).not.toBe(before);
    // What is selected stays where it is, until it is taken up; Escape puts it back.
    expect(await standing.desk.page.getByRole("button", { name: /^Undo/ }).getAttribute("aria-label")).toBe(last);
    await keys.press("a");
    await standing.desk.page
      .getByRole("status")
      .getByText(/arrow keys move it/)
      .waitFor();
    await keys.press("ArrowRight", "Escape");
    await standing.desk.page
      .getByRole("status")
      .getByText(/arrow keys move it/)
      .waitFor({ state: "detached" });
    expect(await standing.desk.page.getByRole("button", { name: /^Undo/ }).getAttribute("aria-label")).toBe(last);
  });

  it("reads the profile along the run", async () => {
    await stage(3);
    await keys.open(/^Wiring$/, "R-2");
    await keys.press("Alt+p");
    expect(await keys.focused()).toMatch(/Place along R-2/);
    await keys.press("End");
    const slider = standing.opened.page.getByRole("slider");
    expect(await slider.getAttribute("aria-valuetext")).toMatch(/Station 30'-0".*too high/);
    await keys.press("Home");
    expect(await slider.getAttribute("aria-valuetext")).toMatch(/Station 0".*under the limit/);
  });

  it("arrives at the findings expected, announced as they come", async () => {
    await expect
      .poll(() => standing.opened.page.locator("[data-live=check]").textContent())
      .toMatch(/^Checked: .*too close.*clear/);
    await stage(5);
    await keys.tabTo(/^Save the job file/);
    const saved = await standing.desk.download(() => keys.press("Enter"));
    expectSampleJob({ ...(await jobInFile(saved.bytes)), settings: { job: SETTINGS } }, 1e-6);
    await keys.tabTo(/^JSON$/);
    const { bytes } = await standing.desk.download(() => keys.press("Enter"));
    const findings = new TextDecoder().decode(bytes);
    expectWholeSample(findings, { distanceIn: EXACT_IN, stationIn: EXACT_IN });
    expect(findings).toBe(await checkedByCommand(saved.bytes));
  });

  it("issues the sheets", async () => {
    await stage(5);
    await keys.fill(/^Author of the marks/, "A. Reviewer");
    await keys.tabTo(/^Issue$/);
    const { bytes } = await standing.desk.download(() => keys.press("Enter"));
    expectIssuedFrom(SAMPLE_PDF, bytes);
    expectMarks(bytes);
  });

  it("finds any act by typing", async () => {
    await keys.press("F1");
    await standing.opened.page.getByRole("dialog").waitFor();
    await standing.opened.page.keyboard.type("stage roof");
    await keys.press("Enter");
    await standing.opened.page.locator("#drawer-roof").waitFor();
  });

  it("went wrong nowhere", () => {
    expect(standing.opened.problems).toEqual([]);
  });
});
