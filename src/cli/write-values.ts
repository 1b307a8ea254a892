import { writeFileSync } from "node:fs";
import { valuesDocument } from "./values-document.ts";

/** Writes `docs/values.md` anew. Run by `npm run values` from the root. */
writeFileSync("docs/values.md", valuesDocument());
