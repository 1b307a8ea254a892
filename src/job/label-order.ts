const COUNTING = new Intl.Collator("en", { numeric: true });

/** The order in which a person counts labels and names, for `sort`: R-2 before R-10, small letters beside capitals. 0 where they count as one. */
export const inLabelOrder = (a: string, b: string): number => COUNTING.compare(a, b);
