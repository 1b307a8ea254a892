import type { Face } from "../geometry/face.ts";
import type { Interval } from "../geometry/interval-set.ts";
import { elevationAt } from "../geometry/plane.ts";
import type { Point2 } from "../geometry/point.ts";
import type { Element } from "../job/elements/element.ts";
import type { Job } from "../job/schema.ts";
import type { DeckArea } from "./deck-area.ts";
import type { CheckResult } from "./finding.ts";
import { highestOf } from "./kinds/rack.ts";
import type { Piece } from "./piece.ts";
import { type ProfileBox, profileBoxes } from "./profile-boxes.ts";
import type { ProfileLine, ProfileStretch } from "./profile-line.ts";
import { type ProfileRaceway, profileRaceways, stretchesOf } from "./profile-raceways.ts";
import { type Scene, sceneOf } from "./scene.ts";
import { type Subject, subjectsOf } from "./subject.ts";
import { axisLines, radiusOf, unroll } from "./unroll.ts";
import { asGiven, basisWords } from "./words.ts";

/** A deck over a part of the run. */
export interface ProfileDeck {
  readonly areaId: string;
  readonly label: string;
  readonly is: "roof" | "floor-above" | "not-settled";
  /** The lowest surface of the deck above the run. */
  readonly underside: ProfileLine;
  /** What the wiring has to stay under: the underside less the required clearance measured square to the deck; absent where nothing is required. */
  readonly limit?: ProfileLine;
  /** Depth of the deck above its lowest surface, for the picture; 0 where it is not known. */
  readonly depthIn: number;
  /** True for fluted steel. */
  readonly fluted: boolean;
}

/** A run unrolled: what the profile draws. */
export interface RunProfile {
  readonly elementId: string;
  readonly label: string;
  readonly system: "imperial" | "metric";
  readonly requiredIn: number;
  readonly lengthIn: number;
  readonly radiusIn: number;
  /** Of a rack: which of its raceways this is of, as findings name it, and all of them in their order. */
  readonly member?: string;
  readonly raceways?: readonly ProfileRaceway[];
  /** Outside diameter of couplings and connectors, where they are recorded: anywhere along it, nobody knows where. */
  readonly couplingIn?: number;
  /** What stands on it or beside it within its own reach. */
  readonly boxes?: readonly ProfileBox[];
  /** Axis of the wiring, a line a segment; segments whose elevation cannot be told are left out. */
  readonly axis: readonly ProfileLine[];
  readonly decks: readonly ProfileDeck[];
  /** Decks it does not pass under, but whose edge it comes too near; no limit, since that bends round the edge. */
  readonly beside?: readonly ProfileDeck[];
  readonly stretches: readonly ProfileStretch[];
  /** Stations of the vertices, with the tag text where there is one. */
  readonly vertices: readonly {
    readonly index: number;
    readonly station: number;
    readonly z: number | null;
    readonly tag: string | null;
  }[];
}

/**
 * The profile of a run with the findings of `result`, or of a raceway of a rack: the one that `member` names, else the one that stands highest.
 * Undefined where the element is not a run or has no usable scale.
 */
