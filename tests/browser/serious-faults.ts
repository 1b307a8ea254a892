import { AxeBuilder } from "@axe-core/playwright";
import type { Page } from "playwright-core";

/**
 * What the checker of the Web Content Accessibility Guidelines (2.2, levels A and AA, by axe-core) finds serious on the page as it is,
 * by all its rules but those left out.
 */
export async function seriousFaults(page: Page, without: readonly string[] = []): Promise<readonly string[]> {
  const { violations } = await new AxeBuilder({ page: page as never })
    .withTags(["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"])
    .disableRules([...without])
    .analyze();
  return violations
    .filter(({ impact }) => impact === "serious" || impact === "critical")
    .flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.target.join(" ")} ${node.failureSummary ?? ""}`));
}
