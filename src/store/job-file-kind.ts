/** What a saved job is called on disk: NAME.underside. */
export const JOB_FILE_EXTENSION = ".underside";

/** What a file that a person chose is, by its first bytes: a job's JSON, a job file, a PDF, or none of these. */
export function kindOfFile(bytes: Uint8Array): "job" | "job-file" | "pdf" | "unknown" {
  const start = new TextDecoder("latin1").decode(bytes.subarray(0, 1024));
  // ISO 32000-1 annex H.3.4.1: readers accept the header anywhere in the first 1024 bytes.
  if (start.includes("%PDF-")) return "pdf";
  if (start.startsWith("PK\x03\x04")) return "job-file";
  return /^(\xef\xbb\xbf)?\s*\{/.test(start) ? "job" : "unknown";
}
