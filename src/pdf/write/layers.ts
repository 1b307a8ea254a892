import type { Increment } from "./increment.ts";
import { dict, isDict, name, nameOf, type PdfArray, type PdfDict, type PdfObject, PdfRef } from "./pdf-object.ts";
import { textOf, textString } from "./text-string.ts";

/** A layer of the issued sheet that a viewer can show and hide: an optional content group. */
export interface Layer {
  /** How annotations name it; not written to the file. */
  readonly id: string;
  /** What the viewer's list shows. */
  readonly name: string;
  /** False for a layer shown on screen only. Default true. */
  readonly printed?: boolean;
}

/** Marks a group as ours, so that issuing again takes it up instead of adding another. */
const CREATOR = "Underside";

/**
 * Sees to one optional content group a layer (ISO 32000-2, 8.11), switched on and listed behind what the document already
 * has. A group of ours with the same name is used again. Answers the groups by layer id.
 */
export const addLayers = (increment: Increment, layers: readonly Layer[]): ReadonlyMap<string, PdfRef> => {
  const groups = new Map<string, PdfRef>();
  if (layers.length === 0) return groups;
  const properties = increment.editEntry(increment.editCatalog(), "OCProperties");
  const config = increment.editEntry(properties, "D");
  const existing = listOf(increment, properties.get("OCGs"));
  for (const layer of layers) {
    const made = group(layer);
    const earlier = existing.find((o) => isOurs(increment, o, layer.name));
    const ref =
      earlier instanceof PdfRef ? increment.put(increment.file.refTo(earlier.num), made) : increment.add(made);
    groups.set(layer.id, ref);
  }
  const ours = [...groups.values()];
  const isOne = (o: PdfObject): boolean => o instanceof PdfRef && ours.some((ref) => ref.num === o.num);
  const withOurs = (holder: PdfDict, key: string): PdfArray => {
    const list = listOf(increment, holder.get(key));
    return [...list, ...ours.filter((ref) => !list.some((o) => o instanceof PdfRef && o.num === ref.num))];
  };
  properties.set("OCGs", withOurs(properties, "OCGs"));
  // Archival files ask for a name (ISO 19005-2, 6.9; from memory).
  if (!config.has("Name")) config.set("Name", textString("Layers"));
  config.set("ON", withOurs(config, "ON"));
  config.set("Order", withOurs(config, "Order"));
  const off = listOf(increment, config.get("OFF"));
  if (off.some(isOne))
    config.set(
      "OFF",
      off.filter((o) => !isOne(o)),
    );
  const onScreenOnly = layers.filter((layer) => layer.printed === false).map((layer) => groups.get(layer.id) as PdfRef);
  const events = listOf(increment, config.get("AS"));
  if (onScreenOnly.length > 0 && !events.some((o) => mentions(increment, o, onScreenOnly)))
    config.set("AS", [...events, dict({ Event: name("Print"), Category: [name("Print")], OCGs: onScreenOnly })]);
  return groups;
};

const group = (layer: Layer): PdfDict =>
  dict({
    Type: name("OCG"),
    Name: textString(layer.name),
    Intent: name("View"),
    Usage: dict({
      CreatorInfo: dict({ Creator: textString(CREATOR), Subtype: name("Technical") }),
      Print: dict({ PrintState: name(layer.printed === false ? "OFF" : "ON") }),
      View: dict({ ViewState: name("ON") }),
    }),
  });

const isOurs = (increment: Increment, o: PdfObject, called: string): boolean => {
  const { resolve } = increment;
  const found = resolve(o);
  if (!isDict(found) || textOf(resolve(found.get("Name"))) !== called) return false;
  const usage = resolve(found.get("Usage"));
  const info = isDict(usage) ? resolve(usage.get("CreatorInfo")) : null;
  return isDict(info) && textOf(resolve(info.get("Creator"))) === CREATOR;
};

const mentions = (increment: Increment, o: PdfObject, groups: readonly PdfRef[]): boolean => {
  const usage = increment.resolve(o);
  if (!isDict(usage) || nameOf(increment.resolve(usage.get("Event"))) !== "Print") return false;
  const list = listOf(increment, usage.get("OCGs"));
  return groups.every((ref) => list.some((item) => item instanceof PdfRef && item.num === ref.num));
};

const listOf = (increment: Increment, o: PdfObject | undefined): PdfArray => {
  const found = increment.resolve(o);
  return Array.isArray(found) ? found : [];
};
