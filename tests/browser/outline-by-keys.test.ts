import { beforeAll, describe, expect, it } from "vitest";
import type { Run } from "../../src/job/elements/run.ts";
import { KeyHands } from "./key-hands.ts";
import { jobInFile } from "./sample-job.ts";
import { standingDesk } from "./standing-desk.ts";

/** The sheet changed from its lists and cards alone, by keys: no canvas, no pointer. */
const standing = standingDesk({ query: "?sample=riverside-workshop", test: 90_000 });
let keys: KeyHands;
beforeAll(() => {
  keys = new KeyHands(standing.opened.page);
  const none = () => Promise.reject(new Error("this test has no pointer"));
  Object.assign(standing.opened.page.mouse, { move: none, down: none, up: none, click: none, wheel: none });
});

const within = (part: string) =>
  expect
    .poll(() => standing.opened.page.evaluate((where) => document.activeElement?.closest(where) != null, part), {
      timeout: 5_000,
    })
    .toBe(true);
/** Opens a stage from wherever the focus is. */
const stage = async (n: number) => {
  await keys.press("Alt+s");
  await within(".sheet-host");
  await keys.press(`Alt+${n}`);
  await within(".drawer");
};
const toCard = async () => {
  await keys.press("Alt+c");
  await within(".card");
};
const job = async () => {
  await stage(5);
  await keys.tabTo(/^Save the job file/);
  return jobInFile((await standing.desk.download(() => keys.press("Enter"))).bytes);
};
const undone = () => standing.opened.page.getByRole("button", { name: /^Undo/ }).getAttribute("aria-label");

