import { describe, expect, it } from "vitest";
import { act } from "../../src/editor/acts.ts";
import { setElevation } from "../../src/editor/edits/areas.ts";
import { addRun, setTag } from "../../src/editor/edits/elements.ts";
import { addStorey } from "../../src/editor/edits/storeys.ts";
import { acceptAll, acceptMeaning } from "../../src/editor/said/accept.ts";
import { drawSaid } from "../../src/editor/said/draw-said.ts";
import type { DrawnScale, DrawnTag, DrawnWords } from "../../src/editor/said/drawn-words.ts";
import { bringBack, setAside } from "../../src/editor/said/set-aside.ts";
import { suggestions } from "../../src/editor/said/suggest.ts";
import { type Assumed, NOTHING_ASSUMED } from "../../src/editor/said/suggestion.ts";
import { takeScale } from "../../src/editor/said/take-scale.ts";
import { scaleReadings } from "../../src/job/registration.ts";
import type { Job } from "../../src/job/schema.ts";
import { elevationsIn } from "../../src/pdf/read/elevation-tags.ts";
import { runNoteIn } from "../../src/pdf/read/run-notes.ts";
import { inches, radians, sheetUnits } from "../../src/units/quantity.ts";
import { applyChecked } from "../job/apply-checked.ts";
import { AtWork } from "./at-work.ts";
import { EMT, furnished, valueIn } from "./sample-job.ts";

type At = readonly [number, number];
const EM = 8;
const inch = (value: number) => ({ value, unit: "in" }) as const;

/** A line of text, its letters half as wide as high. */
const run = (text: string, at: At, angle = 0) => ({
  text,
  at,
  angle: radians(angle),
  height: sheetUnits(EM),
  width: sheetUnits(text.length * 4),
});
interface More {
  /** Where the nearest drawn line is; left out: at the run r1, 200 up. */
  readonly line?: { readonly at: At; readonly ambiguous?: boolean; readonly byLeader?: boolean } | null;
  readonly above?: string;
  /** Which way it runs, radians; left out: from left to right. */
  readonly angle?: number;
}
const standing = ({ line = { at: [230, 200] }, above }: More) => ({
  above: above ?? null,
  heads: above !== undefined,
  line: line && { ambiguous: false, byLeader: false, ...line },
});

/** The words of a sheet on which these texts stand. */
function words(...texts: readonly (readonly [text: string, at: At, more?: More])[]): DrawnWords {
  return {
    tags: texts.flatMap(([text, at, more = {}]) =>
      elevationsIn(run(text, at, more.angle)).map((tag): DrawnTag => ({ ...tag, ...standing(more) })),
    ),
    notes: texts.flatMap(([text, at, more = {}]) => {
      const note = runNoteIn(run(text, at, more.angle));
      return note ? [{ ...note, ...standing(more), several: false }] : [];
    }),
    scales: [],
    text: "there",
  };
}
const LEVEL_1: Assumed = { ...NOTHING_ASSUMED, datum: { from: "storey", storey: "level-1" } };
const ceiling = (job: Job, said: DrawnWords, assumed = NOTHING_ASSUMED) => suggestions(job, "s-ceiling", said, assumed);
const roof = (job: Job, said: DrawnWords, assumed = NOTHING_ASSUMED) => suggestions(job, "s-roof", said, assumed);
const taken = (job: Job, one: ReturnType<typeof ceiling>[number], place = 0): Job =>
  applyChecked(job, valueIn(acceptMeaning(job, one, one.meanings[place]!)));
const tagsOfR1 = (job: Job) => {
  const element = job.elements.r1!;
  return "vertices" in element ? element.vertices.map(({ tag }) => tag) : [];
};

