import { readFileSync } from "node:fs";
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import { describe, expect, it } from "vitest";
import { checkJob } from "../src/check/check-job.ts";
import { VERDICTS, type Verdict } from "../src/check/finding.ts";
import { applyTo } from "../src/geometry/similarity.ts";
import type { Box } from "../src/job/elements/box.ts";
import type { Run } from "../src/job/elements/run.ts";
import type { Tag } from "../src/job/fields.ts";
import { jobText, parseJobText } from "../src/job/parse-job.ts";
import { sheetToBuilding } from "../src/job/registration.ts";
import type { Job } from "../src/job/schema.ts";
import { formatLength } from "../src/units/format-length.ts";
import { inches } from "../src/units/quantity.ts";
import { type Deck, decks, nearest, type P2, type P3, STORE_FLOORS } from "./samples/plain-decks.ts";

const folder = "samples/fennick-lane-store";
const text = (name: string): string => readFileSync(`${folder}/${name}`, "utf8");

interface Hand {
  readonly element: string;
  readonly verdict: Verdict;
  readonly area: string;
  readonly leastIn: number;
  readonly intervalIn: readonly [number, number];
  /** How near the check has to come where it takes a curve for chords with room to spare; the tolerance of all others where absent. */
  readonly withinIn?: number;
}
const expected = JSON.parse(text("expected.json")) as {
  rules: string;
  toleranceIn: number;
  elements: number;
  counts: Record<Verdict, number>;
  /** Everything that is not clear, by verdict; what is not listed is clear. */
  verdicts: Partial<Record<Verdict, readonly string[]>>;
  hand: readonly Hand[];
  changes: Record<string, Record<string, Verdict>>;
};

const parsed = parseJobText(text("job.json"));
if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
const job: Job = parsed.value;
const under = (edition: string): Job => ({ ...job, settings: { job: { ...job.settings.job, edition } } });
const result = checkJob(job);
const { findings } = result;
const elements = Object.values(job.elements);
const runs = elements.filter((element): element is Run => element.kind === "run");

/** Verdicts of an element, in the order of the findings. */
function verdictsOf(all: typeof findings): Map<string, Verdict[]> {
  const map = new Map<string, Verdict[]>();
  for (const { element, verdict } of all) map.set(element, [...(map.get(element) ?? []), verdict]);
  return map;
}

/** Sheet to building, shifted so that grid 1 / A is the origin. */
function building(viewport: string): (at: readonly [number, number]) => P2 {
  const own = sheetToBuilding(job, viewport);
  const roof = sheetToBuilding(job, "roof-framing");
  if (!own.ok || !roof.ok) throw new Error("no registration");
  // Grid 1 / A on the roof framing sheet.
  const [x0, y0] = applyTo(roof.value.sim, [232, 300]);
  return (at) => {
    const [x, y] = applyTo(own.value.sim, at);
    return [x - x0, y - y0];
  };
}

describe("the store's drawings", () => {
  it("hold a job in the one way a job is written, of exactly these drawings, not larger than they need be", () => {
    expect(jobText(job)).toBe(text("job.json"));
    const bytes = readFileSync(`${folder}/fennick-lane-store.pdf`).length;
    for (const sheet of Object.values(job.sheets)) expect(sheet.file.bytes).toBe(bytes);
    expect(bytes).toBeLessThan(1_500_000);
    expect(runs).toHaveLength(304);
  });

  it("say of every run on its sheet what the job says of it", async () => {
    const task = getDocument({
      data: new Uint8Array(readFileSync(`${folder}/fennick-lane-store.pdf`)),
      verbosity: 0,
      useSystemFonts: false,
    });
    const document = await task.promise;
    expect(document.numPages).toBe(Object.keys(job.sheets).length);
    const labels = await document.getPageLabels();
    for (const sheet of Object.values(job.sheets)) {
      expect(sheet.title.startsWith(`${labels![sheet.page - 1]} `)).toBe(true);
      const page = await document.getPage(sheet.page);
      expect(page.view).toEqual([...sheet.view]);
      const items = (await page.getTextContent()).items.flatMap((item) =>
        "str" in item
          ? [{ text: item.str.replace(/\s+/g, " "), at: [item.transform[4], item.transform[5]] as P2 }]
          : [],
      );
      const here = runs.filter((run) => job.sheets[job.viewports[run.viewport]!.sheet] === sheet);
      for (const run of here) {
        const notes = items.filter(({ text: words }) => words.startsWith(`${run.label} `));
        expect(notes, run.label).toHaveLength(1);
        const tags = run.vertices.flatMap(({ tag }) => (tag ? [tagText(tag)] : []));
        if (tags.length === 0) expect(notes[0]!.text).toContain("EL. NOT GIVEN");
        else if (new Set(tags).size === 1) expect(notes[0]!.text, run.label).toContain(tags[0]);
        else {
          // One at each end: nearer to its own end than to the other.
          const [first, last] = [run.vertices[0]!.at, run.vertices.at(-1)!.at];
          for (const [own, other, said] of [
            [first, last, tags[0]!],
            [last, first, tags.at(-1)!],
          ] as const)
            expect(
              items.some(
                ({ text: words, at }) => words === said && away(at, own) < 160 && away(at, own) < away(at, other),
              ),
              `${run.label} ${said}`,
            ).toBe(true);
        }
      }
    }
    await task.destroy();
  });

  it("have the grid where the job's registrations say", () => {
    for (const viewport of ["power-sw", "power-se", "power-nw", "power-ne", "roof-plan"])
      for (const { label, here } of job.viewports[viewport]!.registration!.pairs) {
        const [column, row] = label.split("/") as [string, string];
        const [x, y] = building(viewport)(here);
        expect(x).toBeCloseTo((Number(column) - 1) * 360, 3);
        expect(y).toBeCloseTo("ABCDEF".indexOf(row) * 384, 3);
      }
  });
});

