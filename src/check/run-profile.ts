import type { Face } from "../geometry/face.ts";
import type { Interval } from "../geometry/interval-set.ts";
import { elevationAt } from "../geometry/plane.ts";
import type { Point2 } from "../geometry/point.ts";
import { type Rack, racewayLabel } from "../job/elements/rack.ts";
import type { Job } from "../job/schema.ts";
import type { DeckArea } from "./deck-area.ts";
import type { CheckResult, Stretch, Verdict } from "./finding.ts";
import { checkKindOf } from "./kinds/kinds.ts";
import { highestOf, rackKind } from "./kinds/rack.ts";
import type { Piece } from "./piece.ts";
import { type Scene, sceneOf } from "./scene.ts";
import { memberIn } from "./subject.ts";
import { asGiven, basisWords } from "./words.ts";

/** One straight piece of what the profile shows, station against elevation, both in inches; station along the run's true length. */
export interface ProfileLine {
  readonly from: { readonly station: number; readonly z: number };
  readonly to: { readonly station: number; readonly z: number };
}

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
  /** The other raceways of a rack, where they reach higher or lower than the one shown; those of one outline together. */
  readonly others?: readonly {
    readonly label: string;
    readonly radiusIn: number;
    readonly axis: readonly ProfileLine[];
  }[];
  /** Axis of the wiring, a line a segment; segments whose elevation cannot be told are left out. */
  readonly axis: readonly ProfileLine[];
  readonly decks: readonly ProfileDeck[];
  /** Decks it does not pass under, but whose edge it comes too near; no limit, since that bends round the edge. */
  readonly beside?: readonly ProfileDeck[];
  readonly stretches: readonly (Stretch & { readonly verdict: Verdict; readonly number: number | null })[];
  /** Stations of the vertices, with the tag text where there is one. */
  readonly vertices: readonly {
    readonly index: number;
    readonly station: number;
    readonly z: number | null;
    readonly tag: string | null;
  }[];
}

/** The profile of a run, or of the raceway of a rack that stands highest, with the findings of `result`, or undefined where the element is not a run or has no usable scale. */
export function runProfile(job: Job, elementId: string, result: CheckResult): RunProfile | undefined {
  const run = job.elements[elementId];
  if (!run || !("vertices" in run)) return undefined;
  const scene = sceneOf(job);
  const shape = checkKindOf(run).shape(scene, run, elementId);
  // Curves stand beside the straight pieces; what is missing for all of a run is no piece of it.
  const pieces = shape.pieces.filter(({ curve }) => !curve);
  const unknown = shape.gaps.filter((gap) => !pieces.some(({ from, to }) => gap.from <= from && gap.to >= to));
  const spans = [...pieces, ...unknown]
    .map(({ from, to }) => ({ from, to }))
    .sort((a, b) => a.from - b.from || a.to - b.to);
  if (shape.root === undefined || spans.length !== run.vertices.length - 1) return undefined;
  const byFrom = new Map(
    pieces.map((piece) => [spans.findIndex((s) => s.from === piece.from && s.to === piece.to), piece]),
  );
  const zAt = (i: number): number | null => byFrom.get(i)?.axis?.from ?? byFrom.get(i - 1)?.axis?.to ?? null;
  const stations = [0, ...spans.map((span) => span.to)];
  const shown = "raceways" in run ? `${highestOf(scene, run) + 1}` : undefined;
  const isOfShown = (member: string | undefined): boolean => member === undefined || member === shown;
  const over = pieces.flatMap((piece) => decksOver(scene, shape.root!, piece));
  const named = new Set(result.findings.flatMap((finding) => (finding.elementId === elementId ? finding.areas : [])));
  const beside = scene
    .frame(shape.root)
    .areas.filter((deck) => named.has(deck.id) && !over.some(({ areaId }) => areaId === deck.id));
  return {
    elementId,
    label: "raceways" in run ? racewayLabel(run, highestOf(scene, run)) : run.label,
    system: scene.system,
    requiredIn: scene.required,
    lengthIn: stations.at(-1) ?? 0,
    radiusIn: radiusOf(pieces),
    axis: axisOf(pieces),
    ...("raceways" in run ? { others: otherRaceways(scene, run) } : {}),
    decks: over,
    beside: beside.flatMap((deck) => pieces.flatMap((piece) => deckBeside(scene, deck, piece))),
    stretches: result.findings
      .filter((finding) => finding.elementId === elementId && isOfShown(memberIn(finding.about)))
      .flatMap((finding) => finding.stretches.map((s) => ({ ...s, verdict: finding.verdict, number: finding.number }))),
    vertices: run.vertices.map((vertex, index) => ({
      index,
      station: stations[index]!,
      z: zAt(index),
      tag: vertex.tag ? `${asGiven(vertex.tag.length, scene.system)} ${basisWords[vertex.tag.basis]}` : null,
    })),
  };
}

const radiusOf = (pieces: readonly Piece[]): number => pieces[0]?.axis?.radius ?? 0;

const axisOf = (pieces: readonly Piece[]): readonly ProfileLine[] =>
  pieces.flatMap((p) =>
    p.axis ? [{ from: { station: p.from, z: p.axis.from }, to: { station: p.to, z: p.axis.to } }] : [],
  );

/** The raceways of a rack besides the highest, an outline once; those as high as the highest lie behind it. */
function otherRaceways(scene: Scene, rack: Rack): NonNullable<RunProfile["others"]> {
  const outlines = rackKind.members!(scene, rack).map((member, i) => {
    const pieces = member.shape().pieces.filter(({ curve }) => !curve);
    return { i, radiusIn: radiusOf(pieces), axis: axisOf(pieces) };
  });
  // Stations along a raceway that turns differ from those of another: what tells outlines apart is how high they stand.
  const highest = outlines[highestOf(scene, rack)]!.radiusIn;
  const heights = [...new Set(outlines.map(({ radiusIn }) => radiusIn))].filter((r) => r > 0 && r !== highest);
  return heights
    .sort((a, b) => b - a)
    .map((height) => {
      const alike = outlines.filter(({ radiusIn }) => radiusIn === height);
      const label = alike.map(({ i }) => racewayLabel(rack, i)).join(", ");
      return { label, radiusIn: height, axis: alike[0]!.axis };
    });
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

/** The place on the sheet (sheet space) at a station of a run, or undefined where the element is not a run. */
export function stationToSheet(job: Job, elementId: string, station: number): Point2 | undefined {
  const run = job.elements[elementId];
  if (!run || !("vertices" in run)) return undefined;
  return checkKindOf(run).shape(sceneOf(job), run, elementId).sheetAt(station);
}
