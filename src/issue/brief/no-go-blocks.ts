import type { Finding, Remedy } from "../../check/finding.ts";
import { stationText } from "../../check/words.ts";
import { findRacewayKind } from "../../trade/raceways.ts";
import { gridReachOnSheet } from "../grid-words.ts";
import { VERDICT_INK } from "../inks.ts";
import { elementWords } from "../kinds/kinds.ts";
import { type Block, paragraph, row } from "../report/block.ts";
import { type BriefSetting, dropText, TEXT } from "./brief-setting.ts";

/** What a crew is told first to do about a finding, in this order. */
const FIRST: readonly Remedy["kind"][] = ["settle", "outline", "record-fact", "lower", "protect", "move"];

/** A line for each finding: its number, the element, where along it, and what to do instead; then what may help besides, with the numbers it is for. */
export function noGoBlocks(findings: readonly Finding[], setting: BriefSetting): Block[] {
  const { scene, words, width } = setting;
  const lines = findings.flatMap((finding) => {
    const element = scene.job.elements[finding.elementId];
    const name = element ? `${finding.element} (${elementWords(element)})` : finding.element;
    const verdict = finding.penetration ? words.through : words.verdicts[finding.verdict];
    const where = finding.stretches.map(({ fromIn, toIn }) => {
      const [from, to] = [fromIn, toIn].map((station) => stationText(station, scene.system));
      return toIn - fromIn < 0.5 ? words.at(from!) : words.between(from!, to!);
    });
    const reaches = gridReachOnSheet(scene.job, element?.viewport, finding.at);
    const grid = reaches.length > 0 ? [words.grid(reaches)] : [];
    const said = `${name}: ${[verdict, ...where, ...grid].join(", ")}. ${instead(finding, setting)}`;
    return row(
      [
        {
          text: finding.number === null ? "" : String(finding.number),
          x: 0,
          width: 20,
          setting: { ...TEXT, face: "bold", ink: VERDICT_INK[finding.verdict] },
        },
        { text: said, x: 24, width: width - 24, setting: TEXT },
      ],
      { before: 3 },
    );
  });
  const besides = new Map<string, number[]>();
  for (const finding of findings)
    for (const text of waysBesides(finding, setting))
      besides.set(text, [...(besides.get(text) ?? []), finding.number ?? 0]);
  return [
    ...lines,
    ...[...besides].flatMap(([text, numbers]) =>
      paragraph(`${numbers.join(", ")}: ${text}`, width, TEXT, { before: 3 }),
    ),
  ];
}

type Saying = Pick<BriefSetting, "scene" | "words">;

/** What to do instead, in a few words: the plainest remedy. */
function instead({ remedies, penetration }: Finding, saying: Saying): string {
  const kind = penetration ? undefined : FIRST.find((one) => remedies.some((remedy) => remedy.kind === one));
  const first = remedies.find((remedy) => remedy.kind === kind);
  return first ? remedyText(first, saying) : saying.words.stopAndAsk;
}

/** What may help where that cannot be done: another support, wiring that may stay. */
const waysBesides = ({ remedies, penetration }: Finding, saying: Saying): string[] =>
  remedies
    .filter(({ kind }) => !penetration && (kind === "support" || kind === "change-wiring"))
    .map((remedy) => remedyText(remedy, saying));

const remedyText = ({ kind, byIn, wiring }: Remedy, { scene, words }: Saying): string =>
  words.remedy(
    kind,
    byIn === undefined ? "" : dropText(byIn, scene.system),
    words.or(wiring?.types.map((type) => findRacewayKind(type)?.short ?? type) ?? []),
  );
