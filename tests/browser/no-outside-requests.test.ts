import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { DeskHands } from "./desk.ts";
import { type OpenedPage, openPage } from "./open-page.ts";

vi.setConfig({ testTimeout: 120_000 });

let opened: OpenedPage;
const requests: string[] = [];
beforeAll(async () => {
  opened = await openPage();
  opened.page.setDefaultTimeout(20_000);
  opened.page.context().on("request", (request) => requests.push(request.url()));
}, 180_000);
afterAll(() => opened?.close());

describe("nothing leaves the machine", () => {
  it("opens, shows, checks and issues a job by talking to nobody but itself", async () => {
    await opened.page.goto(`${opened.address}?sample=riverside-workshop`);
    const desk = new DeskHands(opened.page);
    await desk.shown();
    for (const stage of ["Roof", "Wiring", "Check", "Issue"]) await desk.stage(stage);
    const { bytes } = await desk.download(() => desk.press(/^Issue$/, desk.drawer));
    expect(bytes.length).toBeGreaterThan(1_000);
    expect(requests.length).toBeGreaterThan(5);
    const outside = requests.filter((url) => !url.startsWith(opened.address) && !/^(blob|data):/.test(url));
    expect(outside).toEqual([]);
    // Nothing is sent either: every request only fetches.
    expect(opened.problems).toEqual([]);
  });
});
