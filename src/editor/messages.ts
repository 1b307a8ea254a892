import { jobMessages } from "../job/messages.ts";
import { unitsMessage } from "../units/messages.ts";
import type { Problem } from "../units/problem.ts";

type Words = (p: Problem["params"], where: string) => string;

/** What an edit, a tool or typed text was refused for, and what to do: the one place for the wording of the editor's problems. */
export const editorMessages: Readonly<Record<string, Words>> = {
  "tool.nothing-to-move": () => "Nothing that can be moved is selected on this sheet. Select it first.",
  "tool.no-part": () => "Only a part of a sheet has corners that can be moved. Select one in the list of sheets first.",
  "tool.no-corner": () => "There is no corner of the part here. Choose one of its four corners first.",
  "edit.no-such-record": (_p, where) => `What was to be changed is not in the job any more (${where}).`,
  "edit.no-such-vertex": (p) => `${p.label ?? "It"} has no such vertex.`,
  "edit.no-segment": () => "A vertex can be put only between two others. Choose a place on the line.",
  "edit.too-few-vertices": (p) =>
    `${p.label} needs at least ${p.least} ${p.least === 1 ? "point" : "points"} here. Delete the whole of it instead.`,
  "edit.same-page": (p) => `This is the very page ${p.sheet} shows now. Choose the new issue.`,
  "edit.empty-name": () => "A name cannot be empty. Type one.",
  "edit.label-taken": (p) =>
    `The label ${p.label} is taken. Reports refer to labels, so each is used once. Type another.`,
  "edit.not-finite": () => "A value is no number that can be used. Type it again.",
  "edit.not-positive": () => "A size must be larger than zero.",
  "edit.negative": () => "A thickness or a tolerance cannot be below zero.",
  "entry.not-a-conductor": (p) =>
    `"${p.text}" is no conductor size or insulation of the tables. Write one such as 4 AWG, 4/0 THWN-2 or 250 kcmil.`,
  "edit.not-a": (p) => `${p.label} has nothing of that kind to change.`,
  "edit.empty-region": () => "A region needs a width and a height. Give two opposite corners.",
  "edit.equal-points": () => "The two points are the same. Put the second one somewhere along the fall of the deck.",
  "edit.too-few-spots": (p) => `A deck needs at least three spots; there are ${p.count}. Put another one.`,
  "fold.no-spots": () => "This deck has no spots to draw lines between. Give it elevations at spots first.",
  "fold.no-spot-there": () => "There is no spot of this deck there. Point at one, or type two spot numbers.",
  "fold.not-a-line": (p) =>
    `"${p.text}" is no line. Write two spot numbers and what it is, such as 5-6 ridge: ridge, hip, valley, drain or edge.`,
  "edit.storey-in-use": (p) =>
    `${p.count} ${p.count === 1 ? "thing has its elevation" : "things have their elevations"} counted from ${p.storey}. Give ${p.count === 1 ? "it" : "them"} another datum first.`,
  "edit.not-inside": (p) =>
    `${p.label} can be split at a vertex between its ends only. Select one, or insert it first.`,
  "edit.split-untagged": (p) =>
    `Vertex ${p.vertex} of ${p.label} has no tag of its own: split there, both parts would lack their elevation. Give it a tag first.`,
  "edit.ends-apart": (p) => `No end of ${p.other} is where ${p.label} ends. Move one of them there first.`,
  "edit.not-alike": (p) =>
    `${p.other} and ${p.label} differ in wiring, in facts, or in the tag where they meet. Make them alike first.`,
  "edit.too-few-raceways": (p) => `${p.label} needs at least one raceway. Delete the whole of it instead.`,
  "note.no-words": () => "A note needs words. Type them, or delete the note.",
  "note.too-long": (p) =>
    `A note may have ${p.limit} characters and ${p.lines} lines. Write it shorter, or as two notes.`,
  "note.no-such-label": (p) =>
    `Nothing on the sheets is called ${p.label}. Type the label of an element, a deck area or a storey above.`,
  "note.point-first": () => "Show with a point what the note is about, then type its words.",
  "run.too-few-vertices": () => "A run needs at least two points. Put another one.",
  "run.no-length": () =>
    "All points of the run are one place. Put another one, or give the two ends of a drop different tags.",
  "ring.not-finite": () => "A point of the outline is no place on the sheet.",
  "ring.too-few-points": (p) =>
    `An outline needs at least three points; there ${p.count === 1 ? "is" : "are"} ${p.count}. Put another one.`,
  "ring.repeated-point": () => "Two neighbouring points of the outline are the same place. Take one of them back.",
  "ring.crosses-itself": () =>
    "The outline would cross itself there. Put the point elsewhere, or take the last one back.",
  "ring.collapsed": () => "The outline holds no area: its points lie on one line. Put another one beside it.",
  "scale.equal-points": () =>
    "The two points are the same. Put the second one at the other end of a written dimension.",
  "scale.zero-distance": () => "The distance must be larger than zero. Type the dimension as it is written.",
  "said.lacks": (p) =>
    `${p.text} does not say all that is needed. Say what it leaves out first, or record it in the card.`,
  "said.none": () => "There is nothing of that kind that means exactly one thing. Look at them one by one.",
  "scale.not-given": (p) => `${p.viewport} has no ${p.scale} scale yet.`,
  "registration.to-itself": (p) => `${p.viewport} cannot be registered on itself. Choose another viewport.`,
  "parallel.no-run": () => "Select the one run that others are to be laid beside first.",
  "parallel.no-side": () => "Point to the side of the run, or choose it with S.",
  "parallel.no-length": (p) => `${p.label ?? "The run"} goes nowhere in plan: there is nothing beside it.`,
  "parallel.turns-back": (p) =>
    `${p.label} turns back on itself at vertex ${p.vertex}: nothing can lie beside it there. Split it there first.`,
  "parallel.too-tight": (p) =>
    `On that side there is no room beside the piece of ${p.label} that begins at vertex ${p.vertex}: it is shorter than its neighbours would take. Lay fewer, nearer, or on the other side.`,
  "parallel.crosses-itself": (p) =>
    `So far from ${p.label} the copy would cross itself. Lay fewer, nearer, or on the other side.`,
  "copies.not-a-count": (p) => `"${p.text}" is no number of copies. Write one from 1 to ${p.most}.`,
  "copies.not-positive": (p) => `"${p.text}" is no distance: it has to be larger than zero.`,
  "copy.nothing": () => "Select the wiring that is to be copied on this sheet first.",
  "copy.same-place": () => "That is where it is already. Put the place the copy goes to.",
  "copy.only-times": () => "Write how often, such as 3 times; how far is pointed at or typed by itself.",
  "copy.point-first": () => "Put the place the copy goes to first.",
  "along.nothing": () => "Select the one box, fitting or entry that is to be copied first.",
  "along.too-few-points": () => "The line needs at least two points. Put another one.",
  "along.no-spread": () => `Type how far apart the copies are, such as every 8'-0", or in 5 parts.`,
  "along.none": () => "The line is too short for a copy so far apart. Type a smaller spacing, or add the ends with E.",
  "along.too-many": (p) => `That would be ${p.count} copies; ${p.most} at once are enough. Type a larger spacing.`,
  "travel.not-positive": (p) => `"${p.text}" leads nowhere: a length has to be larger than zero.`,
  "travel.no-way": () =>
    `Point where it goes first, with the pointer or the arrow keys, or say it: 12'-6" left, 12'-6" at 45°. An elevation says what it is counted from: 13'-2" AFF.`,
  "travel.no-piece": () => `There is no piece to go on from yet. Say which way, such as 12'-6" left or 12'-6" at 45°.`,
  "position.not-a-position": (p) =>
    `"${p.text}" is not a position. Write right and up from the last point, such as 12'-6", 4'-0".`,
  "position.no-start": () =>
    "There is no point to go on from yet. Put one first, or show the crosshair with an arrow key.",
  "tag.no-storey": (p) =>
    `"${p.text}" does not say above which floor. Choose the storey of this viewport first, or write the elevation above the project datum, such as EL 112'-6".`,
  "tag.two-datums": (p) => `"${p.text}" names two datums. Keep one: AFF, EL or below deck.`,
  "region.no-lines": () => "The lines of this drawing are not known: it is a picture, or they are still being read.",
  "region.open": () => "No lines close round that place. Put the corners one by one.",
  "region.frame": () =>
    "Only the border of the sheet closes round that place. Point into a room, or put the corners one by one.",
  "region.on-a-line": () => "That place lies on a line. Point beside it, into the region.",
  "region.too-dense": () => "There are too many lines round that place to be sure. Put the corners one by one.",
  "follow.no-lines": () => "The lines of this drawing are not known: it is a picture, or they are still being read.",
  "follow.no-line": () => "No line is drawn there that can be followed. Point at one.",
  "tool.no-sheet": () => "There is no sheet to work on. Add a drawing first.",
  "tool.no-viewport": () => "This sheet has no viewport. Add one first.",
  "tool.no-area": () => "Select a deck area first.",
  "tool.no-storey-outline": () => "Select the outline of a storey above first.",
  "tool.no-other-viewport": () => "There is no other viewport to register on. Add the other sheet first.",
  "tool.choose-viewport": () => "There are several viewports to register on. Choose one at the stage Sheet.",
  "tool.other-sheet": (p) => `The next point belongs on ${p.sheet}, which is shown now.`,
  "tool.other-viewport": (p) => `That point lies outside ${p.viewport}. Put it inside, or choose the other viewport.`,
  "tool.points-first": () => "Put the two points first, then type the distance.",
  "tool.distance-first": () => "Type the distance between the two points as it is written on the drawing.",
  "tool.point-first": () => "Put a point first.",
  "tool.slope-first": () => "Type the slope as it is written on the drawing.",
  "tool.nothing-to-type": (p) => `"${p.text}" has no place to go: nothing is being asked for.`,
};

/** The words for a problem the session shows, whichever folder below the editor it comes from; undefined for one of another. */
export function editorMessage(problem: Problem): string | undefined {
  const own = editorMessages[problem.code] ?? jobMessages[problem.code];
  return own?.(problem.params, problem.where) ?? unitsMessage(problem);
}
