import { useState } from "react";
import { Button, Dialog, Heading } from "react-aria-components";
import { deleteRecords } from "../../editor/edits/delete-records.ts";
import { moveWhole } from "../../editor/edits/vertices.ts";
import type { IssuedChange, IssuedOffer } from "../../issue/issued-changes.ts";
import type { Edit } from "../../job/edit.ts";
import type { Job } from "../../job/schema.ts";
import type { Result } from "../../units/problem.ts";
import { useDesk } from "../desk-context.ts";
import type { Question } from "../host.ts";
import { problemWords } from "../problem-words.ts";
import { useAttempt } from "../use-attempt.ts";

/** An offer that can be taken by changing the job: an answer is there to be read. */
type Takeable = Exclude<IssuedOffer, { readonly to: "answer" }>;

const takes: {
  readonly [K in Takeable["to"]]: {
    readonly words: string;
    readonly done: string;
    readonly edit: (job: Job, offer: Extract<Takeable, { to: K }>) => Result<Edit>;
  };
} = {
  move: {
    words: "Move it there",
    done: "Moved in the job.",
    edit: (job, { table, id, by }) => moveWhole(job, table, id, by),
  },
  delete: {
    words: "Delete it",
    done: "Deleted from the job.",
    edit: (job, { table, id }) => deleteRecords(job, [{ table, id }]),
  },
};

/** What another program did to the marks of an issued PDF: each can be taken into the job, by itself to be undone, or left. */
export function ChangedDialog({ question }: { readonly question: Extract<Question, { is: "changed" }> }) {
  const { host } = useDesk();
  return (
    <Dialog role="alertdialog">
      <Heading slot="title">{question.name} was changed since it was issued</Heading>
      <p>The job is as it was issued. What you do not take stays so.</p>
      <ul className="changes">
        {question.changes.map((change, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: the list never changes, and two answers may read alike
          <ChangedRow key={i} change={change} />
        ))}
      </ul>
      <div className="acts">
        <Button className="button main" autoFocus onPress={() => host.dismiss(question)}>
          Close
        </Button>
      </div>
    </Dialog>
  );
}

function ChangedRow({ change: { told, offer } }: { readonly change: IssuedChange }) {
  const attempt = useAttempt();
  const [outcome, setOutcome] = useState<string>();
  const words = problemWords(told);
  const take = offer && offer.to !== "answer" ? takeOf(offer) : undefined;
  return (
    <li>
      <p>{words}</p>
      {take && outcome === undefined && (
        <Button
          className="button small"
          aria-label={`${take.words}: ${told.params.what}`}
          onPress={() => {
            const read = attempt(take.edit);
            setOutcome(read.ok ? take.done : read.words);
          }}
        >
          {take.words}
        </Button>
      )}
      <p role="status">{outcome}</p>
    </li>
  );
}

function takeOf<K extends Takeable["to"]>(offer: Extract<Takeable, { to: K }>) {
  const { words, done, edit } = takes[offer.to as K];
  return { words, done, edit: (job: Job) => edit(job, offer) };
}
