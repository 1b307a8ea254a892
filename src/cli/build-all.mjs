// Before the package is packed: the page and the command line, both fresh.
import { ensureBuilt } from "./build.mjs";
import { ensureInstalled } from "./installed.mjs";

const say = (words) => process.stderr.write(`${words}\n`);
await ensureInstalled(say);
await ensureBuilt("page", say);
await ensureBuilt("commands", say);
