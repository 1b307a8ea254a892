import { rulesOfJob } from "../../check/rules-of-job.ts";
import type { Job } from "../../job/schema.ts";
import { requiredClearance } from "../../rules/scope.ts";
import { findSource } from "../../trade/sources.ts";
import { supports } from "../../trade/supports.ts";
import { type Block, BODY, CELL, type Cell, COLUMN, heading, paragraph, row } from "../report/block.ts";
import { showLeast, showRequired } from "../show-length.ts";

/**
 * What each support leaves above the raceway, against the clearance: tight to the deck, both are square to it. Nothing where the rule set is
 * not known here.
 */
export function supportBlocks(job: Job, width: number): Block[] {
  const { system } = job.settings.job;
  const set = rulesOfJob(job)?.rules;
  if (!set) return [];
  const need = requiredClearance(set, system);
  const columns: Cell[] = [
    { text: "Support", x: 0, width: 170, setting: COLUMN },
    { text: "Leaves", x: 176, width: 60, setting: COLUMN, align: "end" },
    { text: "For the tube alone", x: 250, width: 90, setting: COLUMN },
    { text: "From", x: 346, width: width - 346, setting: COLUMN },
  ];
  return [
    heading("Supports tight to the deck", width),
    ...paragraph(
      `${showRequired(need, system)} is needed above the tube. Couplings, connectors and bends reach higher than the tube: add what theirs need.`,
      width,
      BODY,
      { before: 2, keep: true },
    ),
    ...row(columns, { before: 6, keep: true }),
    ...supports.flatMap(({ label, leaves }) => {
      const texts = [
        label,
        showLeast(leaves.value, system),
        leaves.value >= need ? "leaves enough" : "too little",
        findSource(leaves.source)?.kind ?? leaves.source,
      ];
      return row(
        columns.map((cell, i) => ({
          ...cell,
          text: texts[i] as string,
          setting: i === 2 ? { ...CELL, face: "bold" } : CELL,
        })),
        { before: 2.5 },
      );
    }),
  ];
}
