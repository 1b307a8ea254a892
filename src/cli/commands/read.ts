import { basename } from "node:path";
import type { Point2 } from "../../geometry/point.ts";
import type { FoundGrid } from "../../pdf/read/find-grid.ts";
import type { LineworkCounts } from "../../pdf/read/linework-counts.ts";
import { displaySize } from "../../pdf/read/page-geometry.ts";
import type { PageContents, PlanContents, TextRun } from "../../pdf/read/plan-contents.ts";
import { readPlan } from "../../pdf/read/plan-reader.ts";
import { type FoundViewport, readViewports } from "../../pdf/read/read-viewports.ts";
import { readSheetIndex, type SheetIndex } from "../../pdf/read/sheet-index.ts";
import type { SlopeArrow } from "../../pdf/read/slope-arrows.ts";
import { sha256 } from "../../store/sha256.ts";
import { readBytes } from "../files.ts";
import { accept } from "../load-job.ts";
import { problemText } from "../messages.ts";
import type { Outcome } from "../outcome.ts";
import { openDrawing } from "../pdf-engine.ts";
import { type Drawn, disagreements, drawnAsJson, placeOf, readDrawn, rounded } from "../read-drawn.ts";

/** What `read` may be told. */
export interface ReadCommandOptions {
  readonly format: "text" | "json";
  readonly password?: string;
  /** In JSON: every line of text with its place, too. */
  readonly texts?: boolean;
}

/** `read PLAN.pdf`: what a drawing offers. What is odd about it is told as messages. */
export async function readCommand(path: string, { format, password, texts }: ReadCommandOptions): Promise<Outcome> {
  const bytes = await readBytes(path);
  const identity = { file: basename(path), sha256: await sha256(bytes), bytes: bytes.length };
  // Before pdf.js, which takes the bytes over. What cannot be read here pdf.js reports in its own words.
  const viewports = readViewports(bytes, password);
  const boxes = viewports.ok ? viewports.value : [];
  const plan = accept(await openDrawing(bytes, { name: path, password }));
  try {
    const contents = await readPlan(plan);
    const { drawn, warnings } = await readDrawn(plan, contents.pages, boxes);
    const index = await readSheetIndex(plan);
    const all = { ...contents, warnings: [...contents.warnings, ...warnings] };
    return {
      out:
        format === "json"
          ? asJson(identity, all, drawn, boxes, index, texts ?? false)
          : asText(identity, all, drawn, boxes, index),
      messages: all.warnings.map(problemText),
      status: 0,
    };
  } finally {
    await plan.close();
  }
}

interface Identity {
  readonly file: string;
  readonly sha256: string;
  readonly bytes: number;
}

/** A viewport in one line: its name and what it says of its scale. */
function viewportText({ name, box, measure }: FoundViewport): string {
  const scale = measure?.ratio === undefined ? "no scale that can be read" : `1:${rounded(measure.ratio)}`;
  return `${name || `at ${box.map(rounded).join(" ")}`}: ${measure?.text ? `${measure.text}, ` : ""}${scale}`;
}

const place = ({ at }: TextRun): Point2 => placeOf(at);

function asJson(
  identity: Identity,
  { pages, layers, warnings }: PlanContents,
  drawn: ReadonlyMap<number, Drawn>,
  viewports: readonly FoundViewport[],
  index: SheetIndex,
  withTexts: boolean,
): string {
  const read = {
    program: "underside",
    ...identity,
    pages: pages.map((page) => ({
      page: page.geometry.page,
      label: page.label,
      ...sheetAsJson(page, index),
      paperIn: paperSize(page),
      view: page.geometry.view.map(rounded),
      rotate: page.geometry.rotate,
      userUnit: page.geometry.userUnit,
      viewports: viewports
        .filter((viewport) => viewport.page === page.geometry.page)
        .map(({ name, box, measure }) => ({ name, box: box.map(rounded), measure: measure ?? null })),
      scaleNotes: page.scaleNotes.map(({ text, ratio, kind, run }) => ({ text, ratio, kind, at: place(run) })),
      elevations: page.elevations.map(({ text, words, above, value, run }) => ({
        text,
        words,
        above,
        value,
        at: place(run),
      })),
      slopes: page.slopes.map(({ text, rise, run }, i) => ({
        text,
        rise,
        at: place(run),
        ...arrowAsJson(drawn.get(page.geometry.page)?.slopeArrows[i] ?? null),
      })),
      mirroredTexts: page.mirrored?.length ?? 0,
      grids: (drawn.get(page.geometry.page)?.grids ?? []).map(({ axes }) => ({
        axes: axes.map(({ label, line, bubbles }) => ({
          label,
          from: placeOf(line[0]),
          to: placeOf(line[1]),
          bubbles: bubbles.map(({ centre, radius }) => ({ at: placeOf(centre), radius: rounded(radius) })),
        })),
      })),
      ...drawnAsJson(drawn.get(page.geometry.page)),
      layers: (drawn.get(page.geometry.page)?.layers ?? []).map(
        (used) => layers.find(({ id }) => id === used)?.name ?? used,
      ),
      linework: drawn.get(page.geometry.page)?.linework ?? null,
      ...(withTexts ? { texts: page.texts.map((run) => ({ text: run.text, at: place(run) })) } : {}),
    })),
    duplicates: index.duplicates,
    gaps: index.gaps,
    layers: layers.map(({ name, shown }) => ({ name, shown })),
    warnings,
  };
  return `${JSON.stringify(read, null, 2)}\n`;
}

