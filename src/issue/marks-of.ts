import type { CheckResult, Finding } from "../check/finding.ts";
import { findingKeyText, isQuiet } from "../check/finding.ts";
import { sceneOf } from "../check/scene.ts";
import { subjectsOf } from "../check/subject.ts";
import type { PictureItem } from "../geometry/picture.ts";
import type { Point2 } from "../geometry/point.ts";
import { applyTo, invert } from "../geometry/similarity.ts";
import { type Registration, sheetToBuilding, usedScale } from "../job/registration.ts";
import type { Area, Job } from "../job/schema.ts";
import type { TextRun } from "../pdf/read/plan-contents.ts";
import { clipDrawing, clipOf } from "./clip-drawing.ts";
import { cornersOfWords, WORDS_WEIGHT } from "./drawing-words.ts";
import { findingMark, SYMBOL_MM } from "./finding-mark.ts";
import { alongShape } from "./kinds/along.ts";
import { drawArea, drawAreaOutline } from "./kinds/area.ts";
import type { Along, Drawing, DrawingContext, Label } from "./kinds/drawing.ts";
import { drawElement } from "./kinds/kinds.ts";
import { drawNote } from "./kinds/note.ts";
import { drawStorey, drawStoreyElsewhere } from "./kinds/storey.ts";
import type { Mark, MarkLayer } from "./mark.ts";
import { Occupancy } from "./occupancy.ts";
import { placeLabel } from "./place-label.ts";
import { type SheetFrame, sheetFrame } from "./sheet-frame.ts";
import { TakenRoom } from "./taken-room.ts";
import { textCorners } from "./text-width.ts";

/** What is marked, and how large. */
export interface MarkOptions {
  /** Only these sheets; absent: all. */
  readonly sheets?: ReadonlySet<string>;
  /** Side of a finding's symbol on paper, millimetres; all other words and widths keep their proportion to it. */
  readonly symbolMm?: number;
  /** The words of the drawing itself, by sheet, where they have been read: labels and symbols look for room beside them. */
  readonly words?: Readonly<Record<string, readonly TextRun[]>>;
  /** Symbols for clear and not governed elements too. */
  readonly quiet?: boolean;
  /** Only the marks of these records, by id, and of findings about them; absent: all. */
  readonly only?: ReadonlySet<string>;
}

/** A mark that is drawn, and waits for its labels. */
interface Pending {
  readonly mark: Omit<Mark, "picture">;
  readonly drawing: Drawing;
}

/**
 * Every mark of a job, sheet by sheet: deck areas, then storeys above them, elements, notes and findings (what is drawn later lies above). A deck
 * area or storey also appears on the sheets registered to its own, as `area:ID@VIEWPORT`. Pure, and the same order each time.
 */
export function marksOf(job: Job, result: CheckResult | undefined, options: MarkOptions = {}): Mark[] {
  const steps = marksInSteps(job, result, options);
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
}

