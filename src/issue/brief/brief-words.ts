import type { Remedy, Verdict } from "../../check/finding.ts";
import type { GridReach } from "../../job/grid-lines.ts";

/** The rule of a job, its parts as they stand in the brief. */
interface RuleParts {
  readonly code: string;
  readonly edition: string;
  readonly section: string;
  /** The clearance, written: `1 1/2"`. */
  readonly clearance: string;
  /** By whose decision it applies; "" when that is not recorded. */
  readonly by: string;
  readonly amended: boolean;
}

/**
 * Everything a crew's brief says, in one language. Lengths come written; names of sizes, storeys and deck areas, and reasons that
 * people recorded, stand as they are in the job. A new language is one file beside the others, and one line below.
 */
export interface BriefWords {
  readonly title: string;
  readonly unnamed: string;
  /** What the plan of an area shows, for those who do not see it. */
  readonly planOf: (area: string) => string;
  page(number: number, count: number): string;
  issued(date: string, author: string, program: string): string;
  rule(parts: RuleParts): string;
  /** The rule set is not known to the program. */
  noRule(edition: string): string;
  amended(text: string): string;
  /** Why, and how drops are measured. */
  readonly why: string;
  readonly measured: string;
  /** How figures are rounded; the step is written: `1/16"`. */
  rounded(step: string): string;
  /** The same in a few words, on the page of an area. */
  roundedHere(step: string): string;
  readonly contents: string;
  readonly nothingOutlined: string;

  readonly floorAbove: string;
  readonly notSettled: string;
  notKnown(missing: string): string;
  readonly outsideTheRule: string;
  because(reason: string): string;
  /** What a page of an area says where none of the above holds. */
  readonly hangBelow: string;
  /** Parts of an area that storeys above set off. */
  readonly part: Readonly<Record<"roof" | "floor-above" | "not-settled", string>>;

  anything(drop: string): string;
  level(counted: string): string;
  slope(degrees: string, counted: string): string;
  counted(storey: string | null): string;
  readonly columns: {
    readonly wiring: string;
    readonly bottom: string;
    readonly centre: string;
    readonly top: string;
    readonly drop: string;
  };
  /** Over the columns of elevations. */
  readonly notHigher: string;
  corners(counted: string, folded: boolean): string;
  readonly corner: string;
  readonly otherSizes: string;

  readonly noGo: string;
  readonly noGoHere: string;
  readonly elsewhere: string;
  readonly verdicts: Readonly<Record<Verdict, string>>;
  readonly through: string;
  /** Where in the building's grid, family by family. */
  grid(reaches: readonly GridReach[]): string;
  between(from: string, to: string): string;
  at(station: string): string;
  /** What to do instead, by the kind of remedy; `by` is how far, written; `types` are kinds of wiring. */
  remedy(kind: Remedy["kind"], by: string, types: string): string;
  readonly stopAndAsk: string;
  or(names: readonly string[]): string;

  supports(need: string): string;
  /** What one of them leaves, written, and whether that is enough. */
  support(name: string, leaves: string, enough: boolean): string;
  /** Names of supports, by their id in the table; one that is not named here goes by its name in the table. */
  readonly supportNames: Readonly<Record<string, string>>;

  readonly noRoom: string;
  readonly noRoomAsk: string;
  readonly lowerRoute: string;
  floorRoute(floors: string): string;
  exception(section: string, label: string): string;
  /** Advice beside the code is written in English only: what a brief in another language says of it, "" where it is printed whole. */
  readonly adviceElsewhere: string;

  readonly cautionsTitle: string;
  readonly cautions: readonly string[];
  /** At the foot of every page. */
  readonly shortCaution: string;
}
