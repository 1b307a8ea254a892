import type { AreaRoom, Drops, Room } from "../../check/hanging-room.ts";
import { formatLength } from "../../units/format-length.ts";
import type { UnitSystem } from "../../units/length.ts";
import { type Inches, inches } from "../../units/quantity.ts";
import { type Block, BODY, CELL, type Cell, COLUMN, heading, paragraph, pictureBlock, row } from "../report/block.ts";
import { areaPicture } from "./area-picture.ts";

/** How much of a page the picture of a sloped area takes, points. */
const PICTURE = { width: 190, height: 130 } as const;

/** One deck area in the brief: its heights, or why there are none. */
export function roomBlocks(area: AreaRoom, system: UnitSystem, width: number): Block[] {
  const words = (text: string): Block[] => paragraph(text, width, BODY, { before: 2 });
  switch (area.is) {
    case "floor-above":
      return [
        heading(area.label, width),
        ...words(`A floor above, not a roof: the rule asks for no distance here.${because(area.reason)}`),
      ];
    case "not-settled":
      return [
        heading(area.label, width),
        ...words(
          `Hang nothing here yet: nobody has settled whether this is a roof or has a floor above it.${because(area.reason)}`,
        ),
      ];
    case "not-known":
      return [heading(area.label, width), ...words(`Hang nothing here yet. Missing: ${area.missing.join("; ")}.`)];
    case "outside-the-rule":
      return [
        heading(area.label, width),
        ...words("The rule set of this job does not speak of this deck. Other rules may."),
      ];
    case "room":
      return [heading(area.label, width), ...known(area.room, system, width)];
  }
}

const because = (reason: string): string => (reason ? ` ${reason}.` : "");

/** To a step a tape can hold, to the safe side: drops up, elevations down. */
const step = (system: UnitSystem): number => (system === "metric" ? 1 : 1 / 16);
const dropText = (drop: Inches, system: UnitSystem): string =>
  formatLength(drop, system, { nearest: step(system), round: "up" });
const heightText = (height: number, system: UnitSystem): string =>
  formatLength(inches(height), system, { nearest: step(system), round: "down" });

function known(room: Room, system: UnitSystem, width: number): Block[] {
  const datum = room.storey?.floor ?? 0;
  const counted = room.storey ? `AFF ${room.storey.name}` : "above the project datum";
  const heights = room.corners.map(({ deck }) => deck - room.deckSlack - datum);
  const low = Math.min(...heights);
  const isSloped = room.slopeDeg > 0;
  const about = isSloped
    ? `The deck slopes (${room.edges.length > 0 ? "by up to " : ""}${room.slopeDeg.toFixed(2)}°). The elevations are those at its lowest corner, ${counted}, and so are safe anywhere under it; by corner they are below.`
    : `The deck is level. The elevations are ${counted}.`;
  return [
    ...paragraph(about, width, BODY, { before: 2, keep: true }),
    ...dropTable(room.drops, low, system, width),
    ...paragraph(
      `The top of anything else, where the deck over it is lowest: not less than ${dropText(room.topDrop, system)} below the deck.`,
      width,
      BODY,
      { before: 4 },
    ),
    ...(isSloped ? cornerTable(room, heights, counted, system, width) : []),
  ];
}

function dropTable(drops: readonly Drops[], deck: number, system: UnitSystem, width: number): Block[] {
  const column = (text: string, x: number): Cell => ({
    text,
    x,
    width: (width - 90) / 6 - 6,
    setting: COLUMN,
    align: "end",
  });
  const at = (i: number): number => 90 + (i * (width - 90)) / 6;
  const titles = ["Drop to top", "Drop to centre", "Drop to bottom", "Highest top", "Highest centre", "Highest bottom"];
  const columns: Cell[] = [
    { text: "Wiring", x: 0, width: 84, setting: COLUMN },
    ...titles.map((text, i) => column(text, at(i))),
  ];
  return [
    ...row(columns, { before: 6, keep: true }),
    ...drops.flatMap(({ wiring, top, centre, bottom }) => {
      const texts = [
        wiring.label,
        ...[top, centre, bottom].map((drop) => dropText(drop, system)),
        ...[top, centre, bottom].map((drop) => heightText(deck - drop, system)),
      ];
      return row(
        columns.map((cell, i) => ({
          ...cell,
          text: texts[i] as string,
          setting: i === 0 ? { ...CELL, face: "bold" } : CELL,
        })),
        { before: 2.5 },
      );
    }),
  ];
}

/** At every corner of a sloped area: the highest centre of each size, with a picture of where the corners are. */
function cornerTable(
  room: Room,
  heights: readonly number[],
  counted: string,
  system: UnitSystem,
  width: number,
): Block[] {
  const shown = room.drops.slice(0, 6);
  const across = (width - 60) / Math.max(shown.length, 1);
  const columns: Cell[] = [
    { text: "Corner", x: 0, width: 54, setting: COLUMN },
    ...shown.map(
      ({ wiring }, i): Cell => ({
        text: wiring.label,
        x: 60 + i * across,
        width: across - 6,
        setting: COLUMN,
        align: "end",
      }),
    ),
  ];
  const rest = room.drops.length - shown.length;
  return [
    ...paragraph(
      `Highest centre at each corner, ${counted}; ${room.edges.length > 0 ? "along each line of the picture" : "between two corners"} it changes evenly.${rest > 0 ? " For the other sizes take their drops." : ""}`,
      width,
      BODY,
      { before: 8, keep: true },
    ),
    pictureBlock(areaPicture(room.corners, PICTURE.width, PICTURE.height, room.edges), PICTURE.height, {
      before: 4,
      keep: true,
    }),
    ...row(columns, { before: 4, keep: true }),
    ...heights.flatMap((height, i) => {
      const texts = [String(i + 1), ...shown.map(({ centre }) => heightText(height - centre, system))];
      return row(
        columns.map((cell, at) => ({
          ...cell,
          text: texts[at] as string,
          setting: at === 0 ? { ...CELL, face: "bold" } : CELL,
        })),
        { before: 2.5 },
      );
    }),
  ];
}
