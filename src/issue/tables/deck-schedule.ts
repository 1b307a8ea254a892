import { sheetsInOrder } from "../../check/check-job.ts";
import { type AreaRoom, hangingRoom } from "../../check/hanging-room.ts";
import { inLabelOrder } from "../../job/label-order.ts";
import type { Area, Job } from "../../job/schema.ts";
import { findDeckProfile } from "../../trade/decks.ts";
import { toInches } from "../../units/length.ts";
import { showDeckElevation } from "../show-length.ts";
import { CLASSIFICATION_WORDS, sheetTitle } from "../words.ts";
import { type ColumnOf, lengthColumn, type Table, tableOf } from "./table.ts";

/** A deck area, or the part of one that a storey above sets off. */
interface Scheduled {
  readonly area: Area;
  readonly sheet: string;
  readonly room: AreaRoom;
}

/**
 * The schedule of the deck areas: what each is taken to be and by whose word, its deck, its elevation as given, and between which
 * elevations above the project datum its lowest surface lies. By sheet, then by label.
 */
export function deckSchedule(job: Job): Table {
  const { system } = job.settings.job;
  const columns: readonly ColumnOf<Scheduled>[] = [
    { heading: "Deck area", width: 20, cell: ({ room }) => room.label },
    { heading: "Sheet", width: 28, cell: ({ sheet }) => sheetTitle(job, sheet) },
    { heading: "Taken to be", width: 20, cell: ({ area }) => CLASSIFICATION_WORDS[area.classification.is] },
    { heading: "Because", width: 30, cell: ({ area }) => area.classification.reason || null },
    { heading: "By", width: 16, cell: ({ area }) => area.classification.by || null },
    { heading: "Deck", width: 28, cell: ({ area: { deck } }) => findDeckProfile(deck.profile)?.label ?? deck.profile },
    lengthColumn("Depth", system, ({ area }) => depthOf(area)),
    { heading: "Elevation as given", width: 30, cell: ({ area }) => showDeckElevation(job, area) },
    lengthColumn("Lowest surface, lowest", system, ({ room }) => reach(room, Math.min)),
    lengthColumn("Lowest surface, highest", system, ({ room }) => reach(room, Math.max)),
    { heading: "Missing", width: 30, cell: ({ room }) => (room.is === "not-known" ? room.missing.join("; ") : null) },
  ];
  const places = new Map(sheetsInOrder(job).map((id, i) => [id, i]));
  const placeOf = ({ sheet }: Scheduled): number => places.get(sheet) ?? places.size;
  const scheduled = roomsOf(job)
    .map((room): Scheduled => {
      const area = job.areas[room.id]!;
      return { area, room, sheet: job.viewports[area.viewport]?.sheet ?? "" };
    })
    .sort((a, b) => placeOf(a) - placeOf(b) || inLabelOrder(a.room.label, b.room.label));
  return tableOf("Deck areas", columns, scheduled);
}

/** What is known under each area; where the rule set is not known here, so is what they leave. */
function roomsOf(job: Job): readonly AreaRoom[] {
  const rooms = hangingRoom(job);
  if (rooms.length > 0) return rooms;
  return Object.entries(job.areas).map(([id, { label }]) => ({
    id,
    label,
    is: "not-known",
    missing: ["the rule set"],
  }));
}

const depthOf = ({ deck }: Area): number | null =>
  (deck.depth ? toInches(deck.depth) : findDeckProfile(deck.profile)?.depth?.value) ?? null;

const reach = (room: AreaRoom, end: (...elevations: number[]) => number): number | null =>
  room.is === "room" ? end(...room.room.corners.map(({ deck }) => deck)) : null;
