import { requiredClearance } from "../../rules/scope.ts";
import { supports } from "../../trade/supports.ts";
import { type Block, paragraph } from "../report/block.ts";
import { showLeast, showRequired } from "../show-length.ts";
import { type BriefSetting, TEXT } from "./brief-setting.ts";

/**
 * What each support leaves above the raceway, against the clearance: tight to the deck, both are square to it. Nothing where the rule set is
 * not known here.
 */
export function supportBlocks({ scene, words, width }: BriefSetting): Block[] {
  const { rules, system } = scene;
  if (!rules) return [];
  const need = requiredClearance(rules, system);
  const told = supports.map(({ id, label, leaves }) =>
    words.support(words.supportNames[id] ?? label, showLeast(leaves.value, system), leaves.value >= need),
  );
  return paragraph(`${words.supports(showRequired(need, system))} ${told.join(" ")}`, width, TEXT, { before: 6 });
}
