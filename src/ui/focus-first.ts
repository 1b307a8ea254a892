/** A part of the desk is drawn at most so long after it was asked for, milliseconds. */
const COMES_WITHIN = 2000;

/** Takes the focus to the first control of a part of the desk (a selector of CSS), as soon as that is drawn. */
export function focusFirst(part: string): void {
  const until = performance.now() + COMES_WITHIN;
  const look = () => {
    const found = document.querySelector<HTMLElement>(`${part} :is(button, input, summary):not(:disabled)`);
    if (found) found.focus();
    else if (performance.now() < until) requestAnimationFrame(look);
  };
  // At once where it is there: a key that comes next means what has the focus then.
  look();
}
