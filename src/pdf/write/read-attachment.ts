import type { Result } from "../../units/problem.ts";
import { findAttachment } from "./attachment.ts";
import { asResult } from "./pdf-failure.ts";
import { readTolerantly } from "./pdf-file.ts";

/**
 * The data of the file embedded in a PDF under a name; undefined when there is none. Reads a PDF with a damaged index
 * too, as far as its objects can be found.
 */
export const readAttachment = (file: Uint8Array, name: string, password?: string): Result<Uint8Array | undefined> =>
  asResult(() => readTolerantly(file, password, (pdf) => findAttachment(pdf, name)));
