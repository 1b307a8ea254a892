import { distance2, type Point2 } from "../geometry/point.ts";
import { applyTo, fitSimilarity, type PointPair, type Similarity } from "../geometry/similarity.ts";
import { toInches } from "../units/length.ts";
import { fail, ok, type Problem, type Result } from "../units/problem.ts";
import { type Inches, inches, radians } from "../units/quantity.ts";
import type { Id } from "./fields.ts";
import type { Job, Sheet, Viewport } from "./schema.ts";

/** How a viewport lies in the building. */
export interface Registration {
  /** Sheet space to building space (plan, inches). */
  readonly sim: Similarity;
  /** The viewport whose frame this is: two viewports can be compared only when they share it. */
  readonly root: Id;
  /** How far each shared point lies from its partner, inches; empty for the root itself. */
  readonly residuals: readonly { readonly label: string; readonly residual: Inches }[];
  /** Root mean square of the residuals. */
  readonly rms: Inches;
  /** Largest residual along the whole chain of registrations, inches: how far the plan may be off. */
  readonly worst: Inches;
  /** The scale the shared points alone would give, inches of building a user space unit, and the one used. */
  readonly impliedScale: number | undefined;
}

/** The two scales of a viewport, in inches of building an inch of paper, and how far they are apart. */
export interface ScaleReadings {
  readonly stated: number | undefined;
  readonly measured: number | undefined;
  /** measured / stated - 1, when both are given. */
  readonly disagreement: number | undefined;
}

/** Inches of paper a user space unit of the sheet. */
export const paperInchesPerUnit = (sheet: Sheet): number => sheet.userUnit / 72;

/** Reads both scales of a viewport. A measured one between two equal points counts as not given. */
export function scaleReadings(sheet: Sheet, viewport: Viewport): ScaleReadings {
  const stated = viewport.scale.stated?.ratio;
  const m = viewport.scale.measured;
  const paper = m ? distance2(m.a, m.b) * paperInchesPerUnit(sheet) : 0;
  const measured = m && paper > 0 ? toInches(m.distance) / paper : undefined;
  return {
    stated,
    measured,
    disagreement: stated !== undefined && measured !== undefined ? measured / stated - 1 : undefined,
  };
}

/**
 * The transform from sheet space to building space of a viewport. A viewport that is not registered to another has a
 * frame of its own: origin at the lower left of the page as displayed, x right and y up as displayed.
 * A registered one with a scale of its own is turned and shifted by least squares at that scale; without one, its scale
 * comes from the shared points too. Problems: no such viewport or sheet, no scale, too few or equal points, a circle.
 */
export function sheetToBuilding(job: Job, viewportId: Id, seen: readonly Id[] = []): Result<Registration> {
  const where = `viewports/${viewportId}`;
  const viewport = job.viewports[viewportId];
  const sheet = viewport && job.sheets[viewport.sheet];
  if (!viewport || !sheet) return fail("registration.no-viewport", where, { viewport: viewportId });
  if (seen.includes(viewportId)) return fail("registration.circle", where, { viewport: viewport.name });
  const unitScale = usedScale(sheet, viewport);
  const link = viewport.registration;
  if (!link) {
    if (unitScale === undefined) return fail("registration.no-scale", where, { viewport: viewport.name });
    return ok({
      sim: paperFrame(sheet, unitScale),
      root: viewportId,
      residuals: [],
      rms: inches(0),
      worst: inches(0),
      impliedScale: undefined,
    });
  }
  const base = sheetToBuilding(job, link.to, [...seen, viewportId]);
  if (!base.ok) return base;
  const pairs: PointPair[] = link.pairs.map(({ here, there }) => ({ from: here, to: applyTo(base.value.sim, there) }));
  const free = fitSimilarity(pairs);
  const fit = unitScale === undefined ? free : fitSimilarity(pairs, unitScale);
  if (!fit.ok)
    return {
      ok: false,
      problems: fit.problems.map((p): Problem => ({ ...p, where, params: { ...p.params, viewport: viewport.name } })),
    };
  if (fit.value.mirrored) return fail("registration.mirrored", where, { viewport: viewport.name });
  const residuals = link.pairs.map(({ label }, i) => ({ label, residual: inches(fit.value.residuals[i] ?? 0) }));
  return ok({
    sim: fit.value.sim,
    root: base.value.root,
    residuals,
    rms: inches(fit.value.rms),
    worst: inches(base.value.worst + Math.max(0, ...fit.value.residuals)),
    impliedScale: free.ok ? free.value.sim.scale : undefined,
  });
}

/** Building inches a user space unit by the scale in use, or undefined while there is none. */
export function usedScale(sheet: Sheet, viewport: Viewport): number | undefined {
  const { stated, measured } = scaleReadings(sheet, viewport);
  const ratio = viewport.scale.use === "stated" ? stated : viewport.scale.use === "measured" ? measured : undefined;
  return ratio === undefined ? undefined : ratio * paperInchesPerUnit(sheet);
}

/** The page as displayed, lower left corner at the origin, at `scale` inches a unit. */
function paperFrame(sheet: Sheet, scale: number): Similarity {
  const turn: Similarity = { scale, angle: radians((-sheet.rotate * Math.PI) / 180), dx: 0, dy: 0 };
  const [x, y] = applyTo(turn, lowerLeftAsShown(sheet));
  return { ...turn, dx: -x, dy: -y };
}

/** The corner of the crop box that is at the lower left when the page is displayed, sheet space. */
function lowerLeftAsShown({ view: [x0, y0, x1, y1], rotate }: Sheet): Point2 {
  return rotate === 0 ? [x0, y0] : rotate === 90 ? [x1, y0] : rotate === 180 ? [x1, y1] : [x0, y1];
}
