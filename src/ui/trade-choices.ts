import { boxKinds } from "../trade/boxes.ts";
import { conductorSizes, conductorSizeWords, insulations } from "../trade/conductors.ts";
import { deckProfiles } from "../trade/decks.ts";
import { conduitBodies } from "../trade/fittings.ts";
import { findRacewayKind, racewayKinds } from "../trade/raceways.ts";
import type { Choice } from "./fields/ChoiceRow.tsx";

/** Every kind of raceway and cable, to choose from. */
export const allRacewayChoices: readonly Choice<string>[] = racewayKinds.map(({ id, short, label }) => ({
  id,
  label: short,
  note: label,
}));

/** The sizes of a kind. */
export const sizeChoices = (kind: string): readonly Choice<string>[] =>
  (findRacewayKind(kind)?.sizes ?? []).map(({ size }) => ({ id: size, label: size }));

/** Every box kind, and one with sizes of its own. */
export const boxChoices: readonly Choice<string>[] = [
  ...boxKinds.map(({ id, label }) => ({ id, label })),
  { id: "other", label: "Other, with its own size" },
];

/** Every deck profile. */
export const deckChoices: readonly Choice<string>[] = deckProfiles.map(({ id, label }) => ({ id, label }));

/** Trade sizes of conduit bodies. */
export const fittingSizeChoices: readonly Choice<string>[] = conduitBodies.map(({ size }) => ({
  id: size,
  label: size,
}));
/** Kinds of fitting. */
export const fittingChoices: readonly Choice<string>[] = [
  { id: "conduit-body", label: "Conduit body" },
  { id: "other", label: "Other, with its own size" },
];

/** The choice that records nothing. */
export const NOT_RECORDED = "not-recorded";
/** Conductor sizes from small to large. */
export const conductorChoices: readonly Choice<string>[] = conductorSizes.map((size) => ({
  id: size,
  label: conductorSizeWords(size),
}));
/** Insulations with their temperature ratings. */
export const insulationChoices: readonly Choice<string>[] = insulations.map(({ id, ratingC, where }) => ({
  id,
  label: id,
  note: `${ratingC.value} °C${where === "wet" ? " in wet places" : ""}`,
}));
