import { expect, test } from "vitest";
import { standingDesk } from "./standing-desk.ts";

const standing = standingDesk({ query: "?sample=fennick-lane-store" });

test("issuing a large job shows how far it is, is stopped at once, and can be done again", async () => {
  const { desk } = standing;
  await desk.stage("Issue");
  await desk.press(/^Issue$/, desk.drawer);
  await desk.drawer.getByRole("progressbar", { name: "Issuing…" }).waitFor();
  await desk.press("Stop", desk.drawer);
  await desk.drawer.getByText("Stopped: nothing was written.").waitFor();
  expect(await desk.drawer.getByRole("progressbar").count()).toBe(0);
  const { name, bytes } = await desk.download(() => desk.press(/^Issue$/, desk.drawer));
  expect(name).toBe("fennick-lane-store, checked.pdf");
  expect(Buffer.from(bytes.subarray(0, 5)).toString()).toBe("%PDF-");
  expect(standing.opened.problems).toEqual([]);
}, 180_000);
