import { existsSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect } from "vitest";
import type { PathItem, Picture } from "../../src/geometry/picture.ts";
import { hexOf } from "../../src/issue/inks.ts";

const folder = fileURLToPath(new URL(".", import.meta.url));

/**
 * Compares a text with the file of that name in this folder. A changed one is written beside the old as NAME.changed, to
 * be looked at: rename it over the old when the change is meant. With GOLDEN=write in the environment it is taken at once.
 */
export function expectGolden(name: string, text: string): void {
  const old = `${folder}${name}`;
  const changed = `${folder}${name.replace(/(\.\w+)$/, ".changed$1")}`;
  if (process.env.GOLDEN === "write") writeFileSync(old, text);
  const same = existsSync(old) && readFileSync(old, "utf8") === text;
  if (same) rmSync(changed, { force: true });
  else writeFileSync(changed, text);
  expect(same, `${name} is not as it was; the new one is ${changed}`).toBe(true);
}

type Box = readonly [number, number, number, number];

/** Items of a picture of which nothing is seen outside a box. */
type Clipped = { readonly from: number; readonly to: number; readonly clip?: Box };

/** A picture as SVG, one item a line, numbers to three decimals: to be compared, and to be looked at. */
export function pictureSvg(picture: Picture, [x0, y0, x1, y1]: Box, clipped: readonly Clipped[] = []): string {
  const [w, h] = [x1 - x0, y1 - y0];
  const items = picture.map((item) => {
    if (item.type === "path") {
      const paint = [
        `fill="${item.fill ? hexOf(item.fill) : "none"}"`,
        item.evenOdd ? 'fill-rule="evenodd"' : "",
        item.stroke ? `stroke="${hexOf(item.stroke)}" stroke-width="${short(item.width ?? 0)}"` : "",
        item.dash ? `stroke-dasharray="${item.dash.map(short).join(" ")}"` : "",
        item.opacity === undefined ? "" : `opacity="${short(item.opacity)}"`,
      ];
      return `<path d="${pathData(item)}" ${paint.filter(Boolean).join(" ")}/>`;
    }
    const anchor = item.align === "start" ? "" : ` text-anchor="${item.align}"`;
    const face =
      item.face === "regular" ? "" : item.face === "bold" ? ' font-weight="700"' : ' font-stretch="condensed"';
    const turn = item.angle === 0 ? "" : ` rotate(${short((-item.angle * 180) / Math.PI)})`;
    const text = item.text.replaceAll("&", "&amp;").replaceAll("<", "&lt;");
    const place = `transform="translate(${short(item.at[0])} ${short(-item.at[1])})${turn}"`;
    return `<text ${place} font-size="${short(item.size)}"${face}${anchor} fill="${hexOf(item.fill)}">${text}</text>`;
  });
  for (const { from, to, clip } of clipped) {
    if (!clip || from === to) continue;
    const [left, low, right, high] = clip;
    const inset = `${short(left)} ${short(-high)} ${short(right - left)} ${short(high - low)}`;
    // An SVG of its own: what goes beyond it is not shown.
    const [x, y, width, height] = inset.split(" ");
    items[from] = `<svg x="${x}" y="${y}" width="${width}" height="${height}" viewBox="${inset}">\n${items[from]}`;
    items[to - 1] += "\n</svg>";
  }
  const head = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="${short(x0)} ${short(-y1)} ${short(w)} ${short(h)}" font-family="Roboto" stroke-linecap="round" stroke-linejoin="round">`;
  return `${[head, "<title>A picture of the program's own, for comparison</title>", ...items, "</svg>"].join("\n")}\n`;
}

const short = (n: number): string => String(Number(n.toFixed(3)) + 0);

const pathData = (item: PathItem): string =>
  item.steps
    .map((step) => step[0] + (step.slice(1) as number[]).map((n, i) => short(i % 2 === 1 ? -n : n)).join(" "))
    .join("");