describe("the store's findings", () => {
  it("are those expected, every verdict among them", () => {
    const found: Record<string, string[]> = {};
    for (const { element, verdict } of findings) {
      found[verdict] ??= [];
      found[verdict].push(element);
    }
    expect(Object.fromEntries(Object.entries(found).map(([verdict, list]) => [verdict, list.length]))).toEqual(
      expected.counts,
    );
    expect(Object.keys(found).sort()).toEqual([...VERDICTS].sort());
    const { clear, ...others } = found;
    expect(Object.fromEntries(Object.entries(others).map(([verdict, list]) => [verdict, list.sort()]))).toEqual(
      expected.verdicts,
    );
    expect(elements).toHaveLength(expected.elements);
    expect(new Set(findings.map(({ elementId }) => elementId)).size).toBe(expected.elements);
  });

  it("notice one thing: a mezzanine whose deck is not settled and its own roof are two levels of the building", () => {
    expect(result.notices.map(({ code, params }) => [code, params.a, params.b])).toEqual([
      ["area.stacked", "Mezzanine deck", "Mezzanine roof"],
    ]);
  });

  it.each(expected.hand.map((hand) => [hand.element, hand] as const))("%s as worked out by hand", (label, hand) => {
    const found = findings.find(({ element, areas }) => element === label && areas[0] === hand.area);
    expect(found?.verdict).toBe(hand.verdict);
    const close = (a: number | undefined, b: number): void =>
      expect(Math.abs(a! - b), `${a}, expected ${b}`).toBeLessThanOrEqual(hand.withinIn ?? expected.toleranceIn);
    close(found!.leastIn!, hand.leastIn);
    close(found!.intervalIn![0], hand.intervalIn[0]);
    close(found!.intervalIn![1], hand.intervalIn[1]);
    expect(text("readme.md")).toContain(`**${label}**`);
  });

  it("change under an earlier edition only as expected", () => {
    for (const [edition, changes] of Object.entries(expected.changes)) {
      const before = verdictsOf(findings);
      const after = verdictsOf(checkJob(under(edition)).findings);
      const changed = [...after].filter(([label, list]) => `${list}` !== `${before.get(label)}`);
      expect(Object.fromEntries(changed.map(([label, list]) => [label, list.join()]))).toEqual(changes);
    }
  });
});

