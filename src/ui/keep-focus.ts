/** The parts of the desk a person works in; what had the focus in one is followed by what is nearest in it. */
const PARTS = ["[role=dialog]", ".card", ".drawer", ".profile", ".prompt"] as const;
/** What can have the focus, by keys. */
const FOCUSABLE = "button, input, select, textarea, summary, a[href], [tabindex]";

/**
 * Sees to it that the focus is never lost: where what had it is taken away or disabled (deleted, undone, a card that closes), what is
 * nearest to it in the same part of the desk takes it, else what `fallback` gives it to. Returns what ends that.
 */
export function keepFocus(root: HTMLElement, fallback: () => void): () => void {
  let held:
    | {
        readonly element: HTMLElement;
        readonly part: string | undefined;
        readonly above: readonly Element[];
        y: number;
      }
    | undefined;
  const stop = new AbortController();
  const remember = () => {
    const element = document.activeElement;
    if (!(element instanceof HTMLElement) || element === document.body) return;
    const above: Element[] = [];
    for (let one = element.parentElement; one; one = one.parentElement) above.push(one);
    held = {
      element,
      part: PARTS.find((part) => element.closest(part)),
      above,
      y: element.getBoundingClientRect().top,
    };
  };
  const restore = () => {
    const active = document.activeElement;
    if (!held || (active !== null && active !== document.body)) return;
    const { element, part, above, y } = held;
    if (!isGone(element)) return;
    // The same part, or what has taken its place.
    const whole =
      part === undefined
        ? null
        : (above.find((one) => one.matches(part) && one.isConnected) ?? document.querySelector(part));
    const near =
      whole && (above.find((one) => one.isConnected && whole.contains(one) && focusables(one).length > 0) ?? whole);
    const [next] = (near ? focusables(near) : []).toSorted((a, b) => Math.abs(top(a) - y) - Math.abs(top(b) - y));
    if (next) next.focus({ preventScroll: true });
    // A dialog that has just opened takes the focus itself.
    else if (!document.querySelector("[role=dialog], [role=alertdialog]")) fallback();
  };
  // Whoever knows better where the focus belongs has two frames to put it there.
  const look = () => {
    if (held && isGone(held.element)) requestAnimationFrame(() => requestAnimationFrame(restore));
  };
  const changes = new MutationObserver(look);
  changes.observe(root, { childList: true, subtree: true, attributes: true, attributeFilter: ["disabled"] });
  document.addEventListener("focusin", remember, { signal: stop.signal });
  document.addEventListener("keydown", remember, { signal: stop.signal, capture: true });
  return () => {
    stop.abort();
    changes.disconnect();
  };
}

const isGone = (element: Element): boolean => !element.isConnected || element.matches(":disabled");
const top = (element: Element): number => element.getBoundingClientRect().top;

const focusables = (part: Element): HTMLElement[] =>
  [...part.querySelectorAll<HTMLElement>(FOCUSABLE)].filter(
    (one) =>
      one.tabIndex >= 0 &&
      !one.matches(":disabled") &&
      one.getClientRects().length > 0 &&
      one.closest("[inert], [aria-hidden=true]") === null,
  );