describe("a run, from the list of wiring and its card", () => {
  it("is chosen, and read: its vertices, tags, size and findings", async () => {
    await stage(3);
    await keys.open(/^Wiring$/, "R-2");
    await standing.desk.card.getByRole("heading", { name: "R-2", exact: true }).waitFor();
    await toCard();
    await keys.tabTo(/^1 ?14'-8" centre/);
    await keys.press("Enter");
    const tree = await standing.desk.card.ariaSnapshot();
    expect(tree).toContain('- complementary "Run R-2"');
    expect(tree).toMatch(/- button "1 ?14'-8\\" centre, AFF Level 1" \[expanded\]/);
    // A field, what it says while it is empty, what it holds.
    const holding = (field: string, text: string) =>
      new RegExp(`- textbox "${field}":\\s+- /placeholder: .*\\s+- text: ${text}`);
    expect(tree).toMatch(holding("Position, right", `61'-9 5/16`));
    expect(tree).toMatch(holding("Position, up", `92'-0`));
    expect(tree).toMatch(holding("Elevation", `14'-8`));
    expect(tree).toMatch(/- button "3 · Too close Reasons"/);
  });

  it("has a vertex moved, tagged, another put in and taken out, and its size changed", async () => {
    await toCard();
    await keys.fill(/^Position, up$/, `90'-6"`);
    await expect.poll(undone).toBe("Undo: Move a vertex of R-2");
    await keys.fill(/^Elevation$/, `13'-0"`);
    await expect.poll(undone).toMatch(/tag at vertex 1 of R-2/);
    await keys.tabTo(/^Add a vertex after it/);
    await keys.press("Enter");
    await expect.poll(undone).toBe("Undo: Add a vertex to R-2");
    await keys.tabTo(/^2Between/);
    await keys.press("Enter");
    await keys.tabTo(/^Position, right$/);
    await keys.fill(/^Position, right$/, `55'-0"`);
    await expect.poll(undone).toBe("Undo: Move a vertex of R-2");
    await toCard();
    await keys.choose(/(Trade s|S)ize/, "3/4");
    await expect.poll(undone).toBe("Undo: Change the size of R-2");
    const { elements } = await job();
    const run = Object.values(elements).find(({ label }) => label === "R-2") as Run;
    expect(run.wiring.tradeSize).toBe("3/4");
    expect(run.vertices.length).toBe(3);
    expect(run.vertices[0]!.tag?.length).toEqual({ value: 156, unit: "in" });
  });

  it("is deleted and brought back, and the focus is never lost", async () => {
    await stage(3);
    await keys.open(/^Wiring$/, "R-2");
    await toCard();
    await keys.tabTo(/^2Between/);
    await keys.press("Enter");
    await keys.tabTo(/^Delete it$/);
    await keys.press("Enter");
    await expect.poll(undone).toBe("Undo: Delete vertex 2 of R-2");
    // The button that was pressed is gone.
    await within(".card");
    await keys.tabTo(/^Delete R-2$/);
    await keys.press("Enter");
    await standing.desk.card.waitFor({ state: "detached" });
    await within(".sheet-host");
    await keys.press("Control+z");
    await expect.poll(undone).toBe("Undo: Delete vertex 2 of R-2");
    await within(".sheet-host");
  });
});

describe("what else is done on the sheet or the profile", () => {
  it("a tag is lowered on the profile, in sight of its check, and raised again", async () => {
    await stage(3);
    await keys.open(/^Wiring$/, "R-4");
    await standing.desk.card.getByRole("heading", { name: "R-4", exact: true }).waitFor();
    await keys.press("Alt+p");
    await within(".profile");
    const before = await undone();
    await keys.press("Home", "ArrowDown");
    await expect.poll(undone).toMatch(/tag.*R-4/);
    await keys.press("Control+z");
    await expect.poll(undone).toBe(before);
    await within(".profile");
  });

  it("a run is split at a vertex, and joined again", async () => {
    const before = await undone();
    await toCard();
    await keys.tabTo(/^1 ?11'-10"/);
    await keys.press("Enter");
    await keys.tabTo(/^Add a vertex after it/);
    await keys.press("Enter");
    await keys.tabTo(/^2Between/);
    await keys.press("Enter");
    // Without a tag of its own neither part would have its elevation there.
    await keys.fill(/^Elevation$/, `11'-10"`);
    await keys.tabTo(/^Split the run here/);
    await keys.press("Enter");
    await expect.poll(undone).toMatch(/Split R-4/);
    await within(".card");
    await keys.tabTo(/^Join R-\d+ to it/);
    await keys.press("Enter");
    await expect.poll(undone).toMatch(/Join /);
    await within(".card");
    await keys.press("Control+z", "Control+z", "Control+z", "Control+z");
    await expect.poll(undone).toBe(before);
  });

  it("the room map is shown, given a ceiling, and put away", async () => {
    await stage(2);
    await keys.press("Alt+m");
    await keys.fill(/^Ceiling/, `9'-0"`);
    const map = standing.opened.page.getByRole("checkbox", { name: "Show how high wiring may hang" });
    expect(await map.isChecked()).toBe(true);
    await keys.press("Alt+m");
    await expect.poll(() => map.isChecked()).toBe(false);
    await within(".drawer");
  });
});

describe("a deck area, from its card", () => {
  it("is settled, and has a corner moved, added and taken out", async () => {
    await stage(2);
    await keys.open(/^Deck areas$/, "Store roof");
    await standing.desk.card.getByRole("heading", { name: "Store roof", exact: true }).waitFor();
    await toCard();
    await keys.take(/Above the rooms below it/, "Not settled");
    await expect.poll(undone).toMatch(/Settle what Store roof is/);
    await keys.tabTo(/^Corners, one by one/);
    await keys.press("Enter");
    await keys.tabTo(/^Corner 2$/);
    await keys.press("Enter");
    await keys.tabTo(/^Add a corner after it$/);
    await keys.press("Enter");
    await expect.poll(undone).toBe("Undo: Insert a vertex in Store roof");
    await standing.desk.card.getByRole("button", { name: "Corner 3", expanded: true }).waitFor();
    await within(".card");
    await keys.tabTo(/^Position, right$/);
    const text = await standing.opened.page.evaluate(() => (document.activeElement as HTMLInputElement).value);
    expect(text).toMatch(/^\d+'-\d/);
    await keys.fill(
      /^Position, right$/,
      text.replace(/^(\d+)/, (feet) => `${Number(feet) + 1}`),
    );
    await expect.poll(undone).toBe("Undo: Move a vertex of Store roof");
    await keys.tabTo(/^Delete it$/);
    await keys.press("Enter");
    await expect.poll(undone).toBe("Undo: Delete a vertex of Store roof");
    await within(".card");
  });
});

describe("a finding, from the list of findings", () => {
  it("is opened, read down to its reasons, and leads to its element", async () => {
    await stage(4);
    await keys.open(/^Findings$/, "R-4");
    await standing.desk.card.getByRole("heading", { name: "Reasons" }).waitFor();
    await toCard();
    const tree = await standing.desk.card.ariaSnapshot();
    expect(tree).toMatch(/heading "Reasons"/);
    expect(tree).toMatch(/button "Open R-4"/);
    await keys.tabTo(/^Open R-4/);
    await keys.press("Enter");
    await standing.desk.card.getByRole("heading", { name: "R-4", exact: true }).waitFor();
    await within(".card");
  });
});

it("the outline of the whole job is in the accessible tree: sheets, areas, elements, findings", async () => {
  const { page } = standing.opened;
  for (const [n, list, some] of [
    [1, "Sheets", /option "[^"]*Roof framing plan/],
    [2, "Deck areas", /option "[^"]*Store roof/],
    [3, "Wiring", /option "[^"]* R-2 EMT /],
    [4, "Findings", /option "[^"]*R-4 /],
  ] as const) {
    await stage(n);
    expect(await page.getByRole("listbox", { name: list, exact: true }).ariaSnapshot(), list).toMatch(some);
  }
  expect(standing.opened.problems).toEqual([]);
});
