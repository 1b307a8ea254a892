import type { Area } from "../job/schema.ts";
import type { AmendedRules } from "../rules/amend.ts";
import { requiredClearance } from "../rules/scope.ts";
import { findDeckProfile } from "../trade/decks.ts";
import type { UnitSystem } from "../units/length.ts";
import { type CodeDistance, type FastenerAdvice, fastenerAdvice } from "./fastener-reach.ts";
import type { Advisory, Finding } from "./finding.ts";
import { ruleText } from "./judge.ts";
import type { Scene } from "./scene.ts";
import { amendmentText } from "./words.ts";

/**
 * Advice beside the code: deck areas whose recorded fasteners reach further below the deck than the code distance keeps clear, or may, by area
 * label. Nothing for areas without a roofing record, and nothing where the rule set is not known here. No verdict changes by it.
 */
export function advise(
  scene: Scene,
  findings: readonly Pick<Finding, "element" | "areas" | "leastIn">[],
): readonly Advisory[] {
  const { amended, system, job } = scene;
  if (!amended) return [];
  const governed = new Map<string, { element: string; leastIn: number }[]>();
  for (const { element, areas, leastIn } of findings) {
    if (areas[0] === undefined || leastIn === null) continue;
    const list = governed.get(areas[0]);
    if (list) list.push({ element, leastIn });
    else governed.set(areas[0], [{ element, leastIn }]);
  }
  return Object.entries(job.areas)
    .flatMap(([areaId, area]): Advisory[] => {
      const advice = adviceFor(area, amended, system);
      if (!advice || advice.says === "within") return [];
      const { says, reach, margin, missing, text, reasons } = advice;
      const near = reach ? reach.most + margin : 0;
      const elements = (governed.get(areaId) ?? []).flatMap(({ element, leastIn }) =>
        leastIn < near ? [element] : [],
      );
      return [
        {
          kind: "fastener-reach",
          says,
          areaId,
          area: area.label,
          text,
          reachIn: reach ? reach.most : null,
          marginIn: margin,
          requiredIn: scene.required,
          missing,
          elements: [...new Set(elements)],
          reasons,
        },
      ];
    })
    .sort((a, b) => (a.area < b.area ? -1 : a.area > b.area ? 1 : a.areaId < b.areaId ? -1 : 1));
}

/** What the fasteners recorded for one area come to under an amended rule set; undefined where no roofing is recorded. */
export function adviceFor(area: Area, amended: AmendedRules, system: UnitSystem): FastenerAdvice | undefined {
  return fastenerAdvice(area, system, codeDistance(area, amended, system));
}

/** The distance the rule set states, also for a deck it does not speak of: a yardstick then, and said so. */
function codeDistance(area: Area, { rules, clearanceBy }: AmendedRules, system: UnitSystem): CodeDistance {
  const { decks } = rules.scope;
  const material = findDeckProfile(area.deck.profile)?.material;
  const spoken = decks === "any" || (material !== undefined && decks.includes(material));
  const parts = [
    ruleText(rules),
    ...(clearanceBy ? [amendmentText(clearanceBy)] : []),
    ...(spoken ? [] : ["which does not speak of this deck: a yardstick only"]),
  ];
  return { required: requiredClearance(rules, system), source: parts.join("; ") };
}
