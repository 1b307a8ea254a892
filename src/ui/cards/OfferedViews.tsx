import { Button } from "react-aria-components";
import { addParts } from "../../editor/edits/add-parts.ts";
import { partsOf } from "../../editor/edits/sheets.ts";
import type { Id } from "../../job/fields.ts";
import { useDesk, useSession } from "../desk-context.ts";
import { useFoundViewports } from "../use-found-viewports.ts";
import { type OfferedView, viewsOffered } from "../views-offered.ts";
import { counted } from "../words.ts";

/** The views with a scale of their own that the file of a sheet names, each to be added by a person; nothing where there is none. */
export function OfferedViews({ sheet: id }: { readonly sheet: Id }) {
  const { session } = useDesk();
  const job = useSession((state) => state.job);
  const sheet = job.sheets[id];
  const found = useFoundViewports(sheet?.file.sha256);
  if (!sheet) return null;
  const present = partsOf(job, id).flatMap(([, { region }]) => (region ? [region] : []));
  const offered = viewsOffered(found, sheet, present);
  if (offered.length === 0) return null;
  const add = (views: readonly OfferedView[]) =>
    session.attempt(
      addParts(
        session.getState().job,
        id,
        views.map((view) => ({ ...view, id: session.newId() })),
      ),
    );
  return (
    <div className="rows">
      <p className="quiet">
        This sheet carries {counted(offered.length, "view")} with a scale of {offered.length === 1 ? "its" : "their"}{" "}
        own, so its file says. Compare a written dimension before you rely on it.
      </p>
      <ul className="parts" aria-label="Views the file names">
        {offered.map((view) => (
          <li key={view.region.join()}>
            <Button className="button small" onPress={() => add([view])}>
              Add {view.name || "it"}
            </Button>{" "}
            <span className="quiet">{view.scale?.text ?? "scale in a unit that is not named"}</span>
          </li>
        ))}
      </ul>
      {offered.length > 1 && (
        <Button className="button small" onPress={() => add(offered)}>
          Add all {offered.length}
        </Button>
      )}
    </div>
  );
}
