import type { CheckResult, Finding, Verdict } from "../../src/check/finding.ts";
import { VERDICTS } from "../../src/check/finding.ts";
import type { RunProfile } from "../../src/check/run-profile.ts";
import type { Element } from "../../src/job/elements/element.ts";
import type { Tag } from "../../src/job/fields.ts";
import { type Area, emptyJob, type Job } from "../../src/job/schema.ts";
import type { SettledAs } from "../../src/job/storey-outline.ts";

/** Nothing here lies in concrete, and no fittings are listed steel. */
const FACTS = { steelFittings: false, inConcrete: false, concreteThickness: null, accessible: true };

/** A small invented building for the pictures: a roof sheet, a wiring sheet registered to it, and every verdict once. */

type Spot = [number, number];
const PAGE: [number, number, number, number] = [0, 0, 1224, 792];
const inch = (value: number) => ({ value, unit: "in" as const });

const tag = (value: number, basis: Tag["basis"] = "centre"): Tag => ({
  length: inch(value),
  datum: { from: "storey", storey: "level-1" },
  basis,
  plusMinus: null,
});

function area(label: string, is: SettledAs, outline: Spot[], shape: Area["elevation"]["shape"]): Area {
  return {
    label,
    viewport: "framing",
    outline,
    holes: [],
    classification: { is, reason: "", by: "" },
    deck: { profile: "wide-rib-1-1/2", depth: null, concreteCover: { is: "none" } },
    elevation: {
      datum: { from: "project" },
      basis: "top-of-steel",
      layers: [],
      shape,
      plusMinus: null,
    },
  };
}

const run = (label: string, type: string, tradeSize: string, vertices: [Spot, Tag | null][]): Element => ({
  kind: "run",
  label,
  viewport: "ceiling",
  wiring: { type, tradeSize, outsideDiameter: null },
  vertices: vertices.map(([at, t]) => ({ at, tag: t })),
  facts: FACTS,
});

const box = (label: string, at: Spot, z: number): Element => ({
  kind: "box",
  label,
  viewport: "ceiling",
  at,
  item: "4sq-2-1/8",
  size: null,
  cover: "down",
  rotationDeg: 0,
  tag: tag(z, "top"),
  facts: FACTS,
});

