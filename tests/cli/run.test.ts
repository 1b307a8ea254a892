import { spawn } from "node:child_process";
import { describe, expect, test } from "vitest";
import { runCommand } from "./run-command.ts";

/** Runs the built command line as a person does, from `cwd`. */
function underside(cwd: string, ...args: string[]): Promise<{ status: number | null; out: string; error: string }> {
  const env = { ...process.env, npm_lifecycle_event: "underside", INIT_CWD: `${process.cwd()}/${cwd}` };
  const child = spawn(process.execPath, ["src/cli/run.mjs", ...args], { env });
  let [out, error] = ["", ""];
  child.stdout.on("data", (part) => {
    out += part;
  });
  child.stderr.on("data", (part) => {
    error += part;
  });
  return new Promise((resolve) => child.on("close", (status) => resolve({ status, out, error })));
}

describe("npm run -s underside", () => {
  test("builds what is missing and prints nothing of its own", async () => {
    expect(await underside(".", "schema")).toEqual(await runCommand("schema"));
  }, 120_000);

  test("takes paths from where it was given, and answers with the command's status", async () => {
    const { status, out, error } = await underside(
      "docs/examples",
      "check",
      "hand-calculation.json",
      "--format",
      "json",
    );
    expect([status, error]).toEqual([1, ""]);
    expect(out).toBe((await runCommand("check", "docs/examples/hand-calculation.json", "--format", "json")).out);
    expect((await underside(".", "no-such-command")).status).toBe(2);
  }, 120_000);
});
