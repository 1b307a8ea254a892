import type { Inches } from "../units/quantity.ts";

/** How far a value can be trusted. */
export type SourceKind = "published" | "from memory" | "common practice, no source";

/** Where values come from, and what was compared with what. */
export interface Source {
  readonly id: string;
  readonly kind: SourceKind;
  readonly title: string;
  /** What was cross-checked, and against what; or that nothing was. */
  readonly checked: string;
}

/** Every source that a table or rule set may name. */
export const sources = [
  {
    id: "ansi-c80.3",
    kind: "published",
    title: "ANSI C80.3, electrical metallic tubing (EMT): outside diameters",
    checked:
      "Cross-checked at every size against the Steel Tube Institute's page on EMT, in inches and in millimetres. Misprints known: trade size 3/4 given as 0.992, 1-1/4 given as 1.503.",
  },
  {
    id: "ansi-c80.1",
    kind: "published",
    title: "ANSI C80.1, rigid metal conduit (RMC): outside diameters",
    checked:
      "Cross-checked at every size against tables in two makers' catalogues. Misprint known: trade size 4 given as 1.500.",
  },
  {
    id: "ansi-c80.6",
    kind: "published",
    title: "ANSI C80.6, intermediate metal conduit (IMC): outside diameters",
    checked:
      "Cross-checked at every size against a table in a maker's catalogue, and in part against the Steel Tube Institute's page on IMC.",
  },
  {
    id: "nema-tc-2",
    kind: "published",
    title: "NEMA TC 2, rigid PVC conduit: iron-pipe outside diameters",
    checked: "Iron-pipe sizes, the same as those of rigid metal conduit.",
  },
  {
    id: "astm-b258",
    kind: "published",
    title: "ASTM B258, diameters of round wire by gauge: d = 0.005 x 92^((36 - n) / 39) in.",
    checked: "Computed from the formula; compared with handbook diameters in the tests.",
  },
  {
    id: "nist-sp-811",
    kind: "published",
    title: "NIST SP 811, appendix B.8: 1 in. = 25.4 mm exactly",
    checked: "Exact by definition.",
  },
  {
    id: "nfpa-70-2008-2020",
    kind: "from memory",
    title: "NFPA 70, editions of 2008 to 2020, 300.4(E), paraphrased from memory",
    checked:
      "The 2008 distance and its exception agree with a trade quiz, and the 2020 distance with a trade article (EC&M, ecmweb.com). In doubt: whether the condition on fittings and boxes came with the 2020 edition or with 2023; the stricter reading is used. Not compared with the printed code: read the adopted text.",
  },
  {
    id: "nfpa-70-2023",
    kind: "from memory",
    title: "NFPA 70, 2023 edition, 300.4(E) and 300.4(G), paraphrased from memory",
    checked:
      'Distance, scope and both exceptions agree with a trade article (EC&M, ecmweb.com, "What\'s Wrong Here? Hint: Too Close for Comfort"). Not compared with the printed code: read the adopted text.',
  },
  {
    id: "nfpa-70-2026",
    kind: "published",
    title: "NFPA 70, 2026 edition, 300.6(E) and 300.6(G), paraphrased",
    checked:
      "Section, distance, any roof decking and the ban in corrugated decking agree with a continuing-education summary of the change; the exceptions and 300.6(G) were not cross-checked. Not compared with the printed code: read the adopted text.",
  },
  {
    id: "from-memory",
    kind: "from memory",
    title: "From memory of the trade",
    checked: "Not yet checked against a published source. Verify before relying on it.",
  },
  {
    id: "common-practice",
    kind: "common practice, no source",
    title: "Common practice of the trade, no source",
    checked: "Nothing to check against. Edit it to suit the job.",
  },
] as const satisfies readonly Source[];

/** The id of a source in `sources`. */
export type SourceId = (typeof sources)[number]["id"];

/** The source with this id, or undefined. */
export const findSource = (id: string): Source | undefined => sources.find((source) => source.id === id);

/** A value with its source. `note` says what the general note of the source does not. */
export interface Sourced<T> {
  readonly value: T;
  readonly source: SourceId;
  readonly note?: string;
}
/** A length in inches with its source. */
export type SourcedInches = Sourced<Inches>;
