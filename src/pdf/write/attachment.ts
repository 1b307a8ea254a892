import { annotationsOf, withoutNamed } from "./annotations.ts";
import { md5 } from "./crypto/md5.ts";
import type { Increment } from "./increment.ts";
import { type MarkPlace, PLACES_ENTRY, placesText } from "./mark-places.ts";
import { type PageLeaf, readPages, shapeOf } from "./page-tree.ts";
import { damaged } from "./pdf-failure.ts";
import type { PdfFile } from "./pdf-file.ts";
import { dict, isDict, name, nameOf, type PdfObject, PdfRef, PdfStream, PdfString } from "./pdf-object.ts";
import { dateString, textOf, textString } from "./text-string.ts";

/** A file to travel inside the PDF. */
export interface Attachment {
  readonly name: string;
  /** Media type, such as `application/json`. */
  readonly mime: string;
  readonly description: string;
  readonly bytes: Uint8Array;
  readonly modified: Date;
}

type Lookup = (o: PdfObject | undefined) => PdfObject;
type Entry = readonly [key: PdfString, file: PdfObject];

const MAX_ENTRIES = 100_000;
const MAX_DEPTH = 100;

/**
 * Embeds a file (ISO 32000-2, 7.11.4) as a source of the document (14.13). An earlier file of the same name goes. The tree of names
 * becomes a single node, in order.
 */
export const addAttachment = (increment: Increment, attachment: Attachment, marks: readonly MarkPlace[] = []): void => {
  const { resolve } = increment;
  const catalog = increment.editCatalog();
  const names = increment.editEntry(catalog, "Names");
  const entries = readEntries(names.get("EmbeddedFiles"), resolve);
  const isEarlier = (entry: Entry): boolean => isCalled(entry, attachment.name, resolve);
  const gone = entries.filter(isEarlier).map(([, file]) => file);
  const key = textString(attachment.name);
  const file = increment.add(fileSpecification(increment, attachment, marks));
  const kept: Entry[] = [...entries.filter((entry) => !isEarlier(entry)), [key, file]];
  kept.sort(([a], [b]) => compareBytes(a.bytes, b.bytes));
  names.set("EmbeddedFiles", increment.add(dict({ Names: kept.flat() })));
  const associated = resolve(catalog.get("AF"));
  const isGone = (o: PdfObject): boolean =>
    o instanceof PdfRef && gone.some((g) => g instanceof PdfRef && g.num === o.num);
  catalog.set("AF", [...(Array.isArray(associated) ? associated.filter((o) => !isGone(o)) : []), file]);
};

/**
 * Embeds a file in an annotation of a page (ISO 32000-2, 12.5.6.15), which is all that a signed document takes. It is neither shown nor
 * printed. An earlier annotation of that name goes.
 */
export const addAttachmentToPage = (
  increment: Increment,
  page: PageLeaf | undefined,
  attachment: Attachment,
  marks: readonly MarkPlace[] = [],
  called = attachment.name,
): void => {
  if (page?.ref === undefined) throw damaged("page 1", "it is not an object of its own");
  const edited = increment.edit(page.ref, "a page");
  const [x, y] = shapeOf(page, increment.resolve).cropBox;
  const made = dict({
    Type: name("Annot"),
    Subtype: name("FileAttachment"),
    Rect: [x, y, x, y],
    P: page.ref,
    NM: textString(called),
    Contents: textString(attachment.description),
    M: dateString(attachment.modified),
    F: NEITHER_SHOWN_NOR_PRINTED,
    FS: increment.add(fileSpecification(increment, attachment, marks)),
  });
  const kept = withoutNamed(increment, annotationsOf(increment, edited), (nm) => nm === called);
  edited.set("Annots", [...kept, increment.add(made)]);
};

/** The annotation flag NoView (ISO 32000-2, table 167), and not the one that prints. */
const NEITHER_SHOWN_NOR_PRINTED = 1 << 5;

