import { unzipSync, zipSync } from "fflate";
import { z } from "zod";
import { drawingFiles } from "../job/drawing-files.ts";
import { jobText, parseJobText } from "../job/parse-job.ts";
import type { Job } from "../job/schema.ts";
import { fail, ok, type Problem, type Result } from "../units/problem.ts";
import { sha256 } from "./sha256.ts";

const MANIFEST = "manifest.json";
const JOB = "job.json";
const drawingPath = (hash: string): string => `drawings/${hash}.pdf`;
const DRAWING = /^drawings\/([0-9a-f]{64})\.pdf$/;

const FILE_FORMAT = "underside-job-file";
const FILE_VERSION = 1;
const manifestSchema = z.strictObject({
  format: z.literal(FILE_FORMAT),
  version: z.literal(FILE_VERSION),
  files: z.array(
    z.strictObject({
      path: z.string(),
      bytes: z.number().int().nonnegative(),
      sha256: z.string().regex(/^[0-9a-f]{64}$/),
    }),
  ),
});
type Manifest = z.infer<typeof manifestSchema>;

/** How much a job file may unpack to, so that a hostile one cannot fill the memory. */
export interface JobFileLimits {
  readonly entries: number;
  readonly bytes: number;
}
export const JOB_FILE_LIMITS: JobFileLimits = { entries: 2_000, bytes: 1024 ** 3 };

/** Drawings by SHA-256. */
export type Drawings = ReadonlyMap<string, Uint8Array>;

/** A drawing that the job's sheets refer to and that is not at hand: to be asked for, and known by its hash when it comes. */
export interface MissingDrawing {
  readonly sha256: string;
  readonly name: string;
  readonly bytes: number;
}

/** A job with those of its drawings that are at hand. */
export interface OpenedJob {
  readonly job: Job;
  readonly drawings: Drawings;
  readonly missing: readonly MissingDrawing[];
}

/**
 * The job's own file: an archive (ZIP) of the job, the drawings of its sheets and of their earlier issues, and a manifest with the checksum of each. The same
 * job and drawings give the same bytes. Drawings not given are left out; whoever opens the file is asked for them.
 */
export async function writeJobFile(job: Job, drawings: Drawings): Promise<Uint8Array> {
  const text = new TextEncoder().encode(jobText(job));
  const files: [string, Uint8Array][] = [[JOB, text]];
  for (const hash of wantedHashes(job)) {
    const bytes = drawings.get(hash);
    if (bytes) files.push([drawingPath(hash), bytes]);
  }
  const listed: Manifest["files"] = [];
  for (const [path, bytes] of files) listed.push({ path, bytes: bytes.length, sha256: await sha256(bytes) });
  const manifest: Manifest = { format: FILE_FORMAT, version: FILE_VERSION, files: listed };
  const manifestBytes = new TextEncoder().encode(`${JSON.stringify(manifest, null, 1)}\n`);
  // ZIP holds local times, so a local date is the same bytes everywhere. 1980 is the first year it can hold.
  const mtime = new Date(1980, 0, 1);
  return zipSync(
    Object.fromEntries([
      [MANIFEST, [manifestBytes, { level: 6, mtime }]],
      // A drawing is compressed inside already.
      ...files.map(([path, bytes]) => [path, [bytes, { level: path === JOB ? 6 : 0, mtime }]]),
    ]),
  );
}

/**
 * Opens what `writeJobFile` wrote. Nothing is taken that the manifest does not name, that has another checksum, or that lies
 * anywhere but in the places named here; what it unpacks to is limited before it is unpacked.
 */
export async function readJobFile(
  bytes: Uint8Array,
  limits: JobFileLimits = JOB_FILE_LIMITS,
): Promise<Result<OpenedJob>> {
  const unpacked = unpack(bytes, limits);
  if (!unpacked.ok) return unpacked;
  const files = unpacked.value;
  const manifest = readManifest(files.get(MANIFEST));
  if (!manifest.ok) return manifest;
  const problems = await checkAgainst(manifest.value, files);
  if (problems.length > 0) return { ok: false, problems };
  const text = files.get(JOB);
  if (!text) return fail("job-file.no-job");
  const job = parseJobText(new TextDecoder().decode(text));
  if (!job.ok) return job;
  const drawings = new Map<string, Uint8Array>();
  for (const [path, content] of files) {
    const hash = DRAWING.exec(path)?.[1];
    if (hash) drawings.set(hash, content);
  }
  return ok({ job: job.value, drawings, missing: missingDrawings(job.value, drawings) });
}

