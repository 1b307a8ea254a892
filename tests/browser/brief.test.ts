import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { CAUTIONS } from "../../src/issue/words.ts";
import { AREAS } from "./sample-job.ts";
import { standingDesk } from "./standing-desk.ts";

const standing = standingDesk({ query: "?sample=riverside-workshop" });

test("the crew's brief is written from the Issue stage, and says on the screen of which area it tells nothing", async () => {
  await standing.desk.stage("Issue");
  await standing.desk.drawer.getByText(CAUTIONS[0]!).first().waitFor();
  const { name, bytes } = await standing.desk.download(() =>
    standing.desk.press("Write the crew's brief", standing.desk.drawer),
  );
  expect(name).toBe("Riverside Workshop, crew's brief.pdf");
  const [untold] = AREAS.filter(({ classification }) => classification.is === "not-settled");
  await standing.desk.drawer.getByText(new RegExp(`^${untold!.label}: the brief tells nothing of it`)).waitFor();
  const words = textOf(bytes);
  if (words === null) return;
  expect(words).toContain("How high to hang");
  for (const { label } of AREAS) expect(words).toContain(label);
  // Every caution, however its lines are broken.
  for (const caution of CAUTIONS) expect(words.replace(/\s+/g, " ")).toContain(caution);
  await standing.desk.drawer.getByRole("radio", { name: "Español" }).check({ force: true });
  const spanish = await standing.desk.download(() =>
    standing.desk.press("Write the crew's brief", standing.desk.drawer),
  );
  expect(spanish.name).toBe("Riverside Workshop, crew's brief in Español.pdf");
  expect(textOf(spanish.bytes)).toContain("A qué altura colgar");
  expect(standing.opened.problems).toEqual([]);
}, 120_000);

/** The words of a PDF as poppler reads them; null where it is not at hand. */
function textOf(bytes: Uint8Array): string | null {
  const folder = mkdtempSync(join(tmpdir(), "underside-"));
  try {
    const path = join(folder, "brief.pdf");
    writeFileSync(path, bytes);
    const read = spawnSync("pdftotext", ["-layout", path, "-"], { encoding: "utf8" });
    return read.error ? null : read.stdout;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
