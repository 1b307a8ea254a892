import type { Tag } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";
import type { UnitSystem } from "../units/length.ts";
import { shownLength } from "./fields/LengthRow.tsx";

/** A tag in one line, as a drawing writes it: `12'-6 1/2" centre, AFF Level 1`; what is not recorded says so. */
export function tagWords(tag: Tag | null, job: Job, system: UnitSystem): string {
  if (!tag) return "No tag";
  const height = `${shownLength(tag.length, system)}`;
  const storey = tag.datum.from === "storey" ? (job.storeys[tag.datum.storey]?.name ?? "a storey that is gone") : "";
  const from =
    tag.datum.from === "storey" ? `AFF ${storey}` : tag.datum.from === "project" ? "above project datum" : "below deck";
  return `${height} ${tag.basis}, ${from}`;
}
