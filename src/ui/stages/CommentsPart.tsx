import { useState } from "react";
import { Button } from "react-aria-components";
import type { HandedOn } from "../../issue/handed-on.ts";
import { useDesk, useHost, useSession } from "../desk-context.ts";
import { HandOnButtons } from "./HandOnButtons.tsx";
import { Outcome } from "./Outcome.tsx";

const FORMS: readonly (readonly [string, HandedOn])[] = [
  ["Comments as a letter", { is: "comments", form: "pdf" }],
  ["Comments as a workbook", { is: "comments", form: "xlsx" }],
  ["Comments as CSV", { is: "comments", form: "csv" }],
];

/** The review comments: a letter by number, the same as a table with room for answers, and as text to paste. */
export function CommentsPart({ author }: { readonly author: string }) {
  const { host, view } = useDesk();
  const busy = useHost((state) => state.busy);
  const unchecked = useSession((state) => state.result === null);
  const [failed, setFailed] = useState<Extract<Awaited<ReturnType<typeof host.commentsText>>, object>>();
  const copy = async () => {
    const text = await host.commentsText(author);
    setFailed(typeof text === "string" ? undefined : text);
    if (typeof text !== "string") return;
    await host.copy(text);
    view.store.setState({ said: "Review comments copied as text." });
  };
  return (
    <section className="block">
      <h3>Review comments</h3>
      <p className="quiet">
        Each finding that needs attention, by its number: section, sheet, place, what is remarked and what is asked for.
      </p>
      <HandOnButtons forms={FORMS} author={author}>
        <Button className="button small" isDisabled={unchecked || busy !== null} onPress={() => void copy()}>
          Copy the comments
        </Button>
      </HandOnButtons>
      {failed && <Outcome outcome={failed} />}
    </section>
  );
}
