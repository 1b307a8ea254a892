import { PDFDocument } from "@cantoo/pdf-lib";
import { describe, expect, it } from "vitest";
import type { Point2 } from "../../../src/geometry/point.ts";
import { identity } from "../../../src/geometry/similarity.ts";
import { alignIssues } from "../../../src/pdf/read/align-issues.ts";
import { issueChanges, type ThingOnSheet } from "../../../src/pdf/read/issue-changes.ts";
import { FIRST_RUN, type PlanIssue, planIssue, ROOM, SECOND_RUN } from "./plan-issue.ts";
import { contentOf, type Reissue, reissue } from "./reissue.ts";

const old = await contentOf(await planIssue());
const things: readonly ThingOnSheet[] = [
  { key: "first", paths: [FIRST_RUN], encloses: false },
  // Traced by hand, a little beside the line.
  { key: "second", paths: [SECOND_RUN.map(([x, y]): Point2 => [x, y + 1.5])], encloses: false },
  { key: "room", paths: [[...ROOM, ROOM[0]!]], encloses: true },
  // Traced where nothing is drawn.
  {
    key: "nowhere",
    paths: [
      [
        [700, 650],
        [760, 650],
      ],
    ],
    encloses: false,
  },
];

async function changes(issue: PlanIssue, how: Reissue = {}) {
  const fresh = await contentOf((await reissue(await planIssue(issue), 1, how)).bytes);
  const laid = alignIssues(old, fresh);
  if (!laid.ok) throw new Error(laid.problems[0]?.code);
  const found = issueChanges(old, fresh, laid.value.sim, things);
  return { ...found, of: (key: string) => found.things.find((thing) => thing.key === key) };
}

const ways: readonly Reissue[] = [
  {},
  { quarter: 1, rotate: 270 },
  { scale: 0.6, quarter: 2 },
  { scale: 2, userUnit: 0.5 },
];

describe("what a new issue shows otherwise", () => {
  for (const how of ways) {
    const paper = (how.scale ?? 1) * (how.userUnit ?? 1);
    it(`is nothing where nothing changed, ${JSON.stringify(how)}`, async () => {
      const { lines, texts, things: changed } = await changes({}, how);
      expect([lines.oldOnly.of.length, lines.newOnly.of.length]).toEqual([0, 0]);
      expect(texts.changed).toEqual([]);
      expect(texts.both.length).toBe(23);
      expect(changed).toEqual([]);
    });

    it(`is a run that moved, by how much, ${JSON.stringify(how)}`, async () => {
      const { of, things: changed } = await changes({ second: [0, 30] }, how);
      expect(changed.map(({ key }) => key)).toEqual(["second"]);
      expect(of("second")?.line?.there).toBeLessThan(0.1);
      expect(Math.abs(of("second")!.line!.movedPt! - 30 * paper)).toBeLessThanOrEqual(1);
    });
  }

  it("is a run that is gone", async () => {
    const { of, things: changed, lines } = await changes({ second: null, titleBlock: "left" });
    expect(changed.map(({ key }) => key)).toEqual(["second"]);
    expect(of("second")?.line?.there).toBeLessThan(0.1);
    expect(of("second")?.line?.movedPt).toBeNull();
    expect(lines.oldOnly.of.length).toBeGreaterThan(0);
    expect(lines.newOnly.of.length).toBeGreaterThan(0);
  });

  it("is a tag that reads otherwise, said of the run it stands at", async () => {
    const { of, things: changed } = await changes({ tag: `B.O. CONDUIT EL. 12'-2 1/2"` });
    expect(changed.map(({ key }) => key)).toEqual(["first"]);
    expect(of("first")).toMatchObject({
      line: null,
      texts: [{ was: `B.O. CONDUIT EL. 12'-6"`, now: `B.O. CONDUIT EL. 12'-2 1/2"` }],
    });
  });

  it("is a run drawn anew over a line that was there before", async () => {
    // Grid line C lies 40 above the second run.
    const { of, lines } = await changes({ second: [0, 40] });
    expect(Math.abs(of("second")!.line!.movedPt! - 40)).toBeLessThanOrEqual(1);
    expect(lines.newOnly.of.length).toBeGreaterThan(0);
  });

  it("is nothing where the same sheet is plotted with other pens, or a text stands a little elsewhere", async () => {
    for (const issue of [{ plotted: 2 }, { tagAt: [290, 309] as const }]) {
      const { things: changed, texts, lines } = await changes(issue);
      expect(changed).toEqual([]);
      expect(texts.changed).toEqual([]);
      expect([lines.oldOnly.of.length, lines.newOnly.of.length]).toEqual([0, 0]);
    }
  });

  it("is not known where one of the two is a picture", async () => {
    const doc = await PDFDocument.create();
    doc.addPage([1000, 720]);
    const found = issueChanges(old, await contentOf(await doc.save()), identity, things);
    expect([found.isPicture, found.things.length, found.texts.changed.length]).toEqual([true, 0, 0]);
  });

  it("says nothing of a title block that moved, nor of what was never drawn", async () => {
    const { things: changed, texts } = await changes({ titleBlock: "left" });
    expect(changed).toEqual([]);
    expect(texts.changed.filter(({ tells }) => tells)).toEqual([]);
  });
});
