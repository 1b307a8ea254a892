import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import type { Finding, Reason, Verdict } from "../../src/check/finding.ts";
import type { Quantity, QuantityKind } from "../../src/check/quantity.ts";
import { clearanceText, written } from "../../src/check/words.ts";
import { parseJobText } from "../../src/job/parse-job.ts";
import type { Job } from "../../src/job/schema.ts";
import type { UnitSystem } from "../../src/units/length.ts";
import { box, findingOf, findingsOf, inch, inchJob, rectangle, roof, run, tag } from "./inch-job.ts";

/**
 * Every number in the reasons follows from those below it, worked out here again by the rules a person would use on paper, from the numbers in
 * the tree alone. How near they have to come, inches: rounding, and for the vertical gap the little by which a sloping run's top differs from its side.
 */
const EXACT = 1e-6;
const NEARLY = 1e-3;

const jobs: readonly (readonly [string, Job])[] = [
  ...readdirSync("samples", { recursive: true, encoding: "utf8" })
    .filter((path) => /(^|[\\/])job\.json$/.test(path))
    .map((path) => `samples/${path}`),
  "docs/examples/hand-calculation.json",
].map((path) => {
  const parsed = parseJobText(readFileSync(path, "utf8"));
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  return [path, parsed.value] as const;
});

const childrenWith = (node: Reason, is: QuantityKind): Quantity[] =>
  node.children.flatMap(({ quantity }) => (quantity?.is === is ? [quantity] : []));
const child = (node: Reason, is: QuantityKind): number | undefined => childrenWith(node, is)[0]?.in;
const sum = (list: readonly Quantity[]): number => list.reduce((total, each) => total + each.in, 0);
const all = (node: Reason): Reason[] => [node, ...node.children.flatMap(all)];

/** What is wrong with the numbers of a tree; each with the step it is in. */
function faults(root: Reason, system: UnitSystem): string[] {
  const found: string[] = [];
  const must = (node: Reason, got: number, wanted: number, within: number): void => {
    if (!(Math.abs(got - wanted) <= within)) found.push(`${node.text}: says ${got}, but it comes to ${wanted}`);
  };
  for (const node of all(root)) {
    const { quantity, value = "" } = node;
    if (quantity) {
      const shown = [written(quantity.in, system), clearanceText(quantity.in, system), `${Math.abs(quantity.in)}`];
      // Taken off: shown without its sign. A slope is shown as it was typed, and by its angle.
      const unsigned = written(Math.abs(quantity.in), system);
      const isSlope = quantity.is === "fall" || value.startsWith("sloped");
      if (value && !isSlope && ![...shown, unsigned].some((text) => value.includes(text)))
        found.push(`${node.text}: shows ${value} for ${quantity.in}`);
      if (quantity.to !== undefined && !value.includes(clearanceText(quantity.to, system)))
        found.push(`${node.text}: shows ${value} up to ${quantity.to}`);
    }
    if (quantity?.is === "axis")
      must(
        node,
        quantity.in,
        sum([...childrenWith(node, "start"), ...childrenWith(node, "half-height")]) + quantity.given!,
        EXACT,
      );
    if (quantity?.is === "half-height" && quantity.in < 0 !== /to the top/.test(node.text))
      found.push(`${node.text}: counted ${quantity.in}`);
    if (quantity?.is === "lowest")
      must(
        node,
        quantity.in,
        child(node, "given")! + sum(childrenWith(node, "start")) - sum(childrenWith(node, "less")),
        EXACT,
      );
    if (quantity?.is === "lowest-there") {
      const spots = childrenWith(node, "spot");
      must(
        node,
        quantity.in,
        spots.reduce((total, spot) => total + spot.in * spot.share!, 0) +
          sum(childrenWith(node, "start")) -
          sum(childrenWith(node, "less")),
        EXACT,
      );
      must(
        node,
        spots.reduce((total, { share }) => total + share!, 0),
        1,
        EXACT,
      );
      for (const spot of node.children.filter((step) => step.quantity?.is === "spot"))
        if (!spot.text.includes(spot.quantity!.share!.toFixed(4))) found.push(`${spot.text}: another share`);
    }
    if (quantity?.is === "lowest" && value.startsWith("sloped"))
      must(node, Number.parseFloat(value.slice(7)), (Math.atan(child(node, "fall")!) * 180) / Math.PI, 0.005);
    if (node.children.some((step) => step.quantity?.is === "least")) judged(node, must, found);
  }
  return found;
}

