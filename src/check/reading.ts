import type { Reason, Remedy } from "./finding.ts";
import type { Quantity } from "./quantity.ts";

/** Something the check needs and the job does not say. It withholds a verdict; it never becomes a pass. */
export interface Missing {
  readonly text: string;
  readonly remedy: Remedy;
}

/** A value with what led to it, explained when somebody asks, or what is missing to know it. */
export type Reading<T> =
  | { readonly known: true; readonly value: T; readonly explain: () => Reason }
  | { readonly known: false; readonly missing: readonly Missing[]; readonly explain: () => Reason };

/** A step of an explanation. */
export const reason = (
  text: string,
  extra: { readonly value?: string; readonly source?: string; readonly quantity?: Quantity } = {},
  children: readonly Reason[] = [],
): Reason => ({ text, ...extra, children });
