import { useState } from "react";
import { Button, Dialog, FieldError, Form, Heading, Input, Label, TextField } from "react-aria-components";
import { useDesk } from "../desk-context.ts";
import type { Question } from "../host.ts";

/** Asks for the password of a protected drawing. It is used for opening and kept nowhere. */
export function PasswordDialog({ question }: { readonly question: Extract<Question, { is: "password" }> }) {
  const { host } = useDesk();
  const [text, setText] = useState("");
  const [tried, setTried] = useState(question.wrong);
  return (
    <Dialog>
      <Heading slot="title">Password for {question.name}</Heading>
      <Form
        className="rows"
        // A refused password is a message, not a reason to keep the next one from being tried.
        validationBehavior="aria"
        onSubmit={(event) => {
          event.preventDefault();
          setTried(false);
          void host.answerPassword(question.sha256, text);
        }}
      >
        <TextField className="row" type="password" value={text} onChange={setText} isInvalid={tried} autoFocus>
          <Label>The drawing is protected by a password</Label>
          <Input autoComplete="off" />
          <FieldError>{tried ? "That is not the password of this drawing. Type it again." : ""}</FieldError>
        </TextField>
        <p className="quiet">It is used to open the drawing here, and kept nowhere.</p>
        <div className="acts">
          <Button className="button" onPress={() => void host.answerPassword(question.sha256, null)}>
            Leave it closed
          </Button>
          <Button className="button main" type="submit">
            Open
          </Button>
        </div>
      </Form>
    </Dialog>
  );
}
