import type { Point2 } from "../geometry/point.ts";
import { compareWitnesses, type WitnessComparison } from "../pdf/read/compare-witnesses.ts";
import { bareDimensions } from "../pdf/read/dimension-strings.ts";
import type { WrittenElevation } from "../pdf/read/elevation-tags.ts";
import { type FoundGrid, findGrid } from "../pdf/read/find-grid.ts";
import { type LineworkCounts, lineworkCounts } from "../pdf/read/linework-counts.ts";
import type { DimensionString } from "../pdf/read/measured-dimension.ts";
import { tellsMillimetres } from "../pdf/read/metric-sheet.ts";
import { type NearestLine, nearestLine } from "../pdf/read/nearest-line.ts";
import type { OpenPlan } from "../pdf/read/open-plan.ts";
import { type PageMakeup, pageMakeup } from "../pdf/read/page-makeup.ts";
import { surveyPage } from "../pdf/read/page-survey.ts";
import type { PageContents } from "../pdf/read/plan-contents.ts";
import { readLinework } from "../pdf/read/read-linework.ts";
import type { FoundViewport } from "../pdf/read/read-viewports.ts";
import { type RunNote, runNoteIn } from "../pdf/read/run-notes.ts";
import { type PageScales, readScales } from "../pdf/read/scale-witnesses.ts";
import { type SlopeArrow, slopeArrow } from "../pdf/read/slope-arrows.ts";
import { tagsIn } from "../pdf/read/stacked-tags.ts";
import { type TextKind, textKind } from "../pdf/read/text-kind.ts";
import type { Problem } from "../units/problem.ts";

/** What the lines of a page offer, alone and together with its text. */
export interface Drawn {
  readonly grids: readonly FoundGrid[];
  readonly linework: LineworkCounts;
  readonly scales: PageScales;
  /** Dimensions whose figures bear no unit, on a sheet that does not tell what they are in: they witness nothing. */
  readonly unclear: readonly DimensionString[];
  readonly comparisons: readonly WitnessComparison[];
  readonly tags: readonly (WrittenElevation & { readonly line: NearestLine | null })[];
  readonly runNotes: readonly (RunNote & { readonly line: NearestLine | null })[];
  /** The arrows beside the slopes of the page's text, in their order. */
  readonly slopeArrows: readonly (SlopeArrow | null)[];
  readonly text: TextKind;
  /** Ids of the layers that something on the page belongs to. */
  readonly layers: readonly string[];
  readonly makeup: PageMakeup;
}

/** The lines of each page, one page after the other: what one page takes is let go before the next. */
export async function readDrawn(
  plan: OpenPlan,
  pages: readonly PageContents[],
  viewports: readonly FoundViewport[],
): Promise<{ drawn: ReadonlyMap<number, Drawn>; warnings: readonly Problem[] }> {
  const drawn = new Map<number, Drawn>();
  const warnings: Problem[] = [];
  for (const contents of pages) {
    const { texts, mirrored } = contents;
    const { page } = contents.geometry;
    if (mirrored) warnings.push({ code: "pdf.text-mirrored", where: "", params: { page, count: mirrored.length } });
    try {
      const linework = await readLinework(plan, page);
      const scales = readScales({ contents, linework, viewports });
      const grids = findGrid(linework, texts);
      const line = <T extends { readonly run: PageContents["texts"][number] }>(found: T) => ({
        ...found,
        line: nearestLine(linework, found.run, grids) ?? null,
      });
      drawn.set(page, {
        grids,
        linework: lineworkCounts(linework, plan.layers),
        scales,
        unclear: tellsMillimetres(contents, viewports) ? [] : bareDimensions(linework, texts),
        comparisons: compareWitnesses(scales.witnesses),
        tags: texts.flatMap((run) => tagsIn(run, texts)).map(line),
        runNotes: texts.flatMap((run) => runNoteIn(run) ?? []).map(line),
        slopeArrows: contents.slopes.map(({ run }) => slopeArrow(linework, run)),
        text: textKind(contents, linework),
        layers: (await surveyPage(plan, page)).layers,
        makeup: await pageMakeup(plan, page, linework.count),
      });
      if (drawn.get(page)!.text === "outlines")
        warnings.push({ code: "pdf.text-outlines", where: "", params: { page } });
    } catch {
      warnings.push({ code: "pdf.linework-unreadable", where: "", params: { page } });
    }
    (await plan.document.getPage(page)).cleanup();
  }
  return { drawn, warnings };
}

