import { Component, type ReactNode, useEffect, useState } from "react";
import { Button } from "react-aria-components";
import { useDesk } from "./desk-context.ts";
import { onBug } from "./report-bug.ts";

interface BoundaryProps {
  readonly onCaught: (error: unknown) => void;
  readonly children: ReactNode;
}

/** Catches what a screen throws while it is drawn. */
class Boundary extends Component<BoundaryProps, { readonly failed: boolean }> {
  override state = { failed: false };
  static getDerivedStateFromError(): { failed: boolean } {
    return { failed: true };
  }
  override componentDidCatch(error: unknown): void {
    this.props.onCaught(error);
  }
  override render(): ReactNode {
    return this.state.failed ? null : this.props.children;
  }
}

/** Shows an error of the program as what it is, with a way to save the work first. Nothing is swallowed. */
export function BugBoundary({ children }: { readonly children: ReactNode }) {
  const [bug, setBug] = useState<unknown>();
  const [round, setRound] = useState(0);
  useEffect(() => {
    const failed = (event: ErrorEvent) => {
      // What is watched changed its size while its watchers were told: the browser says so, and tells the rest with the next frame.
      if (!event.error && event.message.startsWith("ResizeObserver loop")) return event.preventDefault();
      setBug(event.error ?? event.message);
    };
    const rejected = (event: PromiseRejectionEvent) => {
      // What was called off on purpose is no error.
      if (event.reason instanceof DOMException && event.reason.name === "AbortError") return event.preventDefault();
      setBug(event.reason);
    };
    window.addEventListener("error", failed);
    window.addEventListener("unhandledrejection", rejected);
    const back = onBug((error) => setBug(error));
    return () => {
      back();
      window.removeEventListener("error", failed);
      window.removeEventListener("unhandledrejection", rejected);
    };
  }, []);
  return (
    <>
      <Boundary key={round} onCaught={setBug}>
        {children}
      </Boundary>
      {bug !== undefined && (
        <BugPanel
          bug={bug}
          onGoOn={() => {
            setBug(undefined);
            setRound((before) => before + 1);
          }}
        />
      )}
    </>
  );
}

function BugPanel({ bug, onGoOn }: { bug: unknown; onGoOn: () => void }) {
  const { host } = useDesk();
  return (
    <div className="veil">
      <div className="modal" role="alertdialog" aria-label="An error in the program">
        <section>
          <h2>Something in the program went wrong</h2>
          <p>
            This is an error of the program, not of your drawing. Save the job as a file first; then go on, or load the
            page again.
          </p>
          <pre className="bug-text">{bug instanceof Error ? (bug.stack ?? bug.message) : String(bug)}</pre>
          <div className="acts">
            <Button className="button main" onPress={() => void host.saveJobFile(true)}>
              Save the job as a file
            </Button>
            <Button className="button" onPress={onGoOn}>
              Go on
            </Button>
            <Button className="button" onPress={() => window.location.reload()}>
              Load the page again
            </Button>
          </div>
        </section>
      </div>
    </div>
  );
}
