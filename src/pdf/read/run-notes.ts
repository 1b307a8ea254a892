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

const RACEWAY =
  /(?<![\w/.'-])(\d+(?:[ -]\d\/\d)?|\d\/\d)\s*(?:["”″]|''|in\.?)\s*(C|EMT|RMC|IMC|GRC|PVC|FMC|LFMC|ENT|CONDUIT)\b(?!-[a-z])\.?/i;
const CABLE = /(?<![\w/])(MC|AC|NM|LFMC|EMT|RMC|IMC)\s+(\d+\/\d+)\b/i;
const CONDUCTOR = /(?<![\w/])(\d{1,2})\s*#\s*(\d{1,3}(?:\/0)?)\s*(G|GND\.?|GRD\.?)?(?![\w/])/gi;
/** A line longer than this is a sentence of a note. */
const LONGEST = 200;

/** The size and conductors in a line of text: `3/4"C`, `1" EMT`, `2#10, 1#10G`, `MC 12/2`; undefined where there are none. */
export function runNoteIn(run: TextRun): RunNote | undefined {
  if (run.text.length > LONGEST) return undefined;
  const raceway = RACEWAY.exec(run.text);
  const cable = raceway ? null : CABLE.exec(run.text);
  const wires = [...run.text.matchAll(CONDUCTOR)].slice(0, 12);
  if (!raceway && !cable && wires.length === 0) return undefined;
  const first = raceway ?? cable;
  const from = Math.min(...[first, wires[0]].flatMap((match) => (match ? [match.index] : [])));
  const to = Math.max(...[first, wires.at(-1)].flatMap((match) => (match ? [match.index + match[0].length] : [])));
  return {
    text: run.text.slice(from, to).trim(),
    size: raceway?.[1] ?? cable?.[2] ?? null,
    type: (raceway?.[2] ?? cable?.[1])?.toUpperCase() ?? null,
    conductors: wires.map(([, count, size, ground]) => ({
      count: Number(count),
      size: size!,
      ground: ground !== undefined,
    })),
    run,
  };
}
