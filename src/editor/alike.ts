import type { Element, ElementKind } from "../job/elements/element.ts";
import type { Job, RecordOf } from "../job/schema.ts";
import type { Picked, PickedTable } from "./selection.ts";

type ElementOf<K extends ElementKind> = Extract<Element, { kind: K }>;

/** What two elements of a kind have in common when they are of the same make; a new kind is one line here. */
const makes: { readonly [K in ElementKind]: (element: ElementOf<K>) => string } = {
  run: ({ wiring }) => `${wiring.type} ${wiring.tradeSize}`,
  rack: ({ raceways }) => raceways.map(({ wiring }) => `${wiring.type} ${wiring.tradeSize}`).join(", "),
  box: ({ item }) => item,
  fitting: ({ item, tradeSize }) => `${item} ${tradeSize}`,
  entry: ({ conductor, insulation }) => `${conductor} ${insulation}`,
};
const makeOf = <K extends ElementKind>(element: ElementOf<K>): string =>
  `${element.kind}: ${makes[element.kind as K](element)}`;

/** The make of a record: what is written alike is selected together. Of what is no element, only the table counts, and of an area what it is settled as. */
function make(job: Job, { table, id }: Picked): string {
  const record = job[table][id] as RecordOf<PickedTable> | undefined;
  if (record && "classification" in record) return `${table}: ${record.classification.is}`;
  return record && "kind" in record ? makeOf(record) : table;
}

/** Whether a record is of the same make as one of these: runs of the same raceway and size, boxes of the same item, areas settled alike. */
export function alike(job: Job, these: readonly Picked[]): (other: Picked) => boolean {
  const wanted = new Set(these.map((one) => make(job, one)));
  return (other) => wanted.has(make(job, other));
}
