import { beforeAll, describe, expect, it } from "vitest";
import { seriousFaults as serious } from "./serious-faults.ts";
import { standingDesk } from "./standing-desk.ts";

const standing = standingDesk({ query: "?sample=riverside-workshop", test: 180_000 });

/** What changes the job before it can be looked at; everything else is visited by `every-screen.test.ts`. */
for (const colorScheme of ["light", "dark"] as const) {
  describe(`nothing serious for assistive technology, ${colorScheme}`, () => {
    // Without motion, or colours would be read while they are still changing.
    beforeAll(() => standing.opened.page.emulateMedia({ colorScheme, reducedMotion: "reduce" }));

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
  });
}
