import type { UnitSystem } from "../units/length.ts";
import { type Inches, inches } from "../units/quantity.ts";
import type { DrawnPlaceKind, DrawnStop } from "./drawn-lines.ts";
import type { Lack } from "./lacks.ts";
import type { Lock } from "./lock.ts";
import { type Level, lengthWords } from "./measured.ts";
import type { AskKind, Wanted } from "./tool.ts";

type Params = NonNullable<Wanted["params"]>;

const selectedWords = ({ selected }: Params): string => (selected === 0 ? "Nothing selected" : `${selected} selected`);
const windowWords = ({ takes }: Params): string =>
  takes === "touched"
    ? "It takes what it touches; I makes it take only what lies wholly inside."
    : "It takes only what lies wholly inside; I makes it take what it touches.";

/** What every tool says it wants next, by code. One sentence each, keys named as on the keyboard. */
const WANTED: Readonly<Record<string, (p: Params) => string>> = {
  "edit.idle": () => "Click a thing to select it, or move the crosshair with the arrow keys and press Enter.",
  "edit.selected": (p) =>
    `${p.label}: drag it, or press A and then arrow keys, to move it; , and . go through its vertices.`,
  "edit.vertex": (p) =>
    `${p.label}, vertex ${p.vertex} of ${p.count}: drag it, or press A and then arrow keys, to move it; I puts one after it, Delete takes it out.`,
  "edit.end": (p) => `${p.label}, its ${p.end}: drag it, or press A and then arrow keys, to move it.`,
  "edit.several": (p) =>
    `${p.things} selected on this sheet: drag one, or press A and then arrow keys, to move them all; with Shift a click adds or takes out, a drag draws a window.`,
  "several.idle": (p) =>
    `${selectedWords(p)}: click a thing to add it or take it out, drag a window round more. ${windowWords(p)} Escape ends.`,
  "several.corner": (p) => `Put the opposite corner of the window. ${windowWords(p)}`,
  "several.window": (p) => `${p.count} in the window. ${windowWords(p)}`,
  "edit.moving-keys": (p) =>
    `${p.label}: arrow keys move it, or type how far it goes, such as 6" left; Enter keeps it there, Escape puts it back.`,
  "edit.moving-pointer": (p) => `${p.label}: let go to keep it there, Escape puts it back.`,
  "measure-scale.first": (p) => `${p.viewport}: put a point at one end of a written dimension.`,
  "measure-scale.second": (p) => `${p.viewport}: put a point at the other end of the dimension.`,
  "measure-scale.distance": (p) => `${p.viewport}: type the dimension as it is written, such as 27'-6".`,
  "mark-viewport.first": () => "Put one corner of the part of the sheet that has a scale of its own.",
  "mark-viewport.second": () => "Put the opposite corner of the part.",
  "reshape-part.first": (p) => `${p.viewport}: drag a corner, or choose one with a click or with . and ,`,
  "reshape-part.second": (p) => `${p.viewport}: put the corner elsewhere; the opposite one stays.`,
  "register.here": (p) =>
    `Pair ${p.pair}: put a point on ${p.here}, such as a grid intersection, and type its name if it has one.`,
  "register.here-enough": (p) =>
    `Pair ${p.pair}: put another point on ${p.here}, or press Enter; ${p.count} pairs are there.`,
  "register.there": (p) => `Pair ${p.pair}: put the same point on ${p.there}.`,
  "outline.first": (p) => `Put the first corner of the ${p.part}.`,
  "outline.next": (p) => `Put the next corner of the ${p.part}; Backspace takes the last one back.`,
  "outline.close": (p) => `Put the next corner of the ${p.part}, or close it on the first one or with Enter.`,
  "slope.point": (p) => `${p.label}: put a point where the elevation of the deck is given.`,
  "slope.towards": (p) =>
    p.at === 1
      ? "Put a second point down the slope."
      : "Type the elevation there, or put a second point down the slope.",
  "slope.slope": () => `Type the slope, such as 1/4" per foot.`,
  "slope.slope-or-keep": (p) => `Type the slope, or press Enter to keep ${p.slope}.`,
  "spots.first": (p) => `${p.label}: put a spot whose deck elevation is given.`,
  "spots.elevation": (p) => `Type the elevation of spot ${p.count}, or put the next spot.`,
  "spots.next": (p) => `Put spot ${p.next}; at least three are needed.`,
  "spots.enough": (p) => `Put another spot, or press Enter; ${p.count} spots are there.`,
  "spots.more": (p) => `Put spot ${p.next}, or press Enter; ${p.count} spots are there.`,
  "fold.first": (p) =>
    `${p.label}, ${p.kind}: point at the spot it starts at, or type two spot numbers, such as 5-6 ridge. Enter ends.`,
  "fold.second": (p) => `${p.kind} from spot ${p.spot}: point at the spot it ends at.`,
  "run.first": (p) => `${p.wiring}: put the first point of the run, or type its elevation tag first.`,
  "run.next": () =>
    "Put the next point or type how far it is, or the tag of this one, such as 13'-2\" AFF; D puts a drop.",
  "run.drop": () => "Type the elevation tag the drop goes to, or put the next point.",
  "run.end": () =>
    "Put the next point or type how far it is, or the tag of this one; D puts a drop, Enter or a double click ends the run.",
  "follow.first": (p) => `${p.wiring}: point at the drawn line the run follows, or type its elevation tag first.`,
  "follow.found": (p) => {
    const [from, to] = [STOPS[p.from as DrawnStop], STOPS[p.to as DrawnStop]];
    const breaks = Number(p.bridged) > 0 ? `, ${counted(Number(p.bridged), "break", "breaks")} bridged` : "";
    const branches = Number(p.branches) > 0 ? `, past ${counted(Number(p.branches), "branch", "branches")}` : "";
    const along =
      Number(p.branches) > 0 ? " Point at a branch to go along it, or take one after the other with . and ," : "";
    return `Followed ${counted(Number(p.count), "point", "points")}${breaks}${branches}; it stops ${from === to ? `${from}, both ways` : `${from}, and ${to}`}.${along} Enter takes it, Backspace takes back a point, a place on it ends it there, W goes on from its other end.`;
  },
  "outline.region": (p) => `Point into the closed region that is the ${p.part}, or put its corners after Q.`,
  "note.first": (p) => `${p.label}: put the point the note shows to.`,
  "note.place": (p) => `${p.label}: put where its words stand, or type them, or press Enter: room is found for them.`,
  "note.words": (p) => `${p.label}: type its words; lines and changes are made in its card.`,
  "place.box": (p) => `${p.item}: put its centre; type an elevation tag first to give it one.`,
  "place.box-tagged": (p) => `${p.item}, tagged as typed: put its centre, or type another tag.`,
  "place.fitting": (p) => `${p.item}: put its centre; type an elevation tag first to give it one.`,
  "rack.first": (p) =>
    `${p.label}: put the first point of the line the rack lies along, or type the elevation tag of its support first.`,
  "parallel.side": (p) =>
    `${runsBeside(p)}: point to the side they go to, or choose it with S; type how many and how far apart, such as 3 at 6".`,
  "parallel.chosen": (p) =>
    `${runsBeside(p)} on the ${p.side} as it is traced: Enter or a click lays them, S changes the side; type how many and how far apart, such as 3 at 6".`,
  "copy.place": (p) =>
    `Copy ${p.what}${Number(p.count) > 1 ? `, ${p.count} times, each time as far on again` : ""}: put the place its first point goes to, or type how far; 3 times makes three.`,
  "along.first": (p) =>
    `Copy ${p.label} along a line: point at a run, or put the line point by point beside one; Alt keeps off the run.`,
  "along.next": (p) => `Copy ${p.label} along this line: put its next point, or press Enter where it ends.`,
  "along.spread": (p) => `Copy ${p.label} along this line: type how far apart, such as every 8'-0", or in 5 parts.`,
  "along.every": (p) => `${spreadOf(p)}, every ${p.how}${endsOf(p)}`,
  "along.parts": (p) => `${spreadOf(p)}, in ${p.how} parts${endsOf(p)}`,
  "measure.first": (p) => `${p.of === "" ? "" : `${p.of} `}Put a point to measure from. Nothing is recorded.`,
  "measure.next": (p) => `${p.level === "" ? "" : `${p.level} `}Put the next point to measure to.`,
  "measure.told": (p) => {
    const total = Number(p.pieces) > 1 ? `, ${p.total} over ${p.pieces} pieces` : "";
    const turn = p.turn === "" || p.turn === "0°" ? "" : `, ${p.turn} to the ${p.side} of the piece before`;
    const next = Number(p.done)
      ? "The next point measures anew."
      : Number(p.enough)
        ? "The next point, the first again for the area, or Enter."
        : "The next point, or Enter.";
    return `${p.last}${total}; direction ${p.degrees}${turn}.${p.levels === "" ? "" : ` ${p.levels}`} ${next}`;
  },
  "measure.area": (p) => `Area ${p.area}, ${p.round} round. The next point measures anew.`,
  "place.entry": (p) =>
    `${p.item}: put it where a raceway enters a box or enclosure; type its largest conductor first to give it one.`,
  "place.entry-wired": (p) => `${p.item}, ${p.wire}: put it where a raceway enters, or type another conductor.`,
  "place.fitting-tagged": (p) => `${p.item}, tagged as typed: put its centre, or type another tag.`,
};