/** The job. Both sheets are 17 x 11 in. at 1/8" = 1'-0"; the wiring sheet lies 40 units right of the roof sheet. */
export function sampleJob(): Job {
  const job = emptyJob("Tern Street Workshop", "us-2026");
  const sheet = (title: string, page: number) => ({
    title,
    file: { sha256: "0".repeat(63) + page, name: "tern-street.pdf", bytes: 1000 },
    page,
    view: PAGE,
    rotate: 0 as const,
    userUnit: 1,
  });
  const viewport = (sheetId: string, name: string) => ({
    sheet: sheetId,
    name,
    region: null,
    storey: "level-1",
    scale: { stated: { text: `1/8" = 1'-0"`, ratio: 96 }, measured: null, use: "stated" as const },
    registration: null,
  });
  return {
    ...job,
    settings: { job: { ...job.settings.job, editionBy: "Town of Ternmouth, building department" } },
    sheets: { "roof-sheet": sheet("S-201 Roof framing", 1), "wiring-sheet": sheet("E-301 Ceiling wiring", 2) },
    viewports: {
      framing: viewport("roof-sheet", "Roof framing plan"),
      ceiling: {
        ...viewport("wiring-sheet", "Ceiling plan"),
        registration: {
          to: "framing",
          pairs: [
            { label: "A/1", here: [190, 150], there: [150, 150] },
            { label: "D/5", here: [730, 510], there: [690, 510] },
          ],
        },
      },
    },
    areas: {
      "roof-a": area(
        "Roof A",
        "roof",
        [
          [150, 150],
          [450, 150],
          [450, 510],
          [150, 510],
        ],
        {
          is: "slope",
          at: inch(170),
          point: [160, 330],
          towards: [260, 330],
          rise: 1 / 96,
          text: '1/8" per foot',
        },
      ),
      "roof-b": area(
        "Roof B",
        "roof",
        [
          [450, 150],
          [690, 150],
          [690, 330],
          [450, 330],
        ],
        {
          is: "spots",
          spots: [
            { at: [470, 170], elevation: inch(168) },
            { at: [670, 170], elevation: inch(166) },
            { at: [570, 310], elevation: inch(167.5) },
          ],
        },
      ),
      "floor-c": area(
        "Floor C",
        "floor-above",
        [
          [450, 330],
          [690, 330],
          [690, 430],
          [450, 430],
        ],
        {
          is: "level",
          at: inch(168),
        },
      ),
      "canopy-d": area(
        "Canopy D",
        "not-settled",
        [
          [450, 430],
          [690, 430],
          [690, 510],
          [450, 510],
        ],
        {
          is: "level",
          at: null,
        },
      ),
    },
    elements: {
      "r-1": run("R-1", "emt", "3/4", [
        [[220, 200], tag(164)],
        [[460, 200], tag(164.5)],
        [[460, 300], null],
        [[690, 300], tag(160)],
      ]),
      "r-2": run("R-2", "emt", "2", [
        [[220, 240], tag(150)],
        [[420, 240], tag(150)],
      ]),
      "r-3": run("R-3", "rmc", "1-1/2", [
        [[520, 360], tag(166.5)],
        [[700, 360], tag(166.5)],
      ]),
      "r-4": run("R-4", "mc", "12/2", [
        [[520, 470], tag(166)],
        [[700, 490], tag(166)],
      ]),
      "r-5": run("R-5", "emt", "1", [
        [[260, 470], tag(162)],
        [[340, 380], tag(163)],
        [[440, 380], tag(163)],
      ]),
      "b-1": box("B-1", [460, 200], 165.25),
      "b-2": box("B-2", [472, 214], 165.75),
      "b-3": box("B-3", [460, 228], 163),
      "f-1": {
        kind: "fitting",
        label: "F-1",
        viewport: "ceiling",
        at: [690, 300],
        item: "conduit-body",
        tradeSize: "1",
        size: null,
        rotationDeg: 30,
        tag: null,
        facts: FACTS,
      },
    },
  };
}

interface Said {
  readonly element: string;
  readonly id: string;
  readonly kind: string;
  readonly verdict: Verdict;
  readonly at: Spot;
  readonly least: number | null;
  readonly stretches?: { fromIn: number; toIn: number }[];
  readonly areas?: string[];
}

const SAID: readonly Said[] = [
  { element: "B-1", id: "b-1", kind: "box", verdict: "too-close", at: [460, 200], least: 0.5 },
  { element: "B-2", id: "b-2", kind: "box", verdict: "concealed", at: [472, 214], least: 0 },
  { element: "B-3", id: "b-3", kind: "box", verdict: "entry-unprotected", at: [460, 228], least: null },
  { element: "F-1", id: "f-1", kind: "fitting", verdict: "cannot-tell", at: [690, 300], least: null },
  {
    element: "R-1",
    id: "r-1",
    kind: "run",
    verdict: "too-close",
    at: [430, 200],
    least: 0.875,
    stretches: [
      { fromIn: 148, toIn: 228 },
      { fromIn: 320, toIn: 400 },
    ],
    areas: ["roof-a", "roof-b"],
  },
  { element: "R-2", id: "r-2", kind: "run", verdict: "clear", at: [420, 240], least: 14.2 },
  { element: "R-3", id: "r-3", kind: "run", verdict: "not-governed", at: [600, 360], least: 0.6 },
  { element: "R-4", id: "r-4", kind: "run", verdict: "cannot-tell", at: [610, 480], least: null },
  {
    element: "R-5",
    id: "r-5",
    kind: "run",
    verdict: "borderline",
    at: [300, 425],
    least: 1.5,
    stretches: [{ fromIn: 40, toIn: 120 }],
  },
];

