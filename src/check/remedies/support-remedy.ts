import { elevationAt } from "../../geometry/plane.ts";
import { distance2, lerp2, type Point2, type Point3 } from "../../geometry/point.ts";
import { isCloserThan } from "../../geometry/tolerance.ts";
import { findFittingReach } from "../../trade/fittings.ts";
import { type Support, supports } from "../../trade/supports.ts";
import { inches } from "../../units/quantity.ts";
import { type DeckArea, faceOver, hasSurface } from "../deck-area.ts";
import { shareUnder } from "../deck-share.ts";
import type { Remedy } from "../finding.ts";
import { measure } from "../measure.ts";
import { type Piece, type PieceOutline, roundPiece } from "../piece.ts";
import type { Scene } from "../scene.ts";
import { clearanceText, written } from "../words.ts";
import type { Case } from "./recheck.ts";

/**
 * The customary support, the one that holds the raceway highest, that leaves the required clearance when it is fastened tight to the
 * deck. Offered for raceways under one roof, and only where the raceway hung so is measured clear of that roof and every other.
 * What hangs from the deck itself is off by neither tag nor deck elevation, so no tolerance comes in, and nothing is allowed for
 * fittings: the words say so, and name the couplings where the tables know that they would come too close.
 */
export function supportRemedy({ scene, element, subject, finding }: Case): Remedy | undefined {
  const [areaId, second] = finding.areas;
  // What bears on a rack has its support already.
  if (subject.about !== undefined || finding.penetration) return undefined;
  const shape = subject.shape();
  if (shape.elementClass !== "raceway" || areaId === undefined || second !== undefined || !shape.root) return undefined;
  const { areas } = scene.frame(shape.root);
  // Storeys above may part one deck in several roofs: the raceway hangs from the one it is under.
  const deck = areas.find(
    (area) => area.id === areaId && area.classification.is !== "floor-above" && liesUnder(area, shape.pieces),
  );
  const outlines = shape.pieces.filter(({ curve }) => !curve).map((piece) => piece.outline());
  // What is not round has other hangers than these.
  if (outlines.some(({ corners }) => corners.length !== 2)) return undefined;
  const level = outlines.filter(({ corners }) => spanOf(corners) > 0);
  if (!deck || !hasSurface(deck) || level.length === 0) return undefined;
  const roofs = areas.filter((area) => hasSurface(area) && area.classification.is !== "floor-above");
  const enough = supports.find((support) => isEnough(scene, roofs, deck, level, support.leaves.value));
  if (!enough) return undefined;
  return { kind: "support", text: words(scene, deck, enough, element, level[0]!.standsOut) };
}

const spanOf = ([a, b]: readonly Point2[]): number => (a && b ? distance2(a, b) : 0);

/** Whether the deck is over all of every piece. */
const liesUnder = (deck: DeckArea, pieces: readonly Piece[]): boolean =>
  pieces.every((piece) => {
    const [only, second] = piece.under(deck.footprint);
    return only && !second && only[0] <= piece.from + 1e-6 && only[1] >= piece.to - 1e-6;
  });

/** Whether a raceway with its top this far under the deck, square to it, is clear of every roof. */
function isEnough(
  scene: Scene,
  roofs: readonly DeckArea[],
  deck: DeckArea,
  outlines: readonly PieceOutline[],
  leaves: number,
): boolean {
  const hung = outlines.map(({ corners, standsOut }) => {
    const { plane, steepness } = faceOver(deck, lerp2(corners[0]!, corners[1]!, 0.5));
    const at = (corner: Point2): Point3 => [...corner, elevationAt(plane, corner) - (leaves + standsOut) * steepness];
    return roundPiece(at(corners[0]!), at(corners[1]!), standsOut, 0, { tolerance: inches(0) });
  });
  const exact = { ...scene, planTolerance: inches(0) };
  return roofs.every((roof) => {
    const sure = { ...roof, tolerance: inches(0), planTolerance: inches(0) };
    return !isCloserThan(
      measure(
        exact,
        hung,
        hung.map((piece) => shareUnder(piece, roof)),
        sure,
        0,
      ).least,
      scene.required,
    );
  });
}

function words(scene: Scene, deck: DeckArea, support: Support, element: Case["element"], radius: number): string {
  const { system, required } = scene;
  const leaves = support.leaves.value;
  const shown = (length: number): string => clearanceText(length, system);
  const lesser = supports
    .slice(0, supports.indexOf(support))
    .map((each) => `${lowerFirst(each.label)} leaves ${shown(each.leaves.value)}`);
  const over = leaves - required;
  const sentences = [
    `Hang it from ${lowerFirst(support.label)}, tight to the deck of ${deck.area.label}: it leaves ${shown(leaves)}, ${
      over > 0 ? `${shown(over)} more than` : "just"
    } the ${shown(required)} asked for, before any allowance for fittings.`,
  ];
  const reach = "wiring" in element ? findFittingReach(element.wiring.type, element.wiring.tradeSize) : undefined;
  const atCouplings = reach ? leaves + radius - reach.outside.value / 2 : leaves;
  if (reach && isCloserThan(atCouplings, required))
    sentences.push(
      `Couplings ${written(reach.outside.value, system)} across would come within ${shown(atCouplings)}: allow for them.`,
    );
  if (lesser.length > 0) sentences.push(`Not enough: ${lesser.join("; ")}.`);
  return sentences.join(" ");
}

const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);
