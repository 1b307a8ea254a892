import { PDFDocument } from "@cantoo/pdf-lib";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import type { Point2 } from "../../src/geometry/point.ts";
import type { PageGeometry } from "../../src/pdf/read/page-geometry.ts";
import { contentPagePdf, pdfOf } from "../pdf/read/tiny-pdf.ts";
import type { CanvasDesk } from "./canvas-page.ts";
import { type OpenedCanvas, openCanvas } from "./open-canvas.ts";

declare const desk: CanvasDesk;

const VIEW = [30, -20, 430, 280] as const;
const ROTATIONS = [0, 90, 180, 270] as const;
const turned = (rotate: PageGeometry["rotate"]) => ({ view: VIEW, rotate, userUnit: 1.5 });
/** A red bar, not on any axis of symmetry of the page. */
const RED = { x: 70, y: 40, width: 90, height: 24 };
const bar = `1 0 0 rg ${RED.x} ${RED.y} ${RED.width} ${RED.height} re f`;
/** Many lines and words, so that there is something to leave out. */
const crowd = Array.from(
  { length: 400 },
  (
    _,
    i,
  ) => `0.5 w ${30 + (i % 20) * 20} ${-20 + Math.floor(i / 20) * 15} m ${45 + (i % 20) * 20} ${-9 + Math.floor(i / 20) * 15} l S
  BT /F1 4 Tf ${32 + (i % 20) * 20} ${-18 + Math.floor(i / 20) * 15} Td (R-${i}) Tj ET`,
).join("\n");

const layered = pdfOf([
  "<< /Type /Catalog /Pages 2 0 R /OCProperties << /OCGs [5 0 R 6 0 R] /D << /OFF [6 0 R] >> >> >>",
  "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
  "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 100 100] /Contents 4 0 R /Resources << /Properties << /A 5 0 R /B 6 0 R >> >> >>",
  (() => {
    const content = "/OC /A BDC 1 0 0 rg 0 0 50 100 re f EMC /OC /B BDC 0 0 1 rg 50 0 50 100 re f EMC";
    return `<< /Length ${content.length} >>\nstream\n${content}\nendstream`;
  })(),
  "<< /Type /OCG /Name (Ceiling) >>",
  "<< /Type /OCG /Name (Furniture) >>",
]);

const locked = async (): Promise<Uint8Array> => {
  const document = await PDFDocument.create();
  document.addPage([200, 200]);
  document.encrypt({ userPassword: "deck", ownerPassword: "owner" });
  return document.save();
};

let canvas: OpenedCanvas;
let page: Page;

beforeAll(async () => {
  canvas = await openCanvas(
    {
      ...Object.fromEntries(ROTATIONS.map((rotate) => [`bar-${rotate}.pdf`, contentPagePdf(bar, turned(rotate))])),
      "crowd.pdf": contentPagePdf(crowd, turned(90)),
      "layers.pdf": layered,
      "locked.pdf": await locked(),
      "page.html": new TextEncoder().encode("<html>"),
    },
    { hasTouch: true },
  );
  page = canvas.page;
}, 120_000);
afterAll(() => canvas?.close());
beforeEach(async () => {
  expect(canvas.problems).toEqual([]);
  await page.evaluate(() => {
    desk.pointers.length = 0;
    desk.answer.drag = "pan";
    for (const layer of ["areas", "wiring", "findings", "draft"] as const) desk.view.setMarks(layer, []);
  });
});

