/** The records of a table in the order of their labels, R-2 before R-10. */
export const byLabel = <T extends { readonly label: string }>(table: Readonly<Record<string, T>>): [string, T][] =>
  Object.entries(table).sort(([, a], [, b]) => a.label.localeCompare(b.label, "en", { numeric: true }));
