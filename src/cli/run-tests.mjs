// npm test: install what is missing, then every test, those in a real browser included. Arguments go to vitest.
import { spawn } from "node:child_process";
import { join } from "node:path";
import { ensureInstalled } from "./installed.mjs";
import { root } from "./root.mjs";

try {
  await ensureInstalled((words) => process.stderr.write(`${words}\n`));
  const vitest = join(root, "node_modules", "vitest", "vitest.mjs");
  spawn(process.execPath, [vitest, "run", ...process.argv.slice(2)], { cwd: root, stdio: "inherit" }).on(
    "close",
    (code) => {
      process.exitCode = code ?? 1;
    },
  );
} catch (error) {
  process.stderr.write(`${error.message}\n`);
  process.exitCode = 1;
}
