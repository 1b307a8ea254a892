import { z } from "zod";
import { lengthSchema } from "./fields.ts";

const grounds = {
  /** What it rests on: the ordinance, the letter. "" when not recorded, which the check complains of. */
  reason: z.string(),
  /** By whose decision it applies. "" when not recorded, which the check complains of. */
  authority: z.string(),
};

/** A local amendment to the job's rule set. It only ever asks for more; what it may not do is told by the check. */
export const amendmentSchema = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("larger-clearance"),
    /** Stated for each unit system by itself, as a rule's own clearance is. */
    clearance: z.strictObject({ imperial: lengthSchema, metric: lengthSchema }),
    ...grounds,
  }),
  z.strictObject({
    kind: z.literal("struck-exception"),
    /** Id of the exception in the rule set: `tables us-2023` lists them. */
    exception: z.string().min(1),
    ...grounds,
  }),
]);
