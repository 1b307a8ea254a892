import {
  arrowHead,
  barScale,
  bayDimensions,
  grid,
  northArrow,
  numberedNotes,
  titleStrip,
  viewTitle,
} from "../drafting.ts";
import type { DrawnPage } from "../pdf-file.ts";
import { type Metrics, type Paper, Pen } from "../pen.ts";
import { FOOT, place } from "../plan-place.ts";
import { GRID, PAPER, PARTS, type PartName, partPlace } from "./building.ts";
import { ceilings, fixtures, lights, walls } from "./interior.ts";
import { NotePlacer } from "./place-notes.ts";
import { PlanView } from "./plan-view.ts";
import { LAYERS, STORE } from "./store-project.ts";
import { endsDiffer, runWords, tagWords } from "./tag-words.ts";
import { isHomeRun, type StoreWiring } from "./wiring.ts";

/** One of the four parts of the power and reflected ceiling plan, with the wiring routed on it. */
export function powerSheet(metrics: Metrics, part: PartName, wiring: StoreWiring): DrawnPage {
  const { width, height } = PAPER;
  const { sheet, name, x, y } = PARTS[part];
  const plan = partPlace(part);
  const pen = new Pen(metrics, LAYERS, [1, 0, 0, 1, 0, 0]);
  const margin = part.startsWith("s") ? 0.4 : 0;
  const view = new PlanView(
    pen,
    plan,
    [x[0] / FOOT - (x[0] === 0 ? 0.4 : 0), x[1] / FOOT + (x[1] === GRID.x.at(-1)!.at ? 0.4 : 0)],
    [y[0] / FOOT - margin, y[1] / FOOT + (margin === 0 ? 0.4 : 0)],
  );
  const lines = {
    x: GRID.x.filter(({ at }) => at >= x[0] && at <= x[1]),
    y: GRID.y.filter(({ at }) => at >= y[0] && at <= y[1]),
  };
  pen.on("TITLE", () =>
    titleStrip(
      pen,
      width,
      height,
      { number: sheet, name: `POWER AND|CEILING PLAN,|${name}`, scale: `3/16" = 1'-0"` },
      STORE,
    ),
  );
  const up = (y[1] - lines.y.at(-1)!.at) * plan.pointsPerInch;
  const down = (lines.y[0]!.at - y[0]) * plan.pointsPerInch;
  pen.on("GRID", () => {
    grid(pen, plan, lines, [60, 26, down + 34, up + 62]);
    bayDimensions(pen, plan, lines, up + 20, 18);
  });
  pen.on("WALLS", () => walls(view));
  pen.on("FIXTURES", () => fixtures(view));
  pen.on("CEILING", () => ceilings(view));
  pen.on("LIGHTING", () => lights(view));
  const placer = new NotePlacer(pen);
  pen.on("NOTES", () => rooms(view, placer));
  pen.on("RACEWAYS", () => raceways(view, part, wiring, placer));
  pen.on("NOTES", () => {
    matchLines(view, part);
    viewTitle(pen, [136, 118], "1", `POWER AND REFLECTED CEILING PLAN, ${name}`, `3/16" = 1'-0"`);
    barScale(pen, [720, 110], view.foot, [0, 2, 4, 8, 16, 32]);
    northArrow(pen, [1400, 114]);
    notes(pen);
    keyPlan(pen, [2080, 300], part);
  });
  const [low, high] = [place(plan, [x[0], y[0]]), place(plan, [x[1], y[1]])];
  return {
    width,
    height,
    rotate: 0,
    content: pen.content,
    label: sheet,
    plans: [
      {
        name: `Power plan, ${name.toLowerCase()}`,
        box: [...low, ...high],
        scaleText: `3/16 in = 1 ft`,
        feetPerUnit: 1 / view.foot,
      },
    ],
  };
}

