import { type FocusEvent, useEffect, useRef } from "react";
import { Button, Label, ProgressBar } from "react-aria-components";
import { useDesk, useHost } from "./desk-context.ts";
import type { Work } from "./host.ts";

/**
 * How far work is that has taken a while, and a button that stops it; Escape stops it too while the focus is in here. Nothing while there
 * is no such work. That it goes on is said once: the bar itself is read when somebody goes to it.
 */
export function WorkBar({ work, label }: { readonly work: Work; readonly label: string }) {
  const { host } = useDesk();
  const focus = useFocusBack();
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
      {...focus}
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

/** Gives the focus back to where it came from when the bar goes away under it: to the sheet where that is gone too. */
function useFocusBack() {
  const { host, view } = useDesk();
  const came = useRef<{ readonly from: EventTarget | null } | null>(null);
  useEffect(
    () =>
      host.state.subscribe(({ progress }, { progress: before }) => {
        if (progress === before || !came.current) return;
        const { from } = came.current;
        // After what comes in its place has been drawn.
        requestAnimationFrame(() => {
          if (document.activeElement !== document.body) return;
          came.current = null;
          if (from instanceof HTMLElement && from.isConnected && !from.matches(":disabled")) from.focus();
          else view.focusSheet();
        });
      }),
    [host, view],
  );
  return {
    onFocus: ({ relatedTarget, currentTarget }: FocusEvent) => {
      if (!currentTarget.contains(relatedTarget)) came.current = { from: relatedTarget };
    },
    onBlur: ({ relatedTarget }: FocusEvent) => {
      // Gone with the bar itself it goes nowhere: that is no leaving.
      if (relatedTarget) came.current = null;
    },
  };
}
