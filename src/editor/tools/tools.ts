import type { Tool } from "../tool.ts";
import { copyAlongTool } from "./copy-along.ts";
import { copySelectedTool } from "./copy-selected.ts";
import { editTool } from "./edit.ts";
import { foldLineTool } from "./fold-line.ts";
import { followLineTool } from "./follow-line.ts";
import { markViewportTool } from "./mark-viewport.ts";
import { measureTool } from "./measure.ts";
import { measureScaleTool } from "./measure-scale.ts";
import { outlineAreaTool } from "./outline-area.ts";
import { outlineStoreyTool } from "./outline-storey.ts";
import { parallelRunsTool } from "./parallel-runs.ts";
import { placeBoxTool } from "./place-box.ts";
import { placeEntryTool } from "./place-entry.ts";
import { placeFittingTool } from "./place-fitting.ts";
import { placeNoteTool } from "./place-note.ts";
import { registerTool } from "./register.ts";
import { reshapePartTool } from "./reshape-part.ts";
import { selectSeveralTool } from "./select-several.ts";
import { slopeDirectionTool } from "./slope-direction.ts";
import { spotsTool } from "./spots.ts";
import type { ToolName, ToolState } from "./tool-state.ts";
import { traceRackTool } from "./trace-rack.ts";
import { traceRunTool } from "./trace-run.ts";

/** Every tool: a new one is one file beside this one, its state in tool-state.ts, and one line here. */
const TOOLS: { readonly [N in ToolName]: Tool<Extract<ToolState, { tool: N }>> } = {
  edit: editTool,
  "select-several": selectSeveralTool,
  "measure-scale": measureScaleTool,
  "mark-viewport": markViewportTool,
  "reshape-part": reshapePartTool,
  register: registerTool,
  "outline-area": outlineAreaTool,
  "outline-storey": outlineStoreyTool,
  "slope-direction": slopeDirectionTool,
  spots: spotsTool,
  "fold-line": foldLineTool,
  "trace-run": traceRunTool,
  "follow-line": followLineTool,
  "place-box": placeBoxTool,
  "place-fitting": placeFittingTool,
  "place-entry": placeEntryTool,
  "trace-rack": traceRackTool,
  "place-note": placeNoteTool,
  "parallel-runs": parallelRunsTool,
  "copy-selected": copySelectedTool,
  "copy-along": copyAlongTool,
  measure: measureTool,
};

/** The tool of that name. It is to be given states of its own only. */
export const toolNamed = (name: ToolName): Tool<ToolState> => TOOLS[name] as unknown as Tool<ToolState>;

/** The names of all tools. */
export const TOOL_NAMES = Object.keys(TOOLS) as readonly ToolName[];
