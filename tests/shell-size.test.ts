import { expect, test } from "vitest";
import { ensureBuilt } from "../src/cli/build.mjs";
import { shellSize } from "./shell-size.ts";

/** Bytes after gzip. */
const MOST = 350_000;

test("what the page needs before it can show anything stays small", { timeout: 180_000 }, async () => {
  expect(shellSize(await ensureBuilt("page"))).toBeLessThan(MOST);
});
