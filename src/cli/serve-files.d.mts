import type { Server } from "node:http";

/** See `serve-files.mjs`: the header every answer carries. */
export const contentSecurityPolicy: string;
/** See `serve-files.mjs`: serves a folder on this machine only. */
export function serveFiles(folder: string, port: number): Promise<{ readonly server: Server; readonly port: number }>;
