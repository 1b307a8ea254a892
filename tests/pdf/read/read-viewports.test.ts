import { existsSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readViewports } from "../../../src/pdf/read/read-viewports.ts";
import { pdfOf } from "./tiny-pdf.ts";

const pageWith = (entries: string) =>
  pdfOf([
    "<< /Type /Catalog /Pages 2 0 R >>",
    "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
    `<< /Type /Page /Parent 2 0 R /MediaBox [0 0 612 792] ${entries} >>`,
  ]);
const found = (entries: string) => {
  const got = readViewports(pageWith(entries));
  if (!got.ok) throw new Error(JSON.stringify(got.problems));
  return got.value;
};
const rectilinear = (x: string, more = "") =>
  `/VP [<< /Type /Viewport /BBox [10 500 300 20] /Name (Plan) /Measure << /Type /Measure /Subtype /RL /R (1/4 in = 1 ft) /X [${x}] ${more} >> >>]`;

// ISO 32000-1, 12.9.2: the first element of X converts default user space units to the largest unit.
describe("viewports with a measure", () => {
  it("give the scale: 1/4 in. to the foot is 1/18 ft a user space unit, 48 in all", () => {
    const [plan] = found(rectilinear(`<< /U (ft) /C ${1 / 18} >> << /U (in) /C 12 >>`));
    expect(plan).toMatchObject({ page: 1, name: "Plan", box: [10, 20, 300, 500] });
    expect(plan?.measure).toMatchObject({ kind: "rectilinear", text: "1/4 in = 1 ft", unit: "ft" });
    expect(plan?.measure?.ratio).toBeCloseTo(48, 9);
  });
  it("count metres and a user unit", () => {
    const [plan] = found(`/UserUnit 2 ${rectilinear("<< /U (m) /C 0.0705555555555 >>")}`);
    // 1:100 on paper where a unit is 2/72 in.: 0.0254 * 2 / 72 * 100 = 0.0705556 m
    expect(plan?.measure?.ratio).toBeCloseTo(100, 6);
  });
  it("say nothing of the ratio where the unit is unknown, or x and y differ", () => {
    expect(found(rectilinear("<< /U (cubit) /C 2 >>"))[0]?.measure?.ratio).toBeUndefined();
    expect(found(rectilinear("<< /U (ft) /C 2 >>", "/Y [<< /U (ft) /C 3 >>]"))[0]?.measure?.ratio).toBeUndefined();
  });
  it("are told from geographic ones, which are no linear scale", () => {
    const [geo] = found("/VP [<< /BBox [0 0 9 9] /Measure << /Subtype /GEO /GCS null >> >>]");
    expect(geo?.measure).toMatchObject({ kind: "geographic", ratio: undefined });
  });
  it("may be absent or broken", () => {
    expect(found("")).toEqual([]);
    expect(found("/VP [7 << /BBox [1 2] >>]")).toEqual([]);
  });
});

const CAD = "../shared/drawings/cad-a3-rot270-vp.pdf";
it.skipIf(!existsSync(CAD))("reads the viewport of a real CAD plot (skipped where it is not at hand)", () => {
  const got = readViewports(new Uint8Array(readFileSync(CAD)));
  expect(got.ok && got.value).toEqual([
    {
      page: 1,
      name: "",
      box: [77, 2, 763, 1187],
      measure: { kind: "rectilinear", text: "", perUnit: 0.44234, unit: "", ratio: undefined },
    },
  ]);
});
