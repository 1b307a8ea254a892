import { existsSync, readFileSync } from "node:fs";
import { PDFDocument, rgb } from "@cantoo/pdf-lib";
import { describe, expect, it } from "vitest";
import { distance2, type Point2 } from "../../../src/geometry/point.ts";
import { applyTo } from "../../../src/geometry/similarity.ts";
import { alignByPoints, alignIssues } from "../../../src/pdf/read/align-issues.ts";
import type { IssueContent } from "../../../src/pdf/read/issue-content.ts";
import { planIssue } from "./plan-issue.ts";
import { contentOf, type Reissue, reissue } from "./reissue.ts";

const CORNERS: readonly Point2[] = [
  [0, 0],
  [1000, 0],
  [1000, 720],
  [0, 720],
];

const plan = await planIssue();
const old = await contentOf(plan);
const codeOf = (fresh: IssueContent): string | undefined => {
  const answer = alignIssues(old, fresh);
  return answer.ok ? undefined : answer.problems[0]?.code;
};

/** How far, in 1/72 in. of paper, a corner of the page lies from where it was put. */
async function offBy(bytes: Uint8Array, how: Reissue, corners: readonly Point2[] = CORNERS, page = 1): Promise<number> {
  const again = await reissue(bytes, page, how);
  const before = page === 1 && bytes === plan ? old : await contentOf(bytes, page);
  const answer = alignIssues(before, await contentOf(again.bytes));
  if (!answer.ok) throw new Error(answer.problems[0]?.code);
  expect(answer.value.residualPt).toBeLessThan(0.05);
  const apart = corners.map((corner) => distance2(applyTo(answer.value.sim, corner), again.place(corner)));
  return Math.max(...apart) * (how.userUnit ?? 1);
}

describe("a new issue laid on the old one", () => {
  const ways: readonly Reissue[] = [
    {},
    { shift: [37.5, -12.25] },
    { quarter: 1, rotate: 270 },
    { quarter: 2, corner: [120, 45] },
    { quarter: 3, rotate: 90, corner: [-80, 260] },
    { rotate: 180, corner: [33, 0] },
    { scale: 0.5 },
    { scale: 1.7, userUnit: 2 },
    { scale: 0.647, quarter: 1, corner: [20, 20], userUnit: 0.5 },
  ];
  for (const how of ways)
    it(`finds ${JSON.stringify(how)}`, async () => {
      expect(await offBy(plan, how)).toBeLessThan(0.02);
    });

  it("goes by the plan, not by a title block that moved", async () => {
    const moved = await contentOf(await planIssue({ titleBlock: "left", second: [0, 30] }));
    const answer = alignIssues(old, moved);
    if (!answer.ok) throw new Error(answer.problems[0]?.code);
    expect(answer.value.by).toBe("grid");
    expect(distance2(applyTo(answer.value.sim, [400, 400]), [400, 400])).toBeLessThan(0.01);
    expect(answer.value.share).toBeLessThan(1);
  });

  it("goes by the lines alone where no word is on either", async () => {
    const [bare, again] = await Promise.all(
      [{ words: false }, { words: false, titleBlock: "left" } as const].map(async (how) =>
        contentOf(await planIssue(how)),
      ),
    );
    const answer = alignIssues(bare!, again!);
    if (!answer.ok) throw new Error(answer.problems[0]?.code);
    expect(answer.value.by).toBe("lines");
    expect(distance2(applyTo(answer.value.sim, [400, 400]), [400, 400])).toBeLessThan(0.01);
  });
});