export function runProfile(job: Job, elementId: string, result: CheckResult, member?: string): RunProfile | undefined {
  const run = job.elements[elementId];
  if (!run || !("vertices" in run)) return undefined;
  const scene = sceneOf(job);
  const subjects = subjectsOf(scene, elementId, run);
  const shown = shownOf(scene, run, subjects, member);
  const shape = shown.shape();
  const unrolled = unroll(shape, run.vertices.length);
  if (shape.root === undefined || !unrolled) return undefined;
  const { pieces, after, stations, lengthIn } = unrolled;
  const { root } = shape;
  const zAt = (i: number): number | null => after.get(i)?.axis?.from ?? after.get(i - 1)?.axis?.to ?? null;
  const over = pieces.flatMap((piece) => decksOver(scene, root, piece));
  const named = new Set(result.findings.flatMap((finding) => (finding.elementId === elementId ? finding.areas : [])));
  const beside = scene
    .frame(root)
    .areas.filter((deck) => named.has(deck.id) && !over.some(({ areaId }) => areaId === deck.id));
  return {
    elementId,
    label: shown.element.label,
    system: scene.system,
    requiredIn: scene.required,
    lengthIn,
    radiusIn: radiusOf(unrolled),
    ...(shown.about === undefined
      ? {}
      : {
          member: shown.about,
          raceways: profileRaceways(subjects, run.vertices.length, unrolled, result, elementId),
        }),
    ...(shape.standOut ? { couplingIn: shape.standOut.across } : {}),
    boxes: profileBoxes(scene, root, unrolled, result),
    axis: axisLines(unrolled),
    decks: over,
    beside: beside.flatMap((deck) => pieces.flatMap((piece) => deckBeside(scene, deck, piece))),
    stretches: stretchesOf(result, elementId, shown.about),
    vertices: run.vertices.map((vertex, index) => ({
      index,
      station: stations[index]!,
      z: zAt(index),
      tag: vertex.tag ? `${asGiven(vertex.tag.length, scene.system)} ${basisWords[vertex.tag.basis]}` : null,
    })),
  };
}

/** Which of the things an element is checked as is to be looked at. */
function shownOf(scene: Scene, run: Element, subjects: readonly Subject[], member: string | undefined): Subject {
  const highest = "raceways" in run ? highestOf(scene, run) : 0;
  return subjects.find(({ about }) => about !== undefined && about === member) ?? subjects[highest]!;
}

function decksOver(scene: Scene, root: string, piece: Piece): ProfileDeck[] {
  return scene.frame(root).areas.flatMap((deck) => {
    return deck.faces.flatMap((face) => {
      const drop = deck.classification.is === "floor-above" ? undefined : scene.required * face.steepness;
      return piece.under(face).map((stretch) => profileDeck(deck, face, piece, stretch, drop));
    });
  });
}

/** The deck whose edge a piece comes too near, along the stretch where it does; its plane carried on to beside the edge. */
function deckBeside(scene: Scene, deck: DeckArea, piece: Piece): ProfileDeck[] {
  return deck.faces.flatMap((face) =>
    piece.near(face, scene.required).map((stretch) => profileDeck(deck, face, piece, stretch, undefined)),
  );
}

/** A deck along a stretch of a piece; `limitDrop` is straight down from its underside to the limit. */
function profileDeck(
  deck: DeckArea,
  face: Face,
  piece: Piece,
  [from, to]: Interval,
  limitDrop: number | undefined,
): ProfileDeck {
  const line = (drop: number): ProfileLine => ({
    from: { station: from, z: elevationAt(face.plane, piece.planAt(from)) - drop },
    to: { station: to, z: elevationAt(face.plane, piece.planAt(to)) - drop },
  });
  return {
    areaId: deck.id,
    label: deck.area.label,
    is: deck.classification.is,
    underside: line(0),
    ...(limitDrop === undefined ? {} : { limit: line(limitDrop) }),
    depthIn: deck.depth ?? 0,
    fluted: deck.deckClass === "metal-corrugated",
  };
}

/** What `runProfile` shows: a run, or one of the raceways of a rack; undefined where the element is not a run. */
export function subjectShown(job: Job, elementId: string, member?: string): Subject | undefined {
  const run = job.elements[elementId];
  if (!run || !("vertices" in run)) return undefined;
  const scene = sceneOf(job);
  return shownOf(scene, run, subjectsOf(scene, elementId, run), member);
}

/** The place on the sheet (sheet space) at a station of what `runProfile` shows, or undefined where the element is not a run. */
export const stationToSheet = (job: Job, elementId: string, station: number, member?: string): Point2 | undefined =>
  subjectShown(job, elementId, member)?.shape().sheetAt(station);
