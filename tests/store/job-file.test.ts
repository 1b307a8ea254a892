import { unzipSync, zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { emptyJob, type Job } from "../../src/job/schema.ts";
import { missingDrawings, readJobFile, writeJobFile } from "../../src/store/job-file.ts";
import { kindOfFile } from "../../src/store/job-file-kind.ts";
import { storeMessages } from "../../src/store/messages.ts";
import { sha256 } from "../../src/store/sha256.ts";

const planA = new TextEncoder().encode("%PDF-1.7 the roof framing plan");
const planB = new TextEncoder().encode("%PDF-1.4 the lighting plan");

async function jobOf(...plans: Uint8Array[]): Promise<Job> {
  const job = emptyJob("Boiler house", "us-2023");
  for (const [i, plan] of plans.entries()) {
    job.sheets[`sheet-${i}`] = {
      title: `E-${i}`,
      file: { sha256: await sha256(plan), name: `plan-${i}.pdf`, bytes: plan.length },
      page: 1,
      view: [0, 0, 612, 792],
      rotate: 0,
      userUnit: 1,
    };
  }
  return job;
}

const drawingsOf = async (...plans: Uint8Array[]) =>
  new Map(await Promise.all(plans.map(async (plan) => [await sha256(plan), plan] as const)));

/** The codes of the problems found on opening; nothing when it opened. */
async function refusal(bytes: Uint8Array, limits?: Parameters<typeof readJobFile>[1]): Promise<string[]> {
  const read = await readJobFile(bytes, limits);
  if (read.ok) return [];
  for (const { code } of read.problems) if (code.startsWith("job-file.")) expect(storeMessages).toHaveProperty([code]);
  return read.problems.map(({ code }) => code);
}

/** The archive with its entries changed. */
function altered(
  bytes: Uint8Array,
  change: (entries: Record<string, Uint8Array>) => Record<string, Uint8Array | null>,
): Uint8Array {
  const kept = Object.entries(change(unzipSync(bytes))).filter(
    (entry): entry is [string, Uint8Array] => entry[1] !== null,
  );
  return zipSync(Object.fromEntries(kept));
}

describe("a job's own file", () => {
  test("gives back the job and its drawings", async () => {
    const job = await jobOf(planA, planB);
    const read = await readJobFile(await writeJobFile(job, await drawingsOf(planA, planB)));
    expect(read).toEqual({ ok: true, value: { job, drawings: await drawingsOf(planA, planB), missing: [] } });
  });

  test("is the same bytes for the same job", async () => {
    const write = async () => writeJobFile(await jobOf(planA), await drawingsOf(planA));
    expect(await write()).toEqual(await write());
  });

  test("reports a drawing that is not in it, and carries none that the job has no use for", async () => {
    const job = await jobOf(planA, planB);
    const bytes = await writeJobFile(job, await drawingsOf(planB, new Uint8Array(3)));
    expect(Object.keys(unzipSync(bytes))).toHaveLength(3);
    const read = await readJobFile(bytes);
    expect(read.ok && read.value.missing).toEqual([
      { sha256: await sha256(planA), name: "plan-0.pdf", bytes: planA.length },
    ]);
  });

  test("asks once for a drawing that several sheets lie in", async () => {
    const job = await jobOf(planA, planA);
    expect(missingDrawings(job, new Map())).toHaveLength(1);
  });
});

describe("a job file is refused", () => {
  const written = async () => writeJobFile(await jobOf(planA), await drawingsOf(planA));

  test("when it is no archive, or cut short", async () => {
    expect(await refusal(planA)).toEqual(["job-file.not-a-zip"]);
    expect(await refusal((await written()).slice(0, -30))).toEqual(["job-file.not-a-zip"]);
  });

  test("when an entry was changed, added, taken away or misplaced", async () => {
    const good = await written();
    const drawing = `drawings/${await sha256(planA)}.pdf`;
    expect(await refusal(altered(good, (e) => ({ ...e, [drawing]: planB })))).toEqual(["job-file.wrong-sum"]);
    expect(await refusal(altered(good, (e) => ({ ...e, "job.json": planA })))).toEqual(["job-file.wrong-sum"]);
    expect(await refusal(altered(good, (e) => ({ ...e, [drawing]: null })))).toEqual(["job-file.absent"]);
    expect(await refusal(altered(good, (e) => ({ ...e, "manifest.json": null })))).toEqual(["job-file.no-manifest"]);
    const stray = `drawings/${await sha256(planB)}.pdf`;
    expect(await refusal(altered(good, (e) => ({ ...e, [stray]: planB })))).toEqual(["job-file.unlisted"]);
    for (const name of ["../job.json", "/job.json", "drawings/../../x.pdf", "notes.txt", "drawings/x.pdf"])
      expect(await refusal(altered(good, (e) => ({ ...e, [name]: planA }))), name).toEqual([
        "job-file.unexpected-entry",
      ]);
  });

  test("when a drawing is listed under a hash that is not its own", async () => {
    const other = `drawings/${"ab".repeat(32)}.pdf`;
    const swapped = altered(await written(), (entries) => {
      const name = Object.keys(entries).find((path) => path.startsWith("drawings/"))!;
      entries[other] = entries[name]!;
      delete entries[name];
      const manifest = new TextDecoder().decode(entries["manifest.json"]!).replace(name, other);
      entries["manifest.json"] = new TextEncoder().encode(manifest);
      return entries;
    });
    expect(await refusal(swapped)).toEqual(["job-file.wrong-sum"]);
  });

  test("when its manifest is not one, or is of a newer version, or lists a file twice", async () => {
    const withManifest = async (change: (text: string) => string) =>
      altered(await written(), (entries) => {
        const text = new TextDecoder().decode(entries["manifest.json"]!);
        return { ...entries, "manifest.json": new TextEncoder().encode(change(text)) };
      });
    expect(await refusal(await withManifest(() => "{"))).toEqual(["job-file.bad-manifest"]);
    expect(await refusal(await withManifest((text) => text.replace("{", '{"more": 1,')))).toEqual([
      "job-file.bad-manifest",
    ]);
    expect(await refusal(await withManifest((text) => text.replace('"version": 1', '"version": 2')))).toEqual([
      "job-file.newer-version",
    ]);
    const twice = await withManifest((text) => {
      const manifest = JSON.parse(text) as { files: unknown[] };
      return JSON.stringify({ ...manifest, files: [...manifest.files, manifest.files[0]] });
    });
    expect(await refusal(twice)).toEqual(["job-file.twice"]);
  });

  test("when an entry stands in it twice", async () => {
    const entries = unzipSync(await written());
    const bytes = zipSync({ "job.jsoN": new Uint8Array(3), ...entries });
    // The same name in both headers of the entry: zipSync itself would not write it twice.
    const misspelt = new TextEncoder().encode("job.jsoN");
    for (let at = 0; at < bytes.length - 8; at++)
      if (misspelt.every((byte, i) => bytes[at + i] === byte)) bytes[at + 7] = "n".charCodeAt(0);
    expect(await refusal(bytes)).toEqual(["job-file.twice"]);
  });

  test("when it would unpack to too much, before it is unpacked", async () => {
    const good = await written();
    expect(await refusal(good, { entries: 2, bytes: 1e6 })).toEqual(["job-file.too-many"]);
    expect(await refusal(good, { entries: 10, bytes: 100 })).toEqual(["job-file.too-large"]);
    const bomb = zipSync({ "job.json": new Uint8Array(3_000_000) });
    expect(bomb.length).toBeLessThan(10_000);
    expect(await refusal(bomb, { entries: 10, bytes: 2_000_000 })).toEqual(["job-file.too-large"]);
  });

  test("when it states a smaller size than it unpacks to", async () => {
    const bytes = zipSync({ "job.json": new Uint8Array(100_000), "manifest.json": new Uint8Array(10) });
    const view = new DataView(bytes.buffer, bytes.byteOffset);
    // Uncompressed size in the central directory: 24 bytes into a record that starts with PK 01 02 (APPNOTE 4.3.12).
    for (let at = 0; at < bytes.length - 4; at++)
      if (view.getUint32(at, true) === 0x02014b50) view.setUint32(at + 24, 50, true);
    expect(await refusal(bytes, { entries: 10, bytes: 1_000 })).not.toEqual([]);
  });

  test("with the problems of the job inside it", async () => {
    const text = new TextEncoder().encode('{"format":"something-else"}');
    const manifest = {
      format: "underside-job-file",
      version: 1,
      files: [{ path: "job.json", bytes: text.length, sha256: await sha256(text) }],
    };
    const bytes = zipSync({ "job.json": text, "manifest.json": new TextEncoder().encode(JSON.stringify(manifest)) });
    expect(await refusal(bytes)).toEqual(["job.not-a-job"]);
  });
});

describe("a file is told by its first bytes", () => {
  test.each([
    ["%PDF-1.7", "pdf"],
    ["junk before\n%PDF-1.4", "pdf"],
    ['{"format":', "job"],
    ['\n  {"format":', "job"],
    ["\ufeff{", "job"],
    ["PK\x03\x04", "job-file"],
    ["", "unknown"],
    ["<html>", "unknown"],
  ] as const)("%j is %s", (text, kind) => {
    expect(kindOfFile(new TextEncoder().encode(text))).toBe(kind);
  });
});