/** The same, resting after every mark that is drawn or given its labels, so that whoever drives it can leave it. */
export function* marksInSteps(
  job: Job,
  result: CheckResult | undefined,
  options: MarkOptions = {},
): Generator<undefined, Mark[], void> {
  const byElement = new Map<string, Finding[]>();
  for (const finding of result?.findings ?? []) {
    const list = byElement.get(finding.elementId);
    if (list) list.push(finding);
    else byElement.set(finding.elementId, [finding]);
  }
  const enlarge = (options.symbolMm ?? SYMBOL_MM) / SYMBOL_MM;
  const pending = new Map<string, Pending[]>();
  for (const [id] of sorted(job.sheets)) if (options.sheets?.has(id) ?? true) pending.set(id, []);
  const frames = new Map([...pending.keys()].map((id) => [id, sheetFrame(job.sheets[id]!, enlarge)] as const));
  const registered = registrationsOf(job);
  const areas = { key: "area", records: job.areas, draw: drawArea, drawThere: drawAreaOutline };
  const storeys = { key: "storey", records: job.storeyOutlines, draw: drawStorey, drawThere: drawStoreyElsewhere };
  addOutlines(areas, job, registered, pending, frames, options.only);
  addOutlines(storeys, job, registered, pending, frames, options.only);
  yield* addElements(job, byElement, pending, frames, options.only);
  addNotes(job, pending, frames, options.only);

  const marks: Mark[] = [];
  for (const [sheet, drawn] of pending) {
    const frame = frames.get(sheet)!;
    const occupancy = new Occupancy(frame.view, 3 * frame.point);
    for (const words of options.words?.[sheet] ?? []) occupancy.addBox(cornersOfWords(words), WORDS_WEIGHT);
    for (const { drawing } of drawn) for (const line of drawing.keepClear) occupancy.addLine(line, 5);
    const findings = (result?.findings ?? []).filter(
      (finding) =>
        finding.sheet === sheet &&
        (options.quiet || !isQuiet(finding.verdict)) &&
        (options.only?.has(finding.elementId) ?? true),
    );
    for (const { at } of findings) occupancy.addBox(around(at, 3 * frame.point), 12);
    const taken = new TakenRoom(40 * frame.point);
    const keepLegible = (items: readonly PictureItem[]): void => {
      if (findings.length > 0) for (const item of items) if (item.type === "text") taken.add(textCorners(item));
    };
    if (findings.length > 0) for (const words of options.words?.[sheet] ?? []) taken.add(cornersOfWords(words));
    for (const { mark, drawing } of drawn) {
      const placed = drawing.labels.map((label): PictureItem[] => placeLabel(label, occupancy));
      const labels = placed.map((items, i) => ({ text: textOf(drawing.labels[i]!), items: items.length }));
      const picture = [...drawing.picture, ...placed.flat()];
      keepLegible(picture);
      marks.push({ ...mark, picture, labels });
      yield;
    }
    const setting = {
      frame,
      occupancy,
      taken,
      system: job.settings.job.system,
    };
    const used = new Map<string, number>();
    for (const finding of findings) {
      const key = `finding:${findingKeyText(finding)}`;
      const count = (used.get(key) ?? 0) + 1;
      used.set(key, count);
      marks.push(findingMark(finding, count > 1 ? `${key}:${count}` : key, setting));
      yield;
    }
  }
  return marks;
}

type Only = ReadonlySet<string> | undefined;

/** The records of a table by id, or those of them asked for: the order in which a job happens to hold them must not show. */
const sorted = <T>(table: Readonly<Record<string, T>>, only?: Only): [string, T][] =>
  (only ? [...only].flatMap((id): [string, T][] => (table[id] ? [[id, table[id]]] : [])) : Object.entries(table)).sort(
    ([a], [b]) => (a < b ? -1 : a > b ? 1 : 0),
  );

/** A label's lines as one text. */
const textOf = ({ lines }: Label): string => lines.map(({ text }) => text).join("; ");

const around = ([x, y]: Point2, r: number): Point2[] => [
  [x - r, y - r],
  [x + r, y - r],
  [x + r, y + r],
  [x - r, y + r],
];

function add(pending: Map<string, Pending[]>, sheet: string, key: string, layer: MarkLayer, drawing: Drawing): void {
  const { hit, annotation } = drawing;
  pending.get(sheet)?.push({ mark: { key, layer, sheet, hit, annotation }, drawing });
}

type Frames = ReadonlyMap<string, SheetFrame>;
type Registrations = ReadonlyMap<string, Registration>;

function registrationsOf(job: Job): Registrations {
  const registered = new Map<string, Registration>();
  for (const [id] of sorted(job.viewports)) {
    const found = sheetToBuilding(job, id);
    if (found.ok) registered.set(id, found.value);
  }
  return registered;
}

/** What is outlined on a sheet: its own shape there, and the same outline as it is seen on another sheet. */
interface Outlined<R extends Outline> {
  /** What the keys of its marks begin with. */
  readonly key: string;
  readonly records: Readonly<Record<string, R>>;
  readonly draw: (record: R, context: OutlineContext) => Drawing;
  readonly drawThere: (record: R, rings: readonly (readonly Point2[])[], context: OutlineContext) => Drawing;
}
type Outline = Pick<Area, "viewport" | "outline" | "holes">;
type OutlineContext = Omit<DrawingContext, "findings" | "along">;

