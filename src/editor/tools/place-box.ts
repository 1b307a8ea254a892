import { nextLabel } from "../../job/labels.ts";
import { boxKinds, findBoxKind } from "../../trade/boxes.ts";
import { ok } from "../../units/problem.ts";
import { addBox } from "../edits/elements.ts";
import type { Tool } from "../tool.ts";
import { placing } from "./placing.ts";
import type { PlaceBoxState } from "./tool-state.ts";
import { readySheet } from "./tool-steps.ts";

/** Places boxes of one kind, one for every point, with the tag typed last. */
export const placeBoxTool: Tool<PlaceBoxState> = {
  start({ item, cover = "down" }, context) {
    const ready = readySheet(context);
    return ready.ok ? ok({ tool: "place-box", item: item ?? boxKinds[0]!.id, cover, tag: null }) : ready;
  },
  ...placing<PlaceBoxState>(
    ({ item, cover, tag }, job, id, viewport, at) => addBox(job, id, { viewport, at, item, cover, tag }),
    ({ item, tag }, job) => ({
      code: tag ? "place.box-tagged" : "place.box",
      params: { item: `${nextLabel(job, "box")}, ${findBoxKind(item)?.label ?? item}` },
      asks: ["tag", "position"],
    }),
  ),
};
