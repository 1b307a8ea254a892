import type { SheetView } from "../canvas/sheet-view.ts";
import type { View } from "./view.ts";

/** Room that a tool's prompt takes at the top once one is in hand, CSS pixels; kept free from the beginning, so that the sheet stays where it is. */
const PROMPT = 88;
/** A host lower than this has no room to spare for a prompt. */
const LOW_HOST = 480;

/** How much of the sheet's host lies under the card and the profile, and what its prompt may take, CSS pixels. */
function covered(host: HTMLElement): { readonly top: number; readonly right: number; readonly bottom: number } {
  const own = host.getBoundingClientRect();
  const card = document.querySelector(".card")?.getBoundingClientRect();
  const profile = document.querySelector(".profile")?.getBoundingClientRect();
  const line = document.querySelector(".job-line")?.getBoundingClientRect();
  const overRight = card && card.left > own.left + 80 ? own.right - card.left : 0;
  const overBottom = Math.max(
    profile ? own.bottom - profile.top : 0,
    card && card.left <= own.left + 80 ? own.bottom - card.top : 0,
    // On a narrow screen the job line lies below.
    line && line.width >= own.width ? own.bottom - line.top : 0,
  );
  const bottom = Math.max(0, Math.min(overBottom, own.height - 80));
  return { top: own.height - bottom < LOW_HOST ? 0 : PROMPT, right: Math.max(0, overRight), bottom };
}

/** From this scale on a finding's symbol and number can be read without effort, CSS pixels per 1/72 in. of paper. */
const READABLE = 1.6;

/** Gives the desk's view its hands: bring a place into sight, fit, zoom, focus. Returns what takes them away. */
export function wireView(view: View, sheetView: SheetView, host: HTMLElement): () => void {
  let fitted: readonly number[] | undefined;
  view.goTo = (at, closer = false) => {
    // Who is taken to a place has left the fitted view: what opens beside it must not fit the sheet again.
    if (closer) fitted = undefined;
    // After the card or the profile that comes with a selection has been laid out.
    requestAnimationFrame(() => {
      // A sheet shown for the occasion was fitted in between.
      if (closer) fitted = undefined;
      const { right, bottom } = covered(host);
      const { scale } = sheetView.view();
      if (closer && scale < READABLE) sheetView.zoomBy(READABLE / scale);
      const [x, y] = sheetView.sheetToScreen(at);
      const [width, height] = [host.clientWidth - right, host.clientHeight - bottom];
      const [edgeX, edgeY] = [width * 0.12, height * 0.12];
      if (x >= edgeX && x <= width - edgeX && y >= edgeY && y <= height - edgeY) return;
      sheetView.panBy(width / 2 - x, height / 2 - y);
    });
  };
  const standing = () => {
    const { scale, origin } = sheetView.view();
    return [scale * 1000, ...origin];
  };
  /** Still where fitting put it, but for whole pixels: nobody has moved it since. */
  const isFitted = () => {
    const now = standing();
    return fitted?.every((n, i) => Math.abs(n - now[i]!) < 2) ?? false;
  };
  view.refit = () => {
    if (isFitted()) requestAnimationFrame(() => isFitted() && view.fit());
  };
  view.fit = () => {
    sheetView.fit(covered(host));
    fitted = standing();
  };
  view.zoom = (factor) => sheetView.zoomBy(factor);
  view.focusSheet = () => host.focus({ preventScroll: true });
  return () => {
    view.goTo = () => undefined;
    view.fit = () => undefined;
    view.refit = () => undefined;
    view.zoom = () => undefined;
    view.focusSheet = () => undefined;
  };
}
