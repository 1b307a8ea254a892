import { expect, test } from "vitest";
import { emptyJob } from "../../src/job/schema.ts";
import { sheetTitles } from "../../src/ui/sheet-titles.ts";
import { sheetsSought } from "../../src/ui/sheets-sought.ts";

const sheets = [
  { page: 1, number: "A-110", name: "ROOF PLAN" },
  { page: 2, number: "E-101", name: "LIGHTING PLAN, ANNEX" },
  { page: 3, number: "E-201", name: "POWER PLAN" },
  { page: 4, number: null, name: null },
];
const found = (typed: string) => sheets.filter(sheetsSought(typed)).map(({ page }) => page);

test.each([
  ["", [1, 2, 3, 4]],
  ["  ,", [1, 2, 3, 4]],
  ["E-1", [2]],
  ["e1", [2]],
  ["roof", [1]],
  ["lighting annex", [2]],
  ["annex power", []],
  ["E-1, roof", [1, 2]],
  ["plan", [1, 2, 3]],
  ["page 4", [4]],
])("typing %j finds pages %j", (typed, pages) => {
  expect(found(typed)).toEqual(pages);
});

test("sheets are called by their numbers, told apart by page, and by their file where there is no number", () => {
  const page = { view: [0, 0, 10, 10], rotate: 0, userUnit: 1 } as const;
  const drawing = { name: "mill.pdf", pages: [1, 2, 3, 4, 5].map((n) => ({ ...page, page: n })) };
  const block = { numberFrom: "title-block" } as const;
  expect(
    sheetTitles(emptyJob("Job", "us-2023"), drawing, [
      { page: 1, number: "E-101", ...block },
      { page: 2, number: "E-101", ...block },
      { page: 3, number: "iv", numberFrom: "page-label" },
      { page: 4, number: "S-201", numberFrom: "page-label" },
      { page: 5, number: null, numberFrom: null },
    ]),
  ).toEqual(["E-101", "E-101, page 2", "mill, page 3", "S-201", "mill, page 5"]);
  const [single] = sheetTitles(emptyJob("Job", "us-2023"), { ...drawing, pages: drawing.pages.slice(0, 1) }, [
    { page: 1, number: null, numberFrom: null },
  ]);
  expect(single).toBe("mill");
});
