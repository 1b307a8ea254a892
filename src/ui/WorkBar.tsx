import { Button, Label, ProgressBar } from "react-aria-components";
import { useDesk, useHost } from "./desk-context.ts";
import type { Work } from "./host.ts";

/**
 * How far work is that has taken a while, and a button that stops it; Escape stops it too while the focus is in here. Nothing while there
 * is no such work. That it goes on is said once: the bar itself is read when somebody goes to it.
 */
export function WorkBar({ work, label }: { readonly work: Work; readonly label: string }) {
  const { host } = useDesk();
  const progress = useHost((state) => state.progress[work]);
  const said = (
    <span className="unseen" role="status">
      {progress && `${label}.`}
    </span>
  );
  if (!progress) return said;
  const { done, total } = progress;
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: Escape is a second way to press the button in it
    <div
      className="work-bar"
      onKeyDown={(event) => {
        if (event.key !== "Escape") return;
        event.preventDefault();
        event.stopPropagation();
        host.stop(work);
      }}
    >
      {said}
      <ProgressBar
        className="work-progress"
        isIndeterminate={total === 0}
        value={done}
        maxValue={Math.max(total, 1)}
        valueLabel={total === 0 ? "" : `${done} of ${total}`}
      >
        {({ percentage, valueText }) => (
          <>
            <Label>{label}</Label>
            <span className="work-value">{valueText}</span>
            <span className="work-track">
              <span style={{ inlineSize: `${percentage ?? 0}%` }} />
            </span>
          </>
        )}
      </ProgressBar>
      <Button className="button small" onPress={() => host.stop(work)}>
        Stop
      </Button>
    </div>
  );
}
