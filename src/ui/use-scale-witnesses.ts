import { useMemo } from "react";
import { partsOf } from "../editor/edits/sheets.ts";
import type { DrawnScale } from "../editor/said/drawn-words.ts";
import type { Id } from "../job/fields.ts";
import type { Sheet, Viewport } from "../job/schema.ts";
import { compareWitnesses, type WitnessComparison } from "../pdf/read/compare-witnesses.ts";
import { claimsOfFile } from "../pdf/read/scale-witnesses.ts";
import { useSession } from "./desk-context.ts";
import { useFoundViewports } from "./use-found-viewports.ts";

type Box = readonly [number, number, number, number];

/** What tells the scale of a viewport beside the notes written on its sheet, and how all of it compares. */
export interface ViewportWitnesses {
  /** Each scale of each kind once. */
  readonly witnesses: readonly DrawnScale[];
  readonly comparisons: readonly WitnessComparison[];
}

const NONE: ViewportWitnesses = { witnesses: [], comparisons: [] };
/** Ratios that differ by less are told once. */
const SAME = 1e-3;

/** The witnesses of a viewport's scale; none while its sheet is not shown, or was not read. */
export function useScaleWitnesses(id: Id, { sheet: sheetId, region }: Viewport, sheet: Sheet): ViewportWitnesses {
  const words = useSession((state) => (state.words?.sheet === sheetId ? state.words.words : null));
  const job = useSession((state) => state.job);
  const found = useFoundViewports(sheet.file.sha256);
  return useMemo(() => {
    if (!words) return NONE;
    const all = [...words.scales, ...claimsOfFile(found, sheet.page)];
    const others = partsOf(job, sheetId).flatMap(([other, part]) =>
      other === id || !part.region ? [] : [part.region],
    );
    const isOwn = (one: DrawnScale): boolean =>
      region ? isIn(region, one) : !others.some((other) => isIn(other, one));
    const own = all.filter(isOwn);
    const witnesses = own.filter(
      (one, i) =>
        !own.slice(0, i).some((before) => before.kind === one.kind && Math.abs(before.ratio / one.ratio - 1) < SAME),
    );
    const told = new Map<string, WitnessComparison>();
    for (const one of compareWitnesses(all)) {
      if (!isOwn(one.claim) || !isOwn(one.against)) continue;
      // Twenty views with one note each that agree are said once.
      const key = [one.claim.kind, one.claim.text, one.against.kind, one.agrees, Math.round(one.factor * 100)].join();
      if (!told.has(key)) told.set(key, one);
    }
    const comparisons = [...told.values()].toSorted((a, b) => Number(a.agrees) - Number(b.agrees));
    return { witnesses, comparisons };
  }, [words, found, job, id, sheetId, region, sheet.page]);
}

/** Whether a witness speaks for a part of the sheet: it stands in it, or the part it speaks for has its middle there. */
function isIn([x0, y0, x1, y1]: Box, { place, region }: DrawnScale): boolean {
  const middle = [(region[0] + region[2]) / 2, (region[1] + region[3]) / 2] as const;
  return [place, middle].some(([x, y]) => x >= x0 && x <= x1 && y >= y0 && y <= y1);
}
