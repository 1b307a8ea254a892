/** The five stages of the work, in order. */
export const STAGES = ["sheet", "roof", "wiring", "check", "issue"] as const;
export type Stage = (typeof STAGES)[number];
