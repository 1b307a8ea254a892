import { apply, type Edit, type RecordChange } from "./edit.ts";
import { LABELLED_TABLES, largestInUse, numbered } from "./labels.ts";
import type { Job, Settings } from "./schema.ts";

/**
 * The edit, with the numbers remembered that it takes out of use: where the thing with the largest number of its letter goes or gets another
 * label, the settings keep that number, and it is not given again. An edit that says itself which numbers were given is left as it is.
 */
export function keepNumbers(job: Job, edit: Edit): Edit {
  const gone = edit.changes.flatMap(({ table, before, after }) => {
    if (!(LABELLED_TABLES as readonly string[]).includes(table)) return [];
    const [was, is] = [labelIn(before), labelIn(after)];
    return was === undefined || was === is ? [] : (numbered(was) ?? []);
  });
  if (gone.length === 0) return edit;
  const own = edit.changes.find(({ table }) => table === "settings");
  const said = own && (own.after as Settings).labelsGiven !== (own.before as Settings).labelsGiven;
  if (said) return edit;
  const next = apply(job, edit);
  const settings = next.settings.job;
  const given: Record<string, number> = { ...settings.labelsGiven };
  let more = false;
  for (const letter of new Set(gone.map((one) => one.letter))) {
    const largest = gone.reduce((most, one) => (one.letter === letter ? Math.max(most, one.number) : most), 0);
    if (largest <= Math.max(given[letter] ?? 0, largestInUse(next, letter))) continue;
    given[letter] = largest;
    more = true;
  }
  if (!more) return edit;
  const kept: RecordChange = {
    table: "settings",
    id: "job",
    before: job.settings.job,
    after: { ...settings, labelsGiven: given },
  };
  return { ...edit, changes: [...edit.changes.filter((change) => change !== own), kept] };
}

const labelIn = (record: unknown): string | undefined => (record as { readonly label?: string } | null)?.label;
