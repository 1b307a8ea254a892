import { checkJob } from "../../check/check-job.ts";
import { isQuiet } from "../../check/finding.ts";
import { type AreaRoom, hangingRoom } from "../../check/hanging-room.ts";
import { sceneOf } from "../../check/scene.ts";
import type { Job } from "../../job/schema.ts";
import { requiredClearance } from "../../rules/scope.ts";
import type { UnitSystem } from "../../units/length.ts";
import { FAINT_INK } from "../inks.ts";
import { advice } from "../report/advice-blocks.ts";
import { type Block, paragraph, row } from "../report/block.ts";
import { isoDate, type ReportFacts } from "../report/report-facts.ts";
import { type PageForm, type ReportPages, setParts } from "../report/set-pages.ts";
import { amendmentWords } from "../rule-words.ts";
import { showRequired } from "../show-length.ts";
import { PROGRAM } from "../words.ts";
import { areaName, areaPage } from "./area-page.ts";
import { type BriefLanguage, briefWords } from "./brief-languages.ts";
import { type BriefSetting, NAME, stepText, TEXT } from "./brief-setting.ts";
import type { BriefWords } from "./brief-words.ts";
import { noGoBlocks } from "./no-go-blocks.ts";

/** As wide as a telephone shows, and as tall as a letter or A4 page, so that paper takes it at its own size. Points. */
const SIZE = { imperial: [396, 792], metric: [396, 841.89] } as const;

/** The title of a job's brief. */
export const briefTitle = (job: Job, language: BriefLanguage = "en"): string => {
  const words = briefWords(language);
  return `${job.settings.job.name || words.unnamed}: ${words.title.toLocaleLowerCase(language)}`;
};

/**
 * The crew's brief, set on pages: what it rests on, then a page for each deck area with how high each size may hang under it, what must not be
 * built as drawn, and what the supports leave. Pure: the same job, facts and language give the same pages.
 */
export function briefPages(job: Job, facts: ReportFacts, language: BriefLanguage = "en"): ReportPages {
  const words = briefWords(language);
  const setting = { scene: sceneOf(job), result: checkJob(job), words };
  const areas = hangingRoom(job);
  return setParts(formOf(job.settings.job.system, words), briefTitle(job, language), facts.now, (width) => {
    const own = { ...setting, width };
    return [
      [...opening(facts, own), ...contents(areas, own), ...noRoom(areas, own), ...cautions(own)],
      ...areas.map((area) => areaPage(area, own)),
      ...rest(own),
    ];
  });
}

const formOf = (system: UnitSystem, words: BriefWords): PageForm => ({
  size: SIZE[system],
  margin: { left: 28, right: 28, top: 44, bottom: 50 },
  caution: words.shortCaution,
  pageWords: words.page,
});

const FAINT = { ...TEXT, ink: FAINT_INK };
const HEAD = { ...TEXT, size: 11, face: "bold" } as const;

/** Title, rule, why, and how to measure. */
function opening({ now, author }: ReportFacts, { scene, words, width }: BriefSetting): Block[] {
  const { job } = scene;
  return [
    ...row([{ text: words.title, x: 0, width, setting: NAME }], {
      part: { role: "H1", bookmark: { text: words.title, level: 1 } },
    }),
    ...paragraph(job.settings.job.name || words.unnamed, width, HEAD, { before: 2 }),
    ...paragraph(`${ruleOf(scene, words)} ${words.issued(isoDate(now), author, PROGRAM)}`, width, FAINT, { before: 5 }),
    ...amendmentWords(job).flatMap((text) => paragraph(words.amended(text), width, FAINT, { before: 2 })),
    ...[words.why, words.measured, words.rounded(stepText(scene.system))].flatMap((text) =>
      paragraph(text, width, TEXT, { before: 6 }),
    ),
  ];
}

function ruleOf({ job, rules, amended, system }: BriefSetting["scene"], words: BriefWords): string {
  const { edition, editionBy: by } = job.settings.job;
  if (!rules) return words.noRule(edition);
  const clearance = showRequired(requiredClearance(rules, system), system);
  const isAmended = amended?.applied.includes(true) ?? false;
  return words.rule({
    code: rules.code,
    edition: rules.edition,
    section: rules.section,
    clearance,
    by,
    amended: isAmended,
  });
}

/** The areas, each with a page of its own. */
function contents(areas: readonly AreaRoom[], { scene, words, width }: BriefSetting): Block[] {
  if (areas.length === 0) return paragraph(words.nothingOutlined, width, HEAD, { before: 10 });
  return [
    ...paragraph(words.contents, width, HEAD, { before: 10, keep: true }),
    ...paragraph(areas.map((area) => areaName(scene.job, area, words)).join("; "), width, TEXT, { before: 2 }),
  ];
}

/** Ways out where the drop cannot be kept. */
function noRoom(areas: readonly AreaRoom[], { scene, words, width }: BriefSetting): Block[] {
  const { rules, amended } = scene;
  const floors = areas.flatMap((area) => (area.is === "floor-above" ? [areaName(scene.job, area, words)] : []));
  const added = amended?.added.filter(({ lacks }) => lacks.length === 0).map(({ by }) => by) ?? [];
  const exceptions = [...(rules?.exceptions ?? []), ...added].filter(({ lifts }) => lifts.includes("clearance"));
  const ways = [
    words.lowerRoute,
    ...(floors.length > 0 ? [words.floorRoute(floors.join(", "))] : []),
    ...exceptions.map(({ label, section }) => words.exception(section.trim(), label)),
  ];
  return [
    ...paragraph(words.noRoom, width, HEAD, { before: 10, keep: true }),
    ...paragraph(words.noRoomAsk, width, TEXT, { before: 2, keep: true }),
    ...ways.flatMap((text) =>
      row(
        [
          { text: "•", x: 2, width: 8, setting: TEXT },
          { text, x: 12, width: width - 12, setting: TEXT },
        ],
        { before: 2 },
      ),
    ),
  ];
}

function cautions({ words, width }: BriefSetting): Block[] {
  return [
    ...paragraph(words.cautionsTitle, width, HEAD, { before: 10, keep: true }),
    ...words.cautions.flatMap((text) => paragraph(text, width, TEXT, { before: 2 })),
  ];
}

/** What lies under no area of the brief, and advice beside the code; no page where there is neither. */
function rest(setting: BriefSetting): Block[][] {
  const { scene, result, words, width } = setting;
  const open = result.findings.filter(
    ({ verdict, areas }) => !isQuiet(verdict) && !areas.some((id) => id in scene.job.areas),
  );
  const blocks = [
    ...(open.length > 0 ? paragraph(words.elsewhere, width, HEAD, { keep: true }) : []),
    ...noGoBlocks(open, setting),
    ...(words.adviceElsewhere === ""
      ? advice(result, width)
      : result.advisories.length > 0
        ? paragraph(words.adviceElsewhere, width, TEXT, { before: 10 })
        : []),
  ];
  return blocks.length > 0 ? [blocks] : [];
}
