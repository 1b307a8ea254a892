import { gridWords } from "../../grid-words.ts";
import { CAUTIONS, SHORT_CAUTION, VERDICT_WORDS } from "../../words.ts";
import type { BriefWords } from "../brief-words.ts";

const { concealed, "entry-unprotected": entry, "too-close": close, "cannot-tell": cannot } = VERDICT_WORDS;
const { borderline, clear, "not-governed": not } = VERDICT_WORDS;

/** The brief in English. */
export const english: BriefWords = {
  title: "How high to hang",
  unnamed: "Job without a name",
  planOf: (area) => `Plan of ${area}, with the wiring under it and what is not to be built so.`,
  page: (number, count) => `Page ${number} of ${count}`,
  issued: (date, author, program) => `Issued ${date}${author && ` by ${author}`}, with the program ${program}.`,
  rule: ({ code, edition, section, clearance, by, amended }) =>
    `${code}, ${edition} edition, ${section}${amended ? ", as amended locally" : ""}: ${clearance} below the deck (${by || "by whose decision is not recorded"}).`,
  noRule: (edition) => `The rule set ${edition} is not known to this program.`,
  amended: (text) => `Amended: ${text}.`,
  why: "Roofing screws come through the deck from above, now and every time the roof is repaired. Hang everything at least as far below the lowest surface of the deck as this brief says, and nothing in the flutes.",
  measured:
    "Drops are measured straight down from the lowest surface of the deck (of fluted deck, the underside of the bottom flange) and hold anywhere under it. Where the deck is not where the drawing says, the drop counts, not the elevation. Beside the edge of a lower roof keep the same distance sideways: its screws come through there.",
  rounded: (step) => `Drops are rounded up and elevations down to ${step}: always to the safe side.`,
  roundedHere: (step) => `All figures are rounded to the safe side, to ${step}.`,
  contents: "Deck areas",
  nothingOutlined: "No deck area is outlined in the job, or its rule set is not known: nothing can be told.",

  floorAbove: "A floor above, not a roof: the rule asks for no distance here.",
  notSettled: "Hang nothing here yet: nobody has settled whether this is a roof or has a floor above it.",
  notKnown: (missing) => `Hang nothing here yet. Missing: ${missing}.`,
  outsideTheRule: "The rule set of this job does not speak of this deck. Other rules may.",
  because: (reason) => ` ${reason}.`,
  hangBelow: "Not higher than on this page.",
  part: {
    roof: "where it is a roof",
    "floor-above": "where there is a floor above",
    "not-settled": "where it is not settled",
  },

  anything: (drop) => `Top of anything: at least ${drop} below the deck.`,
  level: (counted) => `The deck is level. Elevations are ${counted}.`,
  slope: (degrees, counted) =>
    `The deck slopes (${degrees}°). Elevations are ${counted}, at its lowest corner, and so are safe anywhere under it.`,
  counted: (storey) => (storey === null ? "above the project datum" : `AFF ${storey}`),
  columns: { wiring: "Wiring", bottom: "Bottom", centre: "Centre", top: "Top", drop: "Deck to centre" },
  notHigher: "Not higher than",
  corners: (counted, folded) =>
    `Highest centre at each corner, ${counted}; ${folded ? "along each line of the plan" : "between two corners"} it changes evenly.`,
  corner: "Corner",
  otherSizes: "For the other sizes take their drops.",

  noGo: "Drawn so now, and not to be built so",
  noGoHere: "Nothing is drawn too high here.",
  elsewhere: "Not under an area of this brief",
  verdicts: {
    concealed: concealed.name,
    "entry-unprotected": entry.name,
    "too-close": close.name,
    "cannot-tell": cannot.name,
    borderline: borderline.name,
    clear: clear.name,
    "not-governed": not.name,
  },
  through: "passes through the deck",
  grid: gridWords,
  between: (from, to) => `${from} to ${to}`,
  at: (station) => `at ${station}`,
  remedy: (kind, by, types) =>
    ({
      lower: `Lower it by ${by}.`,
      move: `Or move it sideways by ${by}: ask which way.`,
      support: "Use a support that leaves enough: see below.",
      "change-wiring": `${types} instead may stay, if the designer confirms the exception.`,
      "record-fact": "Ask the designer: a fact is missing.",
      settle: "Ask: nobody has settled whether this is a roof.",
      outline: "Ask: the deck above it is not outlined.",
      protect: "Protect the conductors where they enter: ask how.",
    })[kind],
  stopAndAsk: "Stop and ask.",
  or: (names) => names.join(" or "),

  supports: (need) =>
    `Supports tight to the deck: ${need} is needed above the tube. Couplings, connectors and bends reach higher: add what theirs need.`,
  support: (name, leaves, enough) => `${name}: leaves ${leaves}, ${enough ? "enough" : "too little"}.`,
  supportNames: {},

  noRoom: "Where there is no room",
  noRoomAsk: "Stop and ask. What may help, for the designer and the authority having jurisdiction to settle:",
  lowerRoute: "A lower route.",
  floorRoute: (floors) => `A route below a floor deck: ${floors}.`,
  exception: (section, label) => `By exception (${section || "added locally"}), when the facts are recorded: ${label}.`,
  adviceElsewhere: "",

  cautionsTitle: "Before anybody acts on this",
  cautions: CAUTIONS,
  shortCaution: SHORT_CAUTION,
};