/** Colours on the screen at these places of the sheet, as a person would see them. */
const coloursAt = async (places: readonly Point2[]): Promise<string[]> => {
  const screen = await page.evaluate((each) => each.map((p) => desk.view.sheetToScreen(p)), places);
  const png = (await page.screenshot()).toString("base64");
  return page.evaluate(
    async ([data, points]) => {
      const picture = await createImageBitmap(
        new Blob([Uint8Array.from(atob(data), (c) => c.charCodeAt(0))], { type: "image/png" }),
      );
      const context = new OffscreenCanvas(picture.width, picture.height).getContext("2d", {
        willReadFrequently: true,
      })!;
      context.drawImage(picture, 0, 0);
      const ratio = picture.width / innerWidth;
      return points.map(([x, y]) => {
        const [r, g, b] = context.getImageData(Math.floor(x * ratio), Math.floor(y * ratio), 1, 1).data;
        return `${r} ${g} ${b}`;
      });
    },
    [png, screen] as const,
  );
};
const RED_SEEN = "255 0 0";
const WHITE = "255 255 255";
const GREEN = "0 255 0";
const { x, y, width, height } = RED;
const inside: Point2[] = [
  [x + 2, y + 2],
  [x + width - 2, y + 2],
  [x + 2, y + height - 2],
  [x + width - 2, y + height - 2],
];
const outside: Point2[] = [
  [x - 3, y + 5],
  [x + width + 3, y + 5],
  [x + 5, y - 3],
  [x + 5, y + height + 3],
];

describe.each(ROTATIONS)("a page turned by %d degrees", (rotate) => {
  test("is drawn where sheetToScreen says, fitted and zoomed in", async () => {
    await page.evaluate((path) => desk.show(path), `files/bar-${rotate}.pdf`);
    expect(await coloursAt(inside)).toEqual(inside.map(() => RED_SEEN));
    expect(await coloursAt(outside)).toEqual(outside.map(() => WHITE));
    await page.evaluate(async (r) => {
      desk.view.zoomTo({ x0: r.x - 10, y0: r.y - 10, x1: r.x + r.width + 10, y1: r.y + r.height + 10 });
      await desk.settled();
    }, RED);
    const edge: Point2[] = [
      [x + 0.4, y + 5],
      [x - 0.4, y + 5],
    ];
    expect(await coloursAt(edge)).toEqual([RED_SEEN, WHITE]);
  });

  test("a mark lies on what it marks", async () => {
    await page.evaluate(
      async ([path, r]) => {
        await desk.show(path);
        const steps = [
          ["M", r.x, r.y],
          ["L", r.x + r.width, r.y],
          ["L", r.x + r.width, r.y + r.height],
          ["L", r.x, r.y + r.height],
          ["Z"],
        ] as const;
        desk.view.setMarks("areas", [{ key: "a", picture: [{ type: "path", steps, fill: { r: 0, g: 1, b: 0 } }] }]);
        await new Promise((done) => setTimeout(done, 100));
      },
      [`files/bar-${rotate}.pdf`, RED] as const,
    );
    expect(await coloursAt(inside)).toEqual(inside.map(() => GREEN));
    expect(await coloursAt(outside)).toEqual(outside.map(() => WHITE));
  });
});

test("a part of a page is the same picture before and after its operators are recorded", async () => {
  const seen = await page.evaluate(async () => {
    const { handle } = await desk.show("files/crowd.pdf");
    // Its edges cut through lines and words.
    const region = { x: 660, y: 930, width: 500, height: 300 };
    return desk.compare({ handle, page: 1, scale: 4, region }, 1200);
  });
  expect(seen.differ).toBe(0);
  expect(seen.dark).toBeGreaterThan(1000);
});

test("layers are drawn as the file has them, and as one says", async () => {
  const [left, right]: Point2[] = [
    [25, 50],
    [75, 50],
  ];
  await page.evaluate(() => desk.show("files/layers.pdf"));
  expect(await coloursAt([left!, right!])).toEqual([RED_SEEN, WHITE]);
  const hide = (names: string[]) =>
    page.evaluate(async (ids) => {
      desk.view.setHiddenLayers(ids);
      await desk.settled();
    }, names);
  await hide([]);
  expect(await coloursAt([left!, right!])).toEqual([RED_SEEN, "0 0 255"]);
  await hide(["5R"]);
  expect(await coloursAt([left!, right!])).toEqual([WHITE, "0 0 255"]);
});