describe("an elevation beside a run", () => {
  const job = furnished();

  it("is offered for the run, and holds for all of it once it is taken", () => {
    const [one] = ceiling(job, words([`C.L. 14'-6" AFF`, [205, 204]]));
    expect(one).toMatchObject({ state: "offered", about: "wiring", meanings: [{ lacks: [] }] });
    const tag = { length: inch(174), datum: { from: "storey", storey: "level-1" }, basis: "centre", plusMinus: null };
    const after = taken(job, one!);
    expect(tagsOfR1(after)).toEqual([tag, tag, tag]);
    expect(ceiling(after, words([`C.L. 14'-6" AFF`, [205, 204]]))[0]!.state).toBe("agrees");
  });

  it("lacks what it does not say, until a person says it: nothing is filled in", () => {
    const said = words([`EL. 114'-6"`, [205, 204]]);
    const [one] = ceiling(job, said);
    expect(one!.meanings).toMatchObject([{ lacks: ["basis", "datum"], accept: null }]);
    expect(acceptMeaning(job, one!, one!.meanings[0]!)).toMatchObject({
      ok: false,
      problems: [{ code: "said.lacks" }],
    });
    expect(acceptAll(job, "elevation", [one!])).toMatchObject({ ok: false, problems: [{ code: "said.none" }] });
    const [told] = ceiling(job, said, { ...NOTHING_ASSUMED, basis: "bottom", datum: { from: "project" } });
    expect(tagsOfR1(taken(job, told!))[0]).toMatchObject({ datum: { from: "project" }, basis: "bottom" });
  });

  it("contradicts another elevation recorded there, and one that is the same counted from another floor agrees", () => {
    const second = applyChecked(job, addStorey(job, "upper", { name: "Upper", floor: inch(120) }));
    const high = {
      length: inch(54),
      datum: { from: "storey", storey: "upper" },
      basis: "top",
      plusMinus: null,
    } as const;
    const tagged = applyChecked(second, setTag(second, "r1", "all", high));
    const state = (text: string) =>
      ceiling(tagged, words([text, [205, 204]]), { ...LEVEL_1, datum: { from: "project" } })[0]!.state;
    expect(state(`TOP EL. 14'-6"`)).toBe("agrees");
    expect(state(`TOP EL. 14'-7"`)).toBe("disagrees");
    // The same figure to another surface is another elevation.
    expect(state(`C.L. EL. 14'-6"`)).toBe("disagrees");
  });

  it("counts from the storey that is named after it, and from none where that is no storey of the job", () => {
    const second = applyChecked(job, addStorey(job, "mezz", { name: "Mezzanine", floor: inch(149) }));
    const datum = (text: string) => {
      const [one] = ceiling(second, words([text, [205, 204]]));
      return (one!.meanings[0]!.read as { datum: unknown }).datum;
    };
    expect(datum(`C.L. +1'-3" A.F.F. MEZZ.`)).toEqual({ from: "storey", storey: "mezz" });
    expect(datum(`C.L. +1'-3" A.F.F. PENTHOUSE`)).toBe(null);
    // Of two storeys neither is meant before somebody says which.
    expect(datum(`C.L. 14'-6" AFF`)).toBe(null);
    expect(datum(`C.L. 4" BELOW DECK`)).toEqual({ from: "below-deck" });
  });

  it("is not sure where another drawn line is as near, or the nearest is none that is traced", () => {
    for (const line of [{ at: [230, 200], ambiguous: true }, { at: [230, 212] }] as const) {
      const [one] = ceiling(job, words([`C.L. 14'-6" AFF`, [205, 204], { line }]));
      expect(one).toMatchObject({ state: "unsure", meanings: [{ target: { id: "r1" } }] });
      expect(acceptAll(job, "elevation", [one!]).ok).toBe(false);
    }
    expect(ceiling(job, words([`C.L. 14'-6" AFF`, [205, 260]]))[0]).toMatchObject({ state: "loose", meanings: [] });
  });

  it("follows its leader however far that reaches", () => {
    const line = { at: [420, 220], byLeader: true } as const;
    const [one] = ceiling(job, words([`TOP 14'-6" AFF`, [500, 300], { line }]));
    expect(one).toMatchObject({ state: "offered", meanings: [{ target: { id: "b1" } }] });
    const [nowhere] = ceiling(job, words([`TOP 14'-6" AFF`, [205, 204], { line: { at: [600, 500], byLeader: true } }]));
    expect(nowhere!.state).toBe("loose");
  });

  it("is of one end where another says something else at the other end", () => {
    const two = words(
      [`C.L. 15'-0" AFF`, [202, 204]],
      [`C.L. 14'-0" AFF`, [296, 290], { line: { at: [300, 330] }, angle: Math.PI / 2 }],
    );
    const edit = valueIn(acceptAll(job, "elevation", ceiling(job, two)));
    expect(edit.name).toBe("Take 2 elevations from the drawing");
    expect(tagsOfR1(applyChecked(job, edit)).map((tag) => tag?.length.value)).toEqual([180, undefined, 168]);
  });

  it("is of one end, to be on the safe side, where what is written beside may be of it although it stands nearer to another line", () => {
    const beside = [`C.L. 14'-0" AFF`, [296, 290], { line: { at: [290, 330] }, angle: Math.PI / 2 }] as const;
    const edit = valueIn(acceptAll(job, "elevation", ceiling(job, words([`C.L. 15'-0" AFF`, [202, 204]], beside))));
    expect(tagsOfR1(applyChecked(job, edit)).map((tag) => tag?.length.value)).toEqual([180, undefined, undefined]);
  });

  it("asks which end is which where one line gives two", () => {
    const found = ceiling(job, words([`C.L. 15'-8" TO 15'-4" AFF`, [202, 204]]));
    expect(found.map(({ state, meanings }) => [state, meanings.map(({ target }) => target)])).toEqual(
      [0, 1].map(() => ["unsure", [0, 2].map((vertex) => ({ is: "element", id: "r1", vertex }))]),
    );
    const first = taken(job, found[0]!, 1);
    expect(tagsOfR1(first).map((tag) => tag?.length.value)).toEqual([undefined, undefined, 188]);
  });
});