/** The data of an embedded file, of the document or in an annotation; undefined when the document holds none of that name. */
export const findAttachment = (file: PdfFile, called: string): Uint8Array | undefined => {
  const { resolve } = file;
  const specification = resolve(findSpecification(file, called));
  if (specification === null) return undefined;
  const held = isDict(specification) ? resolve(specification.get("EF")) : null;
  const stream = isDict(held) ? resolve(held.get("UF") ?? held.get("F")) : null;
  if (!(stream instanceof PdfStream)) throw damaged(`attachment ${called}`, "its data is missing");
  return file.data(stream);
};

/** The file specification of an embedded file of that name. */
export const findSpecification = (file: PdfFile, called: string): PdfObject | undefined => {
  const { resolve } = file;
  const names = resolve(file.catalog().get("Names"));
  const entries = isDict(names) ? readEntries(names.get("EmbeddedFiles"), resolve) : [];
  // The last of the same name: a tree that was not kept in order has the newest at its end.
  const entry = entries.findLast((e) => isCalled(e, called, resolve));
  if (entry !== undefined) return entry[1];
  for (const { dict: page } of readPages(file.catalog(), resolve)) {
    const annotations = resolve(page.get("Annots"));
    for (const o of Array.isArray(annotations) ? annotations : []) {
      const annotation = resolve(o);
      if (!isDict(annotation) || nameOf(annotation.get("Subtype")) !== "FileAttachment") continue;
      const specification = annotation.get("FS") ?? null;
      if (isDict(resolve(specification)) && isCalled([new PdfString(new Uint8Array()), specification], called, resolve))
        return specification;
    }
  }
  return undefined;
};

const fileSpecification = (increment: Increment, attachment: Attachment, marks: readonly MarkPlace[]): PdfObject => {
  const { bytes, description, mime } = attachment;
  const stream = increment.addStream(
    dict({
      Type: name("EmbeddedFile"),
      Subtype: name(mime),
      Params: dict({
        Size: bytes.length,
        ModDate: dateString(attachment.modified),
        CheckSum: new PdfString(md5(bytes)),
      }),
    }),
    bytes,
  );
  return dict({
    Type: name("Filespec"),
    F: textString(attachment.name),
    UF: textString(attachment.name),
    Desc: textString(description),
    AFRelationship: name("Source"),
    EF: dict({ F: stream, UF: stream }),
    // So that it can be told later what other programs moved or deleted.
    [PLACES_ENTRY]:
      marks.length > 0 ? increment.addStream(dict({}), new TextEncoder().encode(placesText(marks))) : undefined,
  });
};

const isCalled = ([key, file]: Entry, called: string, resolve: Lookup): boolean => {
  const specification = resolve(file);
  if (!isDict(specification)) return textOf(key) === called;
  const own = textOf(resolve(specification.get("UF"))) || textOf(resolve(specification.get("F")));
  return own === called || (own === "" && textOf(key) === called);
};

/** All entries of a name tree (ISO 32000-2, 7.9.6) in order. */
const readEntries = (root: PdfObject | undefined, resolve: Lookup): Entry[] => {
  const entries: Entry[] = [];
  let nodes = 0;
  const walk = (o: PdfObject | undefined, depth: number): void => {
    if (++nodes > MAX_ENTRIES || depth > MAX_DEPTH)
      throw damaged("list of attachments", "it is too large or leads in a circle");
    const node = resolve(o);
    if (!isDict(node)) return;
    const names = resolve(node.get("Names"));
    if (Array.isArray(names))
      for (let i = 0; i + 1 < names.length; i += 2) {
        const key = resolve(names[i]);
        if (key instanceof PdfString) entries.push([key, names[i + 1] ?? null]);
        if (entries.length > MAX_ENTRIES) throw damaged("list of attachments", "it is too large");
      }
    const kids = resolve(node.get("Kids"));
    if (Array.isArray(kids)) for (const kid of kids) walk(kid, depth + 1);
  };
  walk(root, 0);
  return entries;
};

const compareBytes = (a: Uint8Array, b: Uint8Array): number => {
  for (let i = 0; i < Math.min(a.length, b.length); i++) if (a[i] !== b[i]) return (a[i] as number) - (b[i] as number);
  return a.length - b.length;
};
