import { readFileSync } from "node:fs";
import type { Download, Locator, Page } from "playwright-core";
import { applyMatrix } from "../../src/pdf/read/matrix.ts";
import { displayTransform } from "../../src/pdf/read/page-geometry.ts";

/** A place on a sheet, sheet space. */
export type Place = readonly [x: number, y: number];
/** What a test has to know of a sheet to point at it. */
export interface TestSheet {
  readonly title: RegExp;
  readonly view: readonly [number, number, number, number];
  readonly rotate: 0 | 90 | 180 | 270;
}

/** The two sheets of the sample, by what their own drawing script says of them. */
export const FRAMING: TestSheet = { title: /S-201/, view: [0, 0, 1296, 1728], rotate: 90 };
export const CEILING: TestSheet = { title: /A-131/, view: [0, 0, 2592, 1728], rotate: 0 };
export const SAMPLE_PDF = "samples/riverside-workshop/riverside-workshop.pdf";

/** Turns of the wheel that bring a sheet near enough to point at it to a few hundredths of an inch: each enlarges it 1.8 times. */
const CLOSE_TURNS = 6;

/** Drives the desk as a person does: by what is written on it. */
export class DeskHands {
  readonly page: Page;
  constructor(page: Page) {
    this.page = page;
    // Takes over the system's picker from the start: asked for later, a quick key is there first.
    page.on("filechooser", () => undefined);
  }

  get sheet(): Locator {
    return this.page.locator(".sheet-host");
  }
  get card(): Locator {
    return this.page.locator(".card");
  }
  get drawer(): Locator {
    return this.page.locator(".drawer");
  }

  /** Where a place of the shown sheet is on the screen. */
  async pixel(sheet: TestSheet, at: Place): Promise<Place> {
    const box = (await this.sheet.boundingBox())!;
    const [scale, ox, oy] = (await this.sheet.getAttribute("data-view"))!.split(" ").map(Number) as [
      number,
      number,
      number,
    ];
    const [x, y] = applyMatrix(
      displayTransform({ page: 1, view: sheet.view, rotate: sheet.rotate, userUnit: 1 }, scale),
      at,
    );
    return [box.x + ox + x, box.y + oy + y];
  }

  /** A click on a place of the shown sheet. */
  async click(sheet: TestSheet, at: Place): Promise<void> {
    await this.settled();
    const [x, y] = await this.pixel(sheet, at);
    await this.page.mouse.move(x, y);
    await this.page.mouse.down();
    await this.page.mouse.up();
  }

  /** A click as near to a place as the screen allows: zooms in about it with the wheel, clicks, and zooms out again. */
  async clickClosely(sheet: TestSheet, at: Place): Promise<void> {
    // From the fitted view, where every place is in sight beside card and profile.
    await this.page.getByRole("button", { name: "Fit", exact: true }).click();
    await this.settled();
    await this.page.mouse.move(...(await this.pixel(sheet, at)));
    for (let turn = 0; turn < CLOSE_TURNS; turn++) await this.page.mouse.wheel(0, -300);
    await this.click(sheet, at);
  }

  /** Opens files through the system's picker, by the button of that name. */
  async pick(button: Locator, file: string | { name: string; mimeType: string; buffer: Buffer }): Promise<void> {
    const [chooser] = await Promise.all([this.page.waitForEvent("filechooser"), button.click()]);
    await chooser.setFiles(file);
  }

  /** Waits until a sheet is shown. */
  async shown(): Promise<void> {
    await this.page.locator(".sheet-host[data-view]").waitFor({ timeout: 60_000 });
  }

  async stage(name: string): Promise<void> {
    const button = this.page.locator(".stage-button", { hasText: name });
    if ((await button.getAttribute("aria-expanded")) !== "true") await button.click();
    await this.page.locator(`#drawer-${name.toLowerCase()}`).waitFor();
  }

  /** Fills a field of a part of the desk and leaves it. */
  async fill(part: Locator, label: string | RegExp, text: string): Promise<void> {
    const field = part.getByRole("textbox", { name: label, exact: typeof label === "string" }).first();
    await field.fill(text);
    await field.press("Enter");
  }

  /** Chooses from a list that opens. */
  async choose(part: Locator, label: string, option: string | RegExp): Promise<void> {
    await part
      .locator(".row", { has: this.page.getByText(label, { exact: true }) })
      .locator("button.choice")
      .click();
    const list = this.page.locator(".popover");
    await list.getByRole("option", { name: option }).first().click();
    await list.waitFor({ state: "detached" });
  }

  /** Picks one of a few that are all in sight. */
  async take(part: Locator, group: string | RegExp, option: string): Promise<void> {
    await part
      .getByRole("radiogroup", { name: group })
      .locator(".pick", { hasText: new RegExp(`^${option}$`) })
      .click();
  }

  /** Types into the field of the tool in hand. */
  async type(text: string): Promise<void> {
    const field = this.page.locator(".typed input");
    await field.fill(text);
    await field.press("Enter");
  }

  async press(name: string | RegExp, part: Locator = this.page.locator("body")): Promise<void> {
    await part.getByRole("button", { name }).first().click();
  }

  /** Selects the sheet of that name in the drawer of the Sheet stage. */
  async openSheet(sheet: TestSheet): Promise<void> {
    await this.stage("Sheet");
    const name = this.page.locator(".item-name", { hasText: sheet.title });
    await this.page.getByRole("listbox", { name: "Sheets" }).getByRole("option").filter({ has: name }).click();
    await this.card.getByRole("heading", { name: sheet.title }).first().waitFor();
    await this.settled();
  }

  /** Waits until the view stands still. */
  async settled(): Promise<void> {
    let before = "";
    for (let quiet = 0; quiet < 2; ) {
      await this.page.waitForTimeout(50);
      const now = (await this.sheet.getAttribute("data-view")) ?? "";
      quiet = now === before ? quiet + 1 : 0;
      before = now;
    }
  }

  /** Moves the pointer to a place of the shown sheet, and waits until the page has drawn it there: a key that follows means that place. */
  async pointAt(sheet: TestSheet, at: Place): Promise<void> {
    await this.settled();
    await this.page.mouse.move(...(await this.pixel(sheet, at)));
    await this.page.evaluate(() => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))));
  }

  /** The bytes of what the act gives to download. */
  async download(act: () => Promise<unknown>): Promise<{ name: string; bytes: Uint8Array }> {
    const [download] = await Promise.all([this.page.waitForEvent("download"), act()]);
    return {
      name: (download as Download).suggestedFilename(),
      bytes: new Uint8Array(readFileSync(await download.path())),
    };
  }
}
