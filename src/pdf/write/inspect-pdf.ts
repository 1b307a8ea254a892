import type { Result } from "../../units/problem.ts";
import { type Archival, archivalOf } from "./archival.ts";
import { type PageShape, readPages, shapeOf } from "./page-tree.ts";
import { asResult } from "./pdf-failure.ts";
import { PdfFile, readTolerantly } from "./pdf-file.ts";
import { readEverything } from "./repair.ts";
import type { Permissions } from "./security.ts";
import { type SigningState, signingState } from "./signing-state.ts";

/** What a PDF is, before anything is done with it. */
export interface PdfFacts extends SigningState {
  readonly pageCount: number;
  readonly encrypted: boolean;
  /** What the password allows; everything when the file is not encrypted. */
  readonly permissions: Permissions;
  /** True when the file's index is damaged: it can be read, but nothing can be appended to it. */
  readonly damaged: boolean;
  readonly pages: readonly PageShape[];
  /** The archival standard it says it keeps; undefined when none, or its metadata cannot be read. */
  readonly archival: Archival | undefined;
}

/** Looks at a PDF: pages with their shapes, encryption, signatures. A damaged index is worked around and reported. */
export const inspectPdf = (file: Uint8Array, password?: string): Result<PdfFacts> =>
  asResult(() =>
    readTolerantly(file, password, (pdf) => {
      const pages = readPages(pdf.catalog(), pdf.resolve).map((page) => shapeOf(page, pdf.resolve));
      return {
        pageCount: pages.length,
        encrypted: pdf.security !== undefined,
        permissions: pdf.security?.permissions ?? { annotate: true, modify: true, assemble: true },
        damaged: pdf.rebuilt,
        ...signingState(pdf),
        pages,
        archival: claimOf(pdf),
      };
    }),
  );

const claimOf = (pdf: PdfFile): Archival | undefined => {
  const claim = asResult(() => archivalOf(pdf));
  return claim.ok ? claim.value : undefined;
};

/** Can every object that the document reaches be read by way of the file's own index? What else is wrong with it does not count. */
export const isWhole = (file: Uint8Array, password?: string): boolean => {
  const read = asResult(() => readEverything(PdfFile.open(file, { password })));
  return read.ok || read.problems.every(({ code }) => code !== "pdf.damaged");
};
