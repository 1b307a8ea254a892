import type { Increment } from "./increment.ts";
import { failure, PdfFailure } from "./pdf-failure.ts";
import type { PdfFile } from "./pdf-file.ts";
import { isDict, numberOf, type PdfObject, PdfRef, PdfStream } from "./pdf-object.ts";

/**
 * Reads every object that a document reaches and hands it to `visit`. Answers how many are referred to and nowhere to be found: that
 * much of the document is lost. Throws `pdf.damaged` where one cannot be read, and `pdf.beyond-repair` where the index was rebuilt already.
 */
export const readEverything = (file: PdfFile, visit: (ref: PdfRef, value: PdfObject) => void = () => {}): number => {
  const { trailer, places } = file.reference;
  const seen = new Set<number>();
  const pending: PdfObject[] = [trailer.get("Root") ?? null, trailer.get("Info") ?? null];
  let lost = 0;
  while (pending.length > 0) {
    let o = pending.pop() ?? null;
    if (o instanceof PdfRef) {
      if (seen.has(o.num)) continue;
      seen.add(o.num);
      if (!places.has(o.num)) lost++;
      const ref = file.refTo(o.num);
      o = read(file, ref);
      visit(ref, o);
    }
    if (o instanceof PdfStream) pending.push(...o.dict.values());
    else if (Array.isArray(o)) pending.push(...o);
    else if (isDict(o)) pending.push(...o.values());
  }
  return lost;
};

const read = (file: PdfFile, ref: PdfRef): PdfObject => {
  try {
    return file.resolve(ref);
  } catch (error) {
    if (!file.rebuilt || !(error instanceof PdfFailure)) throw error;
    throw failure("pdf.beyond-repair", `object ${ref.num}`, { object: ref.num });
  }
};

/**
 * Makes an update to a file whose index was rebuilt fit to stand on its own: a stream whose stated length is wrong, over which readers
 * could stumble, is written anew. Answers how many objects are lost, as `readEverything` does.
 */
export const mendObjects = (increment: Increment): number =>
  readEverything(increment.file, (ref, value) => {
    if (!(value instanceof PdfStream)) return;
    const stated = numberOf(increment.file.resolve(value.dict.get("Length")));
    if (stated !== value.raw.length)
      increment.put(ref, new PdfStream(new Map(value.dict), increment.file.plain(value)));
  });
