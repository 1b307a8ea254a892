import type { CheckResult } from "../check/finding.ts";
import { type FindingKey, findingKey, findingKeyText } from "../check/finding.ts";
import type { Id } from "../job/fields.ts";
import { inLabelOrder } from "../job/label-order.ts";
import { LABELLED_TABLES, type LabelledTable } from "../job/labels.ts";
import type { Job } from "../job/schema.ts";

/** What a name leads to. */
export type Named =
  | { readonly is: LabelledTable | "viewports" | "storeys"; readonly id: Id }
  | { readonly is: "finding"; readonly finding: FindingKey };

/** Something of the job with the name it goes by. */
export interface FoundLabel {
  /** Different for every one of them. */
  readonly key: string;
  readonly label: string;
  readonly named: Named;
}

/**
 * What in a job goes by a label, or by a name that holds the text: areas, elements, storeys above, notes, findings by their number, storeys and
 * viewports. Signs and capitals do not count: `r14` finds R-14. The very label comes first, then what begins with the text, then the rest;
 * no more than `most`. Nothing for a text without a letter or figure.
 */
export function findLabel(job: Job, result: CheckResult | null, text: string, most: number): readonly FoundLabel[] {
  const sought = plain(text);
  if (sought === "") return [];
  const ranks: FoundLabel[][] = [[], [], []];
  const look = (label: string, also: string, key: string, named: Named): void => {
    const [own, second] = [plain(label), plain(also)];
    const rank = own === sought || second === sought ? 0 : own.startsWith(sought) ? 1 : own.includes(sought) ? 2 : 3;
    ranks[rank]?.push({ key, label, named });
  };
  for (const table of LABELLED_TABLES)
    for (const id in job[table]) look(job[table][id]!.label, "", `${table}/${id}`, { is: table, id });
  for (const id in job.viewports) look(job.viewports[id]!.name, "", `viewports/${id}`, { is: "viewports", id });
  for (const id in job.storeys) look(job.storeys[id]!.name, "", `storeys/${id}`, { is: "storeys", id });
  for (const finding of result?.findings ?? []) {
    if (finding.number === null) continue;
    const key = findingKey(finding);
    look(`${finding.number} · ${finding.element}`, `${finding.number}`, `finding/${findingKeyText(key)}`, {
      is: "finding",
      finding: key,
    });
  }
  return ranks.flatMap((rank) => rank.toSorted((a, b) => inLabelOrder(a.label, b.label))).slice(0, most);
}

const plain = (text: string): string => text.toLowerCase().replace(/[^\p{L}\p{N}]/gu, "");
