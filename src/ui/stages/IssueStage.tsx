import { useState } from "react";
import { Button } from "react-aria-components";
import { useStore } from "zustand";
import { sheetsInOrder } from "../../editor/sheet-order.ts";
import type { Problem } from "../../units/problem.ts";
import { Cautions } from "../Cautions.tsx";
import { useDesk, useHost, useSession } from "../desk-context.ts";
import { PickRow } from "../fields/PickRow.tsx";
import { TextRow } from "../fields/TextRow.tsx";
import { TickRow } from "../fields/TickRow.tsx";
import type { Issued } from "../host.ts";
import { WorkBar } from "../WorkBar.tsx";
import { copyChoices, formChoices, reportChoices } from "../words.ts";
import { BriefPart } from "./BriefPart.tsx";
import { CommentsPart } from "./CommentsPart.tsx";
import { FindingsAsData } from "./FindingsAsData.tsx";
import { JobFilePart } from "./JobFilePart.tsx";
import { Lacking } from "./Lacking.tsx";
import { Outcome } from "./Outcome.tsx";
import { SchedulesPart } from "./SchedulesPart.tsx";

/** The Issue stage: the annotated sheets, the report, the findings as data, the job as a file. */
export function IssueStage() {
  const { host, view } = useDesk();
  const job = useSession((state) => state.job);
  const busy = useHost((state) => state.busy);
  const choice = useStore(view.store, (state) => state.issue);
  const { author, report, form, copy, left } = choice;
  const choose = (change: Partial<typeof choice>) => view.store.setState({ issue: { ...choice, ...change } });
  const [outcome, setOutcome] = useState<Issued | { readonly problems: readonly Problem[] }>();
  const sheets = Object.keys(job.sheets).filter((id) => !left.includes(id));
  const issue = async () => {
    setOutcome(undefined);
    setOutcome(await host.issue({ sheets, author, report, form, copy }));
  };
  return (
    <>
      <Lacking stage="issue" />
      <section className="block">
        <h3>Sheets to issue</h3>
        {sheetsInOrder(job)
          .flatMap((id) => (job.sheets[id] ? [[id, job.sheets[id]] as const] : []))
          .map(([id, sheet]) => (
            <TickRow
              key={id}
              label={sheet.title}
              isSelected={!left.includes(id)}
              onChange={(on) => choose({ left: on ? left.filter((one) => one !== id) : [...left, id] })}
            />
          ))}
        {Object.keys(job.sheets).length === 0 && <p className="quiet">No sheet in the job yet.</p>}
      </section>
      <div className="rows">
        <TextRow
          label="Author of the marks"
          value={author}
          placeholder="Not stated"
          onCommit={(text) => {
            choose({ author: text.trim() });
            return { ok: true };
          }}
        />
        <PickRow label="Report" value={report} options={reportChoices} onChange={(next) => choose({ report: next })} />
        <PickRow
          label="Marks as"
          value={form}
          options={formChoices}
          onChange={(next) => choose({ form: next })}
          note={
            form === "flattened"
              ? "Part of the page: cannot be switched off or moved."
              : "The drawing's own bytes stay as they are; marks lie on layers of their own."
          }
        />
        <PickRow
          label="Copies"
          value={copy}
          options={copyChoices}
          onChange={(next) => choose({ copy: next })}
          {...(copy === "none" ? {} : { note: "Every marked sheet of a copy says that it is one." })}
        />
      </div>
      <Cautions />
      <Button className="button main" isDisabled={sheets.length === 0 || busy !== null} onPress={() => void issue()}>
        {busy ?? "Issue"}
      </Button>
      <WorkBar work="issue" label={busy ?? "Writing…"} />
      <div role="status">{outcome && <Outcome outcome={outcome} />}</div>
      <BriefPart author={author} />
      <CommentsPart author={author} />
      <SchedulesPart />
      <FindingsAsData />
      <JobFilePart />
    </>
  );
}
