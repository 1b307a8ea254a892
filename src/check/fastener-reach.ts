import { LIMIT_TOLERANCE } from "../geometry/tolerance.ts";
import type { Area } from "../job/schema.ts";
import { type DeckProfile, findDeckProfile } from "../trade/decks.ts";
import { findPenetration } from "../trade/penetrations.ts";
import { toInches, type UnitSystem } from "../units/length.ts";
import { type Inches, inches } from "../units/quantity.ts";
import { deckDepth } from "./deck-surface.ts";
import type { Reason } from "./finding.ts";
import { reason } from "./reading.ts";
import { asGiven, clearanceText, sourceText, written } from "./words.ts";

/** How far the fasteners of a roof come out below the lowest surface of its deck, as far as it is recorded. */
export interface FastenerReach {
  /** The least and the greatest it can be: they differ where it is not recorded which flange is gone through. Below 0 the tip stays in the deck. */
  readonly least: Inches;
  readonly most: Inches;
}

/** What the reach comes to beside the code distance. */
export interface FastenerAdvice {
  readonly says: "beyond" | "within" | "cannot-tell";
  /** Undefined where an input is missing. */
  readonly reach: FastenerReach | undefined;
  readonly margin: Inches;
  readonly missing: readonly string[];
  readonly text: string;
  readonly reasons: Reason;
}

/** The code distance with where it comes from. */
export interface CodeDistance {
  readonly required: Inches;
  readonly source: string;
}

/**
 * How far the fasteners recorded for an area reach below its deck's lowest surface, against the code distance: advice, never a verdict.
 * Undefined where no roofing is recorded, or where the area has a floor above it.
 *
 * The tip is the fastener's length below its head; the layers and the thickness of the deck are used up first. Through the bottom
 * flange (or through a plain deck) the rest comes out below the lowest surface. Through the top flange the rest of the deck's depth, from
 * the underside of that flange down to the lowest surface, is used up as well. "Beyond" means reach and margin together are more than
 * the code distance; exactly as much is within.
 */
export function fastenerAdvice(area: Area, system: UnitSystem, code: CodeDistance): FastenerAdvice | undefined {
  const { roofing } = area;
  if (!roofing || area.classification.is === "floor-above") return undefined;
  const profile = findDeckProfile(area.deck.profile);
  const fluted = profile?.material === "metal-corrugated";
  const depth = deckDepth(area);
  // The boards of a plain deck are the deck: where nobody gave their thickness here, the deck's own is it.
  const thickness = roofing.deckThickness ? toInches(roofing.deckThickness) : fluted ? undefined : depth;
  const from = `as recorded for ${area.label}`;
  const missing: string[] = [];
  const steps: Reason[] = [];

  if (!profile) missing.push("what its deck is made of");
  if (roofing.fastener)
    steps.push(
      reason("Length of the fastener below its head", { value: asGiven(roofing.fastener, system), source: from }),
    );
  else missing.push("the length of the fastener");
  let layers = 0;
  for (const layer of roofing.layers) {
    const name = layer.name || "a layer";
    if (layer.thickness) {
      layers += toInches(layer.thickness);
      steps.push(reason(`Less ${name}`, { value: asGiven(layer.thickness, system), source: from }));
    } else missing.push(`the thickness of ${name}`);
  }
  if (thickness === undefined) missing.push(`the thickness of its ${fluted ? "sheet" : "deck"}`);
  else
    steps.push(
      reason(`Less the ${fluted ? "sheet of the deck" : "deck"}`, { value: written(thickness, system), source: from }),
    );

  let reach: FastenerReach | undefined;
  if (roofing.fastener && thickness !== undefined && missing.length === 0) {
    const past = toInches(roofing.fastener) - layers - thickness;
    steps.push(penetrationReason(past, thickness, profile, system));
    reach = { least: inches(past), most: inches(past) };
    if (fluted && roofing.flange !== "bottom") {
      const isTop = roofing.flange === "top";
      if (depth === undefined) {
        missing.push("the depth of its deck");
        // Through the top flange it can only be less than through the bottom one.
        reach = isTop ? undefined : { least: inches(Number.NEGATIVE_INFINITY), most: inches(past) };
      } else {
        const text = `Less the flute below the top flange${isTop ? "" : ", if it goes through that one"}`;
        const source = depthSource(area, profile);
        steps.push(reason(text, { value: written(depth - thickness, system), source }));
        reach = { least: inches(past + thickness - depth), most: inches(isTop ? past + thickness - depth : past) };
      }
    }
  }

  const margin = roofing.margin ? toInches(roofing.margin) : inches(0);
  const beyond = (distance: number): boolean => distance + margin > code.required + LIMIT_TOLERANCE;
  const says = !reach ? "cannot-tell" : beyond(reach.least) ? "beyond" : beyond(reach.most) ? "cannot-tell" : "within";
  if (says === "cannot-tell" && reach) missing.push("which flange the fasteners go through");
  const told = says === "cannot-tell" ? missing : [];
  return {
    says,
    reach,
    margin,
    missing: told,
    text: adviceText(area, says, reach, margin, told, code, system),
    reasons: reason(
      `How far the fasteners of ${area.label} reach below its deck`,
      { value: reach ? reachText(reach, system) : "cannot tell" },
      [
        ...steps,
        ...told.map((what) => reason(`Missing: ${what}`)),
        reason("Margin to be kept beyond the tip", {
          value: roofing.margin ? asGiven(roofing.margin, system) : "none chosen",
          source: from,
        }),
        reason("Code distance", { value: clearanceText(code.required, system), source: code.source }),
      ],
    ),
  };
}

