import { readSheet } from "read-excel-file/node";
import { expect, test } from "vitest";
import { standingDesk } from "./standing-desk.ts";

const standing = standingDesk({ query: "?sample=riverside-workshop" });

/** What a button of the Issue stage makes. */
const made = (button: string) => standing.desk.download(() => standing.desk.press(button, standing.desk.drawer));

test("comments and schedules are written from the Issue stage in every form", async () => {
  await standing.desk.stage("Issue");
  const letter = await made("Comments as a letter");
  expect(letter.name).toBe("Riverside Workshop, review comments.pdf");
  expect(Buffer.from(letter.bytes.subarray(0, 5)).toString()).toBe("%PDF-");

  const workbook = await made("Comments as a workbook");
  const [head, ...rows] = await readSheet(Buffer.from(workbook.bytes));
  expect(head).toContain("Asked");
  expect(rows.map(([number]) => number)).toEqual(rows.map((_, i) => i + 1));

  const csv = await made("Comments as CSV");
  expect(Buffer.from(csv.bytes).toString().split("\r\n")[0]).toBe("Number,Section,Sheet,Location,Remark,Asked,Answer");

  const schedules = await made("Schedules as a workbook");
  expect(schedules.name).toBe("Riverside Workshop, schedules.xlsx");
  expect((await readSheet(Buffer.from(schedules.bytes), "Deck areas"))[1]![0]).toBe("Canopy");
  expect((await made("Wiring as CSV")).name).toBe("Riverside Workshop, wiring schedule.csv");
  expect((await made("Deck areas as CSV")).name).toBe("Riverside Workshop, deck schedule.csv");
  expect(standing.opened.problems).toEqual([]);
}, 120_000);
