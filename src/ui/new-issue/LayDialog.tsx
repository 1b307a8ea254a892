import { useEffect, useMemo, useState } from "react";
import { Button, Dialog, Heading } from "react-aria-components";
import { replaceSheet } from "../../editor/edits/replace-sheet.ts";
import type { PointPair } from "../../geometry/similarity.ts";
import type { Id } from "../../job/fields.ts";
import type { Sheet } from "../../job/schema.ts";
import type { PageGeometry } from "../../pdf/read/page-geometry.ts";
import { useDesk, useHost, useSession, useSystem } from "../desk-context.ts";
import type { Drawing } from "../host.ts";
import { problemWords } from "../problem-words.ts";
import { ComparisonProgress } from "./ComparisonProgress.tsx";
import { IssueComparison } from "./IssueComparison.tsx";
import { IssuePages } from "./IssuePages.tsx";
import type { Compared, ComparisonAsk, LayingAsk } from "./issue-host.ts";
import { laidWords, lookWords } from "./issue-words.ts";
import { PointPairs } from "./PointPairs.tsx";
import { thingsMoved, thingsOnSheet, toLookAtOf } from "./things-on-sheet.ts";
import { useComparison } from "./use-comparison.ts";

type OpenDrawing = Extract<Drawing, { is: "open" }>;

/** A page that is to replace a sheet. */
interface ChosenPage {
  readonly drawing: OpenDrawing;
  readonly geometry: PageGeometry;
}

/** From choosing the new issue of a sheet to replacing it: what laying one on the other came to is shown first, the person accepts it. */
export function LayDialog({ id, onDone }: { readonly id: Id; readonly onDone: () => void }) {
  const sheet = useSession((state) => state.job.sheets[id]);
  const drawings = useHost((state) => state.drawings);
  const [chosen, setChosen] = useState<ChosenPage>();
  const old = sheet && drawings[sheet.file.sha256];
  if (!sheet) return null;
  return (
    <Dialog className="issue-dialog">
      <Heading slot="title">New issue of {sheet.title}</Heading>
      {old?.is !== "open" ? (
        <>
          <p>{sheet.file.name} is not at hand here. Choose that file first: the new issue is laid on what it shows.</p>
          <Leave onDone={onDone} />
        </>
      ) : chosen ? (
        <Laying id={id} sheet={sheet} old={old} chosen={chosen} onOther={() => setChosen(undefined)} onDone={onDone} />
      ) : (
        <IssuePages sheet={sheet} onChoose={(drawing, geometry) => setChosen({ drawing, geometry })} onLeave={onDone} />
      )}
    </Dialog>
  );
}

function Leave({ onDone }: { readonly onDone: () => void }) {
  return (
    <div className="acts">
      <Button className="button" autoFocus onPress={onDone}>
        Leave it
      </Button>
    </div>
  );
}

interface LayingProps {
  readonly id: Id;
  readonly sheet: Sheet;
  readonly old: OpenDrawing;
  readonly chosen: ChosenPage;
  readonly onOther: () => void;
  readonly onDone: () => void;
}

function Laying({ id, sheet, old, chosen, onOther, onDone }: LayingProps) {
  const { session } = useDesk();
  const things = useMemo(() => thingsOnSheet(session.getState().job, id), [session, id]);
  const [laying, setLaying] = useState<LayingAsk | null>({ is: "find" });
  const { drawing, geometry } = chosen;
  const from = useMemo(() => ({ handle: old.handle, page: sheet.page }), [old.handle, sheet.page]);
  const to = useMemo(() => ({ handle: drawing.handle, page: geometry.page }), [drawing.handle, geometry.page]);
  const ask = useMemo(
    (): ComparisonAsk | null => laying && { old: from, fresh: to, laying, things },
    [from, to, laying, things],
  );
  const state = useComparison(ask);
  if (!laying || !state)
    return (
      <PointPairs
        old={{ ...from, geometry: geometryOf(sheet) }}
        fresh={{ ...to, geometry }}
        onLay={(pairs: readonly PointPair[]) => setLaying({ is: "points", pairs })}
        onLeave={onDone}
      />
    );
  if (state.is === "running") return <ComparisonProgress state={state} />;
  if (state.is === "done")
    return (
      <Accept {...{ id, sheet, chosen, compared: state.compared, things, onDone }} onByHand={() => setLaying(null)} />
    );
  return (
    <>
      <div className="notice" role="alert">
        {state.is === "stopped" ? (
          <p>It was stopped, or the lines of one of the two could not be read. Nothing has changed.</p>
        ) : (
          state.problems.map((problem) => <p key={problem.code}>{problemWords(problem)}</p>)
        )}
      </div>
      <p className="quiet">The sheet and everything on it are as they were.</p>
      <div className="acts">
        <Button className="button" onPress={onDone}>
          Leave it
        </Button>
        <Button className="button" onPress={onOther}>
          Choose another page
        </Button>
        <Button className="button main" autoFocus onPress={() => setLaying(null)}>
          Point at shared places
        </Button>
      </div>
    </>
  );
}