describe("labels in texts", () => {
  /** Two runs side by side, 12 apart, and their notes between them. */
  const beside = () => {
    let job = furnished();
    for (const [i, y] of [500, 512, 700].entries())
      job = applyChecked(
        job,
        addRun(job, `x${i}`, {
          viewport: "v-ceiling",
          wiring: EMT,
          vertices: [
            { at: [100, y], tag: null },
            { at: [600, y], tag: null },
          ],
        }),
      );
    return job;
  };
  const note = (label: string, y: number) => [`${label} C.L. 14'-${y % 10}" AFF`, [110, y], { line: null }] as const;

  it("count where most of them stand at what they name", () => {
    const job = beside();
    const said = words(note("R-2", 492), note("R-4", 703), note("R-3", 504));
    const ids = ceiling(job, said).map(({ state, meanings }) => [
      state,
      meanings.map(({ target }) => "id" in target && target.id),
    ]);
    expect(ids).toEqual([
      ["offered", ["x0"]],
      ["offered", ["x2"]],
      ["offered", ["x1"]],
    ]);
  });

  it("do not where the job calls its runs otherwise than the drawing", () => {
    const job = beside();
    const found = ceiling(job, words(note("R-4", 492), note("R-2", 703), note("R-3", 503)));
    expect(found.filter(({ state }) => state === "offered")).toEqual([]);
  });
});

