import { useState } from "react";
import { Button } from "react-aria-components";
import { forgetGrid, keepGrid } from "../../editor/edits/grid.ts";
import type { Id } from "../../job/fields.ts";
import type { Viewport } from "../../job/schema.ts";
import { useDesk } from "../desk-context.ts";
import { gridToKeep } from "../kept-grid.ts";
import { useAttempt } from "../use-attempt.ts";
import { CardPart } from "./CardFrame.tsx";

type Grid = NonNullable<Viewport["grid"]>;

/** The grid kept with a sheet, by which comments, report and brief say where things are; looked for in its lines, shown, and kept when accepted. */
export function KeptGridPart({ id, viewport }: { readonly id: Id; readonly viewport: Viewport }) {
  const { session, host } = useDesk();
  const attempt = useAttempt();
  const [found, setFound] = useState<Grid | "looking" | "stopped">();
  const look = async () => {
    setFound("looking");
    const { job } = session.getState();
    const sheet = job.sheets[viewport.sheet];
    const drawing = sheet && host.state.getState().drawings[sheet.file.sha256];
    const lines =
      sheet && drawing?.is === "open" ? await host.pageLines(drawing.handle, sheet.page).catch(() => null) : null;
    setFound(lines ? gridToKeep(viewport, lines.grids) : "stopped");
  };
  const keep = (grid: Grid) => {
    if (attempt((job) => keepGrid(job, id, grid)).ok) setFound(undefined);
  };
  const kept = viewport.grid;
  const offered = typeof found === "object" && found.length > 0 ? found : undefined;
  return (
    <CardPart title="Grid">
      <p role="status" className="quiet">
        {wordsOf(kept, found)}
      </p>
      <div className="acts">
        {offered ? (
          <>
            <Button className="button small" onPress={() => keep(offered)}>
              Keep this grid
            </Button>
            <Button className="button bare small" onPress={() => setFound(undefined)}>
              Leave it
            </Button>
          </>
        ) : (
          <Button className="button small" isDisabled={found === "looking"} onPress={() => void look()}>
            Look for the grid
          </Button>
        )}
        {kept && !offered && (
          <Button className="button bare small" onPress={() => attempt((job) => forgetGrid(job, id))}>
            Let go of it
          </Button>
        )}
      </div>
    </CardPart>
  );
}

const labelsOf = (grid: Grid): string => grid.map(({ label }) => label).join(", ");

function wordsOf(kept: Grid | undefined, found: Grid | "looking" | "stopped" | undefined): string {
  if (found === "looking") return "Looking for the grid…";
  if (found === "stopped") return "The lines of this sheet could not be read.";
  if (found?.length === 0) return "No grid with labels was found: no row of bubbles with lines.";
  if (found) return `Found: ${labelsOf(found)}. Compare it with the sheet before you keep it.`;
  if (kept) return `Kept: ${labelsOf(kept)}. Comments, report and brief say by it where things are.`;
  return "Kept, it says in comments, report and brief where things are.";
}
