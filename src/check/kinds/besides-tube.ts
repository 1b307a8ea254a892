import type { Run } from "../../job/elements/run.ts";
import { findBendRadius } from "../../trade/bends.ts";
import { findFittingReach } from "../../trade/fittings.ts";
import { findRacewayKind } from "../../trade/raceways.ts";
import type { SourcedInches } from "../../trade/sources.ts";
import { toInches, type UnitSystem } from "../../units/length.ts";
import { type Inches, inches } from "../../units/quantity.ts";
import type { Reason } from "../finding.ts";
import { type Missing, reason } from "../reading.ts";
import { asGiven, sourceText, written } from "../words.ts";
import type { StandOut } from "./kind.ts";
import { heightOf, type Section } from "./traced.ts";

/** What a raceway has besides its straight tube, as far as it is recorded, and what it is taken for where it is not. */
export interface BesidesTube {
  /** Couplings and connectors that may sit anywhere along it and stand out beyond the tube. */
  readonly standOut: StandOut | undefined;
  /** Radius of its bends, to the centre line. */
  readonly bendRadius: Inches | undefined;
  readonly missing: readonly Missing[];
  readonly reasons: () => readonly Reason[];
}

/** Reads couplings, bends and droop of a run, or of a raceway of a rack. */
export function besidesTube(run: Run, section: Section, system: UnitSystem): BesidesTube {
  if (run.couplings || run.bends) return read(run, section, system);
  // Nearly every run has none of them: only its reasons have anything to say.
  const reasons = () => read(run, section, system).reasons();
  return { standOut: undefined, bendRadius: undefined, missing: NOTHING, reasons };
}

const NOTHING: readonly Missing[] = [];

function read({ label, wiring, couplings, bends, droop }: Run, section: Section, system: UnitSystem): BesidesTube {
  const kind = findRacewayKind(wiring.type);
  const name = `${wiring.tradeSize} ${kind?.short ?? wiring.type}`;
  const missing: Missing[] = [];
  const steps: (() => Reason)[] = [];
  /** A size by the table or of its own, with its step; what the table lacks is missing. */
  const sized = (
    given: Run["couplings"],
    row: SourcedInches | undefined,
    is: "coupling" | "bend",
    what: string,
    record: string,
  ): Inches | undefined => {
    if (!given) return undefined;
    if (given.is === "table" && !row) {
      const text = `${label}: ${what} of ${name}, which the table does not have`;
      missing.push({ text, remedy: { kind: "record-fact", text: record } });
      return undefined;
    }
    const length = given.is === "own" ? toInches(given.length) : row!.value;
    steps.push(() =>
      given.is === "own"
        ? reason(`${what[0]!.toUpperCase()}${what.slice(1)} of ${label}`, {
            value: asGiven(given.length, system),
            quantity: { is, in: length },
            source: `as recorded for ${label}`,
          })
        : reason(`${what[0]!.toUpperCase()}${what.slice(1)} of ${name}`, {
            value: written(length, system),
            quantity: { is, in: length },
            source: [sourceText(row!.source), row!.note].filter(Boolean).join(". "),
          }),
    );
    return length;
  };

  const across = sized(
    couplings,
    findFittingReach(wiring.type, wiring.tradeSize)?.outside,
    "coupling",
    "outside diameter of the couplings and connectors",
    `Record the outside diameter of the couplings of ${label}.`,
  );
  const radius = sized(
    bends,
    findBendRadius(wiring.tradeSize)?.radius,
    "bend",
    "radius of the bends",
    `Record the radius of the bends of ${label}.`,
  );
  const by = across === undefined ? 0 : Math.max(0, (across - heightOf(section)) / 2);
  const unrecorded = [
    ...(couplings ? [] : ["couplings and connectors, which stand out beyond the tube"]),
    ...(bends || !("diameter" in section) ? [] : ["the radius of bends"]),
  ];
  if (kind?.elementClass !== "cable" && unrecorded.length > 0)
    steps.push(() => reason(`Not counted, as nobody has recorded it for ${label}: ${unrecorded.join("; ")}`));
  if (kind?.flexible)
    steps.push(() =>
      reason(
        `${kind.short} hangs lower between its supports than at them, never higher: counted as straight between its tags`,
        droop ? { value: `droop ${asGiven(droop, system)}, not counted`, source: `as recorded for ${label}` } : {},
      ),
    );
  else if (droop)
    steps.push(() =>
      reason("A droop between supports lowers nothing at the supports, so it is not counted", {
        value: asGiven(droop, system),
        source: `as recorded for ${label}`,
      }),
    );
  return {
    standOut: by > 0 ? { by: inches(by), across: across! } : undefined,
    bendRadius: radius,
    missing,
    reasons: () => steps.map((step) => step()),
  };
}
