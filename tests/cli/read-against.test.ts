import { describe, expect, test } from "vitest";
import { runCommand } from "./run-command.ts";

const folder = "samples/riverside-workshop";

describe("underside read --against", () => {
  // What changed between the two is what samples/draw/second-issue.ts says.
  test("tells how a new issue lies on the one before, and what changed", async () => {
    const { status, out, error } = await runCommand(
      "read",
      `${folder}/a-131-second-issue.pdf`,
      "--against",
      `${folder}/riverside-workshop.pdf`,
      "--old-page",
      "2",
    );
    expect([status, error]).toEqual([0, ""]);
    const read = JSON.parse(out);
    expect(read).toMatchObject({ file: "a-131-second-issue.pdf", page: 1, against: { page: 2 } });
    expect(read.alignment).toMatchObject({ by: "grid", scale: 1, turnDeg: 0, shift: [190, 0] });
    expect(read.alignment.residualPt).toBeLessThan(0.001);
    // R-7 goes on 3'-0" farther north from the middle of the hall: 54 points at 1/4" = 1'-0".
    const near = (a: number | undefined, b: number) => a !== undefined && Math.abs(a - b) < 1;
    const rerouted = (y: number, list: number[][]) =>
      list.some(
        ([x0, y0, x1, y1]) =>
          near(y0, y) && near(y1, y) && near(Math.min(x0!, x1!), 1210) && near(Math.max(x0!, x1!), 1714),
      );
    expect(rerouted(1332, read.lines.oldOnly)).toBe(true);
    expect(rerouted(1386, read.lines.newOnly)).toBe(true);
    expect(read.texts).toContainEqual(
      expect.objectContaining({ was: `R-2 1" EMT C.L. 14'-8" AFF`, now: `R-2 1" EMT C.L. 14'-2" AFF` }),
    );
  });

  test("refuses what it is not certain of, and writes nothing", async () => {
    const { status, out, error } = await runCommand(
      "read",
      `${folder}/a-131-second-issue.pdf`,
      "--against",
      `${folder}/riverside-workshop.pdf`,
    );
    expect([status, out]).toEqual([2, ""]);
    expect(error).toMatch(/point at places that both/);
  });

  test("refuses a page there is not", async () => {
    const plan = `${folder}/a-131-second-issue.pdf`;
    const none = await runCommand("read", plan, "--against", plan, "--page", "2");
    expect([none.status, none.error]).toEqual([2, `${plan} has no page 2. Give another with --page or --old-page.\n`]);
    expect((await runCommand("read", plan, "--against", plan, "--page", "no")).status).toBe(2);
  });
});
