import type { Id } from "../job/fields.ts";
import type { FoldLine } from "../job/schema.ts";
import type { ToolName } from "./tools/tool-state.ts";

/** What to start a tool with. Viewports and areas left out are taken from the selection, or from the sheet shown. */
export type ToolRequest =
  /** `begin: "move"`: what is selected follows the arrow keys until Enter or Escape. */
  | { readonly tool: "edit"; readonly begin?: "move" }
  | { readonly tool: "select-several" }
  | { readonly tool: "measure-scale"; readonly viewport?: Id }
  | { readonly tool: "mark-viewport" }
  | { readonly tool: "reshape-part"; readonly viewport?: Id }
  | { readonly tool: "register"; readonly viewport?: Id; readonly to?: Id }
  /** `byRegion`: by pointing into a closed region of the drawing. */
  | {
      readonly tool: "outline-area";
      readonly area?: Id;
      readonly part?: "outline" | "hole";
      readonly byRegion?: boolean;
    }
  | { readonly tool: "outline-storey"; readonly storey?: Id; readonly part?: "outline" | "hole" }
  | { readonly tool: "slope-direction"; readonly area?: Id }
  /** `again` begins without the spots the area has. */
  | { readonly tool: "spots"; readonly area?: Id; readonly again?: boolean }
  | { readonly tool: "fold-line"; readonly area?: Id; readonly kind?: FoldLine["kind"] }
  | { readonly tool: "trace-run"; readonly type?: string; readonly tradeSize?: string }
  | { readonly tool: "follow-line"; readonly type?: string; readonly tradeSize?: string }
  | { readonly tool: "place-box"; readonly item?: string; readonly cover?: "down" | "sideways" }
  | { readonly tool: "place-fitting"; readonly item?: string; readonly tradeSize?: string }
  | { readonly tool: "place-entry" }
  | { readonly tool: "place-note" }
  | { readonly tool: "trace-rack" }
  /** Of the one run that is selected. */
  | { readonly tool: "parallel-runs" }
  /** Of the elements that are selected, told by the selected vertex of a single one. */
  | { readonly tool: "copy-selected" }
  /** Of the one thing at a point that is selected. */
  | { readonly tool: "copy-along" }
  | { readonly tool: "measure" };

/** The request that starts one tool. */
export type ToolRequestOf<N extends ToolName> = Extract<ToolRequest, { tool: N }>;