describe("an elevation in a deck area", () => {
  const job = furnished();

  it("is that of the deck, with the surface the line above names", () => {
    const said = words([`T.O. DECK 16'-0"`, [200, 250]]);
    const [one] = roof(job, said, LEVEL_1);
    expect(one).toMatchObject({ state: "offered", about: "roof", meanings: [{ target: { is: "area", id: "a1" } }] });
    expect(taken(job, one!).areas.a1!.elevation).toMatchObject({
      basis: "top-of-deck",
      datum: { from: "storey", storey: "level-1" },
      shape: { is: "level", at: inch(192) },
    });
  });

  it("is none where a ceiling, a parapet or two elevations of one deck are written", () => {
    const steel = applyChecked(job, setElevation(job, "a1", { shape: { is: "level", at: inch(192) } }));
    // Top of steel at 16'-0" and top of deck at 16'-1 1/2" may both be true.
    expect(roof(steel, words([`T.O. DECK 16'-1 1/2"`, [200, 250]]), LEVEL_1)[0]!.state).toBe("loose");
    expect(roof(job, words([`9'-0" AFF`, [200, 250]]), LEVEL_1)[0]!.state).toBe("loose");
    expect(roof(job, words([`TOP OF WALL EL. 19'-0"`, [200, 250]]), LEVEL_1)[0]!.state).toBe("loose");
    const two = roof(job, words([`T.O.S. 16'-0"`, [200, 350]], [`T.O.S. 15'-0"`, [200, 150]]), LEVEL_1);
    expect(two.map(({ state }) => state)).toEqual(["unsure", "unsure"]);
  });

  it("is compared with what a slope comes to there", () => {
    // 1/4" = 1'-0": 18 units a foot. 10 feet down the slope of 1/4" per foot the deck is 2 1/2" lower.
    const sloped = applyChecked(
      job,
      setElevation(job, "a1", {
        shape: {
          is: "slope",
          at: inch(192),
          point: [300, 400],
          towards: [300, 100],
          rise: 1 / 48,
          text: `1/4" per foot`,
        },
      }),
    );
    const state = (text: string, y: number) =>
      roof(sloped, words([text, [200, y]]), { ...LEVEL_1, datum: { from: "project" } })[0]!.state;
    expect(state(`T.O.S. 16'-0"`, 390)).toBe("agrees");
    expect(state(`T.O.S. 15'-9 1/2"`, 220)).toBe("agrees");
    expect(state(`T.O.S. 15'-6"`, 220)).toBe("disagrees");
    // Of another surface nothing is said.
    expect(state(`T.O. DECK 15'-6"`, 220)).toBe("loose");
  });

  it("is that of the spot it stands at", () => {
    const spots = ([150, 300, 450] as const).map((x) => ({ at: [x, 250] as const, elevation: null }));
    const bySpots = applyChecked(job, setElevation(job, "a1", { shape: { is: "spots", spots } }));
    const [one] = roof(bySpots, words([`T.O.S. 16'-0"`, [306, 252]]), LEVEL_1);
    expect(one!.meanings).toMatchObject([{ target: { is: "area", id: "a1", spot: 1 } }]);
    expect(taken(bySpots, one!).areas.a1!.elevation.shape).toMatchObject({
      spots: [{ elevation: null }, { elevation: inch(192) }, { elevation: null }],
    });
    expect(roof(bySpots, words([`T.O.S. 16'-0"`, [200, 350]]), LEVEL_1)[0]!.state).toBe("loose");
  });

  it("is the floor of the storey its line names", () => {
    const [one] = roof(job, words([`LEVEL 1 EL. 100'-0"`, [800, 800]]));
    expect(one).toMatchObject({ state: "disagrees", meanings: [{ target: { is: "storey", id: "level-1" } }] });
    expect(taken(job, one!).storeys["level-1"]!.floor).toEqual(inch(1200));
  });
});

describe("a size beside a run", () => {
  const job = furnished();
  const size = (text: string, assumed = NOTHING_ASSUMED) => ceiling(job, words([text, [205, 204]]), assumed)[0]!;
  const wiring = (after: Job) => (after.elements.r1 as { wiring?: unknown }).wiring;

  it("agrees, or is set with its type", () => {
    expect(size(`3/4" EMT`).state).toBe("agrees");
    expect(size(`3/4"C`).state).toBe("agrees");
    expect(wiring(taken(job, size(`1 1/4" GRC`)))).toMatchObject({ type: "rmc", tradeSize: "1-1/4" });
    expect(wiring(taken(job, size("MC 12/2")))).toMatchObject({ type: "mc", tradeSize: "12/2" });
  });

  it("keeps the type that is recorded where C says none, unless a person says what C is", () => {
    expect(size(`1"C`).meanings[0]!.read).toEqual({ is: "wiring", type: null, tradeSize: "1" });
    expect(wiring(taken(job, size(`1"C`)))).toMatchObject({ type: "emt", tradeSize: "1" });
    expect(wiring(taken(job, size(`1"C`, { ...NOTHING_ASSUMED, type: "imc" })))).toMatchObject({ type: "imc" });
    // No tubing of that size: the type has to be said.
    expect(size(`6"C`).meanings).toMatchObject([{ lacks: ["type"], accept: null }]);
  });

  it("is not taken with others where two are written for one run", () => {
    const two = ceiling(job, words([`1" EMT`, [205, 204]], [`1 1/4" EMT`, [250, 204]]));
    expect(two.map(({ state }) => state)).toEqual(["disagrees", "disagrees"]);
    expect(acceptAll(job, "size", two).ok).toBe(false);
  });

  it("is text only where it gives conductors alone", () => {
    expect(size("2#10, 1#10G")).toMatchObject({ kind: "conductors", state: "loose" });
  });
});

