import { afterAll, beforeAll, vi } from "vitest";
import { DeskHands } from "./desk.ts";
import { type OpenedPage, openPage } from "./open-page.ts";

/** How a desk stands for the tests of a file. */
interface Standing {
  /** After the address: `?sample=…` opens a sample, and waits until its sheet is shown. */
  readonly query?: string;
  readonly viewport?: { readonly width: number; readonly height: number };
  /** How long the page may take over an act, and a test over the whole of it, milliseconds. */
  readonly act?: number;
  readonly test?: number;
}

/** Starting a browser, and building the program where it is stale, may take so long, milliseconds. */
const START = 180_000;

/** Opens the program in a browser of its own before the tests of a file, hands it over, and closes it after them. */
export function standingDesk(
  take: (opened: OpenedPage, desk: DeskHands) => void,
  { query = "", viewport = { width: 1280, height: 800 }, act = 20_000, test = 120_000 }: Standing = {},
): void {
  vi.setConfig({ testTimeout: test });
  let opened: OpenedPage | undefined;
  beforeAll(async () => {
    opened = await openPage(query, viewport);
    opened.page.setDefaultTimeout(act);
    const desk = new DeskHands(opened.page);
    take(opened, desk);
    if (query !== "") await desk.shown();
  }, START);
  afterAll(() => opened?.close());
}
