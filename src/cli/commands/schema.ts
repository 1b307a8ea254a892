import { z } from "zod";
import { jobSchema } from "../../job/schema.ts";
import type { Outcome } from "../outcome.ts";

/** `schema`: the JSON Schema (draft 2020-12) of a job. */
export function schemaCommand(): Outcome {
  return { out: `${JSON.stringify(z.toJSONSchema(jobSchema, { io: "input" }), null, 2)}\n`, status: 0 };
}
