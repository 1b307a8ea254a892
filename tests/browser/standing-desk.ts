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

/** The program in a browser of its own, from the first test of a file to the last. Asked for earlier, it throws. */
export interface StandingDesk {
  readonly opened: OpenedPage;
  readonly desk: DeskHands;
}

/** Opens the program in a browser of its own before the tests of a file, and closes it after them. */
export function standingDesk({
  query = "",
  viewport = { width: 1280, height: 800 },
  act = 20_000,
  test = 120_000,
}: Standing = {}): StandingDesk {
  vi.setConfig({ testTimeout: test });
  let standing: StandingDesk | undefined;
  const now = (): StandingDesk => {
    if (!standing) throw new Error("the desk does not stand yet");
    return standing;
  };
  beforeAll(async () => {
    const opened = await openPage(query, viewport);
    opened.page.setDefaultTimeout(act);
    const desk = new DeskHands(opened.page);
    standing = { opened, desk };
    if (query !== "") await desk.shown();
  }, START);
  afterAll(() => standing?.opened.close());
  return {
    get opened() {
      return now().opened;
    },
    get desk() {
      return now().desk;
    },
  };
}
