import { Button, Label, ProgressBar } from "react-aria-components";
import type { ComparisonState } from "./use-comparison.ts";

/** That two issues are being compared, how far, and a way to stop it. */
export function ComparisonProgress({ state }: { readonly state: Extract<ComparisonState, { is: "running" }> }) {
  const { done, total } = state.progress;
  return (
    <div className="work-bar in-dialog">
      <span className="unseen" role="status">
        Laying the new issue on the old one.
      </span>
      <ProgressBar className="work-progress" isIndeterminate={total === 0} value={done} maxValue={Math.max(total, 1)}>
        {({ percentage }) => (
          <>
            <Label>Laying the new issue on the old one and comparing their lines</Label>
            <span className="work-track">
              <span style={{ inlineSize: `${percentage ?? 0}%` }} />
            </span>
          </>
        )}
      </ProgressBar>
      <Button className="button small" onPress={state.stop}>
        Stop
      </Button>
    </div>
  );
}
