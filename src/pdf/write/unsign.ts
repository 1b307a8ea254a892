import type { Increment } from "./increment.ts";
import { damaged } from "./pdf-failure.ts";
import { isDict } from "./pdf-object.ts";
import { signedFields } from "./signing-state.ts";

/**
 * Takes the signatures off a copy: its signature fields are empty again, and nothing certifies the document. The signed drawing's bytes
 * are still the start of the copy, where its signatures can be verified.
 */
export const removeSignatures = (increment: Increment): void => {
  const catalog = increment.editCatalog();
  catalog.delete("Perms");
  for (const { ref } of signedFields(increment.file)) {
    if (ref === undefined) throw damaged("form", "a signature field is not an object of its own");
    const field = increment.edit(ref, "a signature field");
    field.delete("V");
    field.delete("Lock");
  }
  if (isDict(increment.resolve(catalog.get("AcroForm")))) increment.editEntry(catalog, "AcroForm").delete("SigFlags");
};
