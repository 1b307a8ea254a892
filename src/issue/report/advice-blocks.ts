import type { CheckResult } from "../../check/finding.ts";
import { ADVICE, ADVICE_NOTE, advisoryWords } from "../advisory-words.ts";
import { type Block, CELL, heading, LABEL, paragraph, row } from "./block.ts";
import { reasonBlocks } from "./reason-blocks.ts";

/** Advice beside the code, each with its reasons; nothing where there is none. */
export function advice({ advisories }: CheckResult, width: number): Block[] {
  if (advisories.length === 0) return [];
  return [
    heading(ADVICE, width),
    ...paragraph(ADVICE_NOTE, width, LABEL, { before: 2, keep: true }),
    ...advisories.flatMap((advisory) => [
      ...row(
        [
          { text: advisory.area, x: 0, width: 104, setting: { ...CELL, face: "bold" } },
          { text: advisoryWords(advisory), x: 112, width: width - 112, setting: CELL },
        ],
        { before: 6, keep: true },
      ),
      ...reasonBlocks(advisory.reasons, width),
    ]),
  ];
}
