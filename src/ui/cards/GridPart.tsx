import { useEffect, useState } from "react";
import { Button } from "react-aria-components";
import { useStore } from "zustand";
import { clearanceText } from "../../check/words.ts";
import { layWithScale } from "../../editor/edits/lay-with-scale.ts";
import { registerViewport } from "../../editor/edits/registration.ts";
import type { Id } from "../../job/fields.ts";
import { sheetToBuilding } from "../../job/registration.ts";
import type { Job } from "../../job/schema.ts";
import type { ScaleNote } from "../../units/scale-note.ts";
import { useDesk, useSession, useSystem } from "../desk-context.ts";
import { type GridAnswer, type GridOffer, gridOffer } from "../grid-offer.ts";
import { scaleNotesIn } from "../scale-notes-in.ts";
import { useAttempt } from "../use-attempt.ts";
import { usePageContents } from "../use-page-contents.ts";

interface GridPartProps {
  readonly id: Id;
  /** The viewport it would lie on. */
  readonly to: Id;
}

const NONE: Readonly<Record<Exclude<GridAnswer["is"], "offer">, string>> = {
  "no-grid-here": "No grid was found on this sheet: no row of bubbles with lines. Pick shared points instead.",
  "no-grid-there": "No grid was found on the other sheet: no row of bubbles with lines. Pick shared points instead.",
  "too-few-shared": "The two grids share too few labels to lie on each other. Pick shared points instead.",
};

/** Lays a viewport on another by the grid both show: what is shared and how well it fits is shown first, the person accepts it. */
export function GridPart({ id, to }: GridPartProps) {
  const { view } = useDesk();
  const comparing = useStore(view.store, (state) => state.byGrid === id);
  const compare = (byGrid: Id | null) => view.store.setState({ byGrid });
  if (comparing) return <Comparison key={to} id={id} to={to} onDone={() => compare(null)} />;
  return (
    <Button className="button small" onPress={() => compare(id)}>
      Lay it by its grid
    </Button>
  );
}

/** The grids of both pages and what laying one on the other comes to; "stopped" where a page was not read. */
function useAnswer(id: Id, to: Id): GridAnswer | "stopped" | undefined {
  const { session, host } = useDesk();
  const [answer, setAnswer] = useState<GridAnswer | "stopped">();
  useEffect(() => {
    let wanted = true;
    const gridsOf = async (viewport: Id) => {
      const { job } = session.getState();
      const sheet = job.sheets[job.viewports[viewport]?.sheet ?? ""];
      const drawing = sheet && host.state.getState().drawings[sheet.file.sha256];
      if (!sheet || drawing?.is !== "open") return null;
      return (await host.pageLines(drawing.handle, sheet.page))?.grids ?? null;
    };
    const ask = async () => {
      const [here, there] = await Promise.all([gridsOf(id), gridsOf(to)]);
      return here && there ? gridOffer(session.getState().job, id, to, here, there) : "stopped";
    };
    const told = (found: GridAnswer | "stopped") => wanted && setAnswer(found);
    ask().then(told, () => told("stopped"));
    return () => {
      wanted = false;
    };
  }, [session, host, id, to]);
  return answer;
}

/** The scale note of a viewport that is a whole sheet without a scale, where its sheet bears just one. */
function useOnlyNote(id: Id): ScaleNote | undefined {
  const job = useSession((state) => state.job);
  const viewport = job.viewports[id];
  const sheet = job.sheets[viewport?.sheet ?? ""];
  const contents = usePageContents(viewport?.sheet ?? null);
  if (!viewport || !sheet || !contents || viewport.region !== null || sheetToBuilding(job, id).ok) return undefined;
  // A sheet that refers elsewhere ("as noted") has other scales too, though one is written out.
  if (contents.scaleNotes.some(({ kind }) => kind !== "scale")) return undefined;
  const [only, ...more] = scaleNotesIn(contents.texts, { region: null, others: [], sheet });
  return more.length === 0 ? only : undefined;
}