/** The drawings that the job's sheets refer to and that are not among `drawings`, each once, in the order of their names. */
export function missingDrawings(job: Job, drawings: { has(sha256: string): boolean }): readonly MissingDrawing[] {
  const missing = new Map<string, MissingDrawing>();
  for (const { file } of Object.values(job.sheets)) if (!drawings.has(file.sha256)) missing.set(file.sha256, file);
  return [...missing.values()].sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));
}

function unpack(bytes: Uint8Array, limits: JobFileLimits): Result<Map<string, Uint8Array>> {
  const problems: Problem[] = [];
  const seen = new Set<string>();
  let total = 0;
  const refuse = (code: string, params: Problem["params"]): boolean => {
    problems.push({ code, where: "", params });
    return false;
  };
  try {
    const files = unzipSync(bytes, {
      filter({ name, originalSize }) {
        if (problems.length > 0) return false;
        if (seen.has(name)) return refuse("job-file.twice", { name });
        seen.add(name);
        if (seen.size > limits.entries) return refuse("job-file.too-many", { limit: limits.entries });
        if (name !== MANIFEST && name !== JOB && !DRAWING.test(name))
          return refuse("job-file.unexpected-entry", { name });
        total += originalSize;
        const limit = Math.floor(limits.bytes / 1024 ** 2);
        return total <= limits.bytes || refuse("job-file.too-large", { name, limit });
      },
    });
    return problems.length > 0 ? { ok: false, problems } : ok(new Map(Object.entries(files)));
  } catch {
    return problems.length > 0 ? { ok: false, problems } : fail("job-file.not-a-zip");
  }
}

function readManifest(bytes: Uint8Array | undefined): Result<Manifest> {
  if (!bytes) return fail("job-file.no-manifest");
  let json: unknown;
  try {
    json = JSON.parse(new TextDecoder().decode(bytes));
  } catch (error) {
    return fail("job-file.bad-manifest", MANIFEST, { detail: error instanceof Error ? error.message : String(error) });
  }
  const version = (json as { version?: unknown } | null)?.version;
  if (typeof version === "number" && version > FILE_VERSION)
    return fail("job-file.newer-version", MANIFEST, { version, known: FILE_VERSION });
  const parsed = manifestSchema.safeParse(json);
  if (parsed.success) return ok(parsed.data);
  return {
    ok: false,
    problems: parsed.error.issues.map(({ path, message }) => ({
      code: "job-file.bad-manifest",
      where: [MANIFEST, ...path.map(String)].join("/"),
      params: { detail: message },
    })),
  };
}

async function checkAgainst(manifest: Manifest, files: ReadonlyMap<string, Uint8Array>): Promise<Problem[]> {
  const problems: Problem[] = [];
  const about = (code: string, name: string): void => void problems.push({ code, where: name, params: { name } });
  const listed = new Set<string>();
  for (const { path, bytes, sha256: expected } of manifest.files) {
    if (listed.has(path)) about("job-file.twice", path);
    listed.add(path);
    const content = files.get(path);
    if (!content) about("job-file.absent", path);
    else {
      const sum = await sha256(content);
      // A drawing is stored under its own hash, so its name has to agree as well.
      const isNamedSo = !DRAWING.test(path) || path === drawingPath(sum);
      if (content.length !== bytes || sum !== expected || !isNamedSo) about("job-file.wrong-sum", path);
    }
  }
  for (const name of files.keys()) if (name !== MANIFEST && !listed.has(name)) about("job-file.unlisted", name);
  return problems;
}

function wantedHashes(job: Job): string[] {
  return drawingFiles(job).map(({ sha256 }) => sha256);
}
