import type { PDFPageProxy } from "pdfjs-dist";
import { OPERATOR } from "./engine-operators.ts";
import { gatherLinework } from "./gather-linework.ts";
import { type EngineFont, gatherText, type TextGatherer } from "./gather-text.ts";
import type { Linework } from "./linework.ts";
import { markGlyphs } from "./mark-glyphs.ts";
import { markHatching } from "./mark-hatching.ts";
import { geometryOf, type OpenPlan } from "./open-plan.ts";
import type { PageContents } from "./plan-contents.ts";
import { contentsOf, readPage } from "./plan-reader.ts";
import { walkOperators } from "./walk-operators.ts";

/** How to read a page's linework. */
export interface LineworkOptions {
  /** Reading stops with the signal's reason: at once while the engine works, else after the next `OPERATORS_A_STRETCH`. */
  readonly signal?: AbortSignal;
  /** Called as it goes on, in operators. */
  readonly onProgress?: (done: number, of: number) => void;
  /** Lets the surroundings have a turn between stretches of work; without it the work is done in one go once the engine has answered. */
  readonly pause?: () => Promise<void>;
}

/** Operators worked through between two looks at the signal. */
export const OPERATORS_A_STRETCH = 20_000;

/** pdf.js's AnnotationMode.DISABLE: what others have marked on the sheet is no part of the drawing. */
const NO_ANNOTATIONS = 0;

/**
 * The vector paths of a page. Annotations, pictures, patterns and text are left out; letters drawn as paths are in it, and
 * are marked. Rejects with the signal's reason when that is aborted, and as the engine does when the page cannot be read.
 * The engine keeps its own list of the page until `cleanup()` of the page is called.
 */
export const readLinework = async (plan: OpenPlan, page: number, options: LineworkOptions = {}): Promise<Linework> =>
  (await readOperators(plan, page, options, false)).linework;

/**
 * The lines of a page and what its text offers, in one pass: the engine's own text reading would run through the page a second
 * time. It is asked only where operators do not tell the whole of the text: writing from right to left, and some fonts that are
 * drawn glyph by glyph. Everything else as `readLinework` and `readPage`.
 */
export async function readSheet(
  plan: OpenPlan,
  page: number,
  options: LineworkOptions = {},
): Promise<{ readonly linework: Linework; readonly contents: PageContents }> {
  const { linework, geometry, pieces } = await readOperators(plan, page, options, true);
  const contents = pieces ? contentsOf(plan, geometry, pieces) : await readPage(plan, page, options.signal);
  return { linework, contents };
}

async function readOperators(
  plan: OpenPlan,
  page: number,
  { signal, onProgress, pause }: LineworkOptions,
  withText: boolean,
) {
  signal?.throwIfAborted();
  const proxy = await plan.document.getPage(page);
  const geometry = geometryOf(proxy);
  const [list, layers] = await unlessAborted(
    Promise.all([
      proxy.getOperatorList({ annotationMode: NO_ANNOTATIONS }),
      plan.document.getOptionalContentConfig({ intent: "display" }).catch(() => null),
    ]),
    signal,
  );
  const { fnArray, argsArray } = list;
  const lines = gatherLinework(geometry);
  let text: TextGatherer | undefined;
  if (withText) {
    const fonts = await unlessAborted(fontsIn(proxy, list), signal);
    text = gatherText(geometry.view, (name) => fonts.get(name) ?? null);
  }
  const walk = walkOperators(geometry, { lines, text, isShown: (group) => layers?.isVisible(group as never) ?? true });
  for (let from = 0; from < fnArray.length && (text || !lines.full()); ) {
    const to = Math.min(fnArray.length, from + OPERATORS_A_STRETCH);
    for (; from < to; from++) walk(fnArray[from]!, argsArray[from] as readonly unknown[] | null);
    onProgress?.(to, fnArray.length);
    await pause?.();
    signal?.throwIfAborted();
  }
  const linework = lines.finish();
  for (const mark of [markHatching, markGlyphs]) {
    mark(linework);
    await pause?.();
    signal?.throwIfAborted();
  }
  return { linework, geometry, pieces: text?.finish() };
}

/** The fonts that the operators of a page name, as soon as the engine has them. */
async function fontsIn(
  { commonObjs }: PDFPageProxy,
  { fnArray, argsArray }: { readonly fnArray: readonly number[]; readonly argsArray: readonly unknown[] },
): Promise<ReadonlyMap<string, EngineFont>> {
  const names = new Set<string>();
  for (const [i, operator] of fnArray.entries()) {
    if (operator === OPERATOR.setFont) names.add((argsArray[i] as [string])[0]);
    if (operator !== OPERATOR.setGState) continue;
    for (const [key, value] of (argsArray[i] as [[string, [string]][]])[0]) if (key === "Font") names.add(value[0]);
  }
  const fonts = new Map<string, EngineFont>();
  for (const name of names) {
    const font = await new Promise((resolve) => commonObjs.get(name, resolve));
    // A font that cannot be read has no glyphs, and only a message here.
    if (typeof font === "object" && font !== null) fonts.set(name, font as EngineFont);
  }
  return fonts;
}

function unlessAborted<T>(work: Promise<T>, signal: AbortSignal | undefined): Promise<T> {
  if (!signal) return work;
  return new Promise((resolve, reject) => {
    const stop = () => reject(signal.reason);
    signal.addEventListener("abort", stop, { once: true });
    work.then(resolve, reject).finally(() => signal.removeEventListener("abort", stop));
  });
}
