import type { Drops, Room } from "../../check/hanging-room.ts";
import type { UnitSystem } from "../../units/length.ts";
import { type Block, type Cell, paragraph, row } from "../report/block.ts";
import type { Part } from "../report/part.ts";
import {
  BIG,
  type BriefSetting,
  dropText,
  FIGURE,
  FIGURE_NAME,
  HEAD_OF_COLUMN,
  heightText,
  stepText,
  TEXT,
} from "./brief-setting.ts";

/** Sizes that get a line of elevations on a page, and a column at the corners; of the rest the drop is enough. */
const MOST_SIZES = 10;
const MOST_AT_CORNERS = 4;

/** How high each size may hang under a deck whose lowest surface is known. */
export function roomBlocks(room: Room, { scene, words, width }: BriefSetting): Block[] {
  const { system } = scene;
  const heights = heightsOf(room);
  const counted = words.counted(room.storey?.name ?? null);
  const about = room.slopeDeg > 0 ? words.slope(room.slopeDeg.toFixed(2), counted) : words.level(counted);
  return [
    ...paragraph(words.anything(dropText(room.topDrop, system)), width, BIG, { before: 6 }),
    ...paragraph(`${about} ${words.roundedHere(stepText(system))}`, width, TEXT, { before: 4 }),
    ...dropTable(room.drops.slice(0, MOST_SIZES), Math.min(...heights), { words, width }, system),
    ...(room.drops.length > MOST_SIZES ? paragraph(words.otherSizes, width, TEXT, { before: 2 }) : []),
  ];
}

/** The highest centre at every corner of a sloped deck; nothing for a level one. */
export function cornerBlocks(room: Room, { scene, words, width }: BriefSetting): Block[] {
  if (room.slopeDeg === 0) return [];
  const shown = room.drops.slice(0, MOST_AT_CORNERS);
  const columns: Cell[] = [
    { text: words.corner, x: 0, width: 52, setting: HEAD_OF_COLUMN },
    ...cells(
      shown.map(({ wiring }) => wiring.label),
      56,
      width,
    ),
  ];
  const table: Part = { role: "Table" };
  const told = words.corners(words.counted(room.storey?.name ?? null), room.edges.length > 0);
  return [
    ...paragraph(`${told}${room.drops.length > shown.length ? ` ${words.otherSizes}` : ""}`, width, TEXT, {
      before: 6,
      keep: true,
    }),
    ...row(columns, { before: 3, keep: true, table, head: "columns" }),
    ...heightsOf(room).flatMap((height, i) =>
      line(table, columns, [String(i + 1), ...shown.map(({ centre }) => heightText(height - centre, scene.system))]),
    ),
  ];
}

/** The elevation of the deck at each corner, above what elevations are counted from, less what it may be lower by. */
const heightsOf = ({ corners, deckSlack, storey }: Room): number[] =>
  corners.map(({ deck }) => deck - deckSlack - (storey?.floor ?? 0));

function dropTable(
  drops: readonly Drops[],
  deck: number,
  { words, width }: Pick<BriefSetting, "words" | "width">,
  system: UnitSystem,
): Block[] {
  const { columns: named } = words;
  const columns: Cell[] = [
    { text: named.wiring, x: 0, width: 76, setting: HEAD_OF_COLUMN },
    ...cells([named.bottom, named.centre, named.top, named.drop], 80, width),
  ];
  const table: Part = { role: "Table" };
  const over: Cell = {
    ...columns[1]!,
    text: words.notHigher,
    width: columns[3]!.x + columns[3]!.width - columns[1]!.x,
    align: "start",
  };
  return [
    ...row([over], { before: 8, keep: true }),
    ...row(columns, { before: 1, keep: true, table, head: "columns" }),
    ...drops.flatMap(({ wiring, top, centre, bottom }) =>
      line(table, columns, [
        wiring.label,
        ...[bottom, centre, top].map((drop) => heightText(deck - drop, system)),
        dropText(centre, system),
      ]),
    ),
  ];
}

/** Columns of figures of one width, from `from` to the right. */
const cells = (texts: readonly string[], from: number, width: number): Cell[] => {
  const across = (width - from) / Math.max(texts.length, 1);
  return texts.map((text, i) => ({
    text,
    x: from + i * across,
    width: across - 4,
    setting: HEAD_OF_COLUMN,
    align: "end",
  }));
};

const line = (table: Part, columns: readonly Cell[], texts: readonly string[]): Block[] =>
  row(
    columns.map((cell, i) => ({ ...cell, text: texts[i]!, setting: i === 0 ? FIGURE_NAME : FIGURE })),
    { before: 2, table, head: "row" },
  );
