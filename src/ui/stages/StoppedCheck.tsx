import { Button } from "react-aria-components";
import { useDesk, useSession } from "../desk-context.ts";

/** After a check that was stopped: that what is shown is not of the job as it is, and the way to check it. */
export function StoppedCheck() {
  const { session, view } = useDesk();
  const stopped = useSession((state) => state.stopped);
  const hasResult = useSession((state) => state.result !== null);
  if (!stopped) return null;
  return (
    <div className="notice">
      <p>
        The check was stopped.{" "}
        {hasResult
          ? "The findings shown are of the job before: nothing is said of what was changed since."
          : "Nothing is said of this job yet."}
      </p>
      <Button
        className="button small"
        onPress={() => {
          session.checkAgain();
          view.focusSheet();
        }}
      >
        Check again
      </Button>
    </div>
  );
}