/** A number to a thousandth, without a negative zero. */
export const rounded = (n: number): number => Number(n.toFixed(3)) + 0;
/** A place to a thousandth of a unit. */
export const placeOf = (at: Point2): Point2 => [rounded(at[0]), rounded(at[1])];

/** The keys of a page's JSON that need its lines and its text together; all empty where the lines cannot be read. */
export function drawnAsJson(found: Drawn | undefined) {
  const nearest = (line: NearestLine | null) =>
    line && {
      at: placeOf(line.at),
      distance: rounded(line.distance),
      ambiguous: line.ambiguous,
      byLeader: line.byLeader,
    };
  const { views = [], witnesses = [], dimensions = [] } = found?.scales ?? {};
  return {
    views: views.map(({ note, title, inTitleBlock, region, doubts }) => ({
      title,
      scaleNote: note.text,
      ratio: note.ratio,
      inTitleBlock,
      at: placeOf(note.run.at),
      region: region.map(rounded),
      doubts,
    })),
    scales: witnesses.map(({ kind, text, ratio, place, region, of, measured }) => ({
      kind,
      text,
      ratio: rounded(ratio),
      measured,
      at: placeOf(place),
      region: region.map(rounded),
      ...(of ? { agreeing: of.agreeing, of: of.all, spread: rounded(of.spread) } : {}),
    })),
    comparisons: (found?.comparisons ?? []).map(({ claim, against, factor, agrees }) => ({
      claim: claim.text,
      claimAt: placeOf(claim.place),
      against: against.text,
      againstAt: placeOf(against.place),
      factor: rounded(factor),
      agrees,
    })),
    dimensions: dimensions.map(({ text, length, ends, marks, ratio, byLeader, unit }) => ({
      text,
      inches: rounded(length.value),
      at: placeOf(length.middle),
      from: placeOf(ends[0]),
      to: placeOf(ends[1]),
      marks,
      ratio: rounded(ratio),
      byLeader,
      unit,
    })),
    unclearDimensions: (found?.unclear ?? []).map(({ text, length, ends }) => ({
      text,
      at: placeOf(length.middle),
      from: placeOf(ends[0]),
      to: placeOf(ends[1]),
    })),
    tags: (found?.tags ?? []).map(
      ({ text, value, basis, surface, from, existing, approximate, give, middle, line }) => ({
        text,
        inches: rounded(value),
        basis,
        surface,
        from,
        existing,
        approximate,
        giveIn: give === null ? null : rounded(give),
        at: placeOf(middle),
        line: nearest(line),
      }),
    ),
    runNotes: (found?.runNotes ?? []).map(({ text, size, type, conductors, run, line }) => ({
      text,
      size,
      type,
      conductors,
      at: placeOf(run.at),
      line: nearest(line),
    })),
    text: found?.text ?? null,
    picture: found ? found.makeup.isPicture : null,
  };
}

/** Where a claim and another witness of the scale differ, in words. */
export function disagreements(found: Drawn | undefined): string[] {
  return (found?.comparisons ?? [])
    .filter(({ agrees }) => !agrees)
    .map(({ claim, against, factor }) =>
      claim.measured
        ? `scale bar ${claim.text} is 1:${rounded(claim.ratio)}, ${against.text} give 1:${rounded(against.ratio)}`
        : against.measured
          ? `${claim.text} is stated, ${against.text} give 1:${rounded(against.ratio)}: printed at ${rounded(factor)} of the size stated`
          : `${claim.text} and ${against.text} differ by a factor of ${rounded(factor)}`,
    );
}
