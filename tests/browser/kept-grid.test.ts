import { expect, test } from "vitest";
import { FRAMING } from "./desk.ts";
import { standingDesk } from "./standing-desk.ts";

const standing = standingDesk({ query: "?sample=riverside-workshop" });

test("the grid of a sheet is let go, found again in its lines, and kept when accepted", async () => {
  const { desk } = standing;
  await desk.stage("Sheet");
  await desk.openSheet({ ...FRAMING, title: /Roof framing plan/ });
  const said = desk.card.getByText(/^Kept: /);
  expect(await said.textContent()).toBe(
    "Kept: 1, 2, 3, 4, 5, A, B, C, D. Comments, report and brief say by it where things are.",
  );
  await desk.press("Let go of it", desk.card);
  await desk.press("Look for the grid", desk.card);
  await desk.card.getByText(/^Found: .*Compare it with the sheet/).waitFor();
  const found = (await desk.card.getByText(/^Found: /).textContent())!;
  expect(new Set(found.slice("Found: ".length).split(".")[0]!.split(", "))).toEqual(
    new Set(["1", "2", "3", "4", "5", "A", "B", "C", "D"]),
  );
  await desk.press("Keep this grid", desk.card);
  await said.waitFor();
  await desk.stage("Issue");
  const comments = await desk.download(() => desk.press("Comments as CSV", desk.drawer));
  // R-2 lies between A and B, 2 and 3: the sheet's own dimensions.
  expect(Buffer.from(comments.bytes).toString()).toMatch(/R-2 \(1 EMT\)[^\n]*grid A–B \/ 2–3/);
  expect(standing.opened.problems).toEqual([]);
}, 120_000);
