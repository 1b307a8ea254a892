import { beforeAll, describe, expect, it } from "vitest";
import { DeskHands } from "./desk.ts";
import { type OpenedPage, openPage } from "./open-page.ts";
import { seriousFaults as serious } from "./serious-faults.ts";
import { standingDesk } from "./standing-desk.ts";

let opened: OpenedPage;
let desk: DeskHands;
standingDesk(
  (...given) => {
    [opened, desk] = given;
  },
  { query: "?sample=riverside-workshop", test: 180_000 },
);

for (const colorScheme of ["light", "dark"] as const) {
  describe(`nothing serious for assistive technology, ${colorScheme}`, () => {
    // Without motion, or colours would be read while they are still changing.
    beforeAll(() => opened.page.emulateMedia({ colorScheme, reducedMotion: "reduce" }));

    for (const stage of ["Sheet", "Roof", "Wiring", "Check", "Issue"]) {
      it(`stage ${stage}`, async () => {
        await desk.stage(stage);
        expect(await serious(opened.page)).toEqual([]);
      });
    }

    it("with a run's card and its profile", async () => {
      await desk.stage("Wiring");
      await opened.page.getByRole("listbox", { name: "Wiring" }).getByText("R-2", { exact: true }).click();
      await opened.page.getByRole("slider", { name: /Place along R-2/ }).waitFor();
      expect(await serious(opened.page)).toEqual([]);
    });

    it("with a rack's card and what is recorded of a raceway on it", async () => {
      await desk.stage("Wiring");
      await desk.sheet.focus();
      await opened.page.keyboard.press("Shift+T");
      for (const at of ["@600, 900", "@900, 900"]) await desk.type(at);
      await desk.sheet.focus();
      await opened.page.keyboard.press("Enter");
      await opened.page.keyboard.press("Escape");
      await desk.card.getByText(/^K-\d\/1 · /).click();
      await desk.card.getByText("Couplings and connectors").waitFor();
      expect(await serious(opened.page)).toEqual([]);
    });

    it("with what tells the scale of a sheet", async () => {
      await desk.stage("Sheet");
      await opened.page.getByRole("listbox", { name: "Sheets" }).getByRole("option").first().click();
      await desk.card.getByRole("list", { name: "What tells the scale" }).getByText("Scale bar").waitFor();
      expect(await serious(opened.page)).toEqual([]);
    });

    it("with what the drawing says, and one thing of it in hand", async () => {
      await desk.stage("Roof");
      await desk.press("List them too", desk.drawer);
      const list = opened.page.getByRole("listbox", { name: "What the drawing says" });
      await list.getByRole("option").first().click();
      await desk.drawer.getByRole("button", { name: "Not this" }).waitFor();
      expect(await serious(opened.page)).toEqual([]);
      await desk.press("Leave them out", desk.drawer);
    });

    it("with an area's card", async () => {
      await desk.stage("Roof");
      await opened.page.getByRole("listbox", { name: "Deck areas" }).getByText("Store roof").click();
      await desk.card.getByRole("heading", { name: "Store roof" }).waitFor();
      expect(await serious(opened.page)).toEqual([]);
    });

    it("with the card of a storey above", async () => {
      await desk.stage("Roof");
      await desk.sheet.focus();
      await opened.page.keyboard.press("u");
      for (const at of ["@600, 300", "@700, 300", "@700, 400"]) await desk.type(at);
      await desk.sheet.focus();
      await opened.page.keyboard.press("Enter");
      await desk.choose(desk.card, "Within the outline, on the deck", /Canopy/);
      await desk.take(desk.card, "It makes the deck below it", "A floor");
      await desk.card.getByText(/counts as not settled until it is recorded why/).waitFor();
      expect(await serious(opened.page)).toEqual([]);
    });

    it("with a finding's card", async () => {
      await desk.stage("Check");
      await opened.page.getByRole("listbox", { name: "Findings" }).getByRole("option", { name: /R-4/ }).click();
      await desk.card.getByRole("heading", { name: "Reasons" }).waitFor();
      expect(await serious(opened.page)).toEqual([]);
    });

    it("with a tool in hand, and in the list of acts", async () => {
      await desk.stage("Wiring");
      await desk.press(/^Trace a run/, desk.drawer);
      const inHand = await serious(opened.page);
      await opened.page.keyboard.press("F1");
      await opened.page.getByRole("dialog").waitFor();
      const listed = await serious(opened.page);
      await opened.page.keyboard.press("Escape");
      await opened.page.getByRole("dialog").waitFor({ state: "detached" });
      await desk.press("Leave");
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
