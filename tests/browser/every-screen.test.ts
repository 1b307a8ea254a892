import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from "vitest";
import { DeskHands } from "./desk.ts";
import { type OpenedPage, openPage } from "./open-page.ts";
import { cleared, SCREENS } from "./screens.ts";
import { seriousFaults } from "./serious-faults.ts";

/** Whatever a person may stand before: nothing serious for assistive technology, a visible focus, and targets that a finger hits. */
vi.setConfig({ testTimeout: 60_000 });

/** A target of a finger has at least this side, CSS pixels; rounding may take half of one. */
const TARGET = 43.5;

/** Controls in sight that are smaller than a finger's target, each with its size. */
const smallTargets = (page: Page): Promise<readonly string[]> =>
  page.evaluate((least) => {
    const controls = document.querySelectorAll<HTMLElement>(
      "button, summary, a[href], input:not([type=checkbox]):not([type=radio]), textarea, [role=option], [role=menuitem], .pick, .tick",
    );
    return [...controls].flatMap((one) => {
      const { width, height } = one.getBoundingClientRect();
      const seen = one.checkVisibility({ opacityProperty: true, visibilityProperty: true }) && width > 1 && height > 1;
      if (!seen || one.closest(".unseen, [hidden], [style*=clip]") || (width >= least && height >= least)) return [];
      return [
        `${one.tagName}.${one.className} "${one.textContent?.slice(0, 30)}" ${Math.round(width)}x${Math.round(height)}`,
      ];
    });
  }, TARGET);

/** What can be reached by Tab in the sight of a person and shows nothing when it has the focus. */
async function unseenFocus(page: Page): Promise<readonly string[]> {
  // A key nothing hears: from here on the browser takes the focus for one moved by keys.
  await page.keyboard.press("F8");
  return page.evaluate(async () => {
    const frame = () => new Promise((drawn) => requestAnimationFrame(drawn));
    const before = document.activeElement as HTMLElement | null;
    const scope = document.querySelector("[role=dialog]") ?? document.body;
    const reached = [
      ...scope.querySelectorAll<HTMLElement>("button, summary, a[href], input, textarea, [tabindex]"),
    ].filter(
      (one) =>
        one.tabIndex >= 0 &&
        !one.matches(":disabled") &&
        one.checkVisibility() &&
        // The focus of a menu is on its lines.
        !one.matches("[role=menu]") &&
        !one.closest("[aria-hidden=true], [inert]"),
    );
    const bad: string[] = [];
    for (const one of reached) {
      one.focus({ preventScroll: true });
      if (document.activeElement !== one) continue;
      await frame();
      // A button of a choice is hidden in what is drawn for it.
      const shown = one.closest(".pick, .tick") ?? one;
      const { outlineStyle, outlineWidth, outlineColor } = getComputedStyle(shown);
      const isSeen =
        outlineStyle !== "none" && Number.parseFloat(outlineWidth) >= 2 && outlineColor !== "rgba(0, 0, 0, 0)";
      if (!isSeen)
        bad.push(`${one.tagName}.${one.className} "${one.textContent?.slice(0, 30)}" ${outlineStyle} ${outlineWidth}`);
    }
    before?.focus();
    return bad;
  });
}

interface Sight {
  readonly name: string;
  readonly viewport: { readonly width: number; readonly height: number };
  readonly media: Parameters<Page["emulateMedia"]>[0];
  readonly touch?: true;
}
const WIDE = { width: 1280, height: 800 };
const SIGHTS: readonly Sight[] = [
  { name: "light, wide", viewport: WIDE, media: { colorScheme: "light" } },
  { name: "dark, wide", viewport: WIDE, media: { colorScheme: "dark" } },
  { name: "forced colours", viewport: WIDE, media: { forcedColors: "active" } },
  {
    name: "light, narrow, by touch",
    viewport: { width: 390, height: 844 },
    media: { colorScheme: "light" },
    touch: true,
  },
];

describe.each(SIGHTS)("every screen, $name", ({ viewport, media, touch }) => {
  let opened: OpenedPage;
  let desk: DeskHands;
  beforeAll(async () => {
    opened = await openPage("?sample=riverside-workshop", viewport, touch ? { hasTouch: true, isMobile: true } : {});
    opened.page.setDefaultTimeout(12_000);
    // Without motion, or colours would be read while they are still changing.
    await opened.page.emulateMedia({ reducedMotion: "reduce", ...media });
    desk = new DeskHands(opened.page);
    await desk.shown();
  }, 180_000);
  afterAll(() => opened?.close());
  afterEach(() => cleared(desk));

  it.each(SCREENS.map((screen) => [screen.name, screen] as const))("%s", async (_, screen) => {
    await screen.open(desk);
    // Forced colours are the system's own: there is no contrast to be checked.
    // A target that is scrolled half out of sight counts as too small there; the sizes themselves are asked below.
    const without = touch ? ["target-size"] : [];
    if (!media?.forcedColors) expect(await seriousFaults(opened.page, without)).toEqual([]);
    if (touch) {
      expect(await opened.page.evaluate(() => matchMedia("(pointer: coarse)").matches)).toBe(true);
      expect(await smallTargets(opened.page)).toEqual([]);
    } else expect(await unseenFocus(opened.page)).toEqual([]);
  });

  it("went wrong nowhere", () => expect(opened.problems).toEqual([]));
});