function runsBeside({ label, count, apart }: Params): string {
  return Number(count) === 1 ? `A run beside ${label}, ${apart} away` : `${count} runs beside ${label}, ${apart} apart`;
}
const spreadOf = ({ label, count }: Params): string => `${counted(Number(count), "copy", "copies")} of ${label}`;
const endsOf = ({ ends }: Params): string =>
  `${Number(ends) ? ", ends included (E leaves them out)" : ", without the ends (E adds them)"}: Enter or a click makes them; R counts from the other end, typing changes them.`;

/** What has an elevation where something is measured from or to. */
export const wordLevel = (level: Level, system: UnitSystem): string => `Here the ${levelPhrase(level, system)}.`;

const levelPhrase = ({ label, is, z }: Level, system: UnitSystem): string =>
  `${is === "centre" ? "centre" : "underside"} of ${label} is at ${lengthWords(z, system)}`;

/** The elevations at both ends of a piece, above the project datum, and its slope; of one end where the other is not known. */
export function wordLevels(from: Level | undefined, to: Level | undefined, run: Inches, system: UnitSystem): string {
  if (!from || !to) {
    const known = from ?? to;
    return known ? `${from ? "Where it begins" : "Where it ends"} the ${levelPhrase(known, system)}.` : "";
  }
  const ends = `The ${levelPhrase(from, system)}, the ${levelPhrase(to, system)}`;
  const rise = to.z - from.z;
  if (Math.abs(rise) < 1 / 64) return `${ends}: level.`;
  const steep = run > 0 ? `, ${slopeWords(Math.abs(rise) / run, system)}` : "";
  return `${ends}: ${rise > 0 ? "rises" : "falls"} ${lengthWords(inches(Math.abs(rise)), system)}${steep}.`;
}

