import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { runCommand } from "./run-command.ts";

const drawing = "samples/riverside-workshop/riverside-workshop.pdf";
let folder: string;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "underside-read-"));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

interface ReadPlan {
  readonly sha256: string;
  readonly pages: readonly {
    readonly label: string;
    readonly paperIn: readonly number[];
    readonly scaleNotes: readonly { readonly text: string; readonly ratio: number | null }[];
    readonly elevations: readonly { readonly text: string; readonly value: { value: number; unit: string } }[];
    readonly texts?: readonly unknown[];
    readonly grids: readonly {
      readonly axes: readonly {
        readonly label: string;
        readonly from: readonly [number, number];
        readonly bubbles: readonly { readonly at: readonly [number, number]; readonly radius: number }[];
      }[];
    }[];
    readonly linework: {
      readonly segments: number;
      readonly layers: readonly { layer: string | null; segments: number }[];
    };
  }[];
}

describe("underside read", () => {
  // The sample is drawn by samples/draw.ts: what is expected here is what that script was told to write.
  test("tells pages, paper, scale notes and elevations", async () => {
    const { status, out, error } = await runCommand("read", drawing, "--format", "json");
    expect([status, error]).toEqual([0, ""]);
    const { pages } = JSON.parse(out) as ReadPlan;
    expect(pages.map(({ label, paperIn }) => [label, paperIn])).toEqual([
      ["S-201", [24, 18]],
      ["A-131", [36, 24]],
    ]);
    // 1/4" on paper is 12" in the building: 48 to 1.
    expect(pages[1]?.scaleNotes).toContainEqual(expect.objectContaining({ text: `1/4" = 1'-0"`, ratio: 48 }));
    expect(pages[0]?.elevations.map(({ text }) => text)).toContain(`EL. 16'-0"`);
    expect(pages[0]?.texts).toBeUndefined();
  });

  test("knows the file as the job does, by its content", async () => {
    const { sha256 } = JSON.parse((await runCommand("read", drawing, "--format", "json")).out) as ReadPlan;
    const job = JSON.parse(await readFile("samples/riverside-workshop/job.json", "utf8")) as {
      sheets: Record<string, { file: { sha256: string } }>;
    };
    expect(Object.values(job.sheets)[0]?.file.sha256).toBe(sha256);
  });

  test("tells the grid with a bubble at either end of each line, and how much is drawn on which layer", async () => {
    const { pages } = JSON.parse((await runCommand("read", drawing, "--format", "json")).out) as ReadPlan;
    for (const { grids, linework } of pages) {
      expect(grids).toHaveLength(1);
      const axes = grids[0]!.axes;
      expect(axes.map(({ label }) => label).sort()).toEqual(["1", "2", "3", "4", "5", "A", "B", "C", "D"]);
      expect(axes.map(({ bubbles }) => bubbles.length)).toEqual(axes.map(() => 2));
      const counts = linework.layers.map(({ segments }) => segments);
      expect(counts.reduce((sum, segments) => sum + segments, 0)).toBe(linework.segments);
      expect(linework.layers.map(({ layer }) => layer)).toEqual(expect.arrayContaining(["GRID"]));
    }
    // The bays are 24 ft; the framing plan is at 1/8" and the ceiling plan at 1/4" to the foot: 3 and 6 in. on paper.
    const bays = pages.map(({ grids }) => {
      const [one, two] = ["1", "2"].map((name) => grids[0]!.axes.find(({ label }) => label === name)!.bubbles[0]!.at);
      return Math.hypot(two![0] - one![0], two![1] - one![1]);
    });
    expect(bays[0]).toBeCloseTo(3 * 72, 2);
    expect(bays[1]).toBeCloseTo(6 * 72, 2);
  });

  test("tells the sheet's name, what witnesses its scale, its dimensions and its tags with the line beside each", async () => {
    const { pages } = JSON.parse((await runCommand("read", drawing, "--format", "json")).out) as {
      pages: readonly {
        number: string;
        name: string;
        views: readonly { title: string | null; ratio: number | null }[];
        scales: readonly { kind: string; ratio: number; agreeing?: number; of?: number }[];
        comparisons: readonly { agrees: boolean; factor: number }[];
        dimensions: readonly { text: string; inches: number; ratio: number }[];
        tags: readonly { text: string; inches: number; line: { distance: number } | null }[];
        picture: boolean;
      }[];
    };
    const ceiling = pages[1]!;
    expect([ceiling.number, ceiling.name]).toEqual(["A-131", "REFLECTED CEILING PLAN AND RACEWAYS"]);
    expect(ceiling.views).toContainEqual(
      expect.objectContaining({ title: "REFLECTED CEILING PLAN, LEVEL 1", ratio: 48 }),
    );
    expect(ceiling.scales.map(({ kind, ratio }) => [kind, ratio])).toEqual(
      expect.arrayContaining([
        ["note", 48],
        ["viewport", 48],
        ["bar", 48],
        ["dimensions", 48],
      ]),
    );
    expect(ceiling.dimensions).toHaveLength(9);
    expect(ceiling.dimensions).toContainEqual(expect.objectContaining({ text: `96'-0"`, inches: 1152, ratio: 48 }));
    for (const { comparisons, picture } of pages) {
      expect(comparisons.length).toBeGreaterThan(0);
      expect(comparisons.every(({ agrees }) => agrees)).toBe(true);
      expect(picture).toBe(false);
    }
    expect(ceiling.tags).toContainEqual(
      expect.objectContaining({ inches: 180, line: expect.objectContaining({ ambiguous: false }) }),
    );
  });

  test("gives every key that the page on commands tells of, and no other", async () => {
    const { pages } = JSON.parse((await runCommand("read", drawing, "--format", "json")).out) as {
      pages: readonly Record<string, unknown>[];
    };
    const told = (await readFile("docs/command-line.md", "utf8"))
      .split("\nAs JSON each page has:\n\n")[1]!
      .split("\n\n")[0]!;
    const named = [...told.matchAll(/^\| (`[^|]*`) \|/gm)].flatMap(([, keys]) =>
      [...keys!.matchAll(/`(\w+)`/g)].map(([, key]) => key!),
    );
    for (const page of pages) expect(Object.keys(page).sort()).toEqual([...named].sort());
  });

  test("tells slopes with their arrows, the layers of each page, and what is odd about its text", async () => {
    const store = "samples/fennick-lane-store/fennick-lane-store.pdf";
    const { pages } = JSON.parse((await runCommand("read", store, "--format", "json")).out) as {
      pages: readonly {
        number: string | null;
        slopes: readonly { text: string; rise: number; arrow: { tail: number[]; tip: number[] } | null }[];
        layers: readonly string[];
        text: string;
        mirroredTexts: number;
        unclearDimensions: readonly unknown[];
      }[];
    };
    const roof = pages.find(({ number }) => number === "A-120")!;
    expect(roof.slopes.length).toBeGreaterThan(0);
    for (const page of pages) expect([page.text, page.mirroredTexts, page.unclearDimensions]).toEqual(["there", 0, []]);
    expect(roof.layers).toContain("GRID");
    expect(roof.slopes.filter(({ arrow }) => arrow !== null).length).toBeGreaterThan(0);
  });

  test("gives every line of text when asked, and the same bytes twice", async () => {
    const args = ["read", drawing, "--format", "json", "--texts"];
    const { out } = await runCommand(...args);
    expect((JSON.parse(out) as ReadPlan).pages[1]?.texts?.length).toBeGreaterThan(20);
    expect((await runCommand(...args)).out).toBe(out);
  });

  test("says in text that what was found is to be confirmed", async () => {
    expect((await runCommand("read", drawing)).out).toMatch(/a person confirms/);
  });

  test("refuses what is no drawing, with status 2", async () => {
    await writeFile(join(folder, "a.pdf"), "not one");
    expect(await runCommand("read", join(folder, "a.pdf"))).toMatchObject({ status: 2, out: "" });
    await writeFile(join(folder, "empty.pdf"), "");
    expect(await runCommand("read", join(folder, "empty.pdf"))).toMatchObject({ status: 2, out: "" });
    expect((await runCommand("read", join(folder, "none.pdf"))).error).toMatch(/There is no file/);
  });
});