function adviceText(
  area: Area,
  says: FastenerAdvice["says"],
  reach: FastenerReach | undefined,
  margin: number,
  missing: readonly string[],
  code: CodeDistance,
  system: UnitSystem,
): string {
  const distance = clearanceText(code.required, system);
  if (says === "cannot-tell" || !reach) {
    const most = reach ? ` They may reach ${clearanceText(reach.most, system)} below it.` : "";
    return `How far the fasteners of ${area.label} reach below its deck cannot be told.${most} Missing: ${missing.join("; ")}.`;
  }
  const kept =
    margin > 0 ? `; with a margin of ${written(margin, system)}, ${clearanceText(reach.most + margin, system)}` : "";
  if (says === "within" && reach.most <= 0) return `The fasteners of ${area.label} end inside its deck.`;
  const found = `The fasteners of ${area.label} reach ${reachText(reach, system)} below its deck${kept}`;
  return says === "beyond"
    ? `${found}: beyond the code distance of ${distance}. Keep wiring lower there.`
    : `${found}: within the code distance of ${distance}.`;
}

function reachText({ least, most }: FastenerReach, system: UnitSystem): string {
  const text = clearanceText(most, system);
  if (!Number.isFinite(least)) return `at most ${text}`;
  return least === most ? text : `${clearanceText(least, system)} or ${text}, by the flange gone through`;
}

/** How far the fastener goes past or into the deck, beside what is customary. */
function penetrationReason(
  past: number,
  thickness: number,
  profile: DeckProfile | undefined,
  system: UnitSystem,
): Reason {
  const row = profile && findPenetration(profile.material);
  const into = row?.counted === "into";
  const found = into ? Math.min(past + thickness, thickness) : past;
  const text = into ? "It goes into the deck by" : "It goes past the deck by";
  const { value, source } = row?.least ?? {};
  if (value === undefined || source === undefined) return reason(text, { value: clearanceText(found, system) });
  const least = reason("Customary least, by common practice", {
    value: written(value, system),
    source: sourceText(source),
  });
  const short = found < value - LIMIT_TOLERANCE && !(into && past >= 0);
  const less = short ? [reason("That is less than is customary: check the length recorded")] : [];
  return reason(text, { value: clearanceText(found, system) }, [least, ...less]);
}

function depthSource(area: Area, profile: DeckProfile | undefined): string {
  if (area.deck.depth) return `depth of the deck as recorded for ${area.label}, less its sheet`;
  return profile?.depth ? `${profile.label}, less its sheet; ${sourceText(profile.depth.source)}` : "";
}
