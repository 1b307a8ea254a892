import type { Project } from "../drafting.ts";
import type { Paper, Pen } from "../pen.ts";

/** What the title strips of the Fennick Lane Store say. */
export const STORE: Project = {
  name: "FENNICK LANE STORE",
  lines: ["GROCER, PHARMACY AND BAKERY", "FENNICK LANE, ELLOWMERE"],
  datum: `LEVEL 1 FINISHED FLOOR = 100'-0"`,
  mark: basket,
};

/** Layers of the set, in the order in which they are listed. */
export const LAYERS = [
  "TITLE",
  "GRID",
  "DECK",
  "STEEL",
  "ROOF",
  "WALLS",
  "CEILING",
  "FIXTURES",
  "LIGHTING",
  "RACEWAYS",
  "DETAILS",
  "NOTES",
] as const;

/** The set's own mark: a basket with a leaf over it. */
function basket(pen: Pen, [x, y]: Paper): void {
  const rim = y + 6;
  pen.path(
    [
      [x - 32, rim],
      [x + 32, rim],
      [x + 24, y - 22],
      [x - 24, y - 22],
    ],
    { width: "medium", close: true },
  );
  for (const step of [1, 2, 3]) {
    const [half, level] = [32 - step * 2, rim - step * 7];
    pen.line([x - half, level], [x + half, level], { width: "hair" });
  }
  for (const step of [-2, -1, 0, 1, 2]) pen.line([x + step * 12, rim], [x + step * 9, y - 22], { width: "hair" });
  pen.arc([x, rim], 24, 0, 180, { width: "medium" });
  pen.arc([x + 9, rim + 9], 12, 90, 180, { width: "thin" });
  pen.arc([x - 3, rim + 21], 12, 270, 360, { width: "thin" });
}
