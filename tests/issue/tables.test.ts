import fc from "fast-check";
import { readSheet } from "read-excel-file/node";
import { describe, expect, test } from "vitest";
import { lengthColumn, type Table, tableOf } from "../../src/issue/tables/table.ts";
import { csvText, tableCsv } from "../../src/issue/tables/table-csv.ts";
import { tablesXlsx } from "../../src/issue/tables/table-xlsx.ts";

const HEADINGS = [
  { heading: "Element", width: 12 },
  { heading: "Least clearance (in.)", width: 12 },
];

const table = (rows: Table["rows"]): Table => ({ name: "Wiring", columns: HEADINGS, rows });

/** The workbook's sheet as another library reads it. */
const readBack = async (tables: readonly Table[], sheet: number) =>
  readSheet(Buffer.from(await tablesXlsx(tables)), sheet);

describe("a table as comma-separated values", () => {
  test("quotes what holds a comma, a quote or a line's end, as RFC 4180 has it", () => {
    expect(csvText([["a,b", 'say "so"', "two\nlines", null, 1.25]])).toBe('"a,b","say ""so""","two\nlines",,1.25\r\n');
  });

  test("lets nothing begin as a formula does", () => {
    for (const start of ["=", "+", "-", "@", "\t", "\r"]) expect(csvText([[`${start}1+1`]])).toContain(`'${start}`);
    expect(csvText([[-1.5]])).toBe("-1.5\r\n");
  });

  test("puts the headings first", () => {
    expect(tableCsv(table([["R-1", 0.875]]))).toBe("Element,Least clearance (in.)\r\nR-1,0.875\r\n");
  });
});

describe("tables as a workbook", () => {
  test("are read by another library as they were written: numbers whole, text as text, nothing as nothing", async () => {
    const rows = [
      ["R-1", 0.0625 + 1 / 3],
      ["=1+1", -2.5],
      ["12'-6 1/2\" <b>&amp;", null],
      ["007", 0],
    ];
    const back = await readBack([table([]), table(rows)], 2);
    expect(back).toEqual([HEADINGS.map(({ heading }) => heading), ...rows]);
  });

  test("hold any number and any text a label may be", async () => {
    const text = fc
      .string({ unit: "grapheme", maxLength: 40 })
      .filter((one) => one.trim() !== "" && !/[\p{Cc}\p{Cs}\uFFFE\uFFFF]/u.test(one));
    const number = fc.integer({ min: -(2 ** 40), max: 2 ** 40 }).map((n) => n / 4096);
    await fc.assert(
      fc.asyncProperty(fc.array(fc.tuple(text, number), { minLength: 1, maxLength: 8 }), async (rows) => {
        const back = await readBack([table(rows)], 1);
        expect(back.slice(1)).toEqual(rows.map(([label, value]) => [label.trim(), value + 0]));
      }),
      { numRuns: 40 },
    );
  });

  test("hold words that every object has a property of, and what reads like an escaped sign", async () => {
    const words = [
      "valueOf",
      "constructor",
      "__proto__",
      "toString",
      "_x0041_",
      "_x005F_x0041_",
      "a_x000d_b",
      "x_x12_",
    ];
    const back = await readBack([table(words.map((word) => [word, 1]))], 1);
    expect(back.slice(1).map(([word]) => word)).toEqual(words);
  });

  test("name their sheets within what a workbook allows", async () => {
    const name = "Wiring: all [of it] on E-131/E-132 and more";
    await expect(tablesXlsx([{ ...table([]), name }])).resolves.toBeInstanceOf(Uint8Array);
  });
});

describe("a column of lengths", () => {
  test("is in the unit its heading names", () => {
    const inchTable = tableOf("t", [lengthColumn("Required", "imperial", () => 1.5)], [0]);
    const metricTable = tableOf("t", [lengthColumn("Required", "metric", () => 1.5)], [0]);
    expect([inchTable.columns[0]!.heading, inchTable.rows[0]]).toEqual(["Required (in.)", [1.5]]);
    // 25.4 mm to the inch: exact by the international yard and pound agreement of 1959.
    expect([metricTable.columns[0]!.heading, metricTable.rows[0]![0]]).toEqual(["Required (mm)", expect.closeTo(38.1)]);
  });
});
