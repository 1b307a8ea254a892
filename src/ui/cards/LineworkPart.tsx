import { Button } from "react-aria-components";
import { useStore } from "zustand";
import type { Id } from "../../job/fields.ts";
import { useDesk, useSession } from "../desk-context.ts";
import { usePageSurvey } from "../use-page-survey.ts";
import { CardPart } from "./CardFrame.tsx";

const WORDS = {
  reading: "Its lines are being read.",
  there: "Points snap to its lines; X turns that off and on.",
  partial: "It holds more lines than are read: points snap to a part of them. X turns that off and on.",
  none: "There is no linework to follow: nothing on this page is drawn as lines. Scale, outlines and runs are put by hand, and points go where they are put.",
  picture:
    "There is no linework to follow: this page is a picture of a drawing, with at most a few lines over it. Scale, outlines and runs are put by hand, and points go where they are put.",
  stopped: "Its lines were not read. Points go where they are put.",
} as const;

/** What is known of the lines of the drawing on the sheet shown. */
export function LineworkPart({ sheet }: { readonly sheet: Id }) {
  const { view, session } = useDesk();
  const lines = useStore(view.store, (state) => state.lines);
  const on = useSession((state) => state.toDrawing);
  const survey = usePageSurvey(sheet);
  if (lines?.sheet !== sheet) return null;
  const isPicture = survey?.is === "picture" && lines.is !== "reading" && lines.is !== "stopped";
  const attracts = !isPicture && (lines.is === "there" || lines.is === "partial");
  return (
    <CardPart title="Lines of the drawing">
      <p className="quiet">
        {attracts && !on
          ? "Points do not snap to its lines; X turns that on."
          : WORDS[isPicture ? "picture" : lines.is]}
      </p>
      {attracts && (
        <Button className="button small" onPress={() => session.snapToDrawing(!on)}>
          {on ? "Do not snap to them" : "Snap to them"} <kbd>X</kbd>
        </Button>
      )}
      {lines.is === "stopped" && (
        <Button
          className="button small"
          onPress={() => view.store.setState(({ linesAsked }) => ({ linesAsked: linesAsked + 1 }))}
        >
          Read its lines
        </Button>
      )}
    </CardPart>
  );
}
