/** So many labels are said; of more, how many. */
const MOST = 12;

/** Labels one after the other, the first dozen of many: `R-1, R-2.` or `R-1, … and 30 more.` */
export const shortened = (labels: readonly string[]): string =>
  labels.length <= MOST
    ? `${labels.join(", ")}.`
    : `${labels.slice(0, MOST).join(", ")} and ${labels.length - MOST} more.`;
