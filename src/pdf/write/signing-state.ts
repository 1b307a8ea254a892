import type { PdfFile } from "./pdf-file.ts";
import { isDict, nameOf, numberOf, type PdfDict, type PdfObject, PdfRef } from "./pdf-object.ts";

/** What a document's signatures ask of whoever changes it. */
export interface SigningState {
  /** At least one signature field has been signed. */
  readonly signed: boolean;
  /**
   * What certification or a signature's lock leaves open, the strictest of them (ISO 32000-2, tables 257 and 237): 1 nothing, 2 filling in
   * and signing, 3 annotations too. Undefined where none says so.
   */
  readonly certified: 1 | 2 | 3 | undefined;
}

const MAX_FIELDS = 100_000;

/** Looks through the form fields for signatures and their locks, and at the document's certification. */
export const signingState = (file: PdfFile): SigningState => {
  const certified = certification(file);
  const fields = signedFields(file);
  const levels = [certified, ...fields.map(({ field }) => lockOf(file, field))].filter((level) => level !== undefined);
  return {
    signed: certified !== undefined || fields.length > 0,
    certified: levels.length > 0 ? (Math.min(...levels) as 1 | 2 | 3) : undefined,
  };
};

const certification = (file: PdfFile): SigningState["certified"] => {
  const { resolve } = file;
  const permissions = resolve(file.catalog().get("Perms"));
  const signature = isDict(permissions) ? resolve(permissions.get("DocMDP")) : null;
  if (!isDict(signature)) return undefined;
  const references = resolve(signature.get("Reference"));
  for (const o of Array.isArray(references) ? references : []) {
    const reference = resolve(o);
    if (!isDict(reference) || nameOf(resolve(reference.get("TransformMethod"))) !== "DocMDP") continue;
    const params = resolve(reference.get("TransformParams"));
    const level = isDict(params) ? numberOf(resolve(params.get("P"))) : undefined;
    return level === 1 || level === 3 ? level : 2;
  }
  return 2;
};

/** What a signed field's lock leaves open in the whole document (ISO 32000-2, table 237). */
const lockOf = ({ resolve }: PdfFile, field: PdfDict): SigningState["certified"] => {
  const lock = resolve(field.get("Lock"));
  const level = isDict(lock) ? numberOf(resolve(lock.get("P"))) : undefined;
  return level === 1 || level === 2 || level === 3 ? level : undefined;
};

/** A signature field that has been signed; `ref` where it is an object of its own. */
interface SignedField {
  readonly ref: PdfRef | undefined;
  readonly field: PdfDict;
}

/** Every signed signature field of the document's form. */
export const signedFields = (file: PdfFile): SignedField[] => {
  const { resolve } = file;
  const form = resolve(file.catalog().get("AcroForm"));
  if (!isDict(form)) return [];
  const found: SignedField[] = [];
  const pending: { field: PdfObject; type: string | undefined }[] = [];
  const push = (list: PdfObject, type: string | undefined): void => {
    if (Array.isArray(list)) for (const field of list) pending.push({ field, type });
  };
  push(resolve(form.get("Fields")), undefined);
  for (let seen = 0; pending.length > 0 && seen < MAX_FIELDS; seen++) {
    const next = pending.pop() as { field: PdfObject; type: string | undefined };
    const field = resolve(next.field);
    if (!isDict(field)) continue;
    const type = nameOf(resolve(field.get("FT"))) ?? next.type;
    if (type === "Sig" && isDict(resolve(field.get("V"))))
      found.push({ ref: next.field instanceof PdfRef ? next.field : undefined, field });
    push(resolve(field.get("Kids")), type);
  }
  return found;
};