/** A step that a verdict is told at: the distance, its interval, the sizes and tags beside it, and the verdict they lead to. */
function judged(
  node: Reason,
  must: (node: Reason, got: number, wanted: number, within: number) => void,
  found: string[],
): void {
  const least = node.children.find(({ quantity }) => quantity?.is === "least")!;
  const deck = node.children.find((step) => step.text.startsWith("Lowest surface"))!;
  const tags = node.children.filter(({ quantity }) => quantity?.is === "axis");
  const steepness = Math.hypot(1, child(deck, "fall") ?? 0);
  if (deck.quantity?.is === "lowest-there") must(deck, deck.quantity.in, child(least, "deck-there")!, EXACT);
  const drop = child(least, "deck-there")! - child(least, "element-there")!;
  const apart = child(least, "plan-apart") ?? 0;
  const radius = child(least, "stands-out") ?? 0;
  const vertical = child(least, "vertical");
  const between = Math.hypot(drop, apart);
  const amount = least.quantity!.in;
  if (amount >= 0) must(least, amount, between - radius, NEARLY);
  else {
    must(least, amount, vertical! / steepness, NEARLY);
    if (radius > 0) must(least, amount, -between - radius, NEARLY);
  }
  // Straight up from the axis, times the cosine, less the radius: where the nearest spot is inside the face.
  const inside =
    vertical !== null && vertical !== undefined && Math.abs(apart - drop * Math.sqrt(steepness ** 2 - 1)) < NEARLY;
  if (inside && amount >= 0) must(least, amount, (vertical! + radius) / steepness - radius, NEARLY);

  const size = node.children.find(({ quantity }) => quantity?.is === "diameter" || quantity?.is === "height");
  if (size?.quantity?.is === "diameter") must(least, radius, size.quantity.in / 2, EXACT);
  for (const tag of tags)
    for (const half of childrenWith(tag, "half-height")) must(tag, Math.abs(half.in), size!.quantity!.in / 2, EXACT);
  // Level wiring lies where its tag says.
  if (radius > 0 && tags.length === 1) must(least, child(least, "element-there")!, tags[0]!.quantity!.in, EXACT);

  const interval = least.children.find(({ quantity }) => quantity?.is === "interval");
  let [lo, hi] = [amount, amount];
  if (interval) {
    const upOrDown = child(interval, "slack-vertical") ?? 0;
    const inPlan = child(interval, "slack-plan") ?? 0;
    const ofTags = Math.max(0, ...tags.map((tag) => child(tag, "tolerance") ?? 0));
    // So much below this very deck: where the deck is off, so is the wiring.
    const hangs = interval.children.some(({ text }) => text.includes("counted from this deck"));
    must(interval, upOrDown, ofTags + (hangs ? 0 : (child(deck, "tolerance") ?? 0)), EXACT);
    const [up, out] = between > 1e-9 ? [Math.abs(drop) / between, apart / between] : [1 / steepness, 1];
    [lo, hi] = [interval.quantity!.in, interval.quantity!.to!];
    // A coupling may sit nearest: only the lower end knows of it.
    const beyond = child(interval, "stands-out-beyond") ?? 0;
    if (beyond > 0) must(interval, beyond, (child(node, "coupling")! - size!.quantity!.in) / 2, EXACT);
    must(interval, lo, amount - up * upOrDown - out * inPlan - beyond, NEARLY);
    must(interval, hi, amount + up * upOrDown + out * inPlan, NEARLY);
  }
  const required = child(node, "required")!;
  const byNumbers = lo >= required - EXACT ? "clear" : hi < required - EXACT ? "too close" : "borderline";
  const said = node.value ?? "";
  if (["clear", "too close", "borderline"].includes(said) && said !== byNumbers)
    found.push(`${node.text}: the verdict is ${said}, but the numbers come to ${byNumbers}`);
}

describe.each(jobs)("the reasons of %s", (_, job) => {
  const { system } = job.settings.job;
  const findings = checkJob(job).findings;
  it.each(findings.map((finding): [string, Finding] => [`${finding.element}: ${finding.verdict}`, finding]))(
    "follow from each other: %s",
    (_name, finding) => {
      expect(faults(finding.reasons, system).join("\n")).toBe("");
    },
  );

  it("lead from every distance of a finding down to what was read", () => {
    for (const { leastIn, requiredIn, intervalIn, reasons } of findings) {
      if (leastIn === null) continue;
      const nodes = all(reasons);
      const numbers = (is: QuantityKind) => nodes.flatMap(({ quantity }) => (quantity?.is === is ? [quantity] : []));
      expect(numbers("least").map((q) => q.in)).toContain(leastIn);
      expect(numbers("required").map((q) => q.in)).toContain(requiredIn);
      if (intervalIn && intervalIn[1] - intervalIn[0] > EXACT)
        expect(numbers("interval").map((q) => [q.in, q.to])).toContainEqual([...intervalIn]);
      expect(numbers("axis").length).toBeGreaterThan(0);
      expect([...numbers("lowest"), ...numbers("lowest-there")].length).toBeGreaterThan(0);
    }
  });
});

