import { useEffect, useState } from "react";
import type { Problem } from "../../units/problem.ts";
import { useDesk } from "../desk-context.ts";
import type { Progress } from "../host.ts";
import { reportBug } from "../report-bug.ts";
import type { Compared, ComparisonAsk } from "./issue-host.ts";

/** How far a comparison is, and what it came to. */
export type ComparisonState =
  | { readonly is: "running"; readonly progress: Progress; readonly stop: () => void }
  | { readonly is: "stopped" }
  | { readonly is: "refused"; readonly problems: readonly Problem[] }
  | { readonly is: "done"; readonly compared: Compared };

const NOT_YET: Progress = { done: 0, total: 0 };

/** Compares two issues; another `ask` (kept by the caller) begins anew and ends the one before. Undefined while nothing is asked. */
export function useComparison(ask: ComparisonAsk | null): ComparisonState | undefined {
  const { host } = useDesk();
  const [state, setState] = useState<{ readonly of: ComparisonAsk; readonly is: ComparisonState }>();
  useEffect(() => {
    if (!ask) return;
    const tell = (is: ComparisonState) => setState({ of: ask, is });
    const work = host.issues.compare(ask, (progress) => tell({ is: "running", progress, stop: work.stop }));
    tell({ is: "running", progress: NOT_YET, stop: work.stop });
    let wanted = true;
    work.answer.then(
      (answer) => {
        if (!wanted) return;
        if (!answer) tell({ is: "stopped" });
        else if (!answer.ok) tell({ is: "refused", problems: answer.problems });
        else tell({ is: "done", compared: answer.value });
      },
      (error: unknown) => {
        if (!wanted) return;
        tell({ is: "stopped" });
        if (!(error instanceof Error) || error.name === "AbortError" || error.name === "RendererLost") return;
        reportBug(error);
      },
    );
    return () => {
      wanted = false;
      work.stop();
    };
  }, [host, ask]);
  return ask && state?.of === ask
    ? state.is
    : ask
      ? { is: "running", progress: NOT_YET, stop: () => undefined }
      : undefined;
}
