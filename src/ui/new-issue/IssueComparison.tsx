import { type ReactNode, useCallback, useMemo, useState } from "react";
import type { IssueChanges } from "../../pdf/read/issue-changes.ts";
import type { Matrix } from "../../pdf/read/matrix.ts";
import type { PageGeometry } from "../../pdf/read/page-geometry.ts";
import { MirrorList } from "../MirrorList.tsx";
import { counted } from "../words.ts";
import { drawTwoInks } from "./draw-two-inks.ts";
import { Pane } from "./Pane.tsx";
import { TwoInkLegend } from "./TwoInkLegend.tsx";
import type { LabelledThing } from "./things-on-sheet.ts";

/** A thing of which something is drawn otherwise, and what in words. */
export interface ThingToLookAt {
  readonly thing: LabelledThing;
  readonly words: readonly string[];
}

interface IssueComparisonProps {
  readonly title: string;
  /** The page of the new issue. */
  readonly geometry: PageGeometry;
  readonly changes: IssueChanges;
  /** Where the things lie on the new issue. */
  readonly looks: readonly ThingToLookAt[];
  /** The one to begin with, by its key. */
  readonly begin?: string | undefined;
  /** What may be done about the one chosen. */
  readonly actsFor?: (chosen: ThingToLookAt) => ReactNode;
}

/** Old and new on one picture, beside the list of marks under which something changed: choosing one brings it into view. */
export function IssueComparison({ title, geometry, changes, looks, begin, actsFor }: IssueComparisonProps) {
  const [key, setKey] = useState<string | null>(begin ?? null);
  const chosen = looks.find(({ thing }) => thing.key === key);
  const bands = useMemo(() => chosen?.thing.paths ?? [], [chosen]);
  const focusOn = useMemo(() => chosen?.thing.paths.flat(), [chosen]);
  const draw = useCallback(
    (context: CanvasRenderingContext2D, to: Matrix, size: { readonly width: number; readonly height: number }) =>
      drawTwoInks(context, { changes, bands }, to, size),
    [changes, bands],
  );
  return (
    <div className="two-issues">
      <div className="two-issues-picture">
        {changes.isPicture && (
          <p className="notice plain">
            One of the two issues is a picture without lines: nothing can be compared, and the page below shows only
            where the marks lie.
          </p>
        )}
        <Pane
          label={`Old and new issue of ${title} on one picture. Arrow keys move it, plus and minus change its size, 0 shows the whole page.`}
          geometry={geometry}
          draw={draw}
          focusOn={focusOn}
        />
        <TwoInkLegend band={chosen !== undefined} />
      </div>
      <div className="two-issues-list">
        <p role="status">
          {looks.length === 0
            ? "Nothing changed under what lies on this sheet, as far as lines and tags tell."
            : `${counted(looks.length, "mark")} under which something changed.`}
        </p>
        <MirrorList
          label="Marks under which something changed"
          empty=""
          selected={key}
          onSelect={setKey}
          items={looks.map(({ thing, words }) => ({
            id: thing.key,
            name: thing.label,
            more: words.join(" "),
            said: `${thing.label}: ${words.join(" ")}`,
          }))}
        />
        {chosen && actsFor && <div className="look-acts">{actsFor(chosen)}</div>}
      </div>
    </div>
  );
}
