import type { Worker } from "playwright-core";
import { describe, expect, it } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import { findingsCsv } from "../../src/issue/findings-csv.ts";
import { findingsJson } from "../../src/issue/findings-json.ts";
import { jobText, parseJobText } from "../../src/job/parse-job.ts";
import type { Job } from "../../src/job/schema.ts";
import { buildingJob } from "../bench/check-job.bench.ts";
import { standingDesk } from "./standing-desk.ts";

/** So many runs of a made-up building, as a job file says it. */
const runs = (count: number): Job => {
  const job = parseJobText(jobText(buildingJob(20, 12, count, 1)));
  if (!job.ok) throw new Error(JSON.stringify(job.problems));
  return job.value;
};
const JOB = runs(10_000);
/** Remedies are tried before they are offered, so that writing all of them takes longer than the check. */
const WRITTEN = runs(1_000);
const COUNTED = /[1-9]\d* of \d+/;

const standing = standingDesk({ act: 60_000, test: 180_000 });

const checking = (): Worker => {
  // The one that was started last: another takes the place of one that failed.
  const worker = standing.opened.page.workers().findLast((one) => one.url().includes("check.worker"));
  if (!worker) throw new Error("no worker checks");
  return worker;
};

/** Makes every rest of the worker so long: a fast machine would be done before anybody could stop it. */
const restFor = (milliseconds: number) =>
  checking().evaluate((wait) => {
    const own = self as unknown as { plain?: typeof MessagePort.prototype.postMessage };
    own.plain ??= MessagePort.prototype.postMessage;
    const { plain } = own;
    MessagePort.prototype.postMessage = function (this: MessagePort, ...args: [unknown]) {
      // A rest is a message of nothing to itself.
      if (args[0] === null && wait > 0) setTimeout(() => plain.apply(this, args as never), wait);
      else plain.apply(this, args as never);
    } as typeof MessagePort.prototype.postMessage;
  }, milliseconds);

const open = (job: Job) =>
  standing.desk.pick(standing.opened.page.getByRole("button", { name: "Open a job file" }), {
    name: "large.json",
    mimeType: "application/json",
    buffer: Buffer.from(jobText(job)),
  });

const bar = (name: string) => standing.opened.page.getByRole("progressbar", { name });
const stopped = () => standing.opened.page.locator(".sheet-work").getByText(/The check was stopped/);
const checkedWords = () => standing.opened.page.locator('[data-live="check"]', { hasText: "Checked:" });

describe("a check that takes a while", () => {
  it("shows how far it is, and is stopped by Escape: nothing is said of the job", async () => {
    await standing.opened.page.getByRole("button", { name: "Open a job file" }).waitFor();
    await expect
      .poll(() => standing.opened.page.workers().some((one) => one.url().includes("check.worker")))
      .toBe(true);
    await restFor(400);
    await open(JOB);
    await bar("Checking").filter({ hasText: COUNTED }).waitFor();
    const stop = standing.opened.page.locator(".sheet-work").getByRole("button", { name: "Stop" });
    await stop.focus();
    await standing.opened.page.keyboard.press("Escape");
    await stopped()
      .getByText(/Nothing is said of this job yet/)
      .waitFor();
    expect(await bar("Checking").count()).toBe(0);
    // The focus is not lost with the bar it was in.
    await expect.poll(() => standing.opened.page.evaluate(() => document.activeElement?.tagName)).not.toBe("BODY");
    expect(await standing.opened.page.locator(".stage", { hasText: "Check" }).first().textContent()).toMatch(/stopped/);
  });

  it("is done when it is asked for again", async () => {
    await restFor(0);
    await standing.opened.page.locator(".sheet-work").getByRole("button", { name: "Check again" }).click();
    await checkedWords().waitFor();
    expect(await stopped().count()).toBe(0);
    const { counts } = checkJob(JOB);
    expect(await checkedWords().textContent()).toContain(`${counts["too-close"]} too close`);
  });

  it("after a stop says that the findings are of the job before; a later edit checks again", async () => {
    await restFor(400);
    await standing.desk.stage("Sheet");
    await standing.desk.choose(standing.desk.drawer, "Rule edition", /2023/);
    await bar("Checking").filter({ hasText: COUNTED }).waitFor();
    await standing.opened.page.locator(".sheet-work").getByRole("button", { name: "Stop" }).click();
    await stopped()
      .getByText(/findings shown are of the job before/)
      .waitFor();
    await standing.desk.stage("Check");
    // Over the sheet it is in sight in every stage: once is enough.
    expect(await standing.opened.page.getByText(/findings shown are of the job before/).count()).toBe(1);
    await restFor(0);
    await standing.desk.stage("Sheet");
    await standing.desk.fill(standing.desk.drawer, "By whose decision", "somebody");
    await stopped().waitFor({ state: "detached" });
    await bar("Checking").waitFor({ state: "detached" });
    await checkedWords().waitFor();
  });

  it("goes on with another worker when one fails, at work or idle, and the job is untouched", async () => {
    const fail = () =>
      checking().evaluate(() => {
        setTimeout(() => {
          throw new Error("made for the test");
        });
      });
    const checkedBy = async (edition: string) => {
      await standing.desk.stage("Check");
      await standing.desk.drawer.getByText(new RegExp(`${edition} edition[^…]*$`)).waitFor();
      expect(await stopped().count()).toBe(0);
      expect(await standing.opened.page.getByRole("alertdialog").count()).toBe(0);
    };
    await restFor(400);
    await standing.desk.stage("Sheet");
    await standing.desk.choose(standing.desk.drawer, "Rule edition", /2011/);
    await bar("Checking").filter({ hasText: COUNTED }).waitFor();
    await fail();
    await checkedBy("2011");
    const { counts } = checkJob(JOB);
    await standing.desk.drawer
      .locator(".count", { hasText: "Too close" })
      .getByText(String(counts["too-close"]))
      .waitFor();
    await fail();
    await standing.desk.stage("Sheet");
    await standing.desk.choose(standing.desk.drawer, "Rule edition", /2014/);
    await checkedBy("2014");
  });

  it("stops writing the findings and writes nothing; then the same as the command line does", async () => {
    await standing.opened.page.goto(standing.opened.address);
    await open(WRITTEN);
    await checkedWords().waitFor();
    await restFor(400);
    await standing.desk.stage("Issue");
    await standing.desk.press(/^JSON$/, standing.desk.drawer);
    await bar("Writing the findings").filter({ hasText: COUNTED }).waitFor();
    await standing.desk.drawer.getByRole("button", { name: "Stop" }).click();
    await standing.desk.drawer.getByText("Stopped: nothing was written.").waitFor();
    await restFor(0);
    const result = checkJob(WRITTEN);
    const json = await standing.desk.download(() => standing.desk.press(/^JSON$/, standing.desk.drawer));
    expect(Buffer.from(json.bytes).equals(Buffer.from(findingsJson(WRITTEN, result)))).toBe(true);
    const csv = await standing.desk.download(() => standing.desk.press(/^CSV$/, standing.desk.drawer));
    expect(Buffer.from(csv.bytes).equals(Buffer.from(findingsCsv(WRITTEN, result)))).toBe(true);
  });

  it("went wrong nowhere else", () => {
    expect(standing.opened.problems.filter((problem) => !problem.includes("made for the test"))).toEqual([]);
  });
});
