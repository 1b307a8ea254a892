import { basename } from "node:path";
import type { Point2 } from "../../geometry/point.ts";
import { openPlan } from "../../pdf/read/open-plan.ts";
import { displaySize } from "../../pdf/read/page-geometry.ts";
import type { PageContents, PlanContents, TextRun } from "../../pdf/read/plan-contents.ts";
import { readPlan } from "../../pdf/read/plan-reader.ts";
import { type FoundViewport, readViewports } from "../../pdf/read/read-viewports.ts";
import { sha256 } from "../../store/sha256.ts";
import { readBytes } from "../files.ts";
import { accept } from "../load-job.ts";
import { problemText } from "../messages.ts";
import type { Outcome } from "../outcome.ts";
import { engineSettings } from "../pdf-engine.ts";

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
  const { getDocument } = await import("pdfjs-dist/legacy/build/pdf.mjs");
  const plan = accept(
    await openPlan({ getDocument }, bytes, {
      name: path,
      engineSettings: engineSettings(),
      ...(password === undefined ? {} : { password }),
    }),
  );
  try {
    const contents = await readPlan(plan);
    return {
      out: format === "json" ? asJson(identity, contents, boxes, texts ?? false) : asText(identity, contents, boxes),
      messages: contents.warnings.map(problemText),
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

const rounded = (n: number): number => Number(n.toFixed(3)) + 0;
const place = ({ at }: TextRun): Point2 => [rounded(at[0]), rounded(at[1])];

function asJson(
  identity: Identity,
  { pages, layers, warnings }: PlanContents,
  viewports: readonly FoundViewport[],
  withTexts: boolean,
): string {
  const read = {
    program: "underside",
    ...identity,
    pages: pages.map((page) => ({
      page: page.geometry.page,
      label: page.label,
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
      slopes: page.slopes.map(({ text, rise, run }) => ({ text, rise, at: place(run) })),
      ...(withTexts ? { texts: page.texts.map((run) => ({ text: run.text, at: place(run) })) } : {}),
    })),
    layers: layers.map(({ name, shown }) => ({ name, shown })),
    warnings,
  };
  return `${JSON.stringify(read, null, 2)}\n`;
}

/** Width and height of the paper as displayed, inches. */
function paperSize({ geometry }: PageContents): readonly [number, number] {
  const { width, height } = displaySize(geometry);
  return [rounded(width / 72), rounded(height / 72)];
}

function asText(
  { file, sha256: hash }: Identity,
  { pages, layers }: PlanContents,
  viewports: readonly FoundViewport[],
): string {
  const lines = [file, `SHA-256 ${hash}`];
  for (const page of pages) {
    const [width, height] = paperSize(page);
    lines.push("", `Page ${page.geometry.page}${page.label ? `, ${page.label}` : ""}: ${width} x ${height} in.`);
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
  }
  if (layers.length > 0)
    lines.push("", "Layers", ...layers.map(({ name, shown }) => `  ${name}${shown ? "" : " (hidden)"}`));
  lines.push("", "What was found are suggestions; a person confirms the scale and every elevation.");
  return `${lines.join("\n")}\n`;
}

/** Each text once, with how often it stands on the page. */
function list(title: string, texts: readonly string[]): string[] {
  const counts = new Map<string, number>();
  for (const text of texts) counts.set(text, (counts.get(text) ?? 0) + 1);
  if (counts.size === 0) return [];
  return [`  ${title}`, ...[...counts].map(([text, count]) => `    ${text}${count > 1 ? ` (${count} times)` : ""}`)];
}
