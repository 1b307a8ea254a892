/** The drawing worker as Vite bundles it. In a file of its own, so that it can be begun before the program is there. */
export const startDrawingWorker = (): Worker =>
  new Worker(new URL("./page-renderer.worker.ts", import.meta.url), { type: "module" });
