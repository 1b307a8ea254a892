import { nextLabel } from "../../job/labels.ts";
import { conduitBodies } from "../../trade/fittings.ts";
import { ok } from "../../units/problem.ts";
import { addFitting } from "../edits/elements.ts";
import type { Tool } from "../tool.ts";
import { placing } from "./placing.ts";
import type { PlaceFittingState } from "./tool-state.ts";
import { readySheet } from "./tool-steps.ts";

/** Places fittings of one kind, one for every point, with the tag typed last. */
export const placeFittingTool: Tool<PlaceFittingState> = {
  start({ item = "conduit-body", tradeSize }, context) {
    const ready = readySheet(context);
    if (!ready.ok) return ready;
    return ok({ tool: "place-fitting", item, tradeSize: tradeSize ?? conduitBodies[0]!.size, tag: null });
  },
  ...placing<PlaceFittingState>(
    ({ item, tradeSize, tag }, job, id, viewport, at) => addFitting(job, id, { viewport, at, item, tradeSize, tag }),
    ({ tradeSize, tag }, job) => ({
      code: tag ? "place.fitting-tagged" : "place.fitting",
      params: { item: `${nextLabel(job, "fitting")}, ${tradeSize} conduit body` },
      asks: ["tag", "position"],
    }),
  ),
};
