/** See `build.mjs`: builds what is missing or stale; resolves to the folder. */
export function ensureBuilt(name: "page" | "commands", say?: (words: string) => void): Promise<string>;
