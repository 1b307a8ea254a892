import { SheetHost } from "./SheetHost.tsx";
import { CheckStage } from "./stages/CheckStage.tsx";
import { SheetStage } from "./stages/SheetStage.tsx";

/** What a desk cannot be shown without, in one file. */
export const deskParts = { SheetHost, CheckStage, SheetStage };
