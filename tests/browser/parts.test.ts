import { beforeAll, describe, expect, it } from "vitest";
import type { Job } from "../../src/job/schema.ts";
import { pdfOf } from "../pdf/read/tiny-pdf.ts";
import type { Place, TestSheet } from "./desk.ts";
import { jobInFile } from "./sample-job.ts";
import { standingDesk } from "./standing-desk.ts";

const VIEW = [0, 0, 600, 400] as const;
/** A viewport with a measure: so many feet to a unit of user space (ISO 32000-1, 12.9). */
const view = (box: string, name: string, feetPerUnit: number) =>
  `<< /Type /Viewport /BBox [${box}] /Name (${name}) /Measure << /Type /Measure /Subtype /RL /R () /X [<< /U (ft) /C ${feetPerUnit} >>] >> >>`;
/** 1/4 in. to the foot is 1/18 ft a unit, 1/8 in. 1/9 ft. */
const VIEWS = `[${view("20 20 280 380", "Plan", 1 / 18)} ${view("300 20 580 380", "Detail", 1 / 9)}]`;
const page = (rotate: number) =>
  `<< /Type /Page /Parent 2 0 R /MediaBox [${VIEW.join(" ")}] /Rotate ${rotate} /VP ${VIEWS} /Resources << >> >>`;
const TURNED = pdfOf([
  "<< /Type /Catalog /Pages 2 0 R >>",
  "<< /Type /Pages /Kids [3 0 R 4 0 R] /Count 2 >>",
  page(90),
  page(270),
]);

const standing = standingDesk();

/** The job as it is, by way of a job file. */
async function job(): Promise<Job> {
  await standing.desk.stage("Issue");
  const { bytes } = await standing.desk.download(() => standing.desk.press("Save the job file", standing.desk.drawer));
  await standing.desk.stage("Sheet");
  return jobInFile(bytes);
}

/** The regions of the parts of a page, by name. */
const regions = ({ sheets, viewports }: Job, number: number) =>
  Object.fromEntries(
    Object.values(viewports).flatMap(({ sheet, region, name }) =>
      region && sheets[sheet]?.page === number ? [[name, region]] : [],
    ),
  );

/** Whether anything of the sheet's canvases is drawn in the ink of drafts (a blue) about a place. */
async function isInked(sheet: TestSheet, at: Place): Promise<boolean> {
  const [x, y] = await standing.desk.pixel(sheet, at);
  return standing.opened.page.evaluate(
    ([px, py]) =>
      [...document.querySelectorAll<HTMLCanvasElement>(".sheet-host canvas")].some((canvas) => {
        const box = canvas.getBoundingClientRect();
        const [sx, sy] = [canvas.width / box.width, canvas.height / box.height];
        const side = 7;
        const glass = new OffscreenCanvas(side, side).getContext("2d")!;
        glass.drawImage(canvas, side / 2 - (px! - box.x) * sx, side / 2 - (py! - box.y) * sy);
        const pixels = glass.getImageData(0, 0, side, side).data;
        for (let i = 0; i < pixels.length; i += 4)
          if (pixels[i + 3]! > 40 && pixels[i + 2]! > pixels[i]! + 40) return true;
        return false;
      }),
    [x, y],
  );
}

describe("parts of a sheet with scales of their own, on pages turned by 90 and 270", () => {
  beforeAll(async () => {
    await standing.desk.pick(standing.opened.page.getByRole("button", { name: "Open drawings" }), {
      name: "turned.pdf",
      mimeType: "application/pdf",
      buffer: Buffer.from(TURNED),
    });
    await standing.desk.press(/^Add 2 pages/);
    await standing.desk.shown();
  });

  for (const [number, rotate] of [
    [1, 90],
    [2, 270],
  ] as const) {
    const sheet: TestSheet = { title: new RegExp(`^turned, page ${number}`), view: VIEW, rotate };

    it(`page ${number}: offers the views its file names, and takes none by itself`, async () => {
      await standing.desk.openSheet(sheet);
      const offered = standing.desk.card.getByRole("list", { name: "Views the file names" });
      await offered.getByText(`1/4" = 1'-0"`).waitFor();
      await offered.getByText(`1/8" = 1'-0"`).waitFor();
      expect(regions(await job(), number)).toEqual({});
      await standing.desk.openSheet(sheet);
      await standing.desk.card.getByRole("button", { name: "Add Plan" }).click();
      await standing.desk.card.getByText(/carries 1 view with a scale of its own/).waitFor();
      const after = await job();
      expect(regions(after, number)).toEqual({ Plan: [20, 20, 280, 380] });
      const plan = Object.values(after.viewports).find(
        ({ name, sheet: id }) => name === "Plan" && after.sheets[id]?.page === number,
      );
      expect(plan?.scale).toMatchObject({ stated: { text: `1/4" = 1'-0"` }, use: "stated" });
      expect(plan?.scale.stated?.ratio).toBeCloseTo(48, 3);
    });

    it(`page ${number}: marks a part by two clicks, where they are`, async () => {
      await standing.desk.openSheet(sheet);
      await standing.desk.press("A part with its own scale", standing.desk.card);
      await standing.desk.click(sheet, [330, 60]);
      await standing.desk.click(sheet, [560, 340]);
      await standing.desk.card.getByRole("button", { name: "Move the corners of this part" }).waitFor();
      const [name] = Object.keys(regions(await job(), number)).filter((one) => one !== "Plan");
      const region = regions(await job(), number)[name!]!;
      [330, 60, 560, 340].forEach((side, i) => {
        expect(Math.abs(region[i]! - side)).toBeLessThan(1);
      });
      // Its sides are drawn there, and nothing is in the middle of it.
      for (const at of [
        [330, 200],
        [560, 200],
        [445, 60],
        [445, 340],
      ] as const)
        expect(await isInked(sheet, at), `${at}`).toBe(true);
      expect(await isInked(sheet, [445, 200])).toBe(false);
    });

    it(`page ${number}: moves a corner by dragging it, another by typing where it goes`, async () => {
      const [name] = Object.keys(regions(await job(), number)).filter((one) => one !== "Plan");
      await standing.desk.openSheet(sheet);
      await standing.desk.card.getByRole("button", { name: name! }).click();
      await standing.desk.press("Move the corners of this part", standing.desk.card);
      await standing.desk.settled();
      const [from, to] = [await standing.desk.pixel(sheet, [330, 60]), await standing.desk.pixel(sheet, [400, 100])];
      await standing.opened.page.mouse.move(...from);
      await standing.opened.page.mouse.down();
      await standing.opened.page.mouse.move((from[0] + to[0]) / 2, (from[1] + to[1]) / 2);
      await standing.opened.page.mouse.move(...to);
      await standing.opened.page.mouse.up();
      await standing.desk.click(sheet, [560, 340]);
      await standing.desk.type("@580, 380");
      await standing.desk.press("Leave");
      const region = regions(await job(), number)[name!]!;
      expect(Math.abs(region[0] - 400)).toBeLessThan(1);
      expect(Math.abs(region[1] - 100)).toBeLessThan(1);
      expect(region.slice(2)).toEqual([580, 380]);
    });
  }

  it("went wrong nowhere", () => {
    expect(standing.opened.problems).toEqual([]);
  });
});