/** Findings as the check would number them, one of every verdict. */
export function sampleResult(): CheckResult {
  let number = 0;
  const findings = SAID.map((said): Finding => {
    const quiet = said.verdict === "clear" || said.verdict === "not-governed";
    const areas = said.areas ?? ["roof-a"];
    return {
      number: quiet ? null : ++number,
      element: said.element,
      elementId: said.id,
      kind: said.kind,
      verdict: said.verdict,
      section: said.verdict === "entry-unprotected" ? "300.6(G)" : "300.6(E)",
      edition: "2026",
      requiredIn: 1.5,
      leastIn: said.least,
      intervalIn: said.least === null ? null : [Math.max(0, said.least - 0.25), said.least + 0.25],
      verticalIn: said.least,
      sheet: "wiring-sheet",
      at: said.at,
      areas,
      stretches: said.stretches ?? [],
      reasons: {
        text: `${said.element} against the lowest surface of the deck`,
        children: [
          {
            text: "Least distance, square to the deck",
            value: said.least === null ? "not known" : `${said.least}"`,
            children: [
              { text: "Tag at the vertex", value: `centre 13'-9" AFF`, source: "traced on E-301", children: [] },
              { text: "Outside diameter", value: '0.922"', source: "ANSI C80.3, as tabled", children: [] },
              {
                text: `Lowest surface of ${areas[0]}: stated as top of steel, on which the deck bears, so the lowest surface lies at the stated elevation`,
                value: `el. 14'-2"`,
                source: "traced on S-201",
                children: [],
              },
            ],
          },
          { text: "Required clearance", value: '1 1/2"', source: "300.6(E), 2026 edition", children: [] },
          {
            text: "Exception for RMC and IMC",
            value: "does not apply",
            children: [{ text: "Wiring is EMT", children: [] }],
          },
        ],
      },
      remedies: quiet
        ? []
        : [
            { kind: "lower", text: `Lower the tag of ${said.element} to 13'-8 3/8" centre.`, byIn: 0.625 },
            { kind: "change-wiring", text: "Use RMC or IMC with listed steel fittings, and record it." },
          ],
    };
  });
  const counts = Object.fromEntries(
    VERDICTS.map((verdict) => [verdict, findings.filter((finding) => finding.verdict === verdict).length]),
  ) as Record<Verdict, number>;
  return { findings, counts, notices: [], advisories: [] };
}

/** A profile made by hand: two roofs, a floor, a stretch of two verdicts. */
export function sampleProfile(elementId: string): RunProfile {
  const line = (a: number, za: number, b: number, zb: number) => ({
    from: { station: a, z: za },
    to: { station: b, z: zb },
  });
  return {
    elementId,
    label: "R-1",
    system: "imperial",
    requiredIn: 1.5,
    lengthIn: 760,
    radiusIn: 0.461,
    axis: [line(0, 165, 320, 165.5), line(320, 165.5, 453.4, 163.8), line(453.4, 163.8, 760, 160)],
    decks: [
      {
        areaId: "roof-a",
        label: "Roof A",
        is: "roof",
        underside: line(0, 170, 307, 166.3),
        limit: line(0, 168.5, 307, 164.8),
        depthIn: 1.5,
        fluted: true,
      },
      {
        areaId: "roof-b",
        label: "Roof B",
        is: "roof",
        underside: line(307, 168, 700, 166.8),
        limit: line(307, 166.5, 700, 165.3),
        depthIn: 1.5,
        fluted: true,
      },
      {
        areaId: "floor-c",
        label: "Floor C",
        is: "floor-above",
        underside: line(700, 166, 760, 166),
        depthIn: 3,
        fluted: false,
      },
    ],
    stretches: [
      { fromIn: 230, toIn: 307, verdict: "too-close", number: 5 },
      { fromIn: 307, toIn: 330, verdict: "borderline", number: 6 },
    ],
    vertices: [
      { index: 0, station: 0, z: 165, tag: `centre 13'-9" AFF` },
      { index: 1, station: 320, z: 165.5, tag: `centre 13'-9 1/2" AFF` },
      { index: 2, station: 453.4, z: 163.8, tag: null },
      { index: 3, station: 760, z: 160, tag: `centre 13'-4" AFF` },
    ],
  };
}
