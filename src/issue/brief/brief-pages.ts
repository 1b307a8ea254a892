import { checkJob } from "../../check/check-job.ts";
import { type CheckResult, isQuiet } from "../../check/finding.ts";
import { hangingRoom } from "../../check/hanging-room.ts";
import { rulesOfJob } from "../../check/rules-of-job.ts";
import type { Job } from "../../job/schema.ts";
import { INK } from "../inks.ts";
import { advice } from "../report/advice-blocks.ts";
import { type Block, BODY, CELL, heading, LABEL, paragraph, row, TITLE } from "../report/block.ts";
import { cautions } from "../report/closing-blocks.ts";
import { isoDate, type ReportFacts } from "../report/report-facts.ts";
import { type ReportPages, setPages } from "../report/set-pages.ts";
import { amendmentWords, ruleWords } from "../rule-words.ts";
import { findingName, numberWords, PROGRAM } from "../words.ts";
import { roomBlocks } from "./room-blocks.ts";
import { supportBlocks } from "./support-blocks.ts";

/** The title of a job's brief. */
export const briefTitle = (job: Job): string => `${job.settings.job.name || "Job without a name"}: how high to hang`;

/**
 * The crew's brief, set on pages: how high each size may hang under each deck area, what the supports leave, where nothing may hang, and what
 * the drawings show too close. Pure: the same job and facts give the same pages.
 */
export function briefPages(job: Job, facts: ReportFacts): ReportPages {
  const { system } = job.settings.job;
  const result = checkJob(job);
  const areas = hangingRoom(job);
  return setPages(system, briefTitle(job), facts.now, (width) => [
    ...opening(job, facts, width),
    ...areas.flatMap((area) => roomBlocks(area, system, width)),
    ...(areas.length === 0
      ? paragraph(
          "No deck area is outlined in the job, or its rule set is not known: nothing can be told.",
          width,
          BODY,
          { before: 12 },
        )
      : []),
    ...supportBlocks(job, width),
    ...noRoom(
      job,
      areas.flatMap((area) => (area.is === "floor-above" ? [area.label] : [])),
      width,
    ),
    ...tooClose(result, width),
    ...advice(result, width),
    ...cautions(width),
  ]);
}

function opening(job: Job, facts: ReportFacts, width: number): Block[] {
  const subtitle = { size: 13, face: "regular", ink: INK } as const;
  const issued = `Issued ${isoDate(facts.now)}${facts.author ? ` by ${facts.author}` : ""}, with the program ${PROGRAM}.`;
  return [
    ...row([{ text: "How high to hang", x: 0, width, setting: TITLE }]),
    ...row([{ text: job.settings.job.name || "Job without a name", x: 0, width, setting: subtitle }], { before: 2 }),
    ...paragraph(`${ruleWords(job)}. ${issued}`, width, LABEL, { before: 6 }),
    ...amendmentWords(job).flatMap((words) => paragraph(`Amended: ${words}.`, width, LABEL, { before: 2 })),
    ...paragraph(
      "Roofing screws come through the deck from above, now and every time the roof is repaired. Hang everything at least as far below the lowest surface of the deck as this brief says. Drops are measured straight down from the lowest surface of the deck (of fluted deck, the underside of the bottom flange) and hold anywhere under it. Where the deck is not where the drawing says, the drop counts, not the elevation. Beside the edge of a lower roof keep the same distance sideways: its screws come through there.",
      width,
      BODY,
      { before: 8 },
    ),
  ];
}

/** Ways out where the drop cannot be kept. */
function noRoom(job: Job, floors: readonly string[], width: number): Block[] {
  const amended = rulesOfJob(job);
  const added = amended?.added.filter(({ lacks }) => lacks.length === 0).map(({ by }) => by) ?? [];
  const own = amended?.rules.exceptions ?? [];
  const exceptions = [...own, ...added].filter(({ lifts }) => lifts.includes("clearance"));
  const ways = [
    "A lower route.",
    ...(floors.length > 0 ? [`A route below a floor deck: ${floors.join(", ")}.`] : []),
    ...exceptions.map(
      ({ label, section }) =>
        `By exception (${section.trim() || "added locally"}), when the facts are recorded: ${label}.`,
    ),
  ];
  return [
    heading("Where there is no room", width),
    ...paragraph(
      "Stop and ask. What may help, for the designer and the authority having jurisdiction to settle:",
      width,
      BODY,
      { before: 2, keep: true },
    ),
    ...ways.flatMap((text) =>
      row(
        [
          { text: "•", x: 2, width: 8, setting: BODY },
          { text, x: 14, width: width - 14, setting: BODY },
        ],
        { before: 2.5 },
      ),
    ),
  ];
}

function tooClose(result: CheckResult, width: number): Block[] {
  const open = result.findings.filter(({ verdict }) => !isQuiet(verdict));
  if (open.length === 0) return [];
  return [
    heading("On the drawings now, and not to be built so", width),
    ...open.flatMap((finding) => {
      const [first] = finding.remedies;
      return row(
        [
          { text: numberWords(finding), x: 0, width: 40, setting: LABEL },
          { text: finding.element, x: 44, width: 60, setting: { ...CELL, face: "bold" } },
          { text: findingName(finding), x: 108, width: 96, setting: CELL },
          { text: first?.text ?? finding.reasons.text, x: 210, width: width - 210, setting: CELL },
        ],
        { before: 4 },
      );
    }),
  ];
}
