import { fileURLToPath } from "node:url";

/** Folder of the checkout, wherever the command was given. */
export const root = fileURLToPath(new URL("../..", import.meta.url));
