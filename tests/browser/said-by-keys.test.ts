import { beforeAll, describe, expect, it } from "vitest";
import { KeyHands } from "./key-hands.ts";
import { standingDesk } from "./standing-desk.ts";

const standing = standingDesk({ query: "?sample=riverside-workshop", test: 180_000 });
let keys: KeyHands;
beforeAll(() => {
  keys = new KeyHands(standing.opened.page);
});

/** A busy machine takes its time over a frame, milliseconds. */
const WAITING = { timeout: 20_000 };
const LIST = "What the drawing says";
const lines = () => standing.opened.page.getByRole("listbox", { name: LIST }).getByRole("option");
const told = (words: RegExp) => standing.desk.drawer.getByText(words).waitFor();
/** What the suggestion in hand is told to be. */
const inHand = () => standing.desk.drawer.getByRole("group", { name: /C\.L\. 14'-8" AFF/ });

describe("what the drawing says, by the keyboard alone", () => {
  it("agrees with all that the sample records, and says so", async () => {
    await toStage();
    await keys.press("Alt+s");
    while (!/A-131/.test((await standing.desk.sheet.getAttribute("aria-label")) ?? "")) await keys.press("PageDown");
    await standing.opened.page.locator('.sheet-host[data-lines="there"]').waitFor();
    await told(/^27 agree with what is recorded, \d+ near nothing traced/);
    expect(await lines().count()).toBe(0);
  });

  it("contradicts a tag that was recorded otherwise; D goes there, Y takes what the drawing says", async () => {
    await recordInstead(`14'-0"`);
    await expect.poll(() => lines().count(), WAITING).toBe(1);
    expect(await lines().first().textContent()).toMatch(/Disagrees.*R-2 has 14'-0" centre, AFF Level 1/);
    await keys.press("Alt+s", "d");
    await inHand().getByText(`14'-8" centre, AFF Level 1`).waitFor();
    await inHand().getByText(`14'-0" centre, AFF Level 1`).waitFor();
    await keys.press("y");
    await expect.poll(() => lines().count(), WAITING).toBe(0);
    await told(/^27 agree/);
    await keys.press("Control+z");
    await expect.poll(() => lines().count(), WAITING).toBe(1);
  });

  it("is gone through in its list, and is set aside for this job until somebody wants it again", async () => {
    await toStage();
    await keys.open(/What the drawing says/, `C.L. 14'-8" AFF`);
    await inHand().waitFor();
    await keys.tabTo(/^Not this/);
    await keys.press("Enter");
    await told(/^1 text of this sheet set aside/);
    expect(await lines().count()).toBe(0);
    await toStage();
    await keys.tabTo(/^Offer it again/);
    await keys.press("Enter");
    await expect.poll(() => lines().count(), WAITING).toBe(1);
  });

  it("is an act of the list of acts too", async () => {
    await toStage();
    await keys.press("F1");
    await standing.opened.page.getByRole("dialog").waitFor();
    await standing.opened.page.keyboard.type("next thing the drawing");
    await keys.press("Enter");
    await standing.opened.page.getByRole("dialog").waitFor({ state: "detached" });
    await inHand().waitFor();
    expect(standing.opened.problems).toEqual([]);
  });

  /** Opens the stage, and waits until the focus has come to it. */
  async function toStage(): Promise<void> {
    await keys.press("Alt+3");
    await expect.poll(() => keys.focused(), WAITING).toMatch(/^Trace a run/);
  }

  /** Gives R-2 another elevation in its card. */
  async function recordInstead(elevation: string): Promise<void> {
    await toStage();
    await keys.open(/^Wiring$/, "R-2");
    await standing.desk.card.getByRole("heading", { name: "R-2", exact: true }).waitFor();
    await keys.press("Alt+c");
    await keys.tabTo(/^1\s?14'-8" centre/);
    await keys.press("Enter");
    await keys.fill(/^Elevation/, elevation);
  }
});