describe("the reasons of a deck through spots", () => {
  // Given to the top of a 1 1/2" deck, above Level 1: three of its spots, and how much of each counts, lead to the lowest surface.
  const spot = (x: number, y: number, z: number) => ({ at: [x, y] as const, elevation: inch(z) });
  const folded = (spots: ReturnType<typeof spot>[]) =>
    roof(0, {
      outline: rectangle(0, 0, 480, 240),
      elevation: {
        ...roof(0).elevation,
        datum: { from: "storey", storey: "level-1" },
        basis: "top-of-deck",
        plusMinus: inch(0.25),
        shape: { is: "spots", spots, ...(spots.length > 3 ? { lines: [{ between: [5, 6], kind: "ridge" }] } : {}) },
      },
    });
  const eaves = [spot(0, 0, 120), spot(480, 0, 120), spot(480, 240, 120), spot(0, 240, 120)];
  const hip = folded([...eaves, spot(120, 120, 160), spot(360, 120, 160)]);
  const plane = folded([spot(0, 0, 120), spot(480, 0, 130), spot(0, 240, 150)]);
  const base: Job = { ...inchJob(), storeys: { "level-1": { name: "Level 1", floor: inch(7) } } };
  const heights = [100, 120, 122.5, 124, 126, 127.5];
  it.each(heights.flatMap((z) => [["folded", hip, z] as const, ["one plane", plane, z] as const]))(
    "follow from each other: %s, %#",
    (_, area, z) => {
      for (const element of [
        run([
          [30, 20, z],
          [300, 110, z],
        ]),
        box(200, 50, tag(z + 12, "top")),
      ]) {
        const found = findingsOf({ a: area }, element, base).filter(({ leastIn }) => leastIn !== null);
        for (const { reasons } of found) {
          const shown = all(reasons).filter(({ quantity }) => quantity?.is === "lowest-there");
          expect(shown).toHaveLength(1);
          expect(faults(reasons, "imperial").join("\n")).toBe("");
          const wrong = JSON.parse(JSON.stringify(reasons).replaceAll('"share":0', '"share":1')) as Reason;
          expect(faults(wrong, "imperial").join()).toMatch(/comes to/);
        }
      }
    },
  );
});

describe("a run that rises through the deck", () => {
  it("is told by where it reaches farthest above, not by where it crosses", () => {
    // From 140 to 150 in 100": its end is 6" above the level surface at 144, its top 0.461" × 100.499/100 more.
    const rising = run([
      [100, 100, 140],
      [200, 100, 150],
    ]);
    const found = findingOf({ a: roof(144) }, rising);
    expect(found.leastIn).toBeCloseTo(-6 - 0.461 * Math.hypot(1, 0.1), 9);
    expect(found.verticalIn).toBeCloseTo(found.leastIn!, 9);
    const spots = all(found.reasons).flatMap(({ quantity }) =>
      quantity?.is === "element-there" || quantity?.is === "deck-there" ? [quantity.in] : [],
    );
    expect(spots).toEqual([150, 144]);
  });
});

describe("the walk above", () => {
  const [, job] = jobs.find(([path]) => path.startsWith("samples"))!;
  const findings = checkJob(job).findings;
  const number = (verdict: Verdict): Reason => findings.find((finding) => finding.verdict === verdict)!.reasons;
  /** The tree with one number of this kind changed, everywhere it stands. */
  const changed = (node: Reason, is: QuantityKind, by: number): Reason => ({
    ...node,
    ...(node.quantity?.is === is ? { quantity: { ...node.quantity, in: node.quantity.in + by } } : {}),
    children: node.children.map((step) => changed(step, is, by)),
  });

  it.each([
    "axis",
    "start",
    "tolerance",
    "lowest",
    "given",
    "least",
    "element-there",
    "deck-there",
    "stands-out",
    "vertical",
    "diameter",
    "interval",
    "slack-vertical",
  ] as const)("sees a wrong number: %s", (is) => {
    expect(faults(changed(number("too-close"), is, 0), "imperial").filter((each) => !each.includes("shows"))).toEqual(
      [],
    );
    const seen = findings.flatMap(({ reasons }) => faults(changed(reasons, is, 0.01), "imperial"));
    expect(seen.filter((each) => !each.includes("shows")).length).toBeGreaterThan(0);
  });

  it("sees a verdict that its numbers do not lead to", () => {
    const wrong = { ...number("borderline"), value: "clear" };
    expect(faults(wrong, "imperial").join()).toContain("come to borderline");
  });

  it("sees words that say another number", () => {
    const tree = number("too-close");
    const wrong = { ...tree, children: tree.children.map((step) => ({ ...step, value: '99"' })) };
    expect(faults(wrong, "imperial").join()).toContain('shows 99"');
  });
});