function raceways(view: PlanView, part: PartName, wiring: StoreWiring, placer: NotePlacer): void {
  const { pen } = view;
  const plan = partPlace(part);
  const runs = wiring.runs.filter((run) => run.part === part);
  const routes = runs.map((run) => run.route.map((at): Paper => place(plan, at)));
  for (const [i, route] of routes.entries()) {
    const cable = runs[i]!.wiring.type === "mc";
    pen.path(bent(route, (runs[i]!.more?.bends ?? 0) * plan.pointsPerInch), {
      width: cable ? "medium" : "heavy",
      dash: cable ? [3, 2.5] : [10, 3],
    });
    for (const end of [route[0]!, route.at(-1)!]) pen.circle(end, 1.5, { fill: 0, bare: true });
    for (const [k, to] of route.slice(1).entries()) placer.line(route[k]!, to);
    // Home runs point at their panel.
    if (isHomeRun(runs[i]!)) arrowHead(pen, route[0]!, route[1]!, 9);
    // A riser is two vertices at one place.
    for (const [k, at] of route.slice(1).entries())
      if (at[0] === route[k]![0] && at[1] === route[k]![1]) pen.circle(at, 4, { width: "medium" });
  }
  for (const box of wiring.boxes.filter((one) => one.part === part)) {
    const [x, y] = place(plan, box.at);
    pen.rect([x - 3.6, y - 3.6], 7.2, 7.2, { width: "heavy", fill: 1 });
    pen.text("J", [x, y - 2], { size: 5.6, bold: true, align: "middle" });
    placer.keep([x - 4, y - 4, x + 4, y + 4]);
  }
  for (const rack of wiring.racks.filter((one) => one.part === part)) {
    const [a, b] = rack.route.map((at) => place(plan, at)) as [Paper, Paper];
    const apart = rack.apart * plan.pointsPerInch;
    const reach = ((rack.sizes.length - 1) / 2) * apart;
    for (const i of rack.sizes.keys())
      pen.line([a[0], a[1] + reach - i * apart], [b[0], b[1] + reach - i * apart], { width: "heavy", dash: [10, 3] });
    for (let x = a[0]; x <= b[0] + 0.1; x += 8 * view.foot)
      pen.line([x, a[1] - reach - 4], [x, a[1] + reach + 4], { width: "medium" });
    const sizes = rack.sizes.map((size) => `${size.replace("-", " ")}"C`).join(", ");
    placer.keep([a[0], a[1] - reach - 4, b[0], b[1] + reach + 4]);
    const above: readonly [Paper, Paper] = [
      [a[0], a[1] + reach + 4],
      [b[0], b[1] + reach + 4],
    ];
    const words = `${rack.label}  RACK: ${sizes}${rack.couplings ? ", COUPLINGS" : ""}  ${tagWords({ basis: "bottom", from: "aff", inches: rack.bottom })}`;
    placer.along(words, ...above, 6.2, 0.5);
  }
  for (const body of wiring.bodies.filter((one) => one.part === part)) {
    const [x, y] = place(plan, body.at);
    pen.rect([x - 3.4, y - 1.6], 6.8, 3.2, { width: "medium", fill: 1 });
  }
  for (const [i, run] of runs.entries()) {
    const route = routes[i]!;
    const [a, b] = [route[0]!, route[1]!];
    const size = run.wiring.type === "mc" || route.length === 3 ? 5.6 : 6.2;
    if (run.more?.bends) {
      // Its legs are short: the note stands beside its corner.
      const [x, y] = [b[0], b[1] + 1.8 * view.foot];
      pen.line([x, y + 4], [x + 10, y + 4], { width: "thin" });
      placer.along(runWords(run), [x + 11, y], [x + 16 + pen.widthOf(runWords(run), size), y], size, 0.5, true);
    } else placer.along(runWords(run), a, b, size, [0.5, 0.3, 0.7][i % 3]!);
    if (!endsDiffer(run)) continue;
    const [first, last] = [run.tags[0]!, run.tags.at(-1)!];
    placer.along(tagWords(first), a, b, 6.2, b[0] + b[1] > a[0] + a[1] ? 0.02 : 0.98, true);
    placer.along(tagWords(last), a, b, 6.2, b[0] + b[1] > a[0] + a[1] ? 0.98 : 0.02, true);
  }
  for (const one of [...wiring.boxes, ...wiring.bodies].filter((box) => box.part === part)) {
    const [x, y] = place(plan, one.at);
    placer.along(`${one.label}  ${one.words}  ${tagWords(one.tag)}`, [x + 5, y + 5], [x + 60, y + 5], 5.6, 0);
  }
  for (const entry of wiring.entries.filter((one) => one.part === part)) {
    const [x, y] = place(plan, entry.at);
    pen.circle([x, y], 4, { width: "medium" });
    placer.along(
      `${entry.label} INTO ${entry.panel}, ${entry.conductor} AWG ${entry.insulation}`,
      [x + 5, y - 6],
      [x + 60, y - 6],
      5.6,
      0,
    );
  }
}