describe("every distance of the store, from a plain formula for each deck", () => {
  const measured = findings.filter((finding) => finding.leastIn !== null && finding.kind === "run");

  it("has enough to measure", () => {
    expect(measured.length).toBeGreaterThan(250);
    expect(new Set(measured.map(({ areas }) => areas[0])).size).toBe(Object.keys(decks).length);
  });

  it("agrees in distance, interval and verdict, run by run", () => {
    for (const finding of measured) {
      const run = runs.find(({ label }) => label === finding.element)!;
      const id = finding.areas[0]!;
      const plain = plainFinding(run, decks[id]!);
      const say = `${run.label} under ${id}: ${finding.leastIn}, plainly ${plain.least}`;
      // A curve is taken for chords that hold it: a little nearer than it is, never farther.
      const room = run.bends ? 0.0025 : 0;
      const short = plain.least - finding.leastIn!;
      expect(short, say).toBeGreaterThan(-1e-4);
      expect(short, say).toBeLessThan(1e-4 + room);
      if (plain.least < 0) continue;
      expect(Math.abs(finding.intervalIn![0] - (plain.least - plain.off)), `${say}, low`).toBeLessThan(1e-3 + room);
      expect(Math.abs(finding.intervalIn![1] - (plain.least + plain.off)), `${say}, high`).toBeLessThan(1e-3 + room);
      if (run.wiring.type === "rmc" || run.wiring.type === "imc" || id === "mezzanine") continue;
      const verdict =
        plain.least + plain.off < 1.5 ? "too-close" : plain.least - plain.off < 1.5 ? "borderline" : "clear";
      expect(finding.verdict, say).toBe(verdict);
    }
  });

  it("finds no other roof nearer to what is clear", () => {
    for (const finding of measured.filter(({ verdict }) => verdict === "clear")) {
      const run = runs.find(({ label }) => label === finding.element)!;
      for (const [id, deck] of Object.entries(decks)) {
        if (id === "mezzanine" || id === finding.areas[0]) continue;
        const { least } = plainFinding(run, deck);
        // Above a deck is not near it from below: the training room's lights over the roofs beside them.
        if (least >= 0) expect(least, `${run.label} near ${id}`).toBeGreaterThan(1.5);
      }
    }
  });

  it("reaches boxes by their corners", () => {
    for (const box of elements.filter((element): element is Box => element.kind === "box")) {
      const finding = findings.find(({ element, leastIn }) => element === box.label && leastIn !== null);
      if (!finding || finding.leastIn! < 0) continue;
      const deck = decks[finding.areas[0]!]!;
      const [cx, cy] = building(box.viewport)(box.at);
      const [wide, high] = BOX_SIZES[box.item]!;
      const z = axisAt(box.tag!, deck, [cx, cy], high / 2) + high / 2;
      // An octagon's corners are cut off: its flats reach as far, so slopes along x or y meet them all the same.
      const corners = [-1, 1].flatMap((a) => [-1, 1].map((b): P3 => [cx + (a * wide) / 2, cy + (b * wide) / 2, z]));
      const least = Math.min(...corners.map((corner) => nearest(corner, deck).distance));
      expect(Math.abs(finding.leastIn! - least), `${box.label}: ${finding.leastIn}, plainly ${least}`).toBeLessThan(
        0.01,
      );
    }
  });
});

/** Outside diameters, inches: EMT ANSI C80.3, RMC ANSI C80.1, IMC ANSI C80.6; MC, FMC and LFMC from memory, as the table has them. */
const OUTSIDE: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  emt: { "1/2": 0.706, "3/4": 0.922, "1": 1.163, "1-1/4": 1.51, "1-1/2": 1.74, "2": 2.197 },
  rmc: { "1": 1.315, "1-1/4": 1.66, "1-1/2": 1.9, "2": 2.375 },
  imc: { "1-1/4": 1.638 },
  mc: { "12/2": 0.52, "10/3": 0.63 },
  fmc: { "1/2": 0.92 },
  lfmc: { "3/4": 1.05 },
};
/** Width and depth of boxes, inches, from memory as the table has them. */
const BOX_SIZES: Readonly<Record<string, readonly [number, number]>> = {
  "4sq-2-1/8": [4, 2.125],
  "4oct-1-1/2": [4, 1.5],
  "4-11/16sq-2-1/8": [4.6875, 2.125],
};

const away = (a: P2, b: P2): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** A tag as the drawing writes it. */
function tagText({ length, datum, basis, plusMinus }: Tag): string {
  const long = formatLength(inches(length.value), "imperial");
  const surface = { bottom: "B.O.C.", centre: "C.L.", top: "T.O.C." }[basis];
  const off = plusMinus ? ` +/-${formatLength(inches(plusMinus.value), "imperial")}` : "";
  if (datum.from === "below-deck") return `${surface} ${long} BELOW DECK${off}`;
  if (datum.from === "project") return `EL. ${long}${off}`;
  if (datum.storey === "mezzanine") return `${surface} +${long} A.F.F. MEZZ.${off}`;
  return basis === "centre" ? `EL. ${long} AFF${off}` : `${surface} ${long} A.F.F.${off}`;
}

/** Elevation of the axis at a tag. */
function axisAt(tag: Tag, deck: Deck, at: P2, half: number): number {
  const value = tag.length.value;
  const shift = { bottom: half, centre: 0, top: -half }[tag.basis];
  if (tag.datum.from === "below-deck") return deck.z(at) - value + shift;
  const zero = tag.datum.from === "project" ? 0 : STORE_FLOORS[tag.datum.storey]!;
  return zero + value + shift;
}

