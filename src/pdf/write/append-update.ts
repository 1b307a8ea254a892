import type { FontFace } from "../../geometry/picture.ts";
import type { Result } from "../../units/problem.ts";
import { type AnnotationSpec, addAnnotation, annotationsOf, withoutNamed } from "./annotations.ts";
import { AppearanceMaker, type Box, boundsOf } from "./appearance.ts";
import { type Attachment, addAttachment, addAttachmentToPage } from "./attachment.ts";
import { drawIntoPage, removeDrawnMarks } from "./flatten.ts";
import { Increment } from "./increment.ts";
import { addLayers, type Layer } from "./layers.ts";
import type { MarkPlace } from "./mark-places.ts";
import { importPages, removeImportedPages } from "./page-import.ts";
import { type PageLeaf, readPages } from "./page-tree.ts";
import { asResult, failure } from "./pdf-failure.ts";
import { PdfFile, readTolerantly, versionOf } from "./pdf-file.ts";
import { name, type PdfDict, type PdfRef } from "./pdf-object.ts";
import { mendObjects, readEverything } from "./repair.ts";
import { addSheetLinks, type SheetLink, sheetPlaces } from "./sheet-links.ts";
import { type SigningState, signingState } from "./signing-state.ts";
import { concat } from "./stream-data.ts";
import { removeSignatures } from "./unsign.ts";

/** What to add to a drawing. */
export interface AppendRequest {
  /** Marks by page, counted from 1. */
  readonly pages: readonly {
    readonly page: number;
    readonly annotations: readonly AnnotationSpec[];
    /** Spots that lead to the fresh pages and back; nothing without such pages. */
    readonly links?: readonly SheetLink[];
  }[];
  /** Every layer that a mark names. */
  readonly layers: readonly Layer[];
  /** Font files (TrueType, OpenType or WOFF); only the glyphs in use are embedded. */
  readonly fonts: Readonly<Record<FontFace, Uint8Array>>;
  /** A PDF whose pages are put behind the last page. */
  readonly freshPages?: Uint8Array;
  readonly attachment?: Attachment;
  /** What the annotation that holds the attachment of a signed drawing is called: such a drawing takes annotations only. */
  readonly attachmentName?: string;
  /**
   * Says that the file is issued again: annotations whose name this function accepts are taken out of all pages, and so are
   * marks that an earlier issue drew into pages, and its report pages, unless a signature or missing permission forbids that.
   */
  readonly removeNames?: (nm: string) => boolean;
  /** Draw the marks into the pages instead of adding annotations. */
  readonly flatten?: boolean;
  /**
   * Make a copy that the drawing itself does not allow: `unsigned` takes its signatures and its certification off, `repaired` gives a file
   * with a damaged index a whole one. The original's bytes still come first.
   */
  readonly copy?: CopyKind;
  readonly password?: string;
}

/** Copies that are made only when a person asks for them, since they are not the drawing as its author gave it. */
export type CopyKind = "unsigned" | "repaired";

/** What an update comes to. */
export interface Update {
  readonly increment: Uint8Array<ArrayBuffer>;
  /** Of a repaired copy: how many objects the document refers to and nobody can find. Else 0. */
  readonly lost: number;
}

/**
 * The bytes that, put behind the original, make the issued file. The original is only read: its bytes, and with them any
 * seal over them, stay as they are. Problems: `pdf.*`, among them what the document's permissions and signatures forbid.
 */
export const appendUpdate = (original: Uint8Array, request: AppendRequest): Result<Update> =>
  asResult(() => {
    const file = openFor(original, request);
    const state = signingState(file);
    const sealed = state.signed && request.copy !== "unsigned";
    const mayRemove = assertAllowed(file, request, sealed, state.certified);
    const increment = new Increment(file);
    const lost = file.rebuilt ? mendObjects(increment) : 0;
    if (state.signed && !sealed) removeSignatures(increment);
    const leaves = readPages(file.catalog(), file.resolve);
    // Behind a signature only annotations may be added (ISO 32000-2, table 257): no layers, and the attachment goes on a page.
    const groups = sealed ? undefined : addLayers(increment, request.layers);
    const maker = new AppearanceMaker(increment, request.fonts);
    if (request.removeNames) removeMarks(increment, leaves, request.removeNames, mayRemove.drawn);
    const again = request.removeNames !== undefined || request.freshPages !== undefined;
    const removed = again && mayRemove.pages ? removeImportedPages(increment, leaves) : 0;
    const places: MarkPlace[] = [];
    for (const { page, annotations } of request.pages) {
      const leaf = leaves[page - 1];
      if (leaf === undefined) throw failure("pdf.no-such-page", `page ${page}`, { page, pages: leaves.length });
      if (annotations.length > 0)
        places.push(...addMarks(increment, maker, leaf, page, annotations, groups, request.flatten ?? false));
    }
    maker.finish();
    if (request.freshPages) {
      const linked = request.pages.flatMap(({ page, links = [] }) => {
        const ref = leaves[page - 1]?.ref;
        return ref ? [{ page: ref, links }] : [];
      });
      const source = PdfFile.open(request.freshPages);
      const around = sheetPlaces(linked);
      const places = importPages(increment, source, leaves.length - removed, dateOf(request), around);
      for (const { page, links } of linked)
        addSheetLinks(increment, page, links, places, (layer) => groups?.get(layer));
    }
    if (request.attachment && sealed)
      addAttachmentToPage(increment, leaves[0], request.attachment, places, request.attachmentName);
    else if (request.attachment) addAttachment(increment, request.attachment, places);
    // Optional content came with PDF 1.5.
    if (!sealed && versionOf(file) < 15) increment.editCatalog().set("Version", name("1.5"));
    return { increment: increment.finish(), lost };
  });