/** The arrow beside a slope, which points down it on most roof plans; a person confirms that. */
const arrowAsJson = (arrow: SlopeArrow | null) => ({
  arrow: arrow && { tail: placeOf(arrow.tail), tip: placeOf(arrow.tip) },
});

/** What the title block says, and the marks already there. */
function sheetAsJson({ geometry }: PageContents, { sheets }: SheetIndex) {
  const sheet = sheets.find(({ page }) => page === geometry.page);
  return { number: sheet?.number ?? null, name: sheet?.name ?? null, annotations: sheet?.annotations ?? {} };
}

/** Width and height of the paper as displayed, inches. */
function paperSize({ geometry }: PageContents): readonly [number, number] {
  const { width, height } = displaySize(geometry);
  return [rounded(width / 72), rounded(height / 72)];
}

function asText(
  { file, sha256: hash }: Identity,
  { pages, layers }: PlanContents,
  drawn: ReadonlyMap<number, Drawn>,
  viewports: readonly FoundViewport[],
  index: SheetIndex,
): string {
  const lines = [file, `SHA-256 ${hash}`];
  for (const page of pages) {
    const [width, height] = paperSize(page);
    lines.push(
      "",
      `Page ${page.geometry.page}${page.label ? `, ${page.label}` : ""}: ${width} x ${height} in.${sheetName(page, index)}`,
    );
    lines.push(
      ...list(
        "Scale notes",
        page.scaleNotes.map(({ text }) => text),
      ),
    );
    const own = viewports.filter((viewport) => viewport.page === page.geometry.page);
    lines.push(...list("Viewports with a measure", own.map(viewportText)));
    lines.push(
      ...list(
        "Elevations",
        page.elevations.map(({ text }) => text),
      ),
    );
    lines.push(
      ...list(
        "Slopes",
        page.slopes.map(({ text }) => text),
      ),
    );
    const found = drawn.get(page.geometry.page);
    lines.push(...list("Scales that do not fit", disagreements(found)));
    if (found?.makeup.isPicture) lines.push("  A picture of a drawing", "    no lines to read");
    lines.push(...list("Grids", found?.grids.map(gridText) ?? []));
    if (found) lines.push("  Linework", `    ${lineworkText(found.linework)}`);
  }
  if (index.duplicates.length > 0)
    lines.push(
      "",
      "Numbers on several pages",
      ...index.duplicates.map(({ number, pages: on }) => `  ${number}: pages ${on.join(", ")}`),
    );
  if (index.gaps.length > 0) lines.push("", "Numbers missing between others", `  ${index.gaps.join(" ")}`);
  if (layers.length > 0)
    lines.push("", "Layers", ...layers.map(({ name, shown }) => `  ${name}${shown ? "" : " (hidden)"}`));
  lines.push("", "What was found are suggestions; a person confirms the scale and every elevation.");
  return `${lines.join("\n")}\n`;
}

const sheetName = ({ geometry }: PageContents, { sheets }: SheetIndex): string => {
  const name = sheets.find(({ page }) => page === geometry.page)?.name;
  return name ? `, ${name}` : "";
};

/** The labels of a grid in order; what has none is counted. */
function gridText({ axes }: FoundGrid): string {
  const labels = axes.flatMap(({ label }) => (label === null ? [] : [label]));
  const without = axes.length - labels.length;
  return [...labels, ...(without > 0 ? [`${without} without a label`] : [])].join(" ");
}

function lineworkText({ segments, hatching, letters, layers }: LineworkCounts): string {
  const on = layers.map(({ layer, segments: own }) => `${layer ?? "no layer"} ${own}`);
  return `${segments} segments (hatching ${hatching}, letters ${letters})${on.length > 1 ? `: ${on.join(", ")}` : ""}`;
}

/** Each text once, with how often it stands on the page. */
function list(title: string, texts: readonly string[]): string[] {
  const counts = new Map<string, number>();
  for (const text of texts) counts.set(text, (counts.get(text) ?? 0) + 1);
  if (counts.size === 0) return [];
  return [`  ${title}`, ...[...counts].map(([text, count]) => `    ${text}${count > 1 ? ` (${count} times)` : ""}`)];
}
