import type { TextRun } from "./plan-contents.ts";

/** What a line of text says of a raceway or cable: its size, type and conductors. A suggestion. */
export interface RunNote {
  /** The part of the line that says it. */
  readonly text: string;
  /** Trade size as written, without its inch mark; null where none is written. */
  readonly size: string | null;
  /** The type as written, upper case: EMT, RMC; "C" is any conduit. */
  readonly type: string | null;
  readonly conductors: readonly { readonly count: number; readonly size: string; readonly ground: boolean }[];
  readonly run: TextRun;
}

const SIZE = String.raw`\d+(?:[ -]\d/\d|[½¼¾])?|\d/\d|[½¼¾]`;
const TYPE = "C|EMT|RMC|IMC|GRC|GRS|RGS|PVC|FMC|LFMC|LFNC|ENT|CONDUIT";
/** `2-1"C` is two conduits of 1 in.; `6" C-STUD`, `2" C.I. PIPE` and `1" C & G` are none. */
const RACEWAY = new RegExp(
  String.raw`(?<![\w/.']|(?<!\b\d)-)(${SIZE})\s*(?:["”″]|''|in\.?)\s*(?:(?:ø|dia\.?|sch(?:ed)?\.?\s*[48]0)\s*)?(${TYPE})\b(?!-[a-z]|\.(?!o\b)[a-z]|\s*&\s*[a-z])\.?`,
  "i",
);
const CABLE = /(?<![\w/])(MC|AC|NM|LFMC|EMT|RMC|IMC)[\s-]+(\d+\/\d+)\b/i;
/** Gauge and number of wires before the type: 12/2 MC. */
const CABLE_LAST = /(?<![\w/])((?:14|12|10|8|6)\/[234])\s*(MC|AC|NM)\b/i;
const CONDUCTOR =
  /(?<![\w/])\(?(\d{1,2})\)?\s*#\s*(\d{1,4}(?:\/0)?)\s*(?:(?:kcmil|mcm|awg)\b\s*)?(G|GND\.?|GRD\.?)?(?![\w/])/gi;
/** Sizes conductors come in: AWG and kcmil (ASTM B258 and common practice, from memory). #5, #7, #9 and #11 are bars of concrete. */
const GAUGES = /^(?:1[02468]|[123468]|[1-4]\/0|250|3[05]0|[4-9]00|750|1000)$/;
const BARS = /\b(?:bars?|rebar|cont|dowels?|ties|stirrups?)\b/i;
/** A line longer than this is a sentence of a note. */
const LONGEST = 200;

/** The size and conductors in a line of text: `3/4"C`, `1" EMT`, `2#10, 1#10G`, `MC 12/2`; undefined where there are none. */
export function runNoteIn(run: TextRun): RunNote | undefined {
  if (run.text.length > LONGEST) return undefined;
  const raceway = RACEWAY.exec(run.text);
  const last = raceway ? null : CABLE_LAST.exec(run.text);
  const cable = raceway || last ? null : CABLE.exec(run.text);
  const wires = BARS.test(run.text)
    ? []
    : [...run.text.matchAll(CONDUCTOR)].filter(([, , size]) => GAUGES.test(size!)).slice(0, 12);
  if (!raceway && !last && !cable && wires.length === 0) return undefined;
  const first = raceway ?? last ?? cable;
  const from = Math.min(...[first, wires[0]].flatMap((match) => (match ? [match.index] : [])));
  const to = Math.max(...[first, wires.at(-1)].flatMap((match) => (match ? [match.index + match[0].length] : [])));
  return {
    text: run.text.slice(from, to).trim(),
    size: plainSize(raceway?.[1] ?? last?.[1] ?? cable?.[2]),
    type: (raceway?.[2] ?? last?.[2] ?? cable?.[1])?.toUpperCase() ?? null,
    conductors: wires.map(([, count, size, ground]) => ({
      count: Number(count),
      size: size!,
      ground: ground !== undefined,
    })),
    run,
  };
}

const SIGNS: Readonly<Record<string, string>> = { "½": "1/2", "¼": "1/4", "¾": "3/4" };

/** A size with its fraction in figures: 1½ is 1 1/2. */
const plainSize = (size: string | undefined): string | null =>
  size?.replace(/(\d*)([½¼¾])/, (_, whole, sign) => `${whole}${whole ? " " : ""}${SIGNS[sign]}`) ?? null;
