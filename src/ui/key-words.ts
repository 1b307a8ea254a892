/** A key as it is written beside an act: `Ctrl Z`, `R`. */
export const keyWords = (key: string): string =>
  key
    .split("+")
    .map((part) =>
      part === "" ? "+" : /^[A-Z]$/.test(part) ? `Shift ${part}` : part.length === 1 ? part.toUpperCase() : part,
    )
    .join(" ");
