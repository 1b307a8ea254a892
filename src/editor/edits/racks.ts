import { type Edit, editOf } from "../../job/edit.ts";
import { type Rack, racewayLabel, racewayOffset } from "../../job/elements/rack.ts";
import type { Run } from "../../job/elements/run.ts";
import { type Id, NO_FACTS } from "../../job/fields.ts";
import { nextLabel } from "../../job/labels.ts";
import type { Job } from "../../job/schema.ts";
import { findRacewaySize } from "../../trade/raceways.ts";
import { type Length, settle, toInches } from "../../units/length.ts";
import { fail, ok, type Result } from "../../units/problem.ts";
import { added, soundVertices } from "./elements.ts";

/** Room left between two raceways of a rack that nobody has spaced yet, inches. */
const CLEAR_IN = 1;

/**
 * Adds a rack by the line it lies along, sheet space, with one raceway on it. Problems: `run.too-few-vertices`, `run.no-length`, `edit.not-finite`,
 * `edit.no-such-record`.
 */
export function addRack(
  job: Job,
  id: Id,
  { viewport, wiring, vertices }: Pick<Run, "viewport" | "wiring" | "vertices">,
): Result<Edit> {
  const where = `elements/${id}`;
  const sound = soundVertices(where, vertices);
  if (!sound.ok) return sound;
  const label = nextLabel(job, "rack");
  const rack: Rack = {
    kind: "rack",
    label,
    viewport,
    raceways: [{ label: "", wiring, facts: NO_FACTS }],
    spacing: spacingFor(wiring),
    vertices,
  };
  return added(job, id, `Trace ${label}`, rack);
}

/** From centre to centre of two raceways like this one, so that there is room between them. */
export const centresFor = (wiring: Run["wiring"]): Length => ({
  value: Math.ceil(widthIn(wiring) + CLEAR_IN),
  unit: "in",
});

const spacingFor = (wiring: Run["wiring"]): Rack["spacing"] => ({ is: "centres", apart: centresFor(wiring) });

/**
 * Makes a run the first raceway of a rack, in its place and with its tags; entries at it are not of a run any more. Problems: `edit.no-such-record`,
 * `edit.not-a`.
 */
export function makeRack(job: Job, id: Id): Result<Edit> {
  const where = `elements/${id}`;
  const run = job.elements[id];
  if (!run) return fail("edit.no-such-record", where, { id });
  if (!("wiring" in run)) return fail("edit.not-a", where, { label: run.label });
  const { viewport, vertices, kind: _, label, ...raceway } = run;
  const rack: Rack = {
    kind: "rack",
    label: nextLabel(job, "rack"),
    viewport,
    raceways: [{ label: "", ...raceway }],
    spacing: spacingFor(run.wiring),
    vertices,
  };
  const freed = Object.entries(job.elements).flatMap(([other, element]) =>
    "run" in element && element.run === id
      ? [{ table: "elements" as const, id: other, after: { ...element, run: null } }]
      : [],
  );
  return ok(editOf(job, `Make ${label} a rack, ${rack.label}`, [{ table: "elements", id, after: rack }, ...freed]));
}

/** Adds a raceway like raceway `like` beside the last one. Problems: `edit.no-such-record`, `edit.not-a`. */
export function addRaceway(job: Job, id: Id, like: number): Result<Edit> {
  return reracked(job, id, (rack) => {
    const model = rack.raceways[like];
    if (!model) return undefined;
    const { spacing } = rack;
    const last = spacing.is === "offsets" ? spacing.offsets.at(-1) : undefined;
    const apart = Math.ceil(widthIn(model.wiring) + CLEAR_IN);
    return [
      `Add a raceway to ${rack.label}`,
      {
        ...rack,
        raceways: [...rack.raceways, { ...model, label: "" }],
        spacing:
          spacing.is === "offsets"
            ? {
                is: "offsets",
                offsets: [...spacing.offsets, { value: settle((last ? toInches(last) : 0) + apart), unit: "in" }],
              }
            : spacing,
      },
    ];
  });
}

/** Takes a raceway off a rack; the last one stays. Problems: `edit.no-such-record`, `edit.not-a`, `edit.too-few-raceways`. */
export function removeRaceway(job: Job, id: Id, i: number): Result<Edit> {
  const rack = job.elements[id];
  if (rack && "raceways" in rack && rack.raceways.length === 1)
    return fail("edit.too-few-raceways", `elements/${id}`, { label: rack.label });
  return reracked(job, id, (before) => {
    if (!before.raceways[i]) return undefined;
    const { spacing } = before;
    return [
      `Take ${racewayLabel(before, i)} off its rack`,
      {
        ...before,
        raceways: before.raceways.toSpliced(i, 1),
        spacing: spacing.is === "offsets" ? { is: "offsets", offsets: spacing.offsets.toSpliced(i, 1) } : spacing,
      },
    ];
  });
}

/** Spaces the raceways of a rack evenly, or each by itself where it lies now. Problems: `edit.no-such-record`, `edit.not-a`. */
export function setSpacing(job: Job, id: Id, is: Rack["spacing"]["is"]): Result<Edit> {
  return reracked(job, id, (rack) => {
    const offsets = rack.raceways.map((_, i) => racewayOffset(rack, i) ?? 0);
    const count = offsets.length;
    const even = count > 1 ? Math.abs(offsets[count - 1]! - offsets[0]!) / (count - 1) : 0;
    const apart = even > 0 ? even : widthIn(rack.raceways[0]!.wiring) + CLEAR_IN;
    return [
      `Change the spacing of ${rack.label}`,
      {
        ...rack,
        spacing:
          is === "offsets"
            ? { is, offsets: offsets.map((value) => ({ value: settle(value), unit: "in" as const })) }
            : { is, apart: { value: settle(apart), unit: "in" } },
      },
    ];
  });
}

function reracked(
  job: Job,
  id: Id,
  change: (rack: Rack) => readonly [name: string, after: Rack] | undefined,
): Result<Edit> {
  const where = `elements/${id}`;
  const rack = job.elements[id];
  if (!rack) return fail("edit.no-such-record", where, { id });
  if (!("raceways" in rack)) return fail("edit.not-a", where, { label: rack.label });
  const changed = change(rack);
  if (!changed) return fail("edit.no-such-record", where, { id });
  return ok(editOf(job, changed[0], [{ table: "elements", id, after: changed[1] }]));
}

/** How wide a raceway lies, inches; nought where it is not known. */
function widthIn({ type, tradeSize, outsideDiameter, section }: Rack["raceways"][number]["wiring"]): number {
  if (section) return toInches(section.width);
  if (outsideDiameter) return toInches(outsideDiameter);
  const row = findRacewaySize(type, tradeSize);
  return (row?.width ?? row?.outside)?.value ?? 0;
}
