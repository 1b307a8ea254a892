import { mkdirSync } from "node:fs";
import { DeskHands } from "./desk.ts";
import { openPage } from "./open-page.ts";

/** Takes the pictures of the documents anew, from the sample. Run by `npm run pictures` from the root. */
const opened = await openPage("?sample=riverside-workshop", { width: 1440, height: 900 });
try {
  const { page } = opened;
  page.setDefaultTimeout(20_000);
  const desk = new DeskHands(page);
  await desk.shown();
  await desk.stage("Check");
  await page.getByRole("listbox", { name: "Findings" }).getByRole("option", { name: /R-2/ }).click();
  // The sheet comes into reading distance, then its sharp picture.
  await page.waitForTimeout(3_000);
  mkdirSync("docs/pictures", { recursive: true });
  await page.screenshot({ path: "docs/pictures/sample.png" });

  await page.keyboard.press("Alt+r");
  const dialog = page.getByRole("dialog");
  const second = "samples/riverside-workshop/a-131-second-issue.pdf";
  await desk.pick(dialog.getByRole("button", { name: "Choose the PDF" }), second);
  await dialog.getByRole("option", { name: /^R-7/ }).click();
  await page.waitForTimeout(1_000);
  await page.screenshot({ path: "docs/pictures/new-issue.png" });
} finally {
  await opened.close();
}