describe("pointer", () => {
  const kinds = () => page.evaluate(() => desk.pointers.map((p) => p.kind).join(" "));
  const origin = () => page.evaluate(() => desk.view.view().origin.map(Math.round));

  beforeEach(async () => {
    await page.evaluate(() => desk.show("files/crowd.pdf"));
    await page.mouse.move(450, 350);
    await page.evaluate(() => {
      desk.pointers.length = 0;
    });
  });

  test("a click is down and up in one place of the sheet, with the marks near it", async () => {
    const at = await page.evaluate(() => {
      const p = desk.view.screenToSheet([450, 350]);
      desk.view.setMarks("wiring", [
        {
          key: "run",
          picture: [],
          hit: {
            kind: "line",
            points: [
              [p[0] - 50, p[1]],
              [p[0] + 50, p[1]],
            ],
          },
        },
      ]);
      desk.view.setMarks("findings", [{ key: "spot", picture: [], hit: { kind: "spot", at: p, radius: 2 } }]);
      return p;
    });
    await page.mouse.click(450, 350);
    const heard = (await page.evaluate(() => desk.pointers)).filter((p) => p.kind !== "move");
    expect(heard.map((p) => [p.kind, p.button, p.hit])).toEqual([
      ["down", 0, ["spot", "run"]],
      ["up", 0, ["spot", "run"]],
    ]);
    expect(heard[0]!.at[0]).toBeCloseTo(at[0], 6);
  });

  test("a drag that no tool takes moves the sheet and is called off for the tool", async () => {
    const before = await origin();
    await page.mouse.down();
    await page.mouse.move(490, 380, { steps: 4 });
    await page.mouse.up();
    expect(await kinds()).toBe("down cancel");
    expect(await origin()).toEqual([before[0]! + 40, before[1]! + 30]);
  });

  test("a drag that a tool takes leaves the sheet where it is", async () => {
    const before = await origin();
    await page.evaluate(() => {
      desk.answer.drag = "taken";
    });
    await page.mouse.down();
    await page.mouse.move(490, 380, { steps: 2 });
    await page.mouse.up();
    expect(await kinds()).toBe("down move move up");
    expect(await origin()).toEqual(before);
  });

  test("the middle button and the space bar move the sheet, whatever tool is at work", async () => {
    await page.evaluate(() => {
      desk.answer.drag = "taken";
    });
    const before = await origin();
    await page.mouse.down({ button: "middle" });
    await page.mouse.move(470, 350, { steps: 2 });
    await page.mouse.up({ button: "middle" });
    await page.keyboard.down("Space");
    await page.mouse.down();
    await page.mouse.move(470, 330, { steps: 2 });
    await page.mouse.up();
    await page.keyboard.up("Space");
    expect(await kinds()).toBe("");
    expect(await origin()).toEqual([before[0]! + 20, before[1]! - 20]);
  });

  test("the space bar moves the sheet also when the element round it has the focus, and not from a field", async () => {
    const before = await origin();
    await page.evaluate(() => {
      const host = document.getElementById("host")!;
      host.tabIndex = 0;
      host.focus();
      desk.answer.drag = "taken";
    });
    const drag = async () => {
      await page.mouse.move(450, 350);
      await page.keyboard.down("Space");
      await page.mouse.down();
      await page.mouse.move(480, 350, { steps: 2 });
      await page.mouse.up();
      await page.keyboard.up("Space");
      return origin();
    };
    expect(await drag()).toEqual([before[0]! + 30, before[1]]);
    await page.evaluate(() => document.body.appendChild(document.createElement("input")).focus());
    expect(await drag()).toEqual([before[0]! + 30, before[1]]);
    await page.evaluate(() => document.querySelector("input")!.remove());
  });

  test("the wheel zooms about the pointer", async () => {
    const under = () => page.evaluate(() => desk.view.screenToSheet([300, 200]));
    await page.mouse.move(300, 200);
    const [before, scale] = [await under(), await page.evaluate(() => desk.view.view().scale)];
    await page.mouse.wheel(0, -300);
    await page.waitForTimeout(300);
    expect(await page.evaluate(() => desk.view.view().scale)).toBeGreaterThan(1.5 * scale);
    const after = await under();
    // Resting on whole pixels may move it by half of one.
    expect(Math.hypot(after[0] - before[0], after[1] - before[1])).toBeLessThan(1);
  });

  test("two fingers zoom and move, and call off what one finger began", async () => {
    const touch = await page.context().newCDPSession(page);
    const send = (type: "touchStart" | "touchMove" | "touchEnd", points: readonly Point2[]) =>
      touch.send("Input.dispatchTouchEvent", {
        type,
        touchPoints: points.map(([px, py], id) => ({ x: px, y: py, id })),
      });
    const scale = await page.evaluate(() => desk.view.view().scale);
    const before = await page.evaluate(() => desk.view.screenToSheet([450, 350]));
    await send("touchStart", [[400, 350]]);
    await send("touchStart", [
      [400, 350],
      [500, 350],
    ]);
    for (let i = 1; i <= 5; i++)
      await send("touchMove", [
        [400 - 10 * i, 350],
        [500 + 10 * i, 350],
      ]);
    await send("touchEnd", []);
    await page.waitForTimeout(200);
    expect(await kinds()).toMatch(/^down cancel/);
    expect((await page.evaluate(() => desk.view.view().scale)) / scale).toBeCloseTo(2, 1);
    const after = await page.evaluate(() => desk.view.screenToSheet([450, 350]));
    expect(Math.hypot(after[0] - before[0], after[1] - before[1])).toBeLessThan(2);
    await touch.detach();
  });

  test("the pointer leaving the sheet is told", async () => {
    await page.mouse.move(460, 350);
    await page.evaluate(() => document.getElementById("host")!.style.setProperty("right", "500px"));
    await page.mouse.move(800, 350);
    expect(await kinds()).toMatch(/hover-end$/);
    await page.evaluate(() => document.getElementById("host")!.style.removeProperty("right"));
  });
});

