import type { Job } from "../job/schema.ts";
import type { IssueChoice, Issued } from "../ui/host.ts";
import type { Problem } from "../units/problem.ts";

/** Writes the annotated sheets and the report off the main thread, and gives them to the person. */
export async function issueInBackground(
  _job: Job,
  _choice: IssueChoice,
  _bytesOf: (sha256: string) => Promise<Uint8Array | undefined>,
): Promise<Issued | { readonly problems: readonly Problem[] }> {
  return { problems: [{ code: "issue.not-yet", where: "", params: {} }] };
}
