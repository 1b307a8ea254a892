import { expect, test } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import { verdictChanges } from "../../src/check/verdict-changes.ts";
import { SAMPLE } from "./sample-job.ts";
import { standingDesk } from "./standing-desk.ts";

const standing = standingDesk({ query: "?sample=riverside-workshop" });

test("what another edition would change is worked out beside the page, element by element with both reasons", async () => {
  const under = (edition: string) => ({ ...SAMPLE, settings: { job: { ...SAMPLE.settings.job, edition } } });
  const changes = verdictChanges(checkJob(SAMPLE), checkJob(under("us-2008")));
  expect(changes.length).toBeGreaterThan(0);
  await standing.desk.stage("Check");
  await standing.desk.choose(standing.desk.drawer, "What would change under", /2008/);
  const lines = standing.desk.drawer.locator(".changes > li");
  await expect.poll(() => lines.count()).toBe(changes.length);
  for (const [i, { element, whyBefore, whyAfter }] of changes.entries()) {
    const words = await lines.nth(i).textContent();
    for (const part of [element, ...whyBefore, ...whyAfter]) expect(words).toContain(part);
  }
  expect(standing.opened.problems).toEqual([]);
});
