import { beforeAll, describe, expect, it } from "vitest";
import { DeskHands } from "./desk.ts";
import { openPage } from "./open-page.ts";
import { seriousFaults as serious } from "./serious-faults.ts";
import { standingDesk } from "./standing-desk.ts";

const standing = standingDesk({ query: "?sample=riverside-workshop", test: 180_000 });

for (const colorScheme of ["light", "dark"] as const) {
  describe(`nothing serious for assistive technology, ${colorScheme}`, () => {
    // Without motion, or colours would be read while they are still changing.
    beforeAll(() => standing.opened.page.emulateMedia({ colorScheme, reducedMotion: "reduce" }));

    for (const stage of ["Sheet", "Roof", "Wiring", "Check", "Issue"]) {
      it(`stage ${stage}`, async () => {
        await standing.desk.stage(stage);
        expect(await serious(standing.opened.page)).toEqual([]);
      });
    }

    it("with a run's card and its profile", async () => {
      await standing.desk.stage("Wiring");
      await standing.opened.page.getByRole("listbox", { name: "Wiring" }).getByText("R-2", { exact: true }).click();
      await standing.opened.page.getByRole("slider", { name: /Place along R-2/ }).waitFor();
      expect(await serious(standing.opened.page)).toEqual([]);
    });

    it("with a rack's card and what is recorded of a raceway on it", async () => {
      await standing.desk.stage("Wiring");
      await standing.desk.sheet.focus();
      await standing.opened.page.keyboard.press("Shift+T");
      for (const at of ["@600, 900", "@900, 900"]) await standing.desk.type(at);
      await standing.desk.sheet.focus();
      await standing.opened.page.keyboard.press("Enter");
      await standing.opened.page.keyboard.press("Escape");
      await standing.desk.card.getByText(/^K-\d\/1 · /).click();
      await standing.desk.card.getByText("Couplings and connectors").waitFor();
      expect(await serious(standing.opened.page)).toEqual([]);
    });

    it("with what tells the scale of a sheet", async () => {
      await standing.desk.stage("Sheet");
      await standing.opened.page.getByRole("listbox", { name: "Sheets" }).getByRole("option").first().click();
      await standing.desk.card.getByRole("list", { name: "What tells the scale" }).getByText("Scale bar").waitFor();
      expect(await serious(standing.opened.page)).toEqual([]);
    });

    it("with what the drawing says, and one thing of it in hand", async () => {
      await standing.desk.stage("Roof");
      await standing.desk.press("List them too", standing.desk.drawer);
      const list = standing.opened.page.getByRole("listbox", { name: "What the drawing says" });
      await list.getByRole("option").first().click();
      await standing.desk.drawer.getByRole("button", { name: "Not this" }).waitFor();
      expect(await serious(standing.opened.page)).toEqual([]);
      await standing.desk.press("Leave them out", standing.desk.drawer);
    });

    it("with an area's card", async () => {
      await standing.desk.stage("Roof");
      await standing.opened.page.getByRole("listbox", { name: "Deck areas" }).getByText("Store roof").click();
      await standing.desk.card.getByRole("heading", { name: "Store roof" }).waitFor();
      expect(await serious(standing.opened.page)).toEqual([]);
    });

    it("with the card of a storey above", async () => {
      await standing.desk.stage("Roof");
      await standing.desk.sheet.focus();
      await standing.opened.page.keyboard.press("u");
      for (const at of ["@600, 300", "@700, 300", "@700, 400"]) await standing.desk.type(at);
      await standing.desk.sheet.focus();
      await standing.opened.page.keyboard.press("Enter");
      await standing.desk.choose(standing.desk.card, "Within the outline, on the deck", /Canopy/);
      await standing.desk.take(standing.desk.card, "It makes the deck below it", "A floor");
      await standing.desk.card.getByText(/counts as not settled until it is recorded why/).waitFor();
      expect(await serious(standing.opened.page)).toEqual([]);
    });

    it("with a finding's card", async () => {
      await standing.desk.stage("Check");
      await standing.opened.page
        .getByRole("listbox", { name: "Findings" })
        .getByRole("option", { name: /R-4/ })
        .click();
      await standing.desk.card.getByRole("heading", { name: "Reasons" }).waitFor();
      expect(await serious(standing.opened.page)).toEqual([]);
    });

    it("with a tool in hand, and in the list of acts", async () => {
      await standing.desk.stage("Wiring");
      await standing.desk.press(/^Trace a run/, standing.desk.drawer);
      const inHand = await serious(standing.opened.page);
      await standing.opened.page.keyboard.press("F1");
      await standing.opened.page.getByRole("dialog").waitFor();
      const listed = await serious(standing.opened.page);
      await standing.opened.page.keyboard.press("Escape");
      await standing.opened.page.getByRole("dialog").waitFor({ state: "detached" });
      await standing.desk.press("Leave");
      expect([...inHand, ...listed]).toEqual([]);
    });
  });
}

describe("touch", () => {
  it("gives every control at least 44 px where the pointer is coarse", async () => {
    const touch = await openPage(
      "?sample=riverside-workshop",
      { width: 390, height: 844 },
      { hasTouch: true, isMobile: true },
    );
    try {
      await touch.page.locator(".stage-button").first().waitFor();
      const hands = new DeskHands(touch.page);
      for (const stage of ["Roof", "Wiring", "Check", "Issue", "Sheet"]) {
        await hands.stage(stage);
        const small = await touch.page.evaluate(() => {
          const coarse = matchMedia("(pointer: coarse)").matches;
          const controls = [
            ...document.querySelectorAll<HTMLElement>(
              "button, input:not([type=checkbox]):not([type=radio]), [role=option], .pick, .tick",
            ),
          ];
          const found = controls
            .filter((one) => one.getClientRects().length > 0 && !one.closest("[hidden], .unseen"))
            .map((one) => ({ one, box: one.getBoundingClientRect() }))
            .filter(({ box }) => box.height < 43.5)
            .map(({ one, box }) => `${one.className} ${one.textContent?.slice(0, 30)} ${box.width}x${box.height}`);
          return coarse ? found : ["the pointer is not coarse here"];
        });
        expect(small, stage).toEqual([]);
      }
    } finally {
      await touch.close();
    }
  });
});