test("a fitted page stays fitted when the window changes; a zoomed one keeps its middle", async () => {
  await page.evaluate(() => desk.show("files/bar-0.pdf"));
  await page.setViewportSize({ width: 500, height: 700 });
  await page.waitForTimeout(300);
  const corner = await page.evaluate(() => desk.view.sheetToScreen([430, 280]));
  expect(corner[0]).toBeLessThan(500);
  expect(corner[0]).toBeGreaterThan(450);
  await page.evaluate(() => desk.view.zoomBy(6));
  await page.waitForTimeout(300);
  const before = await page.evaluate(() => desk.view.screenToSheet([250, 350]));
  await page.setViewportSize({ width: 900, height: 700 });
  await page.waitForTimeout(300);
  const after = await page.evaluate(() => desk.view.screenToSheet([450, 350]));
  expect(Math.hypot(after[0] - before[0], after[1] - before[1])).toBeLessThan(1);
});

describe("files", () => {
  const problem = (path: string, password?: string) =>
    page.evaluate(
      async ([file, word]) => {
        const opened = await desk.open(file, word);
        return opened.ok ? "open" : opened.problems.map((each) => each.code).join();
      },
      [path, password] as const,
    );
  test("what is no PDF is refused", async () => expect(await problem("files/page.html")).toBe("pdf.not-a-pdf"));
  test("a locked one asks for its password, and opens with it", async () => {
    expect(await problem("files/locked.pdf")).toBe("pdf.password-needed");
    expect(await problem("files/locked.pdf", "roof")).toBe("pdf.password-wrong");
    expect(await problem("files/locked.pdf", "deck")).toBe("open");
  });
});

test("a request that is called off is answered at once, and the next one is served", async () => {
  const said = await page.evaluate(async () => {
    const { handle } = await desk.show("files/crowd.pdf");
    const controller = new AbortController();
    const first = desk.renderer.render({ handle, page: 1, scale: 6 }, controller.signal).then(
      () => "drawn",
      (error: Error) => error.name,
    );
    controller.abort();
    const next = await desk.pixelsOf({ handle, page: 1, scale: 0.5 });
    return [await first, next.length > 0];
  });
  expect(said).toEqual(["AbortError", true]);
});

