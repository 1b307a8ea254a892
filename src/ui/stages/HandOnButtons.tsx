import { type ReactNode, useState } from "react";
import { Button } from "react-aria-components";
import type { HandedOn } from "../../issue/handed-on.ts";
import { useDesk, useHost, useSession } from "../desk-context.ts";
import { Outcome } from "./Outcome.tsx";

/** What can be written, each as a button of its own, and what came of the last one pressed. */
export function HandOnButtons({
  forms,
  author,
  children,
}: {
  readonly forms: readonly (readonly [label: string, wanted: HandedOn])[];
  readonly author: string;
  /** Further buttons of the same group. */
  readonly children?: ReactNode;
}) {
  const { host } = useDesk();
  const busy = useHost((state) => state.busy);
  const unchecked = useSession((state) => state.result === null);
  const [outcome, setOutcome] = useState<Awaited<ReturnType<typeof host.handOn>>>();
  const write = async (wanted: HandedOn) => {
    setOutcome(undefined);
    setOutcome(await host.handOn(wanted, author));
  };
  return (
    <>
      <div className="acts">
        {forms.map(([label, wanted]) => (
          <Button
            key={label}
            className="button small"
            isDisabled={unchecked || busy !== null}
            onPress={() => void write(wanted)}
          >
            {label}
          </Button>
        ))}
        {children}
      </div>
      <div role="status">{outcome && <Outcome outcome={outcome} />}</div>
    </>
  );
}
