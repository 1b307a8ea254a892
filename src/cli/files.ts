import { randomBytes } from "node:crypto";
import { type FileHandle, open, readFile, realpath, rename, rm, stat } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { refuse } from "./refusal.ts";

/** The bytes of a file that the person named. Refused when it cannot be read. */
export async function readBytes(path: string): Promise<Uint8Array> {
  try {
    return plainBytes(await readFile(path));
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    if (code === "ENOENT") return refuse("cli.no-such-file", path);
    return refuse("cli.unreadable", path, { detail: message });
  }
}

/** The bytes as a plain array of its own: some readers look at the whole buffer behind what they are given. Copied only where they share one. */
export const plainBytes = ({ buffer, byteOffset, length }: Buffer<ArrayBuffer>): Uint8Array<ArrayBuffer> =>
  buffer.byteLength === length ? new Uint8Array(buffer) : new Uint8Array(buffer.slice(byteOffset, byteOffset + length));

/** What goes into a file: bytes, or several parts one behind the other. */
export type FileContent = Uint8Array | readonly Uint8Array[];

/**
 * Writes all of the files or none: each whole beside its place under a passing name, then put in place by renaming. What stood
 * there before stays until then. Refused when one cannot be written.
 */
export async function writeFiles(files: ReadonlyMap<string, FileContent>): Promise<void> {
  const written: { readonly passing: string; readonly path: string }[] = [];
  try {
    for (const [path, content] of files) {
      const passing = join(dirname(path), `.${basename(path)}.${randomBytes(6).toString("hex")}.part`);
      written.push({ passing, path });
      await writeWhole(passing, content, path);
    }
    for (const { passing, path } of written) {
      await rename(passing, path).catch((error: Error) => refuse("cli.unwritable", path, { detail: error.message }));
    }
  } finally {
    await Promise.all(written.map(({ passing }) => rm(passing, { force: true })));
  }
}

/** Do the two paths lead to one file? A path where nothing is leads to no file. */
export async function isSameFile(a: string, b: string): Promise<boolean> {
  try {
    const [first, second] = await Promise.all([a, b].map(async (path) => stat(await realpath(path))));
    return first?.ino === second?.ino && first?.dev === second?.dev;
  } catch {
    return false;
  }
}

async function writeWhole(passing: string, content: FileContent, path: string): Promise<void> {
  let file: FileHandle | undefined;
  try {
    file = await open(passing, "wx");
    for (const part of content instanceof Uint8Array ? [content] : content) await file.writeFile(part);
    await file.sync();
  } catch (error) {
    refuse("cli.unwritable", path, { detail: (error as Error).message });
  } finally {
    await file?.close();
  }
}