function Comparison({ id, to, onDone }: GridPartProps & { readonly onDone: () => void }) {
  const answer = useAnswer(id, to);
  const { view } = useDesk();
  const other = useSession((state) => state.job.viewports[to]?.name ?? "");
  const attempt = useAttempt();
  const offer = answer !== undefined && answer !== "stopped" && answer.is === "offer" ? answer.offer : undefined;
  const words =
    answer === undefined
      ? "Looking for the grids of both sheets…"
      : answer === "stopped"
        ? "The lines of one of the two sheets could not be read."
        : answer.is === "offer"
          ? `${answer.offer.labels.length} grid lines are shared with ${other}.`
          : NONE[answer.is];
  const note = useOnlyNote(to);
  const without = offer && offer.suspects.length > 0 ? `without ${offer.suspects.join(", ")}` : "so";
  const lay = (pairs: GridOffer["pairs"], scale?: ScaleNote) => {
    const build = (job: Job) =>
      scale ? layWithScale(job, id, to, pairs, scale) : registerViewport(job, id, to, pairs);
    if (attempt(build).ok) {
      onDone();
      // The card's buttons have changed under the focus: work goes on at the sheet.
      view.focusSheet();
    }
  };
  return (
    <section className="by-grid" aria-label="Lay it by its grid">
      <p role="status" className={offer ? "" : "quiet"}>
        {words}
      </p>
      {offer && <Doubts offer={offer} other={other} />}
      {offer && <SharedLabels offer={offer} />}
      {offer && offer.pairs.length > 1 && note && (
        <p className="quiet">
          {other} has no scale yet. It states one, {note.text}: compare a written dimension before you rely on it.
        </p>
      )}
      <div className="acts">
        {offer && offer.pairs.length > 1 && note && (
          <Button className="button small" onPress={() => lay(offer.pairs, note)}>
            Lay it {without}, {other} at {note.text}
          </Button>
        )}
        {offer && offer.pairs.length > 1 && (
          <Button className="button small" onPress={() => lay(offer.pairs)}>
            Lay it {without}
          </Button>
        )}
        <Button className="button bare small" onPress={onDone}>
          Leave it
        </Button>
      </div>
    </section>
  );
}

/** What speaks against it, in sentences. */
function Doubts({ offer, other }: { readonly offer: GridOffer; readonly other: string }) {
  const { mirrored, fits, suspects, onlyHere, onlyThere } = offer;
  const doubts = [
    ...(mirrored ? [`The two show the plan from opposite sides: one is mirrored. It cannot be laid on ${other}.`] : []),
    ...(suspects.length > 0
      ? [`${suspects.join(", ")} is probably another line on ${other}: the others fit without it.`]
      : []),
    ...(!fits && !mirrored
      ? [
          "The shared lines do not lie alike: lines are named otherwise, or a bay is missing. Pick shared points instead.",
        ]
      : []),
  ];
  const only = [
    ...(onlyHere.length > 0 ? [`Only here: ${onlyHere.join(", ")}.`] : []),
    ...(onlyThere.length > 0 ? [`Only on ${other}: ${onlyThere.join(", ")}.`] : []),
  ];
  return (
    <>
      {doubts.map((doubt) => (
        <p className="notice" key={doubt}>
          {doubt}
        </p>
      ))}
      {only.length > 0 && <p className="quiet">{only.join(" ")}</p>}
    </>
  );
}

function SharedLabels({ offer }: { readonly offer: GridOffer }) {
  const system = useSystem();
  return (
    <table className="shared">
      <caption className="unseen">Shared grid lines and how far each lies from its partner</caption>
      <thead>
        <tr>
          <th scope="col">Grid line</th>
          <th scope="col">{offer.inBuilding ? "Off by" : "Off by, on paper"}</th>
        </tr>
      </thead>
      <tbody>
        {offer.labels.map(({ label, off, suspect }) => (
          <tr key={label}>
            <th scope="row">{suspect ? `${label} (doubtful)` : label}</th>
            <td>{clearanceText(off, system)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