function addOutlines<R extends Outline>(
  { key, records, draw, drawThere }: Outlined<R>,
  job: Job,
  registered: Registrations,
  pending: Map<string, Pending[]>,
  frames: Frames,
  only?: Only,
): void {
  for (const [id, record] of sorted(records, only)) {
    const viewport = job.viewports[record.viewport];
    if (!viewport || record.outline.length < 2) continue;
    const frame = frames.get(viewport.sheet);
    if (frame) {
      const inchesPerUnit = registered.get(record.viewport)?.sim.scale;
      add(pending, viewport.sheet, `${key}:${id}`, "areas", draw(record, { job, id, frame, inchesPerUnit }));
    }
    for (const { viewport: other, sheet, rings, ...seen } of elsewhere(job, record, registered, frames)) {
      const drawing = clipDrawing(drawThere(record, rings, { job, id, ...seen }), clipOf(job, other));
      if (drawing) add(pending, sheet, `${key}:${id}@${other}`, "areas", drawing);
    }
  }
}

function addNotes(job: Job, pending: Map<string, Pending[]>, frames: Frames, only?: Only): void {
  for (const [id, note] of sorted(job.notes, only)) {
    const frame = frames.get(note.sheet);
    if (frame) add(pending, note.sheet, `note:${id}`, "notes", drawNote(note, { job, frame }));
  }
}

/** Where else an outline is to be seen: on every other sheet whose viewports share its frame, unless it falls off that page. */
function* elsewhere(job: Job, { viewport, outline, holes }: Outline, registered: Registrations, frames: Frames) {
  const own = registered.get(viewport);
  if (!own) return;
  for (const [id, other] of registered) {
    const { sheet } = job.viewports[id]!;
    const frame = frames.get(sheet);
    if (sheet === job.viewports[viewport]?.sheet || other.root !== own.root || !frame) continue;
    const back = invert(other.sim);
    const rings = [outline, ...holes].map((ring) => ring.map((at) => applyTo(back, applyTo(own.sim, at))));
    const [x0, y0, x1, y1] = frame.view;
    const off = (test: (at: Point2) => boolean) => (rings[0] ?? []).every(test);
    if (off(([x]) => x < x0) || off(([x]) => x > x1) || off(([, y]) => y < y0) || off(([, y]) => y > y1)) continue;
    yield { viewport: id, sheet, rings, frame, inchesPerUnit: other.sim.scale };
  }
}

function* addElements(
  job: Job,
  byElement: ReadonlyMap<string, readonly Finding[]>,
  pending: Map<string, Pending[]>,
  frames: ReadonlyMap<string, SheetFrame>,
  only?: Only,
): Generator<undefined, void, void> {
  for (const [id, element] of sorted(job.elements, only)) {
    const viewport = job.viewports[element.viewport];
    const sheet = viewport && job.sheets[viewport.sheet];
    const frame = viewport && frames.get(viewport.sheet);
    if (!viewport || !sheet || !frame) continue;
    const findings = byElement.get(id) ?? [];
    let along: Along | undefined;
    let alongMember: ((about: string) => Along | undefined) | undefined;
    if (findings.some(({ stretches }) => stretches.length > 0)) {
      const alongs = new Map(
        subjectsOf(sceneOf(job), id, element).map((one) => [one.about ?? "", alongShape(one.shape())]),
      );
      along = alongs.get("");
      alongMember = (about) => alongs.get(about);
    }
    const context = {
      job,
      id,
      frame,
      inchesPerUnit: usedScale(sheet, viewport) ?? scaleOf(job, element.viewport),
      findings,
      along,
      ...(alongMember ? { alongMember } : {}),
    };
    add(pending, viewport.sheet, `element:${id}`, "wiring", drawElement(element, context));
    yield;
  }
}

function scaleOf(job: Job, viewport: string): number | undefined {
  const found = sheetToBuilding(job, viewport);
  return found.ok ? found.value.sim.scale : undefined;
}