/** The axis of a run point by point: straight in plan and in elevation between two tags, and round its bends where a radius is recorded. */
function axisOf(run: Run, deck: Deck, half: number): readonly P3[] {
  const plan = run.vertices.map(({ at }) => building(run.viewport)(at));
  const along = plan.map((_, i) => plan.slice(1, i + 1).reduce((sum, at, k) => sum + away(plan[k]!, at), 0));
  const tagged = run.vertices.flatMap(({ tag }, i) => (tag ? [{ i, z: axisAt(tag, deck, plan[i]!, half) }] : []));
  const traced = plan.map(([x, y], i): P3 => {
    const before = tagged.findLast((one) => one.i <= i)!;
    const after = tagged.find((one) => one.i >= i)!;
    const part = before === after ? 0 : (along[i]! - along[before.i]!) / (along[after.i]! - along[before.i]!);
    return [x, y, before.z + (after.z - before.z) * part];
  });
  const radius = run.bends?.is === "own" ? run.bends.length.value : 0;
  if (radius === 0) return traced;
  // Level corners of 90 degrees: a quarter of a circle that touches both legs a radius from the corner.
  return traced.flatMap((at, i): readonly P3[] => {
    const [before, after] = [traced[i - 1], traced[i + 1]];
    if (!before || !after) return [at];
    const way = (to: P3): P2 => {
      const long = away([at[0], at[1]], [to[0], to[1]]);
      return [((to[0] - at[0]) / long) * radius, ((to[1] - at[1]) / long) * radius];
    };
    const [u, v] = [way(before), way(after)];
    return Array.from({ length: 721 }, (_, k): P3 => {
      const angle = (k / 720) * (Math.PI / 2);
      const [c, s] = [1 - Math.sin(angle), 1 - Math.cos(angle)];
      return [at[0] + u[0] * c + v[0] * s, at[1] + u[1] * c + v[1] * s, at[2]];
    });
  });
}

/** Half the section of a run up and, where it is a rectangle, across; a round one reaches as far every way. */
function halfOf({ wiring }: Run): { readonly up: number; readonly across: number | null } {
  const { section } = wiring;
  if (section) return { up: section.height.value / 2, across: section.width.value / 2 };
  return { up: OUTSIDE[wiring.type]![wiring.tradeSize]! / 2, across: null };
}

/** Least distance of a run to a deck and how far that may be off, by looking along the run an inch at a time and then closer. */
function plainFinding(run: Run, deck: Deck): { least: number; off: number } {
  const { up: half, across } = halfOf(run);
  const points = axisOf(run, deck, half);
  const lengths = points.slice(1).map((to, i) => Math.hypot(...to.map((c, k) => c - points[i]![k]!)));
  const total = lengths.reduce((a, b) => a + b, 0);
  const first = run.vertices[0]!.tag!;
  /** What is looked at for a station: the axis of a round run, or both upper edges of a level rectangular one. */
  const axis = (station: number): readonly P3[] => {
    let left = station;
    for (const [i, long] of lengths.entries()) {
      if (left <= long || i === lengths.length - 1) {
        const t = Math.min(1, left / long);
        const [a, b] = [points[i]!, points[i + 1]!];
        const at: P3 = [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t, a[2] + (b[2] - a[2]) * t];
        if (across === null) return [at];
        const [dx, dy] = [((b[0] - a[0]) / long) * across, ((b[1] - a[1]) / long) * across];
        return [-1, 1].map((side): P3 => [at[0] - side * dy, at[1] + side * dx, at[2] + half]);
      }
      left -= long;
    }
    throw new Error("no station");
  };
  const radius = across === null ? half : 0;
  // Above the lowest surface somewhere: how far it reaches up counts.
  let up = Number.NEGATIVE_INFINITY;
  let best = { station: 0, distance: Number.POSITIVE_INFINITY, toward: [0, 0, 0] as P3 };
  const look = (station: number): void => {
    for (const point of axis(station)) {
      const { distance, toward } = nearest(point, deck);
      if (distance < best.distance) best = { station, distance, toward };
      if (deck.over([point[0], point[1]])) up = Math.max(up, (point[2] - deck.z([point[0], point[1]])) * deck.cos);
    }
  };
  const count = Math.ceil(total);
  for (let k = 0; k <= count; k++) look((total * k) / count);
  for (let step = total / count / 2; step > 1e-7; step /= 2) {
    const { station } = best;
    for (const at of [station - step, station + step]) if (at >= 0 && at <= total) look(at);
  }
  if (up > 0) return { least: -(up + radius), off: Number.NaN };
  const { toward, distance } = best;
  // Counted from the deck itself, a run is off by its tag alone.
  const tolerance = (first.plusMinus?.value ?? 0.125) + (first.datum.from === "below-deck" ? 0 : 0.125);
  const off = (tolerance * Math.abs(toward[2]) + Math.hypot(toward[0], toward[1])) / distance;
  return { least: distance - radius, off };
}
