import type { Element } from "../../job/elements/element.ts";
import type { Id } from "../../job/fields.ts";
import type { Job } from "../../job/schema.ts";
import { findRacewaySize } from "../../trade/raceways.ts";
import { setWiring } from "../edits/elements.ts";
import type { DrawnNote } from "./drawn-words.ts";
import type { Assumed, Meaning } from "./suggestion.ts";
import type { Tie } from "./tie.ts";

/** Types as drawings write them, by the row of the raceway table; what may be several rows, or any conduit, is null. */
const TYPES: Readonly<Record<string, string | null>> = {
  EMT: "emt",
  RMC: "rmc",
  // Galvanized rigid conduit is rigid metal conduit: common practice, no source.
  GRC: "rmc",
  IMC: "imc",
  FMC: "fmc",
  LFMC: "lfmc",
  ENT: "ent",
  MC: "mc",
  AC: "ac",
  NM: "nm",
  PVC: null,
  C: null,
  CONDUIT: null,
};

/** A trade size as the raceway table writes it: 1 1/4 is 1-1/4. */
const sizeOf = (written: string): string => written.replace(/\s+/g, "-");

/** Whether a size note can be of an element: of one raceway only. */
export const takesSize = (element: Element): element is Extract<Element, { kind: "run" }> => "wiring" in element;

/** What a size note that is tied to runs means for each of them. */
export function meaningsOfNote(job: Job, note: DrawnNote, { ids }: Tie, assumed: Assumed): readonly Meaning[] {
  if (note.size === null || note.several) return [];
  const tradeSize = sizeOf(note.size);
  const written = note.type === null ? null : (TYPES[note.type] ?? null);
  return ids.flatMap((id): Meaning[] => {
    const element = job.elements[id]!;
    if (!takesSize(element)) return [];
    const { wiring } = element;
    // Where no type is written the recorded one stays, if it comes in that size.
    const type = written ?? assumed.type ?? wiring.type;
    const read = { is: "wiring", type: written ?? assumed.type, tradeSize } as const;
    const same = wiring.tradeSize === tradeSize && (read.type === null || read.type === wiring.type);
    const isKnown = findRacewaySize(type, tradeSize) !== undefined;
    return [meaning(id, wiring, read, { same, type: isKnown ? type : null })];
  });
}

function meaning(
  id: Id,
  wiring: { readonly type: string; readonly tradeSize: string },
  read: Extract<Meaning["read"], { is: "wiring" }>,
  { same, type }: { readonly same: boolean; readonly type: string | null },
): Meaning {
  const { tradeSize } = read;
  return {
    target: { is: "element", id, vertex: "all" },
    read,
    recorded: { is: "wiring", type: wiring.type, tradeSize: wiring.tradeSize },
    stands: same ? "same" : "other",
    lacks: type === null && !same ? ["type"] : [],
    accept:
      same || type === null
        ? null
        : (job) => setWiring(job, id, { type, tradeSize, ...(type === wiring.type ? {} : { outsideDiameter: null }) }),
  };
}
