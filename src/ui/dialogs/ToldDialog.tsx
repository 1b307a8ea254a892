import { Button, Dialog, Heading } from "react-aria-components";
import { useDesk } from "../desk-context.ts";
import type { Question } from "../host.ts";

/** Says what happened, where, and what to do. */
export function ToldDialog({ question }: { readonly question: Extract<Question, { is: "told" }> }) {
  const { host } = useDesk();
  return (
    <Dialog role="alertdialog">
      <Heading slot="title">{question.title}</Heading>
      {question.lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
      <div className="acts">
        <Button className="button main" autoFocus onPress={() => host.dismiss(question)}>
          Close
        </Button>
      </div>
    </Dialog>
  );
}
