import { readFileSync } from "node:fs";
import { isDeepStrictEqual } from "node:util";
import { describe, expect, it } from "vitest";
import { acceptAll } from "../../src/editor/said/accept.ts";
import type { DrawnWords } from "../../src/editor/said/drawn-words.ts";
import { suggestions } from "../../src/editor/said/suggest.ts";
import type { Assumed } from "../../src/editor/said/suggestion.ts";
import { type Element, tagsOf } from "../../src/job/elements/element.ts";
import { parseJobText } from "../../src/job/parse-job.ts";
import type { Job } from "../../src/job/schema.ts";
import { readWords } from "../../src/pdf/read/page-words.ts";
import { readPage } from "../../src/pdf/read/plan-reader.ts";
import { readLinework } from "../../src/pdf/read/read-linework.ts";
import { applyChecked } from "../job/apply-checked.ts";
import { withPlan } from "../pdf/read/open-bytes.ts";

// The samples are the truth here: each job was made from the same figures as its drawing, by another script than the one that reads.
const SAMPLES = ["riverside-workshop", "fennick-lane-store"] as const;

const read = new Map<string, Promise<{ job: Job; words: Readonly<Record<string, DrawnWords>> }>>();
const sample = (name: (typeof SAMPLES)[number]) => {
  const known = read.get(name) ?? readSample(name);
  read.set(name, known);
  return known;
};

async function readSample(name: string) {
  const parsed = parseJobText(readFileSync(`samples/${name}/job.json`, "utf8"));
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  const words: Record<string, DrawnWords> = {};
  await withPlan(new Uint8Array(readFileSync(`samples/${name}/${name}.pdf`)), async (plan) => {
    for (const [id, { page }] of Object.entries(parsed.value.sheets))
      words[id] = await readWords(await readPage(plan, page), await readLinework(plan, page));
  });
  return { job: parsed.value, words };
}

/** What the notes of the store's sheets say once for all: EL. is the centre line, C is EMT, other elevations are above the datum. */
const NOTES: Assumed = { basis: "centre", deckBasis: null, datum: { from: "project" }, type: "emt" };

describe.each(SAMPLES)("%s", (name) => {
  it("says nothing that its job contradicts, and has a text for every tag that is recorded", {
    timeout: 60_000,
  }, async () => {
    const { job, words } = await sample(name);
    const all = Object.entries(words).flatMap(([sheet, said]) => suggestions(job, sheet, said));
    expect(all.filter(({ state }) => state === "disagrees" || state === "offered").map(({ run }) => run.text)).toEqual(
      [],
    );
    const told = new Set(
      all
        .filter(({ kind, state }) => kind === "elevation" && state === "agrees")
        .flatMap(({ meanings }) => meanings.flatMap(({ target }) => ("vertex" in target ? [target.id] : []))),
    );
    const tagged = Object.entries(job.elements).filter(([, element]) =>
      tagsOf(element).some(({ tag }) => tag !== null),
    );
    expect(tagged.map(([id]) => id).filter((id) => !told.has(id))).toEqual([]);
  });

  it("gives its wiring back from the drawing alone, taken sheet by sheet", { timeout: 60_000 }, async () => {
    const { job, words } = await sample(name);
    let present = bare(job);
    for (const [sheet, said] of Object.entries(words)) {
      for (const kind of ["size", "elevation"] as const) {
        const edit = acceptAll(present, kind, suggestions(present, sheet, said, NOTES));
        if (edit.ok) present = applyChecked(present, edit.value);
      }
    }
    const wrong: string[] = [];
    const open: string[] = [];
    for (const [id, element] of Object.entries(job.elements)) {
      const [now, then] = [known(present.elements[id]!), known(element)];
      now.tags.forEach((tag, i) => {
        if (tag && !isDeepStrictEqual(tag, then.tags[i])) wrong.push(element.label);
      });
      if (!isDeepStrictEqual(now, then) && !wrong.includes(element.label)) open.push(element.label);
    }
    // Nothing is filled in that the drawing does not say of that very thing.
    expect(wrong).toEqual([]);
    expect(open.length, open.join(" ")).toBeLessThanOrEqual(LEFT[name]);
  });
});

/**
 * So many elements a person has to look at singly: two elevations in one line (TO), or at the ends of a run beside others; a riser that has both
 * of its own at one place; a section that is written in words.
 */
const LEFT: Readonly<Record<(typeof SAMPLES)[number], number>> = { "riverside-workshop": 1, "fennick-lane-store": 24 };

/** The job with its wiring as it is when it has just been followed: all of one size, and without tags. */
function bare(job: Job): Job {
  const elements = Object.fromEntries(
    Object.entries(job.elements).map(([id, element]) => {
      const untagged =
        "vertices" in element
          ? { ...element, vertices: element.vertices.map(({ at }) => ({ at, tag: null })) }
          : "tag" in element
            ? { ...element, tag: null }
            : element;
      return [
        id,
        "wiring" in untagged
          ? { ...untagged, wiring: { type: "emt", tradeSize: "3/4", outsideDiameter: null } }
          : untagged,
      ];
    }),
  );
  return { ...job, elements: elements as Job["elements"] };
}

/** What the drawing can say of an element: the tags at its ends, its type and size. */
const known = (element: Element) => ({
  tags: [tagsOf(element)[0]?.tag, tagsOf(element).at(-1)?.tag].map((tag) => (tag ? { ...tag, plusMinus: null } : null)),
  wiring: "wiring" in element ? [element.wiring.type, element.wiring.tradeSize] : [],
});
