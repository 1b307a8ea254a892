import { readFileSync } from "node:fs";
import { beforeAll, beforeEach, describe, expect, it } from "vitest";
import { SAMPLE_PDF } from "./desk.ts";
import { standingDesk } from "./standing-desk.ts";

const standing = standingDesk();

const sampleText = () => readFileSync("samples/riverside-workshop/job.json", "utf8");
const file = (name: string, content: string | Uint8Array) => ({
  name,
  mimeType: "application/octet-stream",
  buffer: Buffer.from(content as string),
});

describe("files that cannot be used say what happened and what to do, and cost nothing", () => {
  beforeEach(async () => {
    await standing.opened.page.goto(standing.opened.address);
    await standing.opened.page.getByRole("button", { name: "Open a job file" }).waitFor();
  });

  const told = async (what: RegExp) => {
    const dialog = standing.opened.page.getByRole("alertdialog");
    await dialog.waitFor();
    expect(await dialog.textContent()).toMatch(what);
    await dialog.getByRole("button", { name: "Close" }).click();
    await dialog.waitFor({ state: "detached" });
  };
  const open = (name: string, content: string | Uint8Array) =>
    standing.desk.pick(standing.opened.page.getByRole("button", { name: "Open a job file" }), file(name, content));

  it("a job of a newer version", async () => {
    await open("new.json", sampleText().replace(/"version": ?1/, '"version": 99'));
    await told(/newer version.*99.*left as it (is|was)/s);
  });

  it("a job with a key nobody knows", async () => {
    const job = JSON.parse(sampleText());
    job.areas["hall-roof"].colour = "red";
    await open("odd.json", JSON.stringify(job));
    await told(/not known.*"colour".*hall-roof/s);
  });

  it("a job file cut short", async () => {
    await open("cut.underside", Uint8Array.from([0x50, 0x4b, 0x03, 0x04, 1, 2, 3]));
    await told(/not a job file, or it is damaged/);
  });

  it("a file of another kind", async () => {
    await open("notes.txt", "Lower R-2 by an inch.");
    await told(/neither a PDF drawing nor a job file/);
  });

  it("a PDF that breaks off, and one that is none", async () => {
    const drawings = standing.opened.page.getByRole("button", { name: "Open drawings" });
    await standing.desk.pick(drawings, { ...file("broken.pdf", "%PDF-1.7\n1 0 obj\n<<"), mimeType: "application/pdf" });
    await told(/broken\.pdf could not be opened.*(damaged|breaks off)/s);
    await standing.desk.pick(standing.opened.page.getByRole("button", { name: "Open drawings" }).first(), {
      ...file("empty.pdf", ""),
      mimeType: "application/pdf",
    });
    await told(/empty\.pdf could not be opened/);
  });

  it("and the job on the desk stays what it was", async () => {
    await standing.desk.pick(standing.opened.page.getByRole("button", { name: "Open drawings" }), SAMPLE_PDF);
    await standing.desk.press(/^Add 2 pages/);
    await standing.desk.fill(standing.desk.drawer, "Name", "Stays");
    await standing.opened.page.keyboard.press("Alt+1");
    await standing.desk.press("Job menu");
    const [chooser] = await Promise.all([
      standing.opened.page.waitForEvent("filechooser"),
      standing.opened.page.getByRole("menuitem", { name: "Open a job file" }).click(),
    ]);
    await chooser.setFiles(file("odd.json", '{"format":"underside-job","version":1}'));
    await told(/could not be opened/);
    await standing.opened.page.getByRole("heading", { name: "Stays" }).waitFor();
    expect(await standing.opened.page.getByRole("listbox", { name: "Sheets" }).getByRole("option").count()).toBe(2);
  });
});

describe("text that cannot be read is refused beside its field, with an example", () => {
  beforeAll(async () => {
    await standing.opened.page.goto(`${standing.opened.address}?sample=riverside-workshop`);
    await standing.desk.shown();
  });

  it("a length that is none, and one with too many inches", async () => {
    await standing.desk.stage("Roof");
    await standing.opened.page.getByRole("listbox", { name: "Deck areas" }).getByText("Store roof").click();
    await standing.desk.fill(standing.desk.card, "Elevation", "twelve");
    await standing.desk.card.getByText(/"twelve" is not a length\. Write one such as/).waitFor();
    await standing.desk.fill(standing.desk.card, "Elevation", `12'-14"`);
    await standing.desk.card.getByText(/14 inches after the feet/).waitFor();
    await standing.desk.card.getByRole("textbox", { name: "Elevation", exact: true }).press("Escape");
    expect(await standing.desk.card.getByRole("textbox", { name: "Elevation", exact: true }).inputValue()).toBe(
      `12'-1 1/2"`,
    );
  });

  it("a slope without a run, a label that is taken, a scale that is none", async () => {
    await standing.opened.page.getByRole("listbox", { name: "Deck areas" }).getByText("Hall roof").click();
    await standing.desk.fill(standing.desk.card, "Slope", `1/4"`);
    await standing.desk.card.getByText(/is not a slope/).waitFor();
    await standing.desk.fill(standing.desk.card, "Label on the sheet", "Store roof");
    await standing.desk.card.getByText(/The label Store roof is taken/).waitFor();
    await standing.desk.stage("Sheet");
    await standing.opened.page.getByRole("listbox", { name: "Sheets" }).getByRole("option").first().click();
    await standing.desk.fill(standing.desk.card, "As the sheet states it", "AS NOTED");
    await standing.desk.card.getByText(/more than one scale/).waitFor();
  });

  it("went wrong nowhere", () => {
    expect(standing.opened.problems).toEqual([]);
  });
});
