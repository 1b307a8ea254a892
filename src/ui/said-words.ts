import type { Read, Suggestion, Target } from "../editor/said/suggestion.ts";
import type { Job } from "../job/schema.ts";
import { findRacewayKind } from "../trade/raceways.ts";
import type { UnitSystem } from "../units/length.ts";
import { shownLength } from "./fields/LengthRow.tsx";
import { deckBasisChoices } from "./words.ts";

/** What a text is about, as it is told on the screen: `R-14`, `R-5 at its first point`, `Hall roof, spot 3`, `Floor of Level 1`. */
export function targetWords(job: Job, target: Target): string {
  if (target.is === "storey") return `Floor of ${job.storeys[target.id]?.name ?? target.id}`;
  if (target.is === "area") {
    const label = job.areas[target.id]?.label ?? target.id;
    return target.spot === null ? label : `${label}, spot ${target.spot + 1}`;
  }
  const element = job.elements[target.id];
  const label = element?.label ?? target.id;
  if (target.vertex === "all") return label;
  const last = element && "vertices" in element ? element.vertices.length - 1 : 0;
  return target.vertex === 0
    ? `${label} at its first point`
    : target.vertex === last
      ? `${label} at its last point`
      : `${label} at point ${target.vertex + 1}`;
}

const datumWords = (job: Job, datum: Extract<Read, { is: "tag" }>["datum"]): string =>
  datum === null
    ? "not said from what"
    : datum.from === "storey"
      ? `AFF ${job.storeys[datum.storey]?.name ?? "a storey that is gone"}`
      : datum.from === "project"
        ? "above project datum"
        : "below deck";

/** What is read or recorded, in one line and in one form, with what is not said. */
export function readWords(job: Job, read: Read, system: UnitSystem): string {
  switch (read.is) {
    case "wiring": {
      const type = read.type === null ? "type not said" : (findRacewayKind(read.type)?.short ?? read.type);
      return read.type === null ? `${read.tradeSize}, ${type}` : `${type} ${read.tradeSize}`;
    }
    case "floor":
      return `${shownLength(read.length, system)} above project datum`;
    case "deck": {
      const basis =
        deckBasisChoices.find(({ id }) => id === read.basis)?.label.toLowerCase() ?? "not said to which surface";
      return `${shownLength(read.length, system)} ${basis}, ${datumWords(job, read.datum)}`;
    }
    case "tag":
      return `${shownLength(read.length, system)}${read.basis === null ? ", not said to which surface" : ` ${read.basis}`}, ${datumWords(job, read.datum)}${
        read.plusMinus ? ` ± ${shownLength(read.plusMinus, system)}` : ""
      }`;
  }
}

/** How a suggestion stands to the job, in one line. */
export function standingWords(job: Job, { state, meanings, kind }: Suggestion, system: UnitSystem): string {
  const [only] = meanings;
  const things = [...new Set(meanings.map(({ target }) => targetWords(job, target)))].join(" or ");
  switch (state) {
    case "disagrees":
      return `${things} has ${only?.recorded ? readWords(job, only.recorded, system) : "something else"}`;
    case "offered":
      return `For ${things}`;
    case "unsure":
      return meanings.length > 1 ? `For ${things}?` : `Perhaps for ${things}: something else is as near`;
    case "agrees":
      return `${things} has it so`;
    case "loose":
      return kind === "conductors" ? "Conductors: nothing to record" : "Nothing near that it could mean";
  }
}

/** What the state of a suggestion is called where they are listed. */
export const stateWords: Readonly<Record<Suggestion["state"], string>> = {
  disagrees: "Disagrees",
  offered: "Not recorded",
  unsure: "Not sure",
  agrees: "Agrees",
  loose: "By itself",
};
