import { Button } from "react-aria-components";
import { sheetsInOrder } from "../../editor/sheet-order.ts";
import { inLabelOrder } from "../../job/label-order.ts";
import type { Job, Viewport } from "../../job/schema.ts";
import { displaySize } from "../../pdf/read/page-geometry.ts";
import { useDesk, useHost, useSession, useSystem } from "../desk-context.ts";
import { MirrorList } from "../MirrorList.tsx";
import { IssuePart } from "../new-issue/IssuePart.tsx";
import { paperSize } from "../paper-size.ts";
import { scaleState } from "../scale-state.ts";
import { EditionPart } from "./EditionPart.tsx";
import { Lacking } from "./Lacking.tsx";
import { MorePages } from "./MorePages.tsx";
import { StoreyPart } from "./StoreyPart.tsx";

/** The Sheet stage: drawings, their scales, how they lie on each other; the storeys; the edition that applies. */
export function SheetStage() {
  const { session, host } = useDesk();
  const system = useSystem();
  const job = useSession((state) => state.job);
  const shown = useSession((state) => state.viewport);
  const selected = useSession(({ selection }) =>
    selection && "table" in selection && selection.table === "viewports" ? selection.id : null,
  );
  const drawings = useHost((state) => state.drawings);
  const missing = Object.values(drawings).filter((drawing) => drawing.is === "missing" || drawing.is === "locked");
  return (
    <>
      <div className="acts">
        <Button
          className={`button${Object.keys(job.sheets).length === 0 ? " main" : ""}`}
          onPress={() => void host.chooseFiles("drawings")}
        >
          Open drawings <kbd>Ctrl O</kbd>
        </Button>
      </div>
      <Lacking stage="sheet" />
      {missing.map((drawing) => (
        <div className="notice" key={drawing.sha256}>
          {drawing.is === "missing"
            ? `${drawing.name} is not at hand here. Choose the file: it is known by its content, whatever it is called now.`
            : `${drawing.name} is protected by a password.`}{" "}
          <Button className="button small" onPress={() => void host.chooseFiles("drawings")}>
            Choose the file
          </Button>
        </div>
      ))}
      <section className="block">
        <h3>Sheets</h3>
        <MirrorList
          label="Sheets"
          empty="No drawing yet. PDF files only; they stay on this machine."
          selected={selected}
          onSelect={(id) => {
            const viewport = session.getState().job.viewports[id];
            if (!viewport) return;
            session.setSheet(viewport.sheet, id);
            session.select({ table: "viewports", id });
          }}
          items={inOrder(job).flatMap(([id, viewport]) => {
            const sheet = job.sheets[viewport.sheet];
            if (!sheet) return [];
            const size = displaySize({
              page: sheet.page,
              view: sheet.view,
              rotate: sheet.rotate,
              userUnit: sheet.userUnit,
            });
            const scale = scaleState(job, viewport);
            return [
              {
                id,
                name: viewport.name,
                mark: <span className={id === shown ? "shown-mark on" : "shown-mark"} />,
                end: viewport.region === null ? paperSize(size, system) : "Part",
                more: <span className={scale.lacks ? "lack" : ""}>{scale.words}</span>,
                said: `${viewport.name}, ${scale.words}${id === shown ? ", shown now" : ""}`,
              },
            ];
          })}
        />
        <MorePages />
      </section>
      <IssuePart />
      <StoreyPart />
      <EditionPart />
    </>
  );
}

/** The viewports in the order of their sheets, the whole page before its parts. */
function inOrder(job: Job): [string, Viewport][] {
  const place = new Map(sheetsInOrder(job).map((id, index) => [id, index]));
  const rank = ({ sheet, region }: Viewport) => 2 * (place.get(sheet) ?? 0) + (region === null ? 0 : 1);
  return Object.entries(job.viewports).sort(([, a], [, b]) => rank(a) - rank(b) || inLabelOrder(a.name, b.name));
}
