import type { DeskHands } from "./desk.ts";

/** A set of which the sample has no sheet yet. */
const OTHER_SET = "samples/fennick-lane-store/fennick-lane-store.pdf";

/** A state of the desk that a person may stand before, and the way to it from a desk with nothing selected. */
export interface Screen {
  readonly name: string;
  open(desk: DeskHands): Promise<void>;
}

const stage = (name: string): Screen => ({ name: `stage ${name}`, open: (desk) => desk.stage(name) });

/** The card of what a line of a list stands for. */
const card = (list: string, stageName: string, line: RegExp, heading: RegExp): Screen => ({
  name: `card of ${heading.source}`,
  async open(desk) {
    await desk.stage(stageName);
    await desk.page
      .getByRole("listbox", { name: list, exact: true })
      .getByRole("option", { name: line })
      .first()
      .click();
    await desk.card.getByRole("heading", { name: heading }).first().waitFor();
  },
});
const RUN = card("Wiring", "Wiring", /\bR-2\b/, /^R-2$/);

/** The stages, cards, dialogs and messages of the desk, on the sample of the workshop. None of them changes the job. */
export const SCREENS: readonly Screen[] = [
  ...["Sheet", "Roof", "Wiring", "Check", "Issue"].map(stage),
  {
    name: "a run with a vertex open, and its profile",
    async open(desk) {
      await RUN.open(desk);
      await desk.card.locator(".vertex-button").first().click();
      await desk.card.getByText("Position, right").waitFor();
      await desk.page.getByRole("slider", { name: /Place along R-2/ }).waitFor();
    },
  },
  card("Wiring", "Wiring", /\bB-1\b/, /^B-1$/),
  card("Wiring", "Wiring", /\bF-1\b/, /^F-1$/),
  card("Wiring", "Wiring", /\bE-1\b/, /^E-1$/),
  card("Sheets", "Sheet", /Reflected/, /Reflected|A-131/),
  card("Findings", "Check", /R-4/, /^Reasons$/),
  {
    name: "an area with its corners",
    async open(desk) {
      await card("Deck areas", "Roof", /Store roof/, /^Store roof$/).open(desk);
      await desk.card.getByText("Corners, one by one").click();
      await desk.card.getByRole("button", { name: "Corner 1", exact: true }).click();
    },
  },
  {
    name: "the room map",
    async open(desk) {
      await desk.stage("Roof");
      await desk.drawer.getByText("Show how high wiring may hang").click();
      await desk.drawer.getByText("Ceiling", { exact: true }).waitFor();
    },
  },
  {
    name: "several at once",
    async open(desk) {
      await desk.stage("Wiring");
      await desk.drawer.locator(".several > summary").click();
      await desk.drawer.getByText("Tagged above").waitFor();
    },
  },
  {
    name: "what the drawing says",
    async open(desk) {
      await desk.stage("Wiring");
      await desk.press("List them too", desk.drawer);
      await desk.page.getByRole("listbox", { name: "What the drawing says" }).getByRole("option").first().click();
      await desk.drawer.getByRole("button", { name: "Not this" }).waitFor();
    },
  },
  {
    name: "a tool in hand, and what it refused",
    async open(desk) {
      await desk.stage("Wiring");
      await desk.press(/^Trace a run/, desk.drawer);
      await desk.type("nothing like it");
      await desk.page.locator(".prompt [role=alert]").waitFor();
    },
  },
  {
    name: "a field that refused what was typed",
    async open(desk) {
      await card("Wiring", "Wiring", /\bB-1\b/, /^B-1$/).open(desk);
      await desk.fill(desk.card, "Turned by", "askew");
      await desk.card.getByText(/is not an angle/).waitFor();
    },
  },
  {
    name: "a list of choices",
    async open(desk) {
      await RUN.open(desk);
      await desk.card.locator("button.choice").first().click();
      await desk.page.locator(".popover").waitFor();
    },
  },
  {
    name: "the list of acts",
    async open(desk) {
      await desk.page.keyboard.press("F1");
      await desk.page.getByRole("dialog").getByRole("option").first().waitFor();
    },
  },
  {
    name: "the menu of the job",
    async open(desk) {
      await desk.page.getByRole("button", { name: "Job menu" }).click();
      await desk.page.getByRole("menu").waitFor();
    },
  },
  {
    name: "a new issue of a sheet",
    async open(desk) {
      await desk.page.keyboard.press("Alt+r");
      await desk.page.getByRole("dialog").waitFor();
    },
  },
  {
    name: "the index of a set's sheets",
    async open(desk) {
      await desk.stage("Sheet");
      await desk.pick(desk.drawer.getByRole("button", { name: "Open drawings" }), OTHER_SET);
      await desk.page.getByRole("dialog").waitFor();
    },
  },
];

/** Back to a desk with nothing open, selected or in hand, and what a screen has shown on the sheet put away. */
export async function cleared(desk: DeskHands): Promise<void> {
  const { page } = desk;
  for (let i = 0; i < 3 && (await page.locator("[role=dialog], .popover, [role=menu]").count()) > 0; i++)
    await page.keyboard.press("Escape");
  await page.locator(".veil").waitFor({ state: "detached" });
  await desk.sheet.focus();
  for (let i = 0; i < 5; i++) await page.keyboard.press("Escape");
  await page.locator(".card").waitFor({ state: "detached" });
  const map = page.getByRole("checkbox", { name: "Show how high wiring may hang" });
  if ((await map.count()) > 0 && (await map.isChecked())) await page.keyboard.press("Alt+m");
}
