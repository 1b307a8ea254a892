import type { PdfFile } from "./pdf-file.ts";
import { PdfStream } from "./pdf-object.ts";

/** The archival standard that a document says it keeps (ISO 19005): its part, and its level where it has one. */
export interface Archival {
  readonly part: number;
  /** `A`, `B`, `U`, `E` or `F`; "" where none is stated. */
  readonly level: string;
}

/** What of an issue breaks an archival standard. */
type ArchivalBreach = "layers" | "transparency" | "attachment";

/** What a document's metadata claims (ISO 19005-1, 6.7.11: `pdfaid:part` and `pdfaid:conformance`); undefined when nothing. Whether it is true is not judged. */
export const archivalOf = (file: PdfFile): Archival | undefined => {
  const metadata = file.resolve(file.catalog().get("Metadata"));
  if (!(metadata instanceof PdfStream)) return undefined;
  const text = new TextDecoder().decode(file.data(metadata));
  const entry = (name: string) => new RegExp(`pdfaid:${name}\\s*(?:=\\s*["']|>)\\s*([0-9A-Za-z]+)`).exec(text)?.[1];
  const part = Number(entry("part"));
  return Number.isInteger(part) ? { part, level: (entry("conformance") ?? "").toUpperCase() } : undefined;
};

/**
 * What our marks and the job inside break of the standard a document keeps. Part 1 knows neither layers (ISO 19005-1, 6.1.13) nor
 * transparency (6.4) nor attached files (6.1.11); part 2 allows attached files only where they are archival PDFs themselves (ISO 19005-2,
 * 6.8); part 3 allows any, and part 4 does at level F. Section numbers are from memory.
 */
export const archivalBreaches = ({ part, level }: Archival): readonly ArchivalBreach[] => {
  if (part === 1) return ["layers", "transparency", "attachment"];
  const anyFile = part === 3 || (part === 4 && level === "F");
  return anyFile ? [] : ["attachment"];
};
