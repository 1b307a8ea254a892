/** Characters that cannot be seen and may change how others are: control and format characters, separators of lines and paragraphs; line feeds are left. */
const HIDDEN = /[^\P{C}\n]|[\u2028\u2029]/gu;

/** Words a person typed, with what would be hidden in them shown by its number: a mark that turns the direction of text reads `[U+202E]`. Tabs are spaces. */
export const shownText = (text: string): string =>
  text
    .replaceAll("\t", "  ")
    .replace(HIDDEN, (one) => `[U+${one.codePointAt(0)!.toString(16).toUpperCase().padStart(4, "0")}]`);
