import { useEffect, useMemo } from "react";
import { Button, Dialog, Heading } from "react-aria-components";
import { lookedAt } from "../../editor/edits/replace-sheet.ts";
import type { Id } from "../../job/fields.ts";
import type { Sheet } from "../../job/schema.ts";
import type { EarlierIssue } from "../../job/sheet-issue.ts";
import { radians } from "../../units/quantity.ts";
import { useDesk, useHost, useSession, useSystem } from "../desk-context.ts";
import { problemWords } from "../problem-words.ts";
import { useGoTo } from "../use-go-to.ts";
import { ComparisonProgress } from "./ComparisonProgress.tsx";
import { IssueComparison } from "./IssueComparison.tsx";
import type { ComparisonAsk } from "./issue-host.ts";
import { lookWords } from "./issue-words.ts";
import { thingsOnSheet } from "./things-on-sheet.ts";
import { useComparison } from "./use-comparison.ts";

interface CompareDialogProps {
  readonly id: Id;
  /** The mark to begin with, by its key. */
  readonly begin: string | undefined;
  readonly onDone: () => void;
}

/** The issue of a sheet before this one and this one, on one picture, with what is still to look at. */
export function CompareDialog({ id, begin, onDone }: CompareDialogProps) {
  const sheet = useSession((state) => state.job.sheets[id]);
  const earlier = sheet?.earlier?.at(-1);
  if (!sheet || !earlier) return null;
  return (
    <Dialog className="issue-dialog">
      <Heading slot="title">Old and new issue of {sheet.title}</Heading>
      <Comparison {...{ id, sheet, earlier, begin, onDone }} />
      <div className="acts">
        <Button className="button" onPress={onDone}>
          Close
        </Button>
      </div>
    </Dialog>
  );
}

interface ComparisonProps extends CompareDialogProps {
  readonly sheet: Sheet;
  readonly earlier: EarlierIssue;
}

function Comparison({ id, sheet, earlier, begin, onDone }: ComparisonProps) {
  const { session, host } = useDesk();
  const system = useSystem();
  const goTo = useGoTo();
  const job = useSession((state) => state.job);
  const { sha256, name } = earlier.file;
  const old = useHost((state) => state.drawings[sha256]);
  const fresh = useHost((state) => state.drawings[sheet.file.sha256]);
  useEffect(() => {
    if (!old) void host.issues.open({ sha256, name });
  }, [host, old, sha256, name]);
  const [from, to] = [old?.is === "open" ? old.handle : undefined, fresh?.is === "open" ? fresh.handle : undefined];
  const { laid, page } = earlier;
  const ask = useMemo((): ComparisonAsk | null => {
    if (from === undefined || to === undefined) return null;
    const [dx, dy] = laid.shift;
    const sim = { scale: laid.scale, angle: radians((laid.turnDeg * Math.PI) / 180), dx, dy };
    return {
      old: { handle: from, page },
      fresh: { handle: to, page: sheet.page },
      laying: { is: "known", sim },
      things: [],
    };
  }, [from, to, page, sheet.page, laid]);
  const state = useComparison(ask);
  const looks = useMemo(() => {
    const things = thingsOnSheet(job, id);
    return (job.sheets[id]?.toLookAt ?? []).flatMap((look) => {
      const thing = things.find((one) => one.table === look.table && one.id === look.id);
      return thing ? [{ thing, words: lookWords(job, id, look, system) }] : [];
    });
  }, [job, id, system]);
  if (!ask)
    return (
      <p className="notice" role="status">
        {old === undefined || old.is === "opening" || fresh?.is === "opening"
          ? `Opening ${name}…`
          : `${name}, the issue before, is not at hand in this browser. Open that file, and compare again.`}
      </p>
    );
  if (!state || state.is === "running") return state ? <ComparisonProgress state={state} /> : null;
  if (state.is !== "done")
    return (
      <p className="notice" role="alert">
        {state.is === "refused"
          ? state.problems.map(problemWords).join(" ")
          : "It was stopped, or the lines of one of the two could not be read."}
      </p>
    );
  return (
    <IssueComparison
      title={sheet.title}
      geometry={sheet}
      changes={state.compared.changes}
      looks={looks}
      begin={begin}
      actsFor={({ thing }) => (
        <>
          <Button
            className="button small"
            onPress={() => {
              onDone();
              session.select({ table: thing.table, id: thing.id });
              goTo({ table: thing.table, id: thing.id });
            }}
          >
            Show it on the sheet
          </Button>
          <Button
            className="button small"
            onPress={() => session.attempt(lookedAt(session.getState().job, id, thing.table, thing.id))}
          >
            Looked at
          </Button>
        </>
      )}
    />
  );
}