describe("a new issue that is not laid on the old one", () => {
  it("is one seen from behind", async () => {
    const again = await reissue(plan, 1, { mirrored: true });
    expect(codeOf(await contentOf(again.bytes))).toBe("revision.mirrored");
  });

  it("is one seen from behind of a building that is nearly the same from both sides", async () => {
    const doc = await PDFDocument.create();
    const page = doc.addPage([800, 600]);
    const box = (x: number, y: number, width: number, height: number) =>
      page.drawRectangle({ x, y, width, height, borderWidth: 1, borderColor: rgb(0, 0, 0) });
    for (let i = 0; i < 24; i++) {
      const [x, y, width, height] = [40 + ((i * 47) % 300), 40 + ((i * 89) % 480), 20 + 3 * (i % 7), 15 + 2 * (i % 11)];
      box(x, y, width, height);
      if (i > 4) box(800 - x - width, y, width, height);
    }
    const bytes = await doc.save();
    const behind = await contentOf((await reissue(bytes, 1, { mirrored: true })).bytes);
    const answer = alignIssues(await contentOf(bytes), behind);
    expect(answer.ok ? "laid" : answer.problems[0]?.code).toBe("revision.mirrored");
  });

  it("is one on whose lines the grid bears other names", async () => {
    const answer = alignIssues(old, await contentOf(await planIssue({ gridNames: ["2", "3", "4", "5"] })));
    if (answer.ok) throw new Error("laid");
    expect(answer.problems[0]).toMatchObject({
      code: "revision.grid-renamed",
      params: { names: "1 is 2 now, 2 is 3 now, 3 is 4 now, 4 is 5 now" },
    });
  });

  it("is another sheet, an empty one, or a picture", async () => {
    const doc = await PDFDocument.create();
    doc.addPage([1000, 720]);
    expect(codeOf(await contentOf(await doc.save()))).toBe("revision.picture");
    const other = await PDFDocument.create();
    const page = other.addPage([1000, 720]);
    for (let i = 0; i < 60; i++)
      page.drawLine({
        start: { x: 37 + 11 * i, y: 91 + ((i * 53) % 400) },
        end: { x: 61 + 13 * i, y: 91 + ((i * 53) % 400) },
      });
    expect(codeOf(await contentOf(await other.save()))).toBe("revision.not-alike");
  });

  it("is one that lies alike in two ways", async () => {
    const doc = await PDFDocument.create();
    const page = doc.addPage([800, 800]);
    const square = (x: number, y: number, side: number) =>
      page.drawRectangle({ x, y, width: side, height: side, borderWidth: 1, borderColor: rgb(0, 0, 0) });
    square(100, 100, 600);
    for (const [x, y] of [
      [150, 150],
      [550, 150],
      [150, 550],
      [550, 550],
    ] as const)
      square(x, y, 100);
    const bytes = await doc.save();
    const content = await contentOf(bytes);
    const answer = alignIssues(content, content);
    expect(answer.ok ? "laid" : answer.problems[0]?.code).toBe("revision.two-ways");
  });
});

describe("points given by hand", () => {
  it("lay a picture, and take a turn of a quarter for one", async () => {
    const fresh = await contentOf((await reissue(plan, 1, { quarter: 1 })).bytes);
    const answer = alignByPoints(old, fresh, [
      { from: [180, 300], to: [420.4, 180.2] },
      { from: [660, 600], to: [119.8, 660.1] },
    ]);
    if (!answer.ok) throw new Error(answer.problems[0]?.code);
    expect(answer.value.by).toBe("points");
    expect(answer.value.sim.angle).toBe(Math.PI / 2);
    expect(answer.value.residualPt).toBeLessThan(1);
  });

  it("are all there is for a picture, of which nothing more is known", async () => {
    const doc = await PDFDocument.create();
    doc.addPage([1000, 720]);
    const scan = await contentOf(await doc.save());
    const answer = alignByPoints(old, scan, [
      { from: [180, 300], to: [90, 150] },
      { from: [660, 600], to: [330, 300] },
    ]);
    if (!answer.ok) throw new Error(answer.problems[0]?.code);
    expect(answer.value.sim.scale).toBeCloseTo(0.5, 9);
    expect(answer.value.share).toBeNull();
  });

  it("are refused where one is another place", () => {
    const answer = alignByPoints(old, old, [
      { from: [180, 300], to: [180, 300] },
      { from: [660, 600], to: [660, 600] },
      { from: [660, 180], to: [640, 180] },
    ]);
    expect(answer.ok ? "laid" : answer.problems[0]?.code).toBe("revision.points-apart");
  });
});

describe.skipIf(!existsSync("../shared/drawings"))(
  "real sheets issued again (skipped where they are not at hand)",
  () => {
    const sheets = [
      ["cad-a3-rot270-vp.pdf", 1],
      ["house-A103-roof-11x17-reduced.pdf", 1],
      ["ti-conference-rcp.pdf", 1],
      ["metal-building-set.pdf", 3],
    ] as const;
    for (const [name, page] of sheets)
      it(`${name}, page ${page}`, { timeout: 60_000 }, async () => {
        const bytes = new Uint8Array(readFileSync(`../shared/drawings/${name}`));
        expect(
          await offBy(
            bytes,
            { quarter: 1, scale: 0.5, corner: [40, 30] },
            [
              [0, 0],
              [700, 500],
            ],
            page,
          ),
        ).toBeLessThan(0.05);
      });
  },
);