const geometryOf = ({ page, view, rotate, userUnit }: Sheet): PageGeometry => ({ page, view, rotate, userUnit });

interface AcceptProps extends Pick<LayingProps, "id" | "sheet" | "chosen" | "onDone"> {
  readonly compared: Compared;
  readonly things: ReturnType<typeof thingsOnSheet>;
  readonly onByHand: () => void;
}

/** How well the new issue lies and what it changes, before anything is done. */
function Accept({ id, sheet, chosen, compared, things, onDone, onByHand }: AcceptProps) {
  const { session, view } = useDesk();
  const system = useSystem();
  const job = useSession((state) => state.job);
  const [refused, setRefused] = useState<string>();
  const { alignment, changes, sim } = compared;
  const { drawing, geometry } = chosen;
  const { isPicture } = changes;
  const toLookAt = useMemo(
    () =>
      isPicture
        ? things.map(({ table, id: thing }) => ({ table, id: thing, line: null, beside: false, texts: [] }))
        : toLookAtOf(changes, things),
    [isPicture, changes, things],
  );
  const looks = useMemo(() => {
    const moved = thingsMoved(things, sim);
    return toLookAt.flatMap((look) => {
      const thing = moved.find((one) => one.table === look.table && one.id === look.id);
      return thing ? [{ thing, words: lookWords(job, id, look, system) }] : [];
    });
  }, [things, sim, toLookAt, job, id, system]);
  // The words said of a button that has gone with its step are lost: the focus goes on to the next one.
  useEffect(() => document.querySelector<HTMLElement>(".issue-dialog .main")?.focus(), []);
  if (!alignment) return null;
  const replace = () => {
    const { page, view: box, rotate, userUnit } = geometry;
    const edit = replaceSheet(session.getState().job, id, {
      page: {
        file: { sha256: drawing.sha256, name: drawing.name, bytes: drawing.bytes },
        page,
        view: [...box] as [number, number, number, number],
        rotate,
        userUnit,
      },
      sim,
      by: alignment.by,
      residualPt: alignment.residualPt,
      toLookAt,
    });
    if (!edit.ok) return setRefused(edit.problems.map(problemWords).join(" "));
    session.commit(edit.value);
    session.setSheet(id);
    view.store.setState({ said: `${sheet.title} is replaced by its new issue.` });
    onDone();
  };
  const turnDeg = (sim.angle * 180) / Math.PI;
  const paperScale = (sim.scale * geometry.userUnit) / sheet.userUnit;
  return (
    <>
      <p>
        {laidWords({ by: alignment.by, scale: paperScale, turnDeg, residualPt: alignment.residualPt }, alignment.pairs)}{" "}
        {alignment.share === null
          ? "One of the two is a picture without lines: nothing can be compared, so everything on the sheet is left for you to look at."
          : `Of the long straight lines of the old drawing ${Math.floor(alignment.share * 1000) / 10} % are there.`}
      </p>
      <IssueComparison title={sheet.title} geometry={geometry} changes={changes} looks={looks} />
      {refused && (
        <p className="notice" role="alert">
          {refused}
        </p>
      )}
      <div className="acts">
        <Button className="button" onPress={onDone}>
          Leave it
        </Button>
        <Button className="button" onPress={onByHand}>
          Point at shared places instead
        </Button>
        <Button className="button main" onPress={replace}>
          Replace the sheet
        </Button>
      </div>
    </>
  );
}