/** A slope by what it rises for what it runs: `1/4" per foot`, or `2.1 %`. */
const slopeWords = (slope: number, system: UnitSystem): string =>
  system === "metric" ? `${(slope * 100).toFixed(1)} %` : `${lengthWords(inches(slope * 12), system)} per foot`;

/** The words for what a tool wants. Throws for a code that has none, which a test would have caught. */
export function wordWanted({ code, params = {} }: Wanted): string {
  const words = WANTED[code];
  if (!words) throw new Error(`no words for "${code}"`);
  return words(params);
}

/** The label of the field for typed text, and an example of what may be written there. */
export const ASK_WORDS: Readonly<Record<AskKind, { readonly label: string; readonly example: string }>> = {
  position: { label: "Position: right, up", example: `12'-6", 4'-0"` },
  distance: { label: "Distance", example: `27'-6"` },
  elevation: { label: "Elevation", example: `112'-6"` },
  tag: { label: "Elevation tag", example: `13'-2" AFF bottom` },
  slope: { label: "Slope", example: `1/4" per foot` },
  fold: { label: "Spots and kind", example: "5-6 ridge" },
  label: { label: "Name of the point", example: "A/1" },
  conductor: { label: "Largest conductor", example: "4/0 THWN-2" },
  words: { label: "Words of the note", example: "Which circuit is this?" },
  length: { label: "Length", example: `12'-6" left` },
  copies: { label: "How many, how far apart", example: `3 at 6"` },
  times: { label: "How often", example: "3 times" },
  spread: { label: "Spacing", example: `every 8'-0"` },
};

