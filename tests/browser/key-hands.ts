import type { Locator, Page } from "playwright-core";

/** The first line of an option: what it is called. Runs in the page. */
const OPTION_WORDS = (option: Element): string =>
  document.getElementById(option.getAttribute("aria-labelledby")?.split(" ")[0] ?? "")?.textContent ??
  option.textContent ??
  "";

/** Drives the program by the keyboard alone: no pointer, no focus set from outside. */
export class KeyHands {
  readonly page: Page;
  constructor(page: Page) {
    this.page = page;
  }

  /** Presses keys, one after another. */
  async press(...keys: readonly string[]): Promise<void> {
    for (const key of keys) await this.page.keyboard.press(key);
  }

  /** What has the focus, as it is announced: its group, its name, its value. */
  focused(): Promise<string> {
    return this.page.evaluate(() => {
      const one = document.activeElement as HTMLInputElement | null;
      if (!one || one === document.body) return "";
      const named = (element: Element | null | undefined): string => {
        if (!element) return "";
        const by = element.getAttribute("aria-labelledby")?.split(" ") ?? [];
        const words = by.map((id) => document.getElementById(id)?.textContent ?? "").join(" ");
        return words || element.getAttribute("aria-label") || "";
      };
      const own =
        named(one) || [...(one.labels ?? [])].map((label) => label.textContent).join(" ") || one.textContent || "";
      const group = one.type === "radio" ? `${named(one.closest("[role=radiogroup]"))}: ` : "";
      return `${group}${own}`.replace(/\s+/g, " ").trim();
    });
  }

  /** Tabs on until what has the focus is announced so. */
  async tabTo(name: RegExp, key: "Tab" | "Shift+Tab" = "Tab"): Promise<void> {
    const met: string[] = [];
    for (let i = 0; i < 90; i++) {
      const now = await this.focused();
      if (name.test(now)) return;
      met.push(now);
      await this.press(key);
    }
    throw new Error(`no way to ${name} by ${key}; met ${[...new Set(met)].join(" | ")}`);
  }

  /** Tabs to a field, types over it and keeps it. */
  async fill(name: RegExp, text: string): Promise<void> {
    await this.tabTo(name);
    await this.press("Control+a");
    await this.page.keyboard.type(text);
    await this.press("Enter");
  }

  /** Tabs to a list that opens and chooses by typing the option, or its beginning; arrows lead on from a namesake. */
  async choose(name: RegExp, option: string): Promise<void> {
    await this.tabTo(name);
    await this.press("Enter");
    const list = this.page.locator(".popover");
    await list.waitFor();
    const options = await list.getByRole("option").all();
    const labels = await Promise.all(options.map((one) => one.evaluate(OPTION_WORDS)));
    const wanted = labels.find((label) => label === option) ?? labels.find((label) => label.startsWith(option));
    if (wanted === undefined) throw new Error(`no ${option} among ${labels.join(" | ")}`);
    await this.page.keyboard.type(option);
    for (let i = 0; (await this.page.locator(":focus").evaluate(OPTION_WORDS)) !== wanted; i++) {
      if (i > 2 * labels.length) throw new Error(`no way to ${wanted} by the arrow keys`);
      // Down to the last, then from the first.
      await this.press(i === labels.length ? "Home" : "ArrowDown");
    }
    await this.press("Enter");
    await list.waitFor({ state: "detached" });
  }

  /** Tabs to a group of radio buttons and moves to the one of that name. */
  async take(group: RegExp, option: string): Promise<void> {
    await this.tabTo(new RegExp(`${group.source}.*: `));
    for (let i = 0; i < 5; i++) {
      if ((await this.focused()).endsWith(`: ${option}`)) {
        // A group nothing is chosen in yet has the focus on its first one, unchosen.
        await this.press("Space");
        return;
      }
      await this.press("ArrowRight");
    }
    throw new Error(`no ${option} in ${group}`);
  }

  /** The sheet has the focus; the field of the tool in hand takes what is typed there. */
  async type(text: string): Promise<void> {
    await this.page.keyboard.type(text);
    await this.press("Enter");
  }

  /** Puts a point of the tool in hand at a place of the sheet. */
  async put([x, y]: readonly [number, number]): Promise<void> {
    await this.type(`@${x}, ${y}`);
  }

  /** Moves through a list with the arrow keys to the line that holds these words, and opens it. */
  async open(list: RegExp, words: string): Promise<void> {
    const options: Locator = this.page.getByRole("listbox", { name: list }).getByRole("option");
    await this.tabToList(options);
    await this.press("Home");
    for (let i = 0; i < (await options.count()); i++) {
      const now = await this.page.evaluate(
        () => document.activeElement?.querySelector(".item-name")?.textContent ?? "",
      );
      if (now.includes(words)) return this.press("Enter");
      await this.press("ArrowDown");
    }
    throw new Error(`no ${words} in the list ${list}`);
  }

  async tabToList(options: Locator): Promise<void> {
    for (let i = 0; i < 90; i++) {
      if ((await options.and(this.page.locator(":focus")).count()) > 0) return;
      await this.press("Tab");
    }
    throw new Error("no way to the list by Tab");
  }
}
