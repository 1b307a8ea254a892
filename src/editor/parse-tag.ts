import type { Id, Tag } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";
import { parseLength, plainSigns } from "../units/parse-length.ts";
import { fail, ok, type Result } from "../units/problem.ts";

type Basis = Tag["basis"];

/** Ways to say which surface of the wiring a tag names; longer ones first. */
const BASES: readonly (readonly [RegExp, Basis])[] = [
  [
    /\b(?:bottom(?: of)?(?: conduit| raceway| box| pipe)?|underside|bot\.?|b\.?\s?o\.?\s?[ecp]?\.?)(?=\s|$|:|=)/,
    "bottom",
  ],
  [/\b(?:top(?: of)?(?: conduit| raceway| box| pipe)?|t\.?\s?o\.?\s?[ecp]?\.?)(?=\s|$|:|=)/, "top"],
  [/\b(?:c\/l|c\.?\s?l\.?|ctr\.?|centre(?:line)?(?: of)?|center(?:line)?(?: of)?)(?=\s|$|:|=)/, "centre"],
];
const BELOW_DECK = /\b(?:below|under)\s*(?:the\s+)?(?:roof\s+)?deck\b/;
const ABOVE_FLOOR = /\b(?:a\.?f\.?f\.?|above\s+(?:the\s+)?(?:finished\s+)?floor)(?=\s|$)/;
const PROJECT =
  /\b(?:above\s+(?:the\s+)?(?:project\s+)?datum|project(?:\s+datum)?|el\.?|elev\.?|elevation)(?=\s|$|:|=|\+|\d)/;
const PLUS_MINUS = /(?:±|\+\/-)\s*(.+)$/;

/**
 * A tag typed before its point, counted from the finished floor of the viewport the point turned out to lie in; other datums stay.
 * Problem: `tag.no-storey` where that viewport has no storey and there are several.
 */
export function tagIn(tag: Tag, job: Job, viewport: Id): Result<Tag> {
  if (tag.datum.from !== "storey") return ok(tag);
  const storey = storeyOf(job, viewport);
  return storey === null
    ? fail("tag.no-storey", "", { text: "AFF" })
    : ok({ ...tag, datum: { from: "storey", storey } });
}

/** The storey of a viewport, or the only one there is. */
function storeyOf(job: Job, viewport: Id | null): Id | null {
  const own = viewport === null ? null : (job.viewports[viewport]?.storey ?? null);
  const storeys = Object.keys(job.storeys);
  return own ?? (storeys.length === 1 ? storeys[0]! : null);
}

/**
 * Reads an elevation tag as it is written: `13'-2" AFF centre`, `BOC 12'-6"`, `bottom 3810 mm`, `2" below deck top`, `EL 113'-0" ± 1/2"`.
 * What a tag does not say is filled in: bottom (the surface that leaves least room above for the same number), the finished floor of the
 * viewport's storey, or of the only storey, else the project datum. In a metric job a bare number is millimetres.
 * Problems: `tag.no-storey` (AFF, and it is not known of which), `tag.two-datums`, and those of `parseLength`.
 */
export function parseTag(text: string, job: Job, viewport: Id | null): Result<Tag> {
  const unit = job.settings.job.system === "metric" ? ("mm" as const) : undefined;
  let rest = ` ${plainSigns(text).replace(/±/g, "+/-")} `;
  const take = (form: RegExp): boolean => {
    const found = form.test(rest);
    if (found) rest = rest.replace(form, " ");
    return found;
  };
  const tolerance = PLUS_MINUS.exec(rest);
  // A leading sign of tolerance belongs to the number: "±12'-6"" is one reading, not two.
  const split = tolerance !== null && rest.slice(0, tolerance.index).trim() !== "";
  if (split) rest = rest.slice(0, tolerance.index);
  let basis: Basis = "bottom";
  for (const [form, named] of BASES) {
    if (!take(form)) continue;
    basis = named;
    break;
  }
  const below = take(BELOW_DECK);
  const floor = take(ABOVE_FLOOR);
  const project = take(PROJECT);
  if ([below, floor, project].filter(Boolean).length > 1) return fail("tag.two-datums", "", { text: text.trim() });
  const length = parseLength(rest.replace(/[@:=]/g, " "), unit);
  if (!length.ok)
    return { ok: false, problems: length.problems.map((p) => ({ ...p, params: { ...p.params, text: text.trim() } })) };
  const plusMinus = split ? parseLength(tolerance[1]!, unit) : ok(null);
  if (!plusMinus.ok) return plusMinus;
  const made = (datum: Tag["datum"]): Result<Tag> =>
    ok({ length: length.value, datum, basis, plusMinus: plusMinus.value });
  if (below) return made({ from: "below-deck" });
  if (project) return made({ from: "project" });
  const storey = storeyOf(job, viewport);
  if (storey !== null) return made({ from: "storey", storey });
  return floor || Object.keys(job.storeys).length > 1
    ? fail("tag.no-storey", "", { text: text.trim() })
    : made({ from: "project" });
}