/** Why a point is not exactly where it was asked for. */
export const AIM_WORDS = {
  first: "First point",
  own: (n: number) => `Point ${n}`,
  vertex: (label: string) => `Vertex of ${label}`,
  shared: (label: string) => (label === "" ? "Shared point" : `Shared point ${label}`),
  line: (label: string) => `On ${label}`,
  right: "Right angle",
  locked: (step: number, why: string | null) =>
    `${step === 90 ? "Locked to right angles" : `Locked to ${step}°`}${why === null ? "" : `, in line with: ${why}`}`,
} as const;

const LOCK_FROM: Readonly<Record<Lock["from"], string>> = {
  sheet: "from the page",
  building: "from the axes of the building",
  piece: "from the last piece",
};

/** What a lock allows: a sentence that follows what the tool wants. */
export const wordLock = ({ step, from }: Lock): string =>
  `Locked to ${step === 90 ? "right angles" : `steps of ${step}°`} ${LOCK_FROM[from]}; Z lets go.`;

/** What a place of the drawing that attracts a point is. */
export const DRAWN_WORDS: Readonly<Record<DrawnPlaceKind, string>> = {
  end: "End of a line",
  intersection: "Crossing of lines",
  mid: "Middle of a line",
  perpendicular: "Square to a line",
  along: "On a line",
};

const STOPS: Readonly<Record<DrawnStop, string>> = {
  end: "where the line ends",
  branch: "where several lines go on",
  cut: "where the line is cut off",
  closed: "where it began",
  limit: "where it became too long",
};

type Count = (n: number, one: string, many: string) => string;
const counted: Count = (n, one, many) => (n === 1 ? `1 ${one}` : `${n} ${many}`);

const LACKS: Readonly<Record<string, (n: number) => string>> = {
  "no-sheets": () => "No sheet yet",
  "viewports-without-scale": (n) => counted(n, "viewport without a scale", "viewports without a scale"),
  "viewports-not-together": (n) => counted(n, "viewport not registered", "viewports not registered"),
  "no-areas": () => "No deck area yet",
  "areas-without-elevation": (n) => counted(n, "area without an elevation", "areas without an elevation"),
  "areas-not-settled": (n) => counted(n, "area not settled as roof or floor", "areas not settled as roof or floor"),
  "areas-without-outline": (n) => counted(n, "area that no outline speaks for", "areas that no outline speaks for"),
  "outlines-not-settled": (n) =>
    counted(
      n,
      "storey above of which it is not settled what it is",
      "storeys above of which it is not settled what they are",
    ),
  "outlines-without-deck": (n) =>
    counted(n, "storey above that speaks for no deck", "storeys above that speak for no deck"),
  "areas-without-deck": (n) => counted(n, "area without a deck profile", "areas without a deck profile"),
  "layers-without-thickness": (n) =>
    counted(n, "area with a layer of unknown thickness", "areas with a layer of unknown thickness"),
  "no-elements": () => "No wiring yet",
  "elements-without-tag": (n) => counted(n, "element without an elevation tag", "elements without an elevation tag"),
  "entries-without-conductor": (n) => counted(n, "entry without a conductor", "entries without a conductor"),
  "entries-without-protection": (n) =>
    counted(n, "entry whose protection is not recorded", "entries whose protection is not recorded"),
  "wiring-without-size": (n) => counted(n, "run of unknown size", "runs of unknown size"),
  "not-checked": () => "Not checked yet",
  "nothing-to-check": () => "Nothing to check yet",
  "nothing-to-issue": () => "Nothing to issue yet",
  "check-stopped": () => "The check was stopped: not checked as it is now",
  "findings-open": (n) => counted(n, "finding needs attention", "findings need attention"),
  "marks-to-look-at": (n) =>
    counted(n, "mark to look at: its drawing changed", "marks to look at: their drawing changed"),
  "edition-not-confirmed": () => "Nobody has said by whose decision this edition applies",
};

/** The words for what a stage lacks: "2 areas without an elevation". Throws for a code that has none. */
export function wordLack({ code, count }: Lack): string {
  const words = LACKS[code];
  if (!words) throw new Error(`no words for "${code}"`);
  return words(count);
}