/** A route whose square corners are rounded to a radius, points of the sheet. */
function bent(route: readonly Paper[], radius: number): readonly Paper[] {
  if (radius === 0) return route;
  const towards = ([x, y]: Paper, [tx, ty]: Paper): Paper => {
    const long = Math.hypot(tx - x, ty - y);
    return [((tx - x) / long) * radius, ((ty - y) / long) * radius];
  };
  return route.flatMap((at, i): readonly Paper[] => {
    const [before, after] = [route[i - 1], route[i + 1]];
    if (!before || !after) return [at];
    const [u, v] = [towards(at, before), towards(at, after)];
    return [0, 15, 30, 45, 60, 75, 90].map((deg): Paper => {
      const [c, s] = [1 - Math.sin((deg * Math.PI) / 180), 1 - Math.cos((deg * Math.PI) / 180)];
      return [at[0] + u[0] * c + v[0] * s, at[1] + u[1] * c + v[1] * s];
    });
  });
}

const ROOMS: readonly {
  name: string;
  number: string;
  at: readonly [number, number];
  ceiling: readonly [string, string];
}[] = [
  { name: "SALES FLOOR", number: "101", at: [62, 65.4], ceiling: ["EXPOSED STRUCTURE", "NO CEILING"] },
  { name: "SALES FLOOR", number: "101", at: [148, 40], ceiling: ["EXPOSED STRUCTURE", "NO CEILING"] },
  { name: "SALES FLOOR", number: "101", at: [74, 88], ceiling: ["EXPOSED STRUCTURE", "NO CEILING"] },
  { name: "SALES FLOOR", number: "101", at: [145, 107], ceiling: ["EXPOSED STRUCTURE", "NO CEILING"] },
  { name: "STOCK ROOM", number: "102", at: [78, 148], ceiling: ["EXPOSED STRUCTURE", "NO CEILING"] },
  { name: "BAKERY", number: "103", at: [156, 138.5], ceiling: ["EXPOSED STRUCTURE", "NO CEILING"] },
  { name: "PHARMACY", number: "104", at: [208, 14], ceiling: ["LAY-IN 2X4", `10'-0" AFF`] },
  { name: "OFFICES", number: "105", at: [196, 53], ceiling: ["LAY-IN 2X2", `9'-0" AFF`] },
  { name: "STAFF ROOM", number: "106", at: [225, 53], ceiling: ["LAY-IN 2X2", `9'-0" AFF`] },
  { name: "DRY GOODS", number: "107", at: [195.5, 85], ceiling: ["TRAINING ROOM ABOVE", "NO CEILING"] },
  { name: "REFRIGERATION", number: "108", at: [225, 85], ceiling: ["MEZZANINE ABOVE", "NO CEILING"] },
  { name: "RECEIVING", number: "109", at: [214, 125], ceiling: ["EXPOSED STRUCTURE", "NO CEILING"] },
  { name: "CANOPY", number: "110", at: [84, -5], ceiling: ["BOARDS", `11'-0" AFF`] },
];

function rooms(view: PlanView, placer: NotePlacer): void {
  const { pen } = view;
  for (const { name, number, at, ceiling } of ROOMS)
    view.mark(at[0], at[1], ([x, y]) => {
      const half = Math.max(pen.widthOf(name, 9, true), pen.widthOf(ceiling[0], 5.6)) / 2 + 4;
      pen.rect([x - half, y - 23], half * 2, 36, { fill: 1, bare: true });
      pen.text(`${name}  ${number}`, [x, y + 3], { size: 8.5, bold: true, align: "middle", mask: true });
      pen.path(
        [
          [x - half - 5, y - 11],
          [x - half, y - 2],
          [x + half, y - 2],
          [x + half + 5, y - 11],
          [x + half, y - 20],
          [x - half, y - 20],
        ],
        { width: "thin", fill: 1, close: true },
      );
      pen.text(ceiling[0], [x, y - 9], { size: 5.6, align: "middle" });
      pen.text(ceiling[1], [x, y - 17.4], { size: 7, bold: true, align: "middle" });
      placer.keep([x - half - 8, y - 22, x + half + 8, y + 12]);
    });
  const panel = (name: string, x: number, y: number, upright: boolean): void =>
    view.mark(x, y, ([px, py]) => {
      const [w, h] = upright ? [7, 22] : [22, 7];
      pen.rect([px - w / 2, py - h / 2], w, h, { width: "heavy", fill: 0.2 });
      pen.text(name, upright ? [px + 6, py - 2] : [px, py - 12], {
        size: 7,
        bold: true,
        align: upright ? "start" : "middle",
        mask: true,
      });
      placer.keep([px - w / 2 - 2, py - h / 2 - 2, px + w / 2 + 18, py + h / 2 + 2]);
    });
  panel("LA", 1, 68, true);
  panel("RA", 1, 58.5, true);
  panel("LC", 179.2, 68, true);
  panel("LB", 1, 106.4, true);
  panel("RB", 1, 98, true);
  panel("SB", 118.8, 131, true);
  panel("BK", 121.2, 134, true);
  panel("LD", 179.2, 110, true);
  panel("MDP", 180.9, 122.9, true);
  panel("MD", 181.2, 77, true);
  panel("RT", 211.2, 79, true);
  panel("RV", 181.2, 130, true);
}

