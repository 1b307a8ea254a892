import type { PdfFile } from "./pdf-file.ts";
import { isDict, nameOf, numberOf, type PdfObject } from "./pdf-object.ts";

/** What a document's signatures ask of whoever changes it. */
export interface SigningState {
  /** At least one signature field has been signed. */
  readonly signed: boolean;
  /**
   * The level a certifying signature leaves open (ISO 32000-2, table 257): 1 nothing, 2 filling in and signing, 3 annotations
   * too. Undefined when the document is not certified.
   */
  readonly certified: 1 | 2 | 3 | undefined;
}

const MAX_FIELDS = 100_000;

/** Looks through the form fields for signatures, and at the document's certification. */
export const signingState = (file: PdfFile): SigningState => {
  const certified = certification(file);
  return { signed: certified !== undefined || hasSignedField(file), certified };
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

const hasSignedField = (file: PdfFile): boolean => {
  const { resolve } = file;
  const form = resolve(file.catalog().get("AcroForm"));
  if (!isDict(form)) return false;
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
    if (type === "Sig" && isDict(resolve(field.get("V")))) return true;
    push(resolve(field.get("Kids")), type);
  }
  return false;
};
