import { type Finding, isQuiet } from "../../check/finding.ts";
import { type AreaRoom, hungWiring, type Room } from "../../check/hanging-room.ts";
import type { Point2 } from "../../geometry/point.ts";
import { applyTo } from "../../geometry/similarity.ts";
import type { Job } from "../../job/schema.ts";
import { FAINT_INK } from "../inks.ts";
import { type Block, paragraph, pictureBlock, row } from "../report/block.ts";
import { areaPlan, type PlanOfArea } from "./area-plan.ts";
import { BIG, type BriefSetting, NAME, TEXT } from "./brief-setting.ts";
import type { BriefWords } from "./brief-words.ts";
import { noGoBlocks } from "./no-go-blocks.ts";
import { cornerBlocks, roomBlocks } from "./room-blocks.ts";
import { supportBlocks } from "./support-blocks.ts";

/** How high the plan of an area stands on its page at most, points. */
const PLAN = 155;
const FAINT = { ...TEXT, ink: FAINT_INK };

/** A deck area or a part of one, as it is called in a language. */
export const areaName = (job: Job, { id, label, part }: AreaRoom, words: BriefWords): string =>
  part ? `${job.areas[id]?.label ?? id}, ${words.part[part]}` : label;

/** The page of one deck area: its heights or why there are none, its plan with what must not be built so, and the supports. */
export function areaPage(area: AreaRoom, setting: BriefSetting): Block[] {
  const { scene, words, width, result } = setting;
  // Nothing is wrong under a floor; where storeys above part an area, it is under the other part.
  const findings =
    area.is === "floor-above"
      ? []
      : result.findings.filter(({ verdict, areas }) => !isQuiet(verdict) && areas.includes(area.id));
  const job = scene.job.settings.job.name || words.unnamed;
  const name = areaName(scene.job, area, words);
  const plan = planOf(area, setting);
  const room = area.is === "room" ? ofSizesThere(area, setting) : undefined;
  return [
    ...row([{ text: name, x: 0, width, setting: NAME }], { part: { role: "H2", bookmark: { text: name, level: 2 } } }),
    ...row([{ text: job, x: 0, width, setting: FAINT }], { before: 1 }),
    ...headline(area, setting),
    ...(room ? roomBlocks(room, setting) : []),
    ...(plan
      ? [pictureBlock(areaPlan(scene, plan, findings, width, PLAN), PLAN, { before: 6, alt: words.planOf(name) })]
      : []),
    ...(room ? cornerBlocks(room, setting) : []),
    ...noGo(findings, area, setting),
    ...(room ? supportBlocks(setting) : []),
  ];
}

/** What must not be built as drawn, or that there is nothing of the kind. */
function noGo(findings: readonly Finding[], { is }: AreaRoom, setting: BriefSetting): Block[] {
  const { words, width } = setting;
  if (findings.length === 0) return is === "room" ? paragraph(words.noGoHere, width, TEXT, { before: 6 }) : [];
  return [
    ...paragraph(words.noGo, width, { ...TEXT, face: "bold" }, { before: 6, keep: true }),
    ...noGoBlocks(findings, setting),
  ];
}

/** The room with the sizes of the wiring that lies under the area; with all of them where none does. */
function ofSizesThere({ id, room }: Extract<AreaRoom, { is: "room" }>, { scene, result }: BriefSetting): Room {
  const there = new Set(result.findings.filter(({ areas }) => areas.includes(id)).map(({ elementId }) => elementId));
  const elements = Object.fromEntries(Object.entries(scene.job.elements).filter(([element]) => there.has(element)));
  const sizes = new Set(hungWiring({ ...scene.job, elements }).map(({ label }) => label));
  const drops = room.drops.filter(({ wiring }) => sizes.has(wiring.label));
  return drops.length > 0 ? { ...room, drops } : room;
}

/** Why an area has no heights. */
function headline(area: AreaRoom, { words, width }: BriefSetting): Block[] {
  switch (area.is) {
    case "room":
      return [];
    case "floor-above":
      return paragraph(`${words.floorAbove}${because(area.reason, words)}`, width, BIG, { before: 8 });
    case "not-settled":
      return paragraph(`${words.notSettled}${because(area.reason, words)}`, width, BIG, { before: 8 });
    case "not-known":
      return paragraph(words.notKnown(area.missing.join("; ")), width, BIG, { before: 8 });
    case "outside-the-rule":
      return paragraph(words.outsideTheRule, width, BIG, { before: 8 });
  }
}

const because = (reason: string, words: BriefWords): string => (reason ? words.because(reason) : "");

/** What is drawn of an area; undefined where its place in the building is not known. */
function planOf(area: AreaRoom, { scene }: BriefSetting): PlanOfArea | undefined {
  const recorded = scene.job.areas[area.id];
  const registered = recorded && scene.registration(recorded.viewport);
  if (!registered?.ok || recorded!.outline.length < 3) return undefined;
  const { root, sim } = registered.value;
  const ring = (points: readonly Point2[]) => points.map((at) => applyTo(sim, at));
  const { viewport, outline, holes } = recorded!;
  const place = { viewport, root, outline: ring(outline), holes: holes.map(ring) };
  if (area.is !== "room") return { ...place, corners: [], edges: [] };
  const { corners, edges, slopeDeg } = area.room;
  return slopeDeg > 0 ? { ...place, corners, edges } : { ...place, corners: [], edges: [] };
}