function matchLines(view: PlanView, part: PartName): void {
  const { pen } = view;
  const stroke = { width: "border", dash: [22, 5, 5, 5] } as const;
  const south = part.startsWith("s");
  const west = part.endsWith("w");
  const beyond = (other: PartName): string => `MATCH LINE, SEE ${PARTS[other].sheet}`;
  const y = 72;
  view.line(view.x[0], y, view.x[1], y, stroke);
  const at = view.at(view.x[0] + 18, y);
  pen.text(beyond(`${south ? "n" : "s"}${west ? "w" : "e"}`), [at[0], at[1] + (south ? 5 : -11)], {
    size: 8,
    bold: true,
    mask: true,
  });
  view.line(120, view.y[0], 120, view.y[1], stroke);
  const side = view.at(120, view.y[0] + 10);
  pen.text(beyond(`${south ? "s" : "n"}${west ? "e" : "w"}`), [side[0] + (west ? 11 : -5), side[1]], {
    size: 8,
    bold: true,
    turn: 90,
    mask: true,
  });
}

function notes(pen: Pen): void {
  numberedNotes(
    pen,
    "POWER AND CEILING NOTES",
    [
      ["C: electrical metallic tubing unless written", "otherwise. MC: metal-clad cable."],
      [
        "EL. on a raceway is its centre line. AFF and A.F.F.",
        "are above the finished floor of LEVEL 1,",
        "A.F.F. MEZZ. above that of the mezzanine level",
        `(112'-5"); other elevations above the project datum.`,
      ],
      [
        "C.L.: centre line. T.O.C.: top of conduit or cable.",
        "B.O.C.: bottom of it. BELOW DECK: down from the",
        "lowest surface of the deck above.",
      ],
      ["One elevation holds for the whole of a run. Two, at", "its ends: straight between them."],
      ["STEEL FITTINGS: all fittings and boxes of that run", "are listed and of steel. Others: by the installer."],
      ["A ring at the end of a raceway: it turns up there, to", "the second elevation. Wireway: across by up."],
      ["J: box, cover down. The elevation beside it is of", "the middle of the box where not written."],
      ["K: rack. Sizes from left to right looking along it;", "all bear on it, B.O.C. is the bottom of each."],
      ["Entries: bushings and locknuts by schedule on", "G-001."],
      ["Deck elevations: S-120. Skylights, hatch and shaft", "are openings in the deck."],
      ["Advice from a drawing is not an inspection. Verify", "on site."],
    ],
    [2046, 1640],
  );
}

/** Which of the four parts the sheet shows, small. */
function keyPlan(pen: Pen, [x, y]: Paper, part: PartName): void {
  const s = 0.75;
  for (const [name, { x: across, y: up, sheet }] of Object.entries(PARTS)) {
    const [x0, x1] = across.map((at) => x + (at / FOOT) * s) as [number, number];
    const [y0, y1] = [Math.max(up[0], 0), up[1]].map((at) => y + (at / FOOT) * s) as [number, number];
    pen.rect([x0, y0], x1 - x0, y1 - y0, { width: "medium", fill: name === part ? 0.75 : 1 });
    pen.text(sheet, [(x0 + x1) / 2, (y0 + y1) / 2 - 3], { size: 8, bold: name === part, align: "middle" });
  }
  pen.text("KEY PLAN", [x, y - 14], { size: 8.5, bold: true });
  pen.text("NOT TO SCALE", [x, y - 24], { size: 6.5 });
}
