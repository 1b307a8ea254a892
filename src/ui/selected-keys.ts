import { findingKeyText } from "../check/finding.ts";
import { type PickedTable, pickedOf, type Selection } from "../editor/selection.ts";

/** What the keys of a table's marks begin with. */
const MARKS: Readonly<Record<PickedTable, string>> = {
  areas: "area",
  elements: "element",
  storeyOutlines: "storey",
  notes: "note",
};

/** The keys of the marks that a selection stands for. */
export function selectedKeys(selection: Selection): readonly string[] {
  const records = pickedOf(selection).map(({ table, id }) => `${MARKS[table]}:${id}`);
  return selection && "finding" in selection ? [`finding:${findingKeyText(selection.finding)}`, ...records] : records;
}
