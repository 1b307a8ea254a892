import type { Project } from "./drafting.ts";
import type { Paper, Pen } from "./pen.ts";

/** What the title strips of the Riverside Workshop say. */
export const WORKSHOP: Project = {
  name: "RIVERSIDE WORKSHOP",
  lines: ["BOAT REPAIR HALL AND STORE", "TAR LANE, ELLOWMERE"],
  datum: `FINISHED FLOOR, LEVEL 1 = 0'-0"`,
  mark: boatMark,
};

/** The set's own mark: a hull on the water. */
function boatMark(pen: Pen, [x, y]: Paper): void {
  pen.path(
    [
      [x - 34, y + 4],
      [x + 34, y + 4],
      [x + 24, y - 10],
      [x - 24, y - 10],
    ],
    { width: "medium", close: true },
  );
  pen.line([x - 4, y + 4], [x - 4, y + 32], { width: "medium" });
  pen.path(
    [
      [x, y + 8],
      [x, y + 30],
      [x + 22, y + 8],
    ],
    { width: "thin", close: true },
  );
  for (const row of [0, 1]) {
    const points = Array.from(
      { length: 37 },
      (_, i): Paper => [x - 44 + i * 2.44 + row * 3, y - 17 - row * 5 + 1.6 * Math.sin(i * 0.9)],
    );
    pen.path(points, { width: "hair" });
  }
}
