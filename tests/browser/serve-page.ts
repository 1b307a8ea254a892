import { ensureBuilt } from "../../src/cli/build.mjs";
import { serveFiles } from "../../src/cli/serve-files.mjs";

/** The page as `npm start` serves it: built if it is stale, on a free port. `address` ends in a slash. The caller closes it. */
export async function servePage(): Promise<{ readonly address: string; close(): Promise<void> }> {
  const { server, port } = await serveFiles(await ensureBuilt("page"), 0);
  return {
    address: `http://127.0.0.1:${port}/`,
    close: () =>
      new Promise((resolve) => {
        server.closeAllConnections();
        server.close(() => resolve());
      }),
  };
}
