import { z } from "zod";
import { factTestSchema, liftedSchema } from "../rules/rule-set-schema.ts";
import { lengthSchema } from "./fields.ts";

const grounds = {
  /** What it rests on: the ordinance, the letter. "" when not recorded, which the check complains of. */
  reason: z.string(),
  /** By whose decision it applies. "" when not recorded, which the check complains of. */
  authority: z.string(),
};

/**
 * A local amendment to the job's rule set. Two kinds ask for more, and one that cannot is left out; an added exception asks for less,
 * and lifts nothing without a reason and an authority. What it comes to is told by the check.
 */
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
  z.strictObject({
    kind: z.literal("added-exception"),
    label: z.string().min(1),
    /** Section or ordinance it is written in. "" when not recorded. */
    section: z.string(),
    lifts: z.array(liftedSchema).min(1).readonly(),
    /** Its conditions, every one of them; stated as those of an edition's own exceptions are. */
    needs: z.array(factTestSchema).min(1).readonly(),
    ...grounds,
  }),
]);