test("a worker that dies is replaced, and the drawing is still there", async () => {
  const said = await page.evaluate(async () => {
    const { handle } = await desk.show("files/bar-0.pdf");
    const before = desk.workers.length;
    const asked = desk.renderer.render({ handle, page: 1, scale: 1 }).then(
      () => "drawn",
      (error: Error) => error.name,
    );
    desk.workers.at(-1)!.dispatchEvent(new ErrorEvent("error", { message: "died for the test" }));
    const again = await desk.pixelsOf({ handle, page: 1, scale: 1 });
    return { first: await asked, again: again.length > 0, started: desk.workers.length - before, lost: desk.lost };
  });
  expect(said).toEqual({
    first: "RendererLost",
    again: true,
    started: 1,
    lost: [{ message: "died for the test", final: false }],
  });
});

test("marks that change again and again while they are drawn are in the end as if drawn at once", async () => {
  const [count, last] = [3_000, 11];
  /** How far the marks as they are seen differ from those kept; keeps them when `keep`. */
  const differing = (keep: boolean) =>
    page.evaluate(async (keeps) => {
      const look = () => {
        const sum = new Uint8ClampedArray(4 * innerWidth * innerHeight);
        for (const canvas of document.querySelectorAll<HTMLCanvasElement>("#host canvas:not([data-part])")) {
          if (canvas.style.display === "none" || canvas.width === 0) continue;
          sum.set(canvas.getContext("2d")!.getImageData(0, 0, innerWidth, innerHeight).data);
        }
        // As it is seen: the colour of what is hardly there counts as little.
        for (let i = 0; i < sum.length; i++) if (i % 4 < 3) sum[i] = (sum[i]! * sum[i | 3]!) / 255;
        return sum;
      };
      /** The most pixels in a square of 16: a path that is cut off, even between whole pixels, is filled in slightly other shades than a whole one; a mark too many or too few is many in one place. That none is, is looked at exactly where words stand for pixels (`marks-layer.test.ts`). */
      const differ = (a: Uint8ClampedArray, b: Uint8ClampedArray) => {
        const squares = new Map<number, number>();
        for (let i = 3; i < a.length; i += 4) {
          if ([0, 1, 2, 3].every((k) => Math.abs(a[i - k]! - b[i - k]!) <= 24)) continue;
          const [x, y] = [(i >> 2) % innerWidth, Math.floor((i >> 2) / innerWidth)];
          const square = (y >> 4) * 1000 + (x >> 4);
          squares.set(square, (squares.get(square) ?? 0) + 1);
        }
        return Math.max(0, ...squares.values());
      };
      let now = look();
      for (let steady = 0; steady < 2; ) {
        await new Promise((resolve) => setTimeout(resolve, 150));
        const next = look();
        steady = differ(now, next) === 0 ? steady + 1 : 0;
        now = next;
      }
      const kept = globalThis as unknown as { marksKept?: Uint8ClampedArray };
      if (keeps) kept.marksKept = now;
      return differ(now, keeps ? new Uint8ClampedArray(now.length) : kept.marksKept!);
    }, keep);
  const none = () =>
    page.evaluate(() => {
      for (const layer of ["areas", "wiring", "findings", "draft"] as const) desk.view.setMarks(layer, []);
    });
  await page.evaluate(() => desk.show("files/layers.pdf"));
  await page.evaluate(([n, moved]) => desk.strew(n, moved), [count, last] as const);
  await expect.poll(() => differing(true)).toBeGreaterThan(100);
  await none();
  await expect.poll(() => differing(false)).toBeGreaterThan(100);
  await page.evaluate(
    async ([n, final]) => {
      const frame = () => new Promise((resolve) => requestAnimationFrame(resolve));
      desk.strew(n);
      for (let edit = 0; edit < 40; edit++) {
        await frame();
        desk.strew(n, (edit * 7919) % (n / 2));
      }
      await frame();
      desk.strew(n, final);
    },
    [count, last] as const,
  );
  await expect.poll(() => differing(false), { timeout: 8_000 }).toBeLessThan(12);
}, 60_000);

test("nothing went wrong on the page", async () => {
  expect(await page.evaluate(() => desk.errors)).toEqual([]);
  expect(canvas.problems).toEqual([]);
});
