import { createHash } from "node:crypto";
import { mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { root } from "./root.mjs";

/**
 * Waits until no other process of this checkout does the same work, then resolves to the function that lets the next one in. A
 * lock whose owner is no longer running is taken over. It lies outside the checkout because installing empties node_modules.
 */
export async function lock(work) {
  const place = join(tmpdir(), `underside-${createHash("sha256").update(root).digest("hex").slice(0, 16)}-${work}`);
  const owner = join(place, "pid");
  for (let waited = 0; ; waited += 1) {
    try {
      mkdirSync(place);
      writeFileSync(owner, String(process.pid));
      return () => rmSync(place, { recursive: true, force: true });
    } catch (error) {
      if (error.code !== "EEXIST") throw error;
      // Between making the folder and writing the id an owner has a moment without an id: leave it two seconds.
      if (!isAlive(owner) && (isRecorded(owner) || waited > 20)) takeAway(place);
      await sleep(100);
    }
  }
}

/** Takes away a lock whose owner is gone. Moving it aside first shows whether another process took it over in between. */
function takeAway(place) {
  const aside = `${place}-${process.pid}`;
  try {
    renameSync(place, aside);
    if (isAlive(join(aside, "pid"))) renameSync(aside, place);
    rmSync(aside, { recursive: true, force: true });
  } catch (error) {
    if (error.code !== "ENOENT") throw error;
  }
}

function isRecorded(owner) {
  try {
    return readFileSync(owner, "utf8") !== "";
  } catch {
    return false;
  }
}

function isAlive(owner) {
  try {
    const pid = Number(readFileSync(owner, "utf8"));
    if (!pid) return false;
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error.code === "EPERM";
  }
}