/** The file, its index rebuilt where that is asked for and needed. */
const openFor = (original: Uint8Array, { password, copy }: AppendRequest): PdfFile => {
  if (copy !== "repaired") return PdfFile.open(original, { password });
  return readTolerantly(original, password, (file) => {
    readEverything(file);
    return file;
  });
};

/** The issued file as one: the original's bytes and the update behind them. */
export const issuedBytes = (original: Uint8Array, increment: Uint8Array): Uint8Array => concat([original, increment]);

/** The day of this issue, as far as the request says it. */
const dateOf = (request: AppendRequest): Date | undefined =>
  request.attachment?.modified ?? request.pages.flatMap((p) => p.annotations)[0]?.modified;

/** Throws what forbids the request; answers what of an earlier issue may be taken out. */
const assertAllowed = (
  file: PdfFile,
  request: AppendRequest,
  signed: boolean,
  certified: SigningState["certified"],
): { drawn: boolean; pages: boolean } => {
  const may = file.security?.permissions;
  if (may && !may.annotate) throw failure("pdf.annotating-forbidden");
  if (may && request.flatten && !may.modify) throw failure("pdf.flattening-forbidden");
  if (may && request.freshPages && !may.assemble) throw failure("pdf.assembling-forbidden");
  if (request.copy === "unsigned" && may && !may.modify) throw failure("pdf.unsigning-forbidden");
  if (signed && (certified === 1 || certified === 2)) throw failure("pdf.certified", "", { level: certified });
  if (signed && request.freshPages) throw failure("pdf.signed-pages");
  if (signed && request.flatten) throw failure("pdf.signed-flatten");
  return { drawn: !signed && (may?.modify ?? true), pages: !signed && (may?.assemble ?? true) };
};

const removeMarks = (
  increment: Increment,
  leaves: readonly PageLeaf[],
  gone: (nm: string) => boolean,
  drawnToo: boolean,
): void => {
  for (const { ref, dict: page } of leaves) {
    if (ref && drawnToo) removeDrawnMarks(increment, ref, page);
    const before = annotationsOf(increment, page);
    const after = withoutNamed(increment, before, gone);
    if (ref && after.length < before.length) increment.edit(ref, "a page").set("Annots", after);
  }
};

const addMarks = (
  increment: Increment,
  maker: AppearanceMaker,
  leaf: PageLeaf,
  number: number,
  annotations: readonly AnnotationSpec[],
  groups: ReadonlyMap<string, PdfRef> | undefined,
  flatten: boolean,
): MarkPlace[] => {
  const where = `page ${number}`;
  if (leaf.ref === undefined) throw failure("pdf.damaged", where, { where, what: "it is not an object of its own" });
  const ref = leaf.ref;
  const page = increment.edit(ref, "a page");
  const groupOf = (spec: AnnotationSpec): PdfRef | undefined => {
    if (groups === undefined) return undefined;
    const group = groups.get(spec.layer);
    if (group === undefined) throw new Error(`annotation ${spec.name} names the unknown layer ${spec.layer}`);
    return group;
  };
  if (flatten) {
    const marks = annotations.map((spec) => ({
      form: maker.form(spec.picture, boundsOf(spec.picture, spec.rect, maker)),
      group: groupOf(spec),
    }));
    drawIntoPage(increment, page, leaf, marks);
    return [];
  }
  const byName = new Map<string, PdfRef>();
  const added = annotations.map((spec) => {
    const whole = spec.partOf === undefined ? undefined : byName.get(spec.partOf);
    const made = addAnnotation(increment, maker, spec, ref, groupOf(spec), whole);
    byName.set(spec.name, made);
    return made;
  });
  page.set("Annots", [...annotationsOf(increment, page), ...added]);
  return added.map((made, i) => {
    const rect = (increment.resolve(made) as PdfDict).get("Rect") as unknown as Box;
    const { name, contents } = annotations[i] as AnnotationSpec;
    return { name, page: number, box: rect, contents };
  });
};