describe("what a person does with it", () => {
  const said = words([`C.L. 14'-6" AFF`, [205, 204]], [`1" EMT`, [205, 180], { line: { at: [230, 200] } }]);
  const at = () => {
    const work = new AtWork(furnished());
    work.session.setSheet("s-ceiling");
    work.session.setStage("wiring");
    work.session.setWords("s-ceiling", said);
    return work;
  };
  const can = (work: AtWork, id: string) => act(id).enabled(work.state);

  it("goes from one to the next, takes one and is at the one after it", () => {
    const work = at();
    expect(can(work, "accept-suggestion")).toBe(false);
    act("next-suggestion").run(work.session);
    expect(work.state.said).toMatch(/^(size|elevation)/);
    const first = work.state.said;
    expect(can(work, "accept-suggestion")).toBe(true);
    act("accept-suggestion").run(work.session);
    expect(work.state.said).not.toBe(first);
    act("accept-suggestion").run(work.session);
    expect(work.state.said).toBe(null);
    expect(work.state.undo).toHaveLength(2);
    expect(can(work, "next-suggestion")).toBe(false);
  });

  it("sets one aside for this job, and brings it back", () => {
    const job = furnished();
    const [one] = ceiling(job, said);
    const without = applyChecked(job, setAside(job, "s-ceiling", one!));
    expect(without.sheets["s-ceiling"]!.setAside).toEqual([{ text: one!.text, at: expect.anything() }]);
    expect(ceiling(without, said)).toHaveLength(ceiling(job, said).length - 1);
    const back = applyChecked(without, bringBack(without, "s-ceiling"));
    expect(ceiling(back, said)).toHaveLength(ceiling(job, said).length);
  });

  it("draws them round the texts, at the stages that are about them only", () => {
    const work = at();
    const count = () => drawSaid(work.session.getState()).length;
    expect(count()).toBeGreaterThan(0);
    work.session.setStage("check");
    expect(count()).toBe(0);
    work.session.setStage("wiring");
    const before = count();
    work.session.choose(`nothing`);
    expect(count()).toBe(before);
  });

  it("does not take what another sheet says", () => {
    const work = at();
    work.session.setSheet("s-roof");
    expect(can(work, "next-suggestion")).toBe(false);
    expect(work.session.draft()).toEqual([]);
  });
});

describe("a scale that something on the sheet tells", () => {
  const job = furnished();
  const drawn = (more: Partial<DrawnScale>): DrawnScale => ({
    kind: "note",
    text: `1/8" = 1'-0"`,
    ratio: 96,
    place: [0, 0],
    region: [0, 0, 1728, 1296],
    of: null,
    measured: false,
    doubts: [],
    stretch: null,
    ...more,
  });

  it("is stated where it is claimed, measured where it is drawn, and says which in the job", () => {
    const stated = applyChecked(job, takeScale(job, "v-roof", drawn({})));
    expect(stated.viewports["v-roof"]!.scale).toEqual({
      stated: { text: `1/8" = 1'-0"`, ratio: 96, source: "note" },
      measured: null,
      use: "stated",
    });
    const stretch = {
      ends: [
        [100, 100],
        [244, 100],
      ],
      length: inches(192),
    } as const;
    const measured = applyChecked(
      stated,
      takeScale(stated, "v-roof", drawn({ kind: "dimensions", ratio: 96.04, measured: true, stretch })),
    );
    const viewport = measured.viewports["v-roof"]!;
    expect(viewport.scale).toMatchObject({ use: "measured", measured: { source: "dimensions" } });
    // 144 points are 2 in. of paper.
    expect(scaleReadings(measured.sheets["s-roof"]!, viewport)).toMatchObject({ measured: 96, stated: 96 });
  });
});
