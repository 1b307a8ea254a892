import type { ReactNode } from "react";
import { Modal, ModalOverlay } from "react-aria-components";
import { useDesk, useHost } from "../desk-context.ts";
import type { Question } from "../host.ts";
import { ChangedDialog } from "./ChangedDialog.tsx";
import { PagesDialog } from "./PagesDialog.tsx";
import { PasswordDialog } from "./PasswordDialog.tsx";
import { ToldDialog } from "./ToldDialog.tsx";

/** The dialog of every kind of question; a new kind is one line here. */
const dialogs: { readonly [K in Question["is"]]: (question: Extract<Question, { is: K }>) => ReactNode } = {
  password: (question) => <PasswordDialog question={question} />,
  pages: (question) => <PagesDialog question={question} />,
  changed: (question) => <ChangedDialog question={question} />,
  told: (question) => <ToldDialog question={question} />,
};
const dialogOf = <K extends Question["is"]>(question: Extract<Question, { is: K }>): ReactNode =>
  dialogs[question.is as K](question);

/** What the application asks before it goes on, one question after another. */
export function Questions() {
  const { host } = useDesk();
  const question = useHost((state) => state.questions[0]);
  return (
    <ModalOverlay
      className="veil"
      isOpen={question !== undefined}
      isDismissable
      onOpenChange={(open) => !open && question && host.dismiss(question)}
    >
      <Modal className="modal">{question && dialogOf(question)}</Modal>
    </ModalOverlay>
  );
}
