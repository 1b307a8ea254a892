import { describe, expect, test } from "vitest";
import { problemText } from "../../src/cli/messages.ts";
import { JOB_FORMAT } from "../../src/job/schema.ts";
import { runCommand } from "./run-command.ts";

describe("the command line", () => {
  test.each([
    [[]],
    [["no-such-command"]],
    [["tables", "--no-such-option"]],
    [["tables", "--format", "xml"]],
    [["check"]],
  ])("answers 2 to unusable usage: %j, with words and no result", async (args) => {
    const { status, out, error } = await runCommand(...args);
    expect([status, out]).toEqual([2, ""]);
    expect(error).not.toBe("");
  });

  test("answers 0 to a request for help, which states the exit statuses and the caution", async () => {
    const { status, out } = await runCommand("--help");
    expect(status).toBe(0);
    expect(out).toMatch(/Exit status: 0 .*1 .*2 /);
    expect(out).toMatch(/not an inspection/);
  });

  test("publishes the JSON Schema of a job", async () => {
    const { out, status } = await runCommand("schema");
    expect(status).toBe(0);
    const schema = JSON.parse(out) as { properties: Record<string, { const?: string }>; additionalProperties: boolean };
    expect(schema.properties.format?.const).toBe(JOB_FORMAT);
    expect(schema.additionalProperties).toBe(false);
  });

  test("shows a problem that nobody worded with all it says", () => {
    expect(problemText({ code: "some.code", where: "there", params: { n: 1 } })).toBe("some.code at there (n: 1)");
  });
});
