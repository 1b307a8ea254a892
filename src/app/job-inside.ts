import type { Job } from "../job/schema.ts";
import type { Result } from "../units/problem.ts";

/** The job that an issued PDF carries; undefined where it carries none. */
export async function jobInside(_bytes: Uint8Array): Promise<Result<Job> | undefined> {
  return undefined;
}
